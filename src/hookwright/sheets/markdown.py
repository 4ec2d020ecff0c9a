"""A sheet as Markdown."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.regex import regex
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

_LIVE = regex(r"([\\`*_\[\]<>|#])")


def as_markdown(sheet: Sheet) -> str:
    """The whole sheet. What Markdown would take for a mark of its own is escaped."""
    return "\n\n".join(_paragraphs(sheet)) + "\n"


def _paragraphs(sheet: Sheet) -> Iterator[str]:
    yield f"# {_plain(sheet.title)}"
    yield _plain(sheet.kind)
    if sheet.band:
        yield "\n".join(
            f"- {_plain(label)}: {_plain(value)}" for label, value in sheet.band
        )
    for block in sheet.blocks:
        yield from _block(block)


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading():
            yield f"{'#' * (block.level + 1)} {_plain(block.words)}"
        case Words():
            yield _plain(block.words)
        case Caution():
            yield f"> {_plain(block.words)}"
        case Points():
            marks = (f"{n}." if block.numbered else "-" for n in range(1, 10**6))
            listed = zip(marks, block.items, strict=False)
            yield "\n".join(f"{mark} {_plain(item)}" for mark, item in listed)
        case Grid():
            yield "\n".join(_grid(block))
        case Picture():
            yield _plain(block.words)


def _grid(grid: Grid) -> Iterator[str]:
    if grid.caption:
        yield f"{_plain(grid.caption)}\n"
    yield f"| {' | '.join(map(_plain, grid.head))} |"
    ends = ("---:" if n in grid.numbers else "---" for n in range(len(grid.head)))
    yield f"|{'|'.join(ends)}|"
    for row in grid.rows:
        yield f"| {' | '.join(map(_plain, row))} |"


def _plain(words: str) -> str:
    return _LIVE.sub(r"\\\1", " ".join(words.split()))
