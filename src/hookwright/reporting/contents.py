"""What stands in a report, in which order, before it is set in any dress."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import PurePath

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.finding import Finding
from hookwright.listing.assumed import assumed
from hookwright.listing.columns import in_a_line
from hookwright.listing.excerpt import Excerpt, excerpt
from hookwright.listing.findings import (
    LOUDNESS,
    WORKSHEET,
    change_told,
    place_of,
    where_told,
)
from hookwright.listing.rows import Figure, TableRow, sized, table_rows
from hookwright.listing.summary import counted, is_loud, summary
from hookwright.reading.draft import Draft, SameLines

_WHOLE_LINE = 600
"""Letters of a line that are shown around the words of a finding."""


class Place(Struct, frozen=True):
    """Words of the pattern in their line, and what is said of them."""

    words: Excerpt
    said: str


class Entry(Struct, frozen=True):
    """A finding.

    Attributes:
        where: Where it is: "Row 3, line 6".
        loudness: "to mend", "to look at" or "advice".
        rule: Its rule.
        words: The words it stands under, in their line.
        message: What is wrong.
        why: What to do.
        change: What to write, if "why" does not say so.
        related: Other places that have a part in it.
        is_loud: Whether it is more than advice.
    """

    where: str
    loudness: str
    rule: str
    words: Excerpt
    message: str
    why: str
    change: str
    related: tuple[Place, ...]
    is_loud: bool


class Group(Struct, frozen=True):
    """Findings of one part or section of the pattern."""

    name: str
    entries: tuple[Entry, ...]


class Cells(Struct, frozen=True):
    """A line of the table of rows: its label, its figures, and whether it holds."""

    label: str
    figures: tuple[str, ...]
    verdict: str
    amiss: bool


class RowsOfPart(Struct, frozen=True):
    """The rows of a part."""

    name: str
    lines: tuple[Cells, ...]


class Report(Struct, frozen=True):
    """All that stands in a report.

    Attributes:
        title: The name of the design.
        facts: What it is about: names with what they say.
        verdict: What it comes to.
        findings: What is to mend or to look at, by section or part.
        advice: Advice, in the same way.
        proven: What was proven, in sentences.
        assumed: What the text leaves open, and how it was taken.
        notes: What was left out or put back while reading.
        columns: The names of the figures of a row.
        rows: The rows of each part.
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    verdict: str
    findings: tuple[Group, ...]
    advice: tuple[Group, ...]
    proven: tuple[str, ...]
    assumed: tuple[str, ...]
    notes: tuple[str, ...]
    columns: tuple[str, ...]
    rows: tuple[RowsOfPart, ...]


def report_of(checked: Checked) -> Report:
    """The report of a checked pattern; its file is named, the folder of it is not."""
    rows = list(table_rows(checked, all_rows=False))
    columns = tuple(_telling(rows))
    return Report(
        title=_title(checked),
        facts=tuple(_facts(checked)),
        verdict=summary(checked),
        findings=tuple(_groups(checked, loud=True)),
        advice=tuple(_groups(checked, loud=False)),
        proven=tuple(_proven(checked)),
        assumed=tuple(map(in_a_line, assumed(checked))),
        notes=tuple(map(in_a_line, checked.draft.notes)),
        columns=columns,
        rows=tuple(_of_parts(rows, columns)),
    )


def _title(checked: Checked) -> str:
    """The design's name, as the text, its headings, its worksheet or its file tell it."""
    noted = checked.design.noted
    told = (
        checked.design.title,
        checked.draft.title,
        noted.title if noted is not None else "",
        _file_name(checked).partition(".")[0],
    )
    return next((in_a_line(title) for title in told if title.strip()), "A pattern")


def _file_name(checked: Checked) -> str:
    name = checked.source.name
    return "" if name == "-" else PurePath(name.replace("\\", "/")).name


def _facts(checked: Checked) -> Iterator[tuple[str, str]]:
    if checked.terms:
        yield "Terms", checked.terms
    if checked.sizes:
        yield "Sizes", in_a_line(sized(checked.sizes))
    parts = len({line.part for line in checked.lines if line.part})
    if parts > 1:
        yield "Parts", str(parts)
    name = _file_name(checked)
    if name:
        yield "Draft", in_a_line(name)


def _proven(checked: Checked) -> Iterator[str]:
    """How many rows hold, and in which sense."""
    words = [row.verdict.words for row in table_rows(checked, all_rows=True)]
    words = [said for said in words if said]
    proven, closes = words.count("proven"), words.count("closes")
    others = len(words) - proven - closes
    if proven:
        yield (
            f"{counted(proven, 'row')} proven: worked stitch by stitch, every stitch below"
            " is used up and the number that is printed is made."
        )
    if closes:
        yield (
            f"{counted(closes, 'row')} without a printed number: worked stitch by stitch,"
            " every stitch below is used up."
        )
    if others:
        yield f"{counted(others, 'row')} not proven: the table of rows says why."


def _groups(checked: Checked, *, loud: bool) -> Iterator[Group]:
    sheet = checked.worksheet
    if sheet is not None:
        draft = Draft(sheet.source, SameLines(sheet.source))
        entries = tuple(
            _entry(found, f"{WORKSHEET}, {place_of(found.span, draft)}", draft)
            for found in sheet.findings
            if is_loud(found) is loud
        )
        if entries:
            yield Group("Worksheet", entries)
    findings = [found for found in checked.findings if is_loud(found) is loud]
    named = [(_section(found, checked), found) for found in findings]
    order = {name: at for at, name in enumerate(dict.fromkeys(name for name, _ in named))}
    named.sort(key=lambda pair: order[pair[0]])
    for name, group in groupby(named, key=lambda pair: pair[0]):
        yield Group(
            name,
            tuple(
                _entry(found, _where(found, checked), checked.draft) for _, found in group
            ),
        )


def _section(finding: Finding, checked: Checked) -> str:
    """The part of the pattern that a finding lies in, or the section of its other text."""
    several = len({line.part for line in checked.lines}) > 1
    if finding.part and several:
        return in_a_line(finding.part)
    if finding.row or any(finding.span in line.span for line in checked.lines):
        return "Rows"
    inside = [
        section
        for section in checked.design.sections
        if section.heading.start <= finding.span.start < section.body.end
    ]
    if inside:
        name = min(inside, key=lambda one: one.body.end - one.heading.start).holds
        return name[0].upper() + name[1:]
    return "The pattern as a whole"


def _where(finding: Finding, checked: Checked) -> str:
    where = in_a_line(", ".join(where_told(finding, checked)))
    return where[0].upper() + where[1:]


def _entry(finding: Finding, where: str, draft: Draft) -> Entry:
    return Entry(
        where=where,
        loudness=LOUDNESS[finding.severity],
        rule=finding.rule,
        words=excerpt(draft.source, finding.span, _WHOLE_LINE),
        message=in_a_line(finding.message),
        why=in_a_line(finding.why),
        change=in_a_line(change_told(finding, draft.source)),
        related=tuple(
            Place(
                excerpt(draft.source, related.span, _WHOLE_LINE),
                in_a_line(f"{place_of(related.span, draft)}: {related.message}"),
            )
            for related in finding.related
        ),
        is_loud=is_loud(finding),
    )


_FIGURES = ("uses", "makes", "spaces", "printed")


def _figures(row: TableRow) -> tuple[Figure, ...]:
    return row.uses, row.makes, row.spaces, row.printed


def _telling(rows: Sequence[TableRow]) -> Iterator[str]:
    """The columns of figures that say anything."""
    for at, name in enumerate(_FIGURES):
        if not all(_figures(row)[at].says_nothing for row in rows):
            yield name


def _of_parts(rows: Sequence[TableRow], columns: Sequence[str]) -> Iterator[RowsOfPart]:
    for part, of_part in groupby(rows, lambda row: row.part):
        yield RowsOfPart(in_a_line(part), tuple(_cells(row, columns) for row in of_part))


def _cells(row: TableRow, columns: Sequence[str]) -> Cells:
    figures = dict(zip(_FIGURES, _figures(row), strict=True))
    told = tuple(figures[column].in_line() for column in columns)
    return Cells(row.label, told, row.verdict.words, row.verdict.amiss)
