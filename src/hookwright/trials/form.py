"""The sheet on which testers report, as a page and as a file to fill in."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from hookwright.answers.listed_yarn import listed_yarn
from hookwright.checking import Checked
from hookwright.design.cautions import caution, cautions_of
from hookwright.sheets.facts import Block, Caution, Grid, Heading, Points, Sheet, Words


def headings(checked: Checked) -> tuple[str, ...]:
    """The columns of the file, one for the yarn of each colour."""
    needs = listed_yarn(checked, 0)
    letters = [need.letter for need in needs if need.letter]
    yarn = [f"yarn used of {letter}" for letter in letters] or ["yarn used"]
    sizes = ["size"] if checked.sizes else []
    return (
        "tester", *sizes, "skill", "hook", "stitch gauge", "row gauge", "width", "height",
        *yarn, "hours", "unclear rows", "left off", "notes",
    )  # fmt: skip


def form_file(checked: Checked) -> str:
    """An empty file of reports to fill in. Source: RFC 4180."""
    told = io.StringIO()
    csv.writer(told, lineterminator="\r\n").writerow(headings(checked))
    return told.getvalue()


def form_sheet(checked: Checked) -> Sheet:
    """The sheet that a tester prints and fills in."""
    title = checked.design.title or checked.draft.title
    return Sheet(
        f"Testing {title}" if title else "Testing",
        "A sheet for testers",
        (("Sizes", ", ".join(checked.sizes) or "one"), ("Terms", checked.terms or "US")),
        tuple(_blocks(checked)),
        "en-GB" if checked.terms == "UK" else "en-US",
    )


def _blocks(checked: Checked) -> Iterator[Block]:
    yield Words(
        "Thank you for testing. Write what you measure, not what you should have; a gap is "
        "better than a guess. Inches or centimetres, grams or ounces, metres or yards: any "
        "will do, if the unit stands beside the number."
    )
    yield Caution(caution("hands"))
    yield from map(Caution, cautions_of(checked.source.text))
    yield Heading("Before you begin")
    yield Words(
        "A test usually takes two to four weeks, that of a garment about two months. If "
        "you cannot finish, send what you have: it helps as well."
    )
    yield _lines(
        "Send this back by",
        "Your name",
        *_size(checked),
        "What you have made before",
        "Hook, in mm",
    )
    yield Heading("The swatch, washed and dried as the piece will be")
    yield _lines("Stitches or repeats, and over how much", "Rows, and over how much")
    yield Heading("When it is done")
    yield _lines(
        "Width", "Height", *_yarn(checked), "Hours", "Did you leave off, and where"
    )
    yield Heading("Rows that you had to read twice")
    yield Words("Tick or write the number, and what you took it for.")
    rows = [line.printed for line in checked.lines if line.below and line.printed]
    yield Points(tuple(f"{row}:" for row in dict.fromkeys(rows)))


def _size(checked: Checked) -> tuple[str, ...]:
    return ("Size",) if checked.sizes else ()


def _yarn(checked: Checked) -> tuple[str, ...]:
    needs = listed_yarn(checked, 0)
    named = tuple(f"Yarn used of {need.name}" for need in needs if need.letter)
    return named or ("Yarn used",)


def _lines(*asked: str) -> Grid:
    return Grid(("What", "You"), tuple((one, " ") for one in asked), wide=(1,))
