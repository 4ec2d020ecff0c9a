"""`hookwright new`: a project folder with the sample of a fabric; the fabrics there are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.folder import (
    called_for,
    refuse_what_is_there,
    worksheet_told,
    write_project,
)
from hookwright.commands.project import PATTERN_FILE
from hookwright.commands.writing import NotWritten
from hookwright.design.worksheet.template import Template, worksheet_for
from hookwright.design.worksheet.values import listed
from hookwright.listing.columns import columns_of, in_a_line, padded, wrapped
from hookwright.listing.summary import summary
from hookwright.reading.markdown import markdown_draft
from hookwright.shelf import FAMILIES, Fabric, fabrics, fabrics_meant, starter
from hookwright.shelf.names import name_in
from hookwright.shelf.starter import in_terms
from hookwright.terminal import Ink, ReaderGone, ink, say, say_aside, width

_PLAIN = "sc-rows"
_GAP = "  "
_LEAST_FOR_LOOKS = 30


def new_project(place: str, asked: str | None, terms: str) -> Status:
    """Make a project folder of a fabric, and say what comes next."""
    folder = Path(place)
    fabric = _meant(asked, terms)
    if fabric is None:
        return Status.NOT_READ
    text = starter(fabric, terms)
    checked = check(markdown_draft(text, PATTERN_FILE))
    sheet = worksheet_for(checked.reading.pattern, checked.design, checked.draft.title)
    try:
        refuse_what_is_there(folder)
        write_project(folder, text, sheet)
    except NotWritten as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    with suppress(ReaderGone):
        told = _told(folder, fabric, checked, sheet, chosen=asked is not None)
        say("\n".join(line for words in told for line in wrapped(words, width())))
    return Status.CLEAN


def _meant(asked: str | None, terms: str) -> Fabric | None:
    """The fabric that is asked for; where that is not just one, say so."""
    if asked is None:
        return next(fabric for fabric in fabrics() if fabric.name == _PLAIN)
    found = fabrics_meant(asked, fabrics(), terms)
    if found.exactly:
        return found.fabrics[0]
    names = [f'"{name_in(fabric, terms)}"' for fabric in found.fabrics]
    likely = f" Is {listed(names, 'or')} meant?" if names else ""
    other = "US" if terms == "UK" else "UK"
    named = fabrics_meant(asked, fabrics(), other)
    if named.exactly:
        own = name_in(named.fabrics[0], terms)
        likely = f' What it is in {other} terms is called "{own}" in {terms} terms.'
    say_aside(f'There is no fabric "{in_a_line(asked)}".{likely}')
    in_uk = " --terms uk" if terms == "UK" else ""
    say_aside(f"hookwright new --list{in_uk} has all of them.")
    return None


def _told(
    folder: Path, fabric: Fabric, checked: Checked, sheet: Template, *, chosen: bool
) -> Iterator[str]:
    terms = checked.terms or "US"
    title = in_terms(fabric.title, terms)
    yield f"{folder / PATTERN_FILE}: {title}, in {terms} terms. {summary(checked)}"
    yield worksheet_told(folder, sheet)
    if not chosen:
        number = len(fabrics()) - 1
        yield (
            f"{number} other fabrics: hookwright new --list, and then"
            " hookwright new FOLDER --fabric NAME"
        )
    called = called_for(folder)
    yield f"Next: hookwright check {called}"
    if fabric.over is not None:
        yield (
            "Then, with the gauge of your swatch in the worksheet:"
            f" hookwright size {called} --width 45in"
        )


def list_fabrics(terms: str) -> Status:
    """Print the fabrics family by family, each with its multiple and what it looks like."""
    with suppress(ReaderGone):
        say("\n".join(_listed(terms, width(), ink())))
    return Status.CLEAN


def _listed(terms: str, columns: int, colours: Ink) -> Iterator[str]:
    """A table: name, chains, rows, and a sentence set under one another."""
    cells = {fabric: _cells(fabric, terms) for fabric in fabrics()}
    heads = ("name", "chains", "rows")
    room = [
        max(columns_of(row[at]) for row in (heads, *cells.values()))
        for at in range(len(heads))
    ]
    for family, heading in FAMILIES.items():
        yield colours.strong(in_terms(heading, terms))
        yield colours.quiet(_in_columns(heads, room))
        for fabric, row in cells.items():
            if fabric.family == family:
                yield from _entry(_in_columns(row, room), fabric, terms, columns)
        yield ""
    yield from wrapped(
        'Chains: "16 + 2" is any number of times 16, and 2; "any + 1" is one more than the'
        " stitches wanted. Rows: how many make the pattern once.",
        columns,
    )


def _cells(fabric: Fabric, terms: str) -> tuple[str, str, str]:
    chains = fabric.chains
    many = "-" if chains is None else str(chains)
    if chains is not None and chains.each == 1:
        many = f"any + {chains.extra}" if chains.extra else "any"
    return name_in(fabric, terms), many, str(fabric.set_of or "-")


def _in_columns(cells: Iterable[str], room: Iterable[int]) -> str:
    return _GAP.join(
        padded(cell, columns) for cell, columns in zip(cells, room, strict=True)
    )


def _entry(front: str, fabric: Fabric, terms: str, columns: int) -> Iterator[str]:
    """A row of the table, its sentence beside it or, where there is no room, below."""
    looks = in_terms(fabric.looks, terms)
    indent = columns_of(front) + len(_GAP)
    if columns - indent < _LEAST_FOR_LOOKS:
        yield front
        yield from wrapped(looks, columns, _GAP)
        return
    first, *others = wrapped(looks, columns - indent)
    yield f"{front}{_GAP}{first}"
    yield from (" " * indent + line for line in others)
