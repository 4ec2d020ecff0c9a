"""What does the page show of a checked pattern: marks, counts and what is decided?

Offsets are those of the page. The numbers are the library's; nothing is worked out here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.checking import Checked
from hookwright.colour.row_colours import row_colours
from hookwright.desk.asked import Asked, changes
from hookwright.desk.offsets import Offsets
from hookwright.desk.places import PLACES
from hookwright.drawing.fabric.shades import yarn_colours
from hookwright.finding import Finding, Severity
from hookwright.listing.assumed import assumed
from hookwright.listing.verdicts import is_foundation
from hookwright.notation.tree import InOnePlace, Node, Repeat, RowText, Tail
from hookwright.sizing.wishes import unit_of
from hookwright.source import Span
from hookwright.working.count import Count
from hookwright.working.printed_lines import Line


def seen(asked: Asked) -> dict[str, Any]:
    """A pattern as the page shows it."""
    checked, offsets = asked.checked, asked.offsets
    return {
        "title": _title(checked),
        "terms": checked.terms,
        "units": _units(checked),
        "sizes": list(checked.sizes),
        "rows": [_row(line, offsets) for line in checked.lines],
        "stripes": _stripes(checked, offsets),
        "parts": _parts(checked, offsets),
        "marks": _marks(checked, offsets),
        "findings": [
            *_findings(checked.findings, offsets, "pattern"),
            *_findings(_of_worksheet(checked), Offsets(asked.worksheet), "worksheet"),
        ],
        "yarns": _yarns(checked),
        "assumed": list(assumed(checked)),
        "decided": {place.name: place.decided(asked) for place in PLACES},
    }


def _title(checked: Checked) -> str:
    noted = checked.worksheet.noted.title if checked.worksheet is not None else ""
    return checked.design.title or checked.draft.title or noted


def _units(checked: Checked) -> str:
    return unit_of(checked)


def _of_worksheet(checked: Checked) -> tuple[Finding, ...]:
    return checked.worksheet.findings if checked.worksheet is not None else ()


def _row(line: Line, offsets: Offsets) -> dict[str, Any]:
    return {
        "start": offsets.to_page(line.span.start),
        "end": offsets.to_page(line.span.end),
        "part": line.part,
        "printed": line.printed,
        "first": line.first[0] if line.first else None,
        "last": line.last[0] if line.last else None,
        "times": line.times,
        "uses": _numbers(line.uses),
        "below": _numbers(line.below),
        "makes": _numbers(line.stitches),
        "stated": list(line.stated),
        "foundation": is_foundation(line),
        "agrees": line.agrees,
        "colours": [name for name, _ in line.colours],
    }


def _stripes(checked: Checked, offsets: Offsets) -> list[list[Any]]:
    """The colours of the first size's rows: where the row is printed, colour, how many."""
    if not checked.worked.sizes:
        return []
    outcomes = checked.worked.sizes[0].outcomes
    found: list[list[Any]] = []
    for outcome, colour in zip(outcomes, row_colours(checked), strict=True):
        start = offsets.to_page(outcome.step.span.start)
        if found and found[-1][:2] == [start, colour]:
            found[-1][2] += 1
        else:
            found.append([start, colour, 1])
    return found


def _numbers(counts: tuple[Count | None, ...]) -> list[int | None]:
    return [count if isinstance(count, int) else None for count in counts]


def _parts(checked: Checked, offsets: Offsets) -> list[dict[str, Any]]:
    return [
        {"name": part.name, "start": offsets.to_page(part.span.start), "make": part.make}
        for part in checked.reading.pattern.parts
    ]


def _marks(checked: Checked, offsets: Offsets) -> dict[str, list[list[int]]]:
    """Labels of rows and the words of repeats."""
    rows = [row for part in checked.reading.pattern.parts for row in part.rows]
    labels = [row.label.span for row in rows if row.label is not None]
    repeats = [span for row in rows for span in _repeats(row)]
    return {"labels": _spans(labels, offsets), "repeats": _spans(repeats, offsets)}


def _spans(spans: list[Span], offsets: Offsets) -> list[list[int]]:
    return [
        [offsets.to_page(span.start), offsets.to_page(span.end)] for span in sorted(spans)
    ]


def _repeats(row: RowText) -> Iterator[Span]:
    for node in row.body:
        for span in _repeated_in(node):
            yield row.place(span)


def _repeated_in(node: Node) -> Iterator[Span]:
    """The words that are repeated, the outermost repeats only."""
    if isinstance(node, Repeat):
        if node.body:
            yield Span(node.span.start, node.body[-1].span.end)
    elif isinstance(node, InOnePlace | Tail):
        for inner in node.body:
            yield from _repeated_in(inner)


def _findings(
    findings: tuple[Finding, ...], offsets: Offsets, text: str
) -> Iterator[dict[str, Any]]:
    for found in findings:
        yield {
            "text": text,
            "rule": found.rule,
            "loud": found.severity is not Severity.ADVICE,
            "start": offsets.to_page(found.span.start),
            "end": offsets.to_page(found.span.end),
            "row": found.row,
            "part": found.part,
            "sizes": list(found.sizes),
            "message": found.message,
            "why": found.why,
            "related": [
                [offsets.to_page(r.span.start), offsets.to_page(r.span.end), r.message]
                for r in found.related
            ],
            "edit": next(iter(changes([found.edit], offsets)), None)
            if found.edit is not None
            else None,
            "safe": found.edit is not None and found.edit.safe,
        }


def _yarns(checked: Checked) -> list[dict[str, str]]:
    """The yarns of the worksheet, else those that the text lists, else the one there is.

    One without a colour of its own has a stand-in.
    """
    noted = checked.worksheet.noted.yarns if checked.worksheet is not None else ()
    colours = [colour for yarn in noted for colour in yarn.colours]
    named = [(one.letter, one.name) for one in colours or checked.design.colours]
    named = named or [("", "")]
    shades = yarn_colours(checked, [letter or name for letter, name in named])
    return [
        {"letter": letter, "name": name, "hex": shade.code}
        for (letter, name), shade in zip(named, shades, strict=True)
    ]
