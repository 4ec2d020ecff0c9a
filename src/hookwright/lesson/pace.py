"""How long does a row take to work: at the designer's pace, or as she timed it?

Taller stitches take longer: 1 for single crochet, half as much again for half double, twice
as much for double (US terms), by the loops that are pulled through; common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from hookwright.regex import regex
from hookwright.working.outcome import Outcome
from hookwright.working.stitches import base_of, height

STITCHES_A_MINUTE = 12.0
"""Stitches of single crochet a minute before the camera, where the worksheet tells nothing;
common practice, no source."""
_TIMED = regex(r"\s*(?P<row>.+?)\s*=\s*(?P<minutes>\d{1,4})(?::(?P<seconds>[0-5]\d))?\s*")


class Pace(Struct, frozen=True):
    """How fast she works.

    Attributes:
        stitches: Stitches of single crochet a minute.
        timed: Seconds for rows that she has timed, by their names in small letters.
        terms: "US" or "UK".
    """

    stitches: float = STITCHES_A_MINUTE
    timed: Mapping[str, float] = {}
    terms: str = "US"

    def seconds(self, outcome: Outcome, name: str) -> float:
        """How long a row takes."""
        known = self.timed.get(name.lower())
        if known is not None:
            return known
        if outcome.worked is None:
            return (outcome.foundation or 0) * 30 / self.stitches
        kinds = outcome.worked.row.kinds()
        work = sum(
            (number if isinstance(number, int) else 0) * self._loops(kind)
            for kind, number in kinds.items()
        )
        return work * 60 / self.stitches

    def _loops(self, stitch: str) -> float:
        return (1 + height(base_of(stitch), self.terms)) / 2


def timed_rows(words: Sequence[str]) -> dict[str, float]:
    """Rows with their times: "Row 1 = 6:30", "Row 2 = 8" (minutes)."""
    found = {}
    for told in words:
        match = _TIMED.fullmatch(told)
        if match is not None:
            seconds = int(match["minutes"]) * 60 + int(match["seconds"] or 0)
            found[match["row"].lower()] = float(seconds)
    return found
