"""One wrong printed count in a clean pattern is told on its row, and never explained away.

Every count of every case that comes out whole is changed by one, up and down by turns. What
must come back is one `stated-count` on that count, with everything taken for granted as before:
one wrong count is cheaper than a convention that changes for its sake.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from judging import judged
from msgspec.structs import replace

from hookwright.answer import answer
from hookwright.checking import Checked, check
from hookwright.finding import Severity
from hookwright.reading import read_draft
from hookwright.source import Source, Span
from hookwright.working.conventions import Conventions
from hookwright.working.counted_units import SQUARES

CASES = Path(__file__).parent / "cases"
SHEETS = sorted(CASES.glob("*/*.toml"))
CLOSES_EITHER_WAY = frozenset({("flat-c", "thrush-bib")})
"""A row that begins "*ch 1, sk 1, sc" closes with a count more or less: whether its chain is
a space only the count tells, so that a wrong one is told by the count of the row behind."""
FIGURES = {"flat": ("uses", "spaces"), "round": ("spaces",)}


@dataclass(frozen=True, slots=True)
class Change:
    """A printed number, changed by one.

    Attributes:
        text: The pattern with the wrong count.
        at: Where the number begins.
        told: The count as printed, with its new number.
    """

    text: str
    at: int
    told: str


def clean(sheet: Path) -> Checked | None:
    """A case without a fault that comes out whole; None for another."""
    expected = tomllib.loads(sheet.read_text(encoding="utf-8"))
    draft = sheet.with_suffix(".txt")
    if expected.get("problem") or not draft.exists():
        return None
    found = check(read_draft(draft))
    of = FIGURES["round" if "round" in sheet.parent.name else "flat"]
    whole = judged(answer(found), expected, of).right["whole"]
    return found if whole and not found.has_errors() else None


def changes(found: Checked) -> Iterator[Change]:
    """Every printed count of stitches, changed by one: up, down, up."""
    text = found.source.text
    seen = set()
    for whole, span in numbers(found):
        for number in re.finditer(r"\d+", found.source.slice(span)):
            at = span.start + number.start()
            told = text[max(0, whole.start - 6) : whole.end]
            if at in seen:
                continue
            seen.add(at)
            new = str(int(number[0]) + (1 if len(seen) % 2 else -1))
            changed = text[:at] + new + text[at + len(number[0]) :]
            yield Change(changed, at, f"{told!r}: {number[0]} as {new}")


def numbers(found: Checked) -> Iterator[tuple[Span, Span]]:
    """The counts and their numbers of stitches, spaces or groups."""
    for row in (row for part in found.reading.pattern.parts for row in part.rows):
        for claim in (claim for claim in row.claims if not claim.of_rows):
            for figure in claim.figures:
                if (
                    figure.unit not in SQUARES
                ):  # panes and windows: nothing here counts them
                    yield row.place(claim.span), row.place(figure.amount.span)


def taken_for_granted(found: Checked) -> list[object]:
    return [
        (wherever_said(size.assumption.conventions), size.habit)
        for size in found.worked.sizes
    ]


def wherever_said(conventions: Conventions) -> Conventions:
    """Conventions without the places of their sentences, which a longer number moves."""
    stands = (replace(said, span=Span(0, 0)) for said in conventions.stands)
    return replace(conventions, stands=tuple(stands))


def what_went_wrong(found: Checked, change: Change) -> str:
    """What was said of a change besides its one finding; "" where all is as it should be."""
    again = check(Source(change.text, "pattern.txt"))
    errors = [f for f in again.findings if f.severity is Severity.ERROR]
    if taken_for_granted(again) != taken_for_granted(found):
        return f"{change.told}: another convention"
    if [f.rule for f in errors] != ["stated-count"]:
        return f"{change.told}: {[(f.rule, f.row, f.message) for f in errors]}"
    if not errors[0].span.start <= change.at < errors[0].span.end:
        return f"{change.told}: told of another count, {errors[0].message}"
    return ""


@pytest.mark.parametrize(
    "sheet", SHEETS, ids=lambda sheet: f"{sheet.parent.name}-{sheet.stem}"
)
def test_one_wrong_count_is_told_and_explains_nothing(sheet: Path) -> None:
    found = clean(sheet)
    if found is not None:
        told = [what_went_wrong(found, c) for c in changes(found)]
        either_way = (sheet.parent.name, sheet.stem) in CLOSES_EITHER_WAY
        told = [t for t in told if not (either_way and "told of another count" in t)]
        assert not [words for words in told if words]


def test_there_is_something_to_change() -> None:
    found = clean(CASES / "flat-c" / "tern-colony-runner.toml")
    assert found is not None
    assert len(list(changes(found))) == 8, "each number of its counts"
