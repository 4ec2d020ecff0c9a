"""A sheet as a page that needs nothing else: no scripts, nothing fetched.

What comes from a pattern is set as words, never as marks of the page; the drawings are
ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from pathlib import Path

from hookwright.sheets.facts import (
    Block,
    Caution,
    Grid,
    Heading,
    Picture,
    Points,
    Sheet,
    Words,
)

MARK = "<!doctype html>\n<!-- hookwright: a sheet -->\n"
"""How every such page begins, so that it may be written anew."""
_HEAD = Path(__file__).with_name("head.css")
_STYLE = Path(__file__).with_name("page.css")


def head_style() -> str:
    """The style that every page of ours begins with: paper, ink, pencil, the band."""
    return _HEAD.read_text(encoding="utf-8")


def as_page(sheet: Sheet) -> str:
    """The whole page."""
    return MARK + "\n".join(_page(sheet)) + "\n"


def _page(sheet: Sheet) -> Iterator[str]:
    title = escape(sheet.title)
    yield f'<html lang="{escape(sheet.language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield (
        '<meta http-equiv="Content-Security-Policy"'
        " content=\"default-src 'none'; style-src 'unsafe-inline'\">"
    )
    yield f"<title>{title}: {escape(sheet.kind)}</title>"
    style = head_style() + _STYLE.read_text(encoding="utf-8")
    yield f"<style>\n{style}</style>\n</head>\n<body>"
    yield f'<header>\n<p class="kind">{escape(sheet.kind)}</p>\n<h1 dir="auto">{title}</h1>'
    if sheet.band:
        cells = (
            f'<div><dt>{escape(label)}</dt><dd dir="auto">{escape(value)}</dd></div>'
            for label, value in sheet.band
        )
        yield f'<dl class="band">{"".join(cells)}</dl>'
    yield "</header>\n<main>"
    for block in sheet.blocks:
        yield from _block(block)
    yield "</main>\n</body>\n</html>"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading():
            name = f"h{block.level + 1}"
            yield f'<{name} dir="auto">{escape(block.words)}</{name}>'
        case Words():
            yield f'<p dir="auto">{escape(block.words)}</p>'
        case Caution():
            yield f'<p class="caution" role="note">{escape(block.words)}</p>'
        case Points():
            name = "ol" if block.numbered else "ul"
            items = "".join(f'<li dir="auto">{escape(item)}</li>' for item in block.items)
            yield f"<{name}>{items}</{name}>"
        case Grid():
            yield from _grid(block)
        case Picture():
            yield (
                f'<figure role="img" '
                f'aria-label="{escape(block.words)}">{block.svg}</figure>'
            )


def _grid(grid: Grid) -> Iterator[str]:
    label = escape(grid.caption or "table")
    yield f'<div class="table" tabindex="0" role="region" aria-label="{label}">\n<table>'
    if grid.caption:
        yield f"<caption>{escape(grid.caption)}</caption>"
    marks = [' class="number"' if n in grid.numbers else "" for n in range(len(grid.head))]
    head = "".join(
        f'<th scope="col"{mark}>{escape(cell)}</th>'
        for mark, cell in zip(marks, grid.head, strict=True)
    )
    yield f"<thead><tr>{head}</tr></thead>\n<tbody>"
    for row in grid.rows:
        cells = "".join(
            f'<td dir="auto"{mark}>{escape(cell)}</td>'
            for mark, cell in zip(marks, row, strict=True)
        )
        yield f"<tr>{cells}</tr>"
    yield "</tbody>\n</table></div>"
