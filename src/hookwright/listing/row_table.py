"""The rows of a pattern set in columns: row, uses, makes, printed, and whether it holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.listing.columns import columns_of, padded, wrapped, writable
from hookwright.listing.rows import Figure, TableRow, sized, table_rows
from hookwright.terminal import NO_INK, Ink

_GAP = "   "
_FIGURES = ("uses", "makes", "spaces", "printed")
_SET_LEFT = ("row", "size", "holds")

Line = dict[str, str]
"""The words of one line by their column."""


class _Table(Struct, frozen=True):
    """A table ready to be set.

    Attributes:
        columns: Its columns from the left.
        rows: What each block of lines is about.
        blocks: A block of lines for each row: one, or one a size.
    """

    columns: tuple[str, ...]
    rows: tuple[TableRow, ...]
    blocks: tuple[tuple[Line, ...], ...]

    def widths(self) -> dict[str, int]:
        """Each column as wide as its widest words, or its head."""
        lines = [line for block in self.blocks for line in block]
        words = {column: {line[column] for line in lines} for column in self.columns}
        return {
            column: max(columns_of(column), *map(columns_of, words[column]))
            for column in self.columns
        }

    def width(self) -> int:
        """What a line takes in all."""
        return sum(self.widths().values()) + len(_GAP) * (len(self.columns) - 1)


def row_table(checked: Checked, width: int, ink: Ink, *, all_rows: bool) -> str:
    """The whole table; nothing for a text without rows.

    The sizes of a row stand in one line, as patterns print them, or below each other where
    there is no room for that.
    """
    rows = tuple(table_rows(checked, all_rows=all_rows))
    if not rows:
        return ""
    table = _with_sizes_in_line(rows)
    if not checked.sizes:
        return "\n".join(_written(table, ink))
    names = tuple(map(writable, checked.sizes))
    if table.width() > width:
        return "\n".join(_written(_with_sizes_below(rows, names), ink))
    return "\n".join([*wrapped(f"Sizes: {sized(names)}", width), "", *_written(table, ink)])


def _with_sizes_in_line(rows: tuple[TableRow, ...]) -> _Table:
    blocks = tuple(
        (_line(row, [figure.in_line() for figure in _figures(row)]),) for row in rows
    )
    return _Table(("row", *_telling(rows), "holds"), rows, blocks)


def _with_sizes_below(rows: tuple[TableRow, ...], names: Sequence[str]) -> _Table:
    blocks = tuple(tuple(_lines_by_size(row, names)) for row in rows)
    return _Table(("row", "size", *_telling(rows), "holds"), rows, blocks)


def _lines_by_size(row: TableRow, names: Sequence[str]) -> Iterator[Line]:
    figures = _figures(row)
    for size, name in enumerate(names):
        line = _line(row, [figure.of_size(size) for figure in figures])
        line["size"] = name
        if size:
            line["row"] = line["holds"] = ""
        yield line


def _line(row: TableRow, figures: Sequence[str]) -> Line:
    numbers = dict(zip(_FIGURES, figures, strict=True))
    return {"row": row.label, **numbers, "holds": row.verdict.words}


def _figures(row: TableRow) -> tuple[Figure, ...]:
    return row.uses, row.makes, row.spaces, row.printed


def _telling(rows: Sequence[TableRow]) -> Iterator[str]:
    """The columns of figures that say anything: most patterns make no chain spaces."""
    for name, figures in zip(_FIGURES, zip(*map(_figures, rows), strict=True), strict=True):
        if not all(figure.says_nothing for figure in figures):
            yield name


def _written(table: _Table, ink: Ink) -> Iterator[str]:
    """The lines of the table, a part's name before its rows where there are several."""
    several = len({row.part for row in table.rows}) > 1
    widths = table.widths()
    heads = {column: column for column in table.columns} | {"holds": ""}
    yield ink.quiet(_set(heads, widths, NO_INK))
    together = zip(table.rows, table.blocks, strict=True)
    for part, of_part in groupby(together, lambda pair: pair[0].part):
        if several:
            yield ""
            if part:
                yield ink.strong(writable(part))
        for row, block in of_part:
            for line in block:
                yield _set(line, widths, ink if row.verdict.amiss else NO_INK)


def _set(line: Line, widths: dict[str, int], ink: Ink) -> str:
    """One line in its columns, its verdict coloured."""
    *cells, holds = (
        padded(line[column], room, right=column not in _SET_LEFT)
        for column, room in widths.items()
    )
    return (_GAP.join(cells) + _GAP + ink.red(holds.rstrip())).rstrip()
