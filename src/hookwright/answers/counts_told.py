"""Which rows does a maker tell the counts of, as in "row 12: 176, row 13: 175"?"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.answers.facts import Told
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.sizing.lengths import NoLength
from hookwright.working.outcome import Outcome

_TOLD = regex(
    r"(?P<part>[^,;:]*?)\b(?:rows?|rnds?|rounds?)\.?\s*(?P<row>\d{1,5})\s*"
    r"(?:[:=,]|\bhas\b|\bis\b|\bcounts?\b|-)?\s*(?P<count>\d{1,6})\s*(?:sts?|stitches)?",
    re.IGNORECASE,
)
_EXAMPLE = 'Write the row and what you count: "row 12: 176", or "row 12: 176, row 13: 175".'


def counts_told(
    words: str, pattern: Pattern, outcomes: Sequence[Outcome]
) -> tuple[Told, ...] | NoLength:
    """The counts that some words tell, of rows that there are.

    A row of a part is told with its name before it: "top edging row 2: 160". Without a name
    the first part that has such a row is meant.
    """
    found = list(_TOLD.finditer(" ".join(words.split())))
    if not found:
        return NoLength(f'"{_short(words)}" tells no count of a row.', _EXAMPLE)
    result: list[Told] = []
    for match in found:
        told = _told(match, pattern, outcomes)
        if isinstance(told, NoLength):
            return told
        result.append(told)
    return tuple({told.at: told for told in result}.values())


def _told(
    match: re.Match[str], pattern: Pattern, outcomes: Sequence[Outcome]
) -> Told | NoLength:
    number, count = int(match["row"]), int(match["count"])
    part = " ".join(match["part"].split()).lower()
    rows = [at for at, one in _rows(outcomes) if one.step.number == number]
    named = [at for at in rows if part and part in _part(pattern, outcomes[at]).lower()]
    at = next(iter(named or ([] if part else rows)), None)
    if at is None:
        where = f' in "{match["part"].strip()}"' if part else ""
        return NoLength(f"There is no row {number}{where} in the pattern.", _EXAMPLE)
    outcome = outcomes[at]
    right = outcome.worked.row.makes if outcome.worked is not None else None
    called = "Round" if outcome.step.is_round else "Row"
    if not isinstance(right, int) or outcome.is_open:
        return NoLength(
            f"The pattern does not tell stitch by stitch what {called} {number} makes.",
            "Count a row before or after it.",
        )
    name = f"{called} {number}"
    return Told(at, name, _part(pattern, outcome), count, right, match[0].strip())


def _rows(outcomes: Sequence[Outcome]) -> Iterator[tuple[int, Outcome]]:
    return ((at, one) for at, one in enumerate(outcomes) if one.worked is not None)


def _part(pattern: Pattern, outcome: Outcome) -> str:
    return pattern.parts[outcome.step.part].name


def _short(words: str) -> str:
    words = " ".join(words.split())
    return words if len(words) <= 40 else f"{words[:36]} ..."
