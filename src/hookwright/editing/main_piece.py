"""Which rows make up the piece that the measurements are of, and are they of one kind?

Only where that is certain is anything held against a gauge: one main part beside edgings,
and rows that keep their width. What is worked "until it measures" has no number of rows.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from msgspec import Struct

from hookwright.notation.tree import Pattern, Recall
from hookwright.regex import regex
from hookwright.working.made_of import bends, main_stitch_of
from hookwright.working.outcome import Outcome, Working
from hookwright.working.problems import problems_of
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import total

_EDGING = regex(
    r"\b(?:edging|edge|border|trim|fringe|ties?|straps?|handles?|finishing|tassels?|"
    r"loops?|button band)\b",
    re.IGNORECASE,
)
_OPEN_ENDED = regex(
    r"\b(?:(?:until|till)(?! "
    r"(?:\d|the (?:end|last|next)|end|last|only|there|you (?:have|reach)))|"
    r"continue|keep (?:repeating|going|on)|go on|carry on|carrying on|"
    r"desired|as long as|or for|for as|any length|more rows|for length|"
    r"(?<!block )the sample|wide enough|long enough)\b",
    re.IGNORECASE,
)
SIDEWAYS = regex(
    r"\b(?:sideways|lengthwise|lengthways|side[- ]to[- ]side|end[- ]to[- ]end|vertical|"
    r"long edge|long side|on the bias|corner[- ]to[- ]corner|turned on its side|fold\w*)\b",
    re.IGNORECASE,
)
"""Words of a piece that lies otherwise than it is worked: turned, or folded."""


class Piece(Struct, frozen=True):
    """The rows of the main piece in one size.

    Attributes:
        rows: Its rows in working order.
        edging_rows: How many rows of edging lie on both sides of it together.
        edging_stitches: The stitch that each row of edging is worked in; "" for several.
        open_ended: Whether its number of rows is left to the maker.
        alone: Whether it is the only part beside edgings.
    """

    rows: tuple[Outcome, ...]
    edging_rows: int
    open_ended: bool
    alone: bool
    edging_stitches: tuple[str, ...] = ()

    @property
    def in_rounds(self) -> bool:
        """Whether it is worked in rounds."""
        return all(outcome.step.is_round for outcome in self.rows)

    @property
    def flat(self) -> bool:
        """Whether it is worked in rows."""
        return not any(outcome.step.is_round for outcome in self.rows)


def main_piece(pattern: Pattern, working: Working, text: str) -> Piece | None:
    """The rows beside edgings; None where a part is made several times."""
    own = [o for o in working.outcomes if o.worked is not None or o.is_open]
    edging = {o.step.part for o in own if is_edging(pattern.parts[o.step.part].name)}
    edging_rows = [o for o in own if o.step.part in edging or is_edging(o.step.label)]
    rows = tuple(o for o in own if o not in edging_rows) if edging_rows else tuple(own)
    parts = sorted({o.step.part for o in rows})
    if not rows or any(pattern.parts[part].make != 1 for part in parts):
        return None
    return Piece(
        rows,
        sum(1 + (o.step.is_round or o.is_open) for o in edging_rows),
        _is_open(pattern, parts, rows, text),
        len(parts) == 1,
        tuple(main_stitch_of(o.worked) for o in edging_rows),
    )


def is_edging(name: str) -> bool:
    """Whether a name says that something lies along another piece."""
    return _EDGING.search(name) is not None


_BAND = regex(r"\b(?:brim|cuffs?|band|rib(?:bing)?|hem)\b", re.IGNORECASE)


def is_band(name: str) -> bool:
    """Whether a name is that of a ribbed band at the edge of a hat or sleeve."""
    return _BAND.search(name) is not None


def _is_open(
    pattern: Pattern, parts: Sequence[int], rows: Sequence[Outcome], text: str
) -> bool:
    """Whether the piece is as long as the maker wishes."""
    if any(outcome.is_open for outcome in rows):
        return True
    told = [row for part in parts for row in pattern.parts[part].rows]
    if any(_recalls_openly(node) for row in told for node in row.body):
        return True
    first = min(row.span.start for row in told)
    return _OPEN_ENDED.search(text, first) is not None


def _recalls_openly(node: object) -> bool:
    return isinstance(node, Recall) and bool(node.open_length or node.forms_pattern)


def steady_count(rows: Sequence[Outcome]) -> int | None:
    """The count that all rows have, one at either end apart; None where they differ."""
    counts = Counter(outcome.tally.stitches for outcome in rows)
    if not counts:
        return None
    count, often = counts.most_common(1)[0]
    steady = often >= max(3, len(rows) - 2) and isinstance(count, int)
    return count if steady and isinstance(count, int) else None


def keeps_its_width(rows: Sequence[Outcome]) -> bool:
    """Whether a piece has the same counts in its first half as in its second.

    The rows of a lace may differ; two rows at either end may lead into it and close it.
    """
    if steady_count(rows) is not None:
        return True
    inner = [(o.tally.stitches, o.tally.spaces) for o in rows[2:-2]]
    middle = len(inner) // 2
    return middle >= 3 and set(inner[:middle]) == set(inner[middle:])


def girth_rows(rows: Sequence[Outcome]) -> Sequence[Outcome]:
    """The longest stretch of rounds that keep their count; none where another is as long.

    A hat has its girth there, and a body below its yoke.
    """
    stretches: list[list[Outcome]] = []
    for _, stretch in groupby(rows, key=lambda outcome: outcome.tally.stitches):
        stretches.append(list(stretch))
    stretches.sort(key=len, reverse=True)
    longest = stretches[0] if stretches else []
    second = len(stretches[1]) if len(stretches) > 1 else 0
    sure = len(longest) >= 3 and len(longest) >= 2 * second
    return longest if sure and isinstance(longest[0].tally.stitches, int) else ()


def are_sound(working: Working, rows: Sequence[Outcome]) -> bool:
    """Whether nothing else is wrong with the rows: one slip is told once."""
    return not any(problems_of(working, outcome) for outcome in rows)


def stitches_of(rows: Sequence[Outcome]) -> Counter[str]:
    """In how many rows each stitch is the one that most of the row is made of."""
    found: Counter[str] = Counter()
    known: dict[int, str] = {}
    for outcome in rows:
        stitch = known.get(id(outcome.worked))
        if stitch is None:
            stitch = known[id(outcome.worked)] = main_stitch_of(outcome.worked)
        if stitch:
            found[stitch] += 1
    return found


def straight_rows(rows: Sequence[Outcome]) -> list[Outcome]:
    """The rows whose stitches all stand on one of their own: no increases, no spaces."""
    known: dict[int, bool] = {}  # rows written alike are one value
    for outcome in rows:
        if id(outcome.worked) not in known:
            known[id(outcome.worked)] = _is_straight(outcome.worked)
    return [outcome for outcome in rows if known[id(outcome.worked)]]


def _is_straight(worked: WorkedRow | None) -> bool:
    if worked is None or worked.row.spaces:
        return False
    return total(worked.row.line, bends) == 0
