"""A copy for one of its sizes: from each list of sizes the word for that one.

The text behind it is proven for all sizes; nothing is worked out here but which word of a
list stands for the size, and which rows it works at all.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.release.actions import actions_of
from hookwright.release.facts import (
    Block,
    Cell,
    Contents,
    Entry,
    Paragraph,
    Row,
    Run,
    Section,
    Shade,
)
from hookwright.release.size_lists import by_size


def of_size(contents: Contents, size: int) -> Contents:
    """The contents for one size; the same ones where there is only one."""
    if len(contents.sizes) < 2:
        return contents
    one = _OneSize(contents.sizes, size)
    return replace(
        contents,
        introduction=one.paragraphs(contents.introduction),
        sizes=(contents.sizes[size],),
        band=one.cells(contents.band),
        needs=one.cells(contents.needs),
        shades=tuple(one.shade(shade) for shade in contents.shades),
        sections=tuple(one.section(section) for section in contents.sections),
        counting=one.paragraphs(
            tuple(p for p in contents.counting if p.runs[0].words != "Sizes:")
        ),
    )


class _OneSize:
    """Takes the word of one size out of every list."""

    def __init__(self, sizes: Sequence[str], size: int) -> None:
        first, *others = map(re.escape, sizes)
        self._names = re.compile(first + r"\s*[(\[]" + r",\s*".join(others) + r"[)\]]")
        self._own = sizes[size]
        self._number = len(sizes)
        self._size = size

    def words(self, words: str) -> str:
        """Words with the names and numbers of this size alone."""
        return "".join(run.words for run in self.runs((Run(words),)))

    def runs(self, runs: Sequence[Run]) -> tuple[Run, ...]:
        """Runs with the same."""
        named = [
            replace(run, words=self._names.sub(lambda _: self._own, run.words))
            for run in runs
        ]
        return tuple(
            replace(run, words=run.sizes[self._size], sizes=()) if run.sizes else run
            for run in by_size(named, self._number)
        )

    def paragraphs(self, paragraphs: Sequence[Paragraph]) -> tuple[Paragraph, ...]:
        """Paragraphs with the same."""
        return tuple(replace(p, runs=self.runs(p.runs)) for p in paragraphs)

    def cells(self, cells: Sequence[Cell]) -> tuple[Cell, ...]:
        """Facts of the band with the same."""
        return tuple(
            replace(cell, fact=self.words(cell.fact), remark=self.words(cell.remark))
            if cell.label != "Sizes"
            else Cell("Size", self._own)
            for cell in cells
        )

    def shade(self, shade: Shade) -> Shade:
        """A colour with what this size takes of it."""
        own = slice(self._size, self._size + 1)
        return replace(shade, balls=shade.balls[own], length=shade.length[own])

    def section(self, section: Section) -> Section:
        """A section without the rows that this size does not work."""
        return replace(
            section,
            heading=self.words(section.heading),
            blocks=tuple(
                self.block(block) for block in section.blocks if self._is_worked(block)
            ),
        )

    def _is_worked(self, block: Block) -> bool:
        return not (
            isinstance(block, Row) and block.sizes and self._size not in block.sizes
        )

    def block(self, block: Block) -> Block:
        """A block for this size."""
        match block:
            case Entry():
                return replace(block, meaning=self.words(block.meaning))
            case Paragraph():
                return replace(block, runs=self.runs(block.runs))
            case Row():
                return self._row(block)

    def _row(self, row: Row) -> Row:
        counts, count, runs = row.counts, row.count, self.runs(row.runs)
        if len(counts) == self._number:
            count = f"{counts[self._size].strip('(),')} {row.unit}".strip()
            counts = ()
        return replace(
            row,
            name=self.words(row.name),
            runs=runs,
            actions=actions_of(runs) if row.actions else (),
            counts=counts,
            count=self.words(count),
            unit="",
            sizes=(),
        )
