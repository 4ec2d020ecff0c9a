"""Which rows share a line of the table, and what such a line says.

A printed label is one line where all its rows are alike or change evenly; rows that come
round again ("Rows 7-166: Rep Rows 3-6") are a line for each row of the set.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import groupby, pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.listing.columns import beginning, columns_of, in_a_line
from hookwright.listing.verdicts import Verdict, is_foundation, verdicts_of
from hookwright.regex import regex
from hookwright.source import Source
from hookwright.working.count import Count
from hookwright.working.printed_lines import Line

_LONGEST_LABEL = 26
_LONGEST_SET = 24
_FEW = 3
_NOT_WORKED = "-"
_ROW_WORD = regex(r"\b(row|round|rnd)s?\b", re.IGNORECASE)

Numbers = tuple[Count | None, ...]


class Figure(Struct, frozen=True):
    """A number of a line of the table, for the first and the last row that share the line.

    Attributes:
        first: One a size; None where the size does not work the row or nothing is printed.
        last: The same for the last row; equal to the first where all rows are alike.
    """

    first: Numbers = ()
    last: Numbers = ()

    @property
    def says_nothing(self) -> bool:
        """Whether there is no number in it but 0."""
        return not any(self.first) and not any(self.last)

    def in_line(self) -> str:
        """All sizes as patterns print them: "31 (35, 39) to 25"."""
        return _from_to(self.first, self.last)

    def of_size(self, size: int) -> str:
        """One size alone."""
        return _from_to(self.first[size:][:1], self.last[size:][:1])


NO_FIGURE = Figure()


def _from_to(first: Numbers, last: Numbers) -> str:
    begins = sized(first)
    ends = begins if first == last else sized(last)
    return begins if begins == ends else f"{begins} to {ends}"


class TableRow(Struct, frozen=True):
    """A line of the table: a row, or rows that share a line."""

    part: str
    label: str
    uses: Figure
    makes: Figure
    spaces: Figure
    printed: Figure
    verdict: Verdict


class _Judged(Struct, frozen=True):
    """One row with its verdict."""

    line: Line
    verdict: Verdict

    @property
    def numbers(self) -> tuple[Numbers, ...]:
        """What is the same in rows that are alike."""
        return self.line.uses, self.line.stitches, self.line.spaces


def table_rows(checked: Checked, *, all_rows: bool) -> Iterator[TableRow]:
    """The lines of the table in working order."""
    for _, printed in groupby(
        checked.lines, lambda line: (line.part, line.printed, line.span)
    ):
        lines = [row for line in printed for row in _one_by_one(line)]
        verdicts = verdicts_of(lines, checked.findings)
        rows = [_Judged(*pair) for pair in zip(lines, verdicts, strict=True)]
        shares = [[row] for row in rows] if all_rows else _shares(rows)
        for share in shares:
            yield _table_row(share, _label(share, checked.source, whole=len(shares) == 1))


def _one_by_one(line: Line) -> Iterator[Line]:
    """Each row of a line; a size with fewer rows does not work the last ones."""
    if line.times == 1:
        yield line
        return
    for later in range(line.times):
        numbers = tuple(
            None if first is None or first + later > (last or first) else first + later
            for first, last in zip(line.first, line.last, strict=True)
        )
        yield replace(
            line,
            times=1,
            first=numbers,
            last=numbers,
            uses=_where_worked(numbers, line.uses),
            stitches=_where_worked(numbers, line.stitches),
            spaces=_where_worked(numbers, line.spaces),
            below=_where_worked(numbers, line.below),
        )


def _where_worked(rows: Sequence[int | None], numbers: Numbers) -> Numbers:
    return tuple(None if row is None else n for row, n in zip(rows, numbers, strict=False))


def _shares(rows: Sequence[_Judged]) -> list[list[_Judged]]:
    """The rows of one printed label, those together that share a line."""
    if _are_alike(rows) or _change_evenly(rows):
        return [list(rows)]
    length = _length_of_set(rows)
    if length:
        return [list(rows[at::length]) for at in range(length)]
    return [list(run) for _, run in groupby(rows, lambda row: (row.numbers, row.verdict))]


def _are_alike(rows: Sequence[_Judged]) -> bool:
    return all(row.numbers == rows[0].numbers for row in rows)


def _change_evenly(rows: Sequence[_Judged]) -> bool:
    """Whether the numbers only grow or only shrink, so that the first and last tell all."""
    if len(rows) <= _FEW:
        return False
    by_kind = zip(*(row.numbers for row in rows), strict=True)
    return all(
        _only_grows_or_shrinks(column)
        for numbers in by_kind
        for column in zip(*numbers, strict=True)
    )


def _only_grows_or_shrinks(column: Numbers) -> bool:
    steps = list(pairwise(number for number in column if number is not None))
    return all(a <= b for a, b in steps) or all(a >= b for a, b in steps)


def _length_of_set(rows: Sequence[_Judged]) -> int:
    """After how many rows they come round again; 0 where they do not do so twice."""
    kinds = [(row.numbers, row.verdict) for row in rows]
    for length in range(2, min(_LONGEST_SET, len(rows) // 2) + 1):
        if all(a == b for a, b in zip(kinds, kinds[length:], strict=False)):
            return length
    return 0


def _table_row(rows: Sequence[_Judged], label: str) -> TableRow:
    lines = [row.line for row in rows]
    amiss = [row.verdict for row in rows if row.verdict.amiss]
    worked = not is_foundation(lines[0])
    return TableRow(
        lines[0].part,
        label,
        _figure([line.uses for line in lines]) if worked else NO_FIGURE,
        _figure([line.stitches for line in lines]),
        _figure([line.spaces for line in lines]) if worked else NO_FIGURE,
        _printed([line.stated for line in lines]),
        (amiss or [rows[0].verdict])[0],
    )


def _figure(numbers: Sequence[Numbers]) -> Figure:
    if len(numbers) == 1:
        return Figure(numbers[0], numbers[0])
    known = [[n for n in column if n is not None] for column in zip(*numbers, strict=True)]
    return Figure(
        tuple(column[0] if column else None for column in known),
        tuple(column[-1] if column else None for column in known),
    )


def _printed(stated: Sequence[tuple[int | None, ...]]) -> Figure:
    """A count printed after a range is that of its last row."""
    last = _figure(stated).last
    return Figure(last, last)


def _label(rows: Sequence[_Judged], source: Source, *, whole: bool) -> str:
    line = rows[0].line
    if not line.printed:
        return "foundation" if is_foundation(line) else _first_words(line, source)
    numbers = [sized(row.line.first) for row in rows]
    if whole or "" in numbers:
        return _cut(line.printed)
    return f"{_row_or_rows(line.printed, len(rows))} {_listed(rows, numbers)}"


def _first_words(line: Line, source: Source) -> str:
    """A row without a label is called by how it begins."""
    return _cut(source.slice(line.span)[: _LONGEST_LABEL * 4])


def _cut(words: str) -> str:
    shown = in_a_line(words)
    if columns_of(shown) <= _LONGEST_LABEL:
        return shown
    return beginning(shown, _LONGEST_LABEL - 3).rstrip() + "..."


def _row_or_rows(printed: str, number: int) -> str:
    """The word of the printed label, for one row or several."""
    found = _ROW_WORD.search(printed)
    word = found[1] if found else "Row"
    return word if number == 1 else word + "s"


def _listed(rows: Sequence[_Judged], numbers: Sequence[str]) -> str:
    """Row numbers in few words: "7", "7-12", "7, 11", "7, 11 ... 163"."""
    firsts = [row.line.first[0] for row in rows]
    if len(rows) > 1 and all(a is not None and b == a + 1 for a, b in pairwise(firsts)):
        return f"{numbers[0]}-{numbers[-1]}"
    if len(rows) <= _FEW:
        return ", ".join(numbers)
    return f"{numbers[0]}, {numbers[1]} ... {numbers[-1]}"


@lru_cache(maxsize=4096)  # most rows have numbers that others have as well
def sized(numbers: tuple[Count | str | None, ...]) -> str:
    """Numbers for sizes as patterns print them, "33 (37, 41)"; once where all are alike."""
    if numbers.count(None) == len(numbers):
        return ""
    if len(numbers) == 1:
        return f"{numbers[0]}"
    first, *others = [_NOT_WORKED if n is None else str(n) for n in numbers]
    alike = others.count(first) == len(others)
    return first if alike else f"{first} ({', '.join(others)})"
