"""Small patterns for the tests of rows, and their numbers in the plainest form."""

from typing import NamedTuple

from hookwright.checking import Checked, check
from hookwright.finding import Finding, Severity
from hookwright.source import Source
from hookwright.working.count import Count
from hookwright.working.printed_lines import Line

LACE_OF_FIVES = """\
Shell: 5 dc in one stitch.

Ch 20.

Row 1: Sc in 2nd ch from hook, *sk 2 ch, shell in next ch, sk 2 ch, sc in next ch; rep
from * across. Turn. (3 shells, 4 sc)
"""
"""Three shells of 5 dc between 4 sc: 19 stitches."""


class Numbers(NamedTuple):
    """A row: stitches made, stitches used, chain spaces made."""

    made: Count | None
    used: Count | None
    spaces: Count | None


def flat(stitches: int, *rows: str) -> str:
    """A row of so many sc, with further rows."""
    first = (
        f"Ch {stitches + 1}.\n\n"
        f"Row 1: Sc in 2nd ch from hook and in each ch across. Turn. ({stitches})"
    )
    return "\n\n".join((first, *rows)) + "\n"


def checked(text: str) -> Checked:
    """A text, read and worked."""
    return check(Source(text, "pattern.txt"))


def last_row(text: str) -> Numbers:
    """The last row of a text that has nothing wrong with it."""
    result = checked(text)
    assert [finding.message for finding in result.findings if is_error(finding)] == []
    return numbers(result.lines[-1])


def numbers(line: Line, size: int = 0) -> Numbers:
    """The numbers of a printed line in one size."""
    return Numbers(line.stitches[size], line.uses[size], line.spaces[size])


def made(text: str, size: int = 0) -> list[Count | None]:
    """The stitches of every printed line; None where it is not worked in that size."""
    return [line.stitches[size] for line in checked(text).lines]


def errors(text: str) -> list[tuple[str, str]]:
    """The rule of every error, with the words it stands under."""
    result = checked(text)
    return [(f.rule, result.source.slice(f.span)) for f in result.findings if is_error(f)]


def is_error(finding: Finding) -> bool:
    """Whether a finding contradicts the text."""
    return finding.severity is Severity.ERROR


def told(text: str) -> list[tuple[str, str | None, str]]:
    """The rule, the row and the sentence of every error."""
    return [(f.rule, f.row, f.message) for f in checked(text).findings if is_error(f)]
