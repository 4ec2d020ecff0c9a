"""Whether a row holds, in a few words of the trade."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from hookwright.finding import Finding, Severity
from hookwright.working.printed_lines import Line

_WORDS = {
    "stated-count": "count differs",
    "stitches-left": "stitches left over",
    "past-the-end": "too few to work into",
    "missing-target": "nothing to work into",
    "multiple": "multiple does not fit",
    "balance": "does not balance",
    "size-list": "sizes do not match",
    "row-range": "rows do not match",
    "row-labels": "numbers do not count on",
    "unknown-word": "words not known",
    "undefined-abbreviation": "words not known",
    "mixed-terms": "terms mixed",
}


class Verdict(Struct, frozen=True):
    """What is said of a row.

    Attributes:
        words: A few words; "" for a foundation chain, which nothing can be said of.
        amiss: Whether something has to be mended.
    """

    words: str
    amiss: bool = False


def is_foundation(line: Line) -> bool:
    """Whether a line only makes the chain that the first row is worked into."""
    return all(below is None for below in line.below)


def verdicts_of(rows: Sequence[Line], findings: Iterable[Finding]) -> list[Verdict]:
    """A verdict for each of the rows that share a printed label.

    A slip is told once, so the later rows of a range take the words of the row that it is
    told of.
    """
    errors = [
        f for f in findings if f.severity is Severity.ERROR and f.span in rows[0].span
    ]
    counted = any(stated is not None for row in rows for stated in row.stated)
    return [_verdict(row, errors, counted=counted) for row in rows]


def _verdict(row: Line, errors: Sequence[Finding], *, counted: bool) -> Verdict:
    own = [error for error in errors if _is_about(error, row)]
    if not own and row.agrees:
        return Verdict("" if is_foundation(row) else "proven" if counted else "closes")
    told = (own or errors)[:1]
    return Verdict(_words(told[0]) if told else _unexplained(row), amiss=True)


def _is_about(finding: Finding, row: Line) -> bool:
    if finding.numbers is None:
        return True
    low, high = finding.numbers
    numbers = [number for number in row.first if number is not None]
    return not numbers or any(low <= number <= high for number in numbers)


def _words(finding: Finding) -> str:
    words = _WORDS.get(finding.rule, finding.rule.replace("-", " "))
    return f"{words} ({', '.join(finding.sizes)})" if finding.sizes else words


def _unexplained(row: Line) -> str:
    """For a row that follows an earlier slip and is not accused for itself."""
    if row.uses != row.below and row.uses != (None,) * len(row.uses):
        return "does not close"
    return "not proven"
