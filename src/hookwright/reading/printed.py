"""What stands on a printed page: lines of words, each with its box.

A page of a PDF holds letters at places, in the order in which they were drawn; it knows no
rows and no columns.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import force_setattr

from hookwright.reading.draft import Box
from hookwright.reading.labels import begins_a_row
from hookwright.regex import regex

HYPHEN = "\x02"
"""A hyphen at a line's end, as the PDF library hands it over."""

_SAME_LINE = 0.5
"""Share of the smaller letter's height by which letters of one line overlap."""
_OVERPRINT = 0.6
"""How far back, in letter heights, the next words of a line may begin (kerned, slanted)."""
_WORD_GAP = 0.15
_CELL_GAP = 2.0
"""Gaps that part words and the cells of a table, in letter heights."""
_SMALL = 0.8
_GUTTER_GAP = 1.0
_GUTTER_LINES = 5
_TOUCH = 0.75
"""Up to this gap, in letter heights, words drawn at different times are neighbours."""
_LABEL_GAP = 8.0
_LABEL_LENGTH = 12
"""A label alone, in a column of labels, belongs to the words beside it."""
_LEFT_STEP_PT = 3
_COUNT = regex(
    r"[(\[]?(?:\d{1,5}|[-–—])(?:[\s\d,()\[\]-]*(?:[A-Za-z][\w\s,()-]{0,60})?)\.?"
)
"""A count that stands in a column behind the words of a row."""
_PIECES = 20
"""Pieces at one height that a line may belong to."""
_COLUMN_SHARE = 0.25
_COLUMN_FILL = 0.6
_CELLS_AT_MOST = 0.2


class Run(Struct, frozen=True):
    """Words drawn together on one line.

    Attributes:
        text: The words.
        box: Around them; its height is that of the letters' size, not of their shapes.
        size: The letters' size in points.
        bold: Whether all of them are bold.
    """

    text: str
    box: Box
    size: float
    bold: bool


class PrintedLine(Struct, frozen=True):
    """A line of one column, as it was printed.

    Attributes:
        page: The number of the page, from 1.
        runs: What stands on it, from left to right.
        box: Around the whole line.
    """

    page: int
    runs: tuple[Run, ...]
    box: Box = Box(0, 0, 0, 0)

    def __post_init__(self) -> None:
        box = self.runs[0].box
        for run in self.runs[1:]:
            box = box.around(run.box)
        force_setattr(self, "box", box)

    @property
    def size(self) -> float:
        """The size of most of its letters, in points."""
        return max(self.runs, key=lambda run: len(run.text)).size

    @property
    def bold(self) -> bool:
        """Whether all of it is bold."""
        return all(run.bold for run in self.runs)

    @property
    def text(self) -> str:
        """Its words; cells of a table are parted by tabs."""
        return "".join(f"{gap}{run.text}" for gap, run in self.parts())

    @property
    def left_step(self) -> int:
        """Its left edge in steps, so that like edges are the same."""
        return round(self.box.left / _LEFT_STEP_PT)

    @property
    def reach(self) -> float:
        """How far its words reach to the right, a count in a column behind them left out.

        Such a count says nothing of how much room the words had.
        """
        parts = list(self.parts())
        apart = next((at for at in range(1, len(parts)) if parts[at][0] == "\t"), 0)
        behind = "".join(run.text for _, run in parts[apart:]) if apart else ""
        is_count = _is_count(behind.strip())
        return parts[apart - 1][1].box.right if is_count else self.box.right

    def parts(self) -> Iterator[tuple[str, Run]]:
        """Each run with the white space before it."""
        before: Run | None = None
        for run in self.runs:
            yield _white_space(before, run), run
            before = run


def _white_space(before: Run | None, run: Run) -> str:
    if before is None:
        return ""
    gap = (run.box.left - before.box.right) / run.size
    if gap > _CELL_GAP:
        return "\t"
    digits_meet = before.text[-1:].isdigit() and run.text[:1].isdigit()
    if digits_meet and run.size < _SMALL * before.size:
        return " "  # 5 and a small, raised 1 are not 51
    parted = gap > _WORD_GAP or before.text[-1:].isspace() or run.text[:1].isspace()
    return " " if parted else ""


def lines_of(page: int, runs: Sequence[Run]) -> list[PrintedLine]:
    """The lines of a page, in the order in which they were drawn.

    Words that follow one another at one height are one line, as in a table. If lines were
    drawn right across two columns of text, they are cut at the gutter.
    """
    lines: list[list[Run]] = []
    for run in runs:
        if lines and _goes_on(lines[-1][-1], run):
            lines[-1].append(run)
        else:
            lines.append([run])
    lines = _mended(lines)
    gutter = _gutter(lines)
    cut = [part for line in lines for part in _cut(line, gutter)]
    if gutter is not None:
        cut.sort(key=lambda line: line[0].box.left >= gutter)
    return [PrintedLine(page, tuple(line)) for line in cut]


def _mended(lines: Sequence[list[Run]]) -> list[list[Run]]:
    """Put pieces of one line together that were drawn at different times.

    Some programs draw all bold words of a page before all others, or a column of labels
    before the rows beside it.
    """
    whole: list[list[Run]] = []
    by_height: dict[int, list[list[Run]]] = {}
    for line in lines:
        height = round(line[0].box.bottom)
        near = (
            other
            for at in (height, height - 1, height + 1)
            for other in by_height.get(at, [])[-_PIECES:]
        )
        other = next((other for other in near if _touch(other, line)), None)
        if other is None:
            whole.append(line)
            by_height.setdefault(height, []).append(line)
        else:
            other[:] = sorted([*other, *line], key=lambda run: run.box.left)
    return whole


def _touch(one: Sequence[Run], other: Sequence[Run]) -> bool:
    """Whether two pieces are neighbours, or a label alone and its row."""
    left, right = (one, other) if one[0].box.left < other[0].box.left else (other, one)
    gap = (right[0].box.left - left[-1].box.right) / min(left[-1].size, right[0].size)
    far = _LABEL_GAP if _is_label_alone(left) else _TOUCH
    return -_OVERPRINT < gap < far and _goes_on(left[-1], right[0])


def _is_label_alone(line: Sequence[Run]) -> bool:
    text = line[0].text.strip()
    return len(line) == 1 and len(text) <= _LABEL_LENGTH and begins_a_row(text)


def _goes_on(last: Run, run: Run) -> bool:
    overlap = min(last.box.top, run.box.top) - max(last.box.bottom, run.box.bottom)
    low = min(last.size, run.size)
    return overlap > _SAME_LINE * low and run.box.left > last.box.right - _OVERPRINT * low


def _wide_gaps(line: Sequence[Run]) -> list[tuple[float, float]]:
    return [
        (left.box.right, right.box.left)
        for left, right in pairwise(line)
        if right.box.left - left.box.right > _GUTTER_GAP * right.size
    ]


def _gutter(lines: Sequence[Sequence[Run]]) -> float | None:
    """Where two columns of text meet that were drawn line by line across both.

    A table has such gaps too, and so have rows with their counts at the right. What tells
    them apart: text fills both columns, neither is as narrow as a column of labels or holds
    counts alone, and there is one gap only.
    """
    gaps = [gap for line in lines for gap in _wide_gaps(line)]
    if len(gaps) < _GUTTER_LINES:
        return None
    middle = _most_covered(gaps)
    across = [line for line in lines if _gap_at(line, middle)]
    if len(across) < _GUTTER_LINES:
        return None
    left = min(line[0].box.left for line in across)
    right = max(line[-1].box.right for line in across)
    counts = sum(_is_count(_behind(line, middle)) for line in across)
    if counts > len(across) / 2:
        return None
    narrow = min(middle - left, right - middle) < _COLUMN_SHARE * (right - left)
    more_gaps = sum(len(_wide_gaps(line)) > 1 for line in across)
    if narrow or more_gaps > _CELLS_AT_MOST * len(across):
        return None
    inner = [_gap_at(line, middle) for line in across]
    left_fill = sum(gap[0] - left for gap in inner if gap) / ((middle - left) * len(across))
    right_fill = sum(
        line[-1].box.right - gap[1] for line, gap in zip(across, inner, strict=True) if gap
    ) / ((right - middle) * len(across))
    return middle if min(left_fill, right_fill) > _COLUMN_FILL else None


def _behind(line: Sequence[Run], at: float) -> str:
    """The words of a line to the right of a place."""
    return "".join(run.text for run in line if run.box.left >= at).strip()


def _is_count(words: str) -> bool:
    return _COUNT.fullmatch(words) is not None


def _most_covered(gaps: Sequence[tuple[float, float]]) -> float:
    """The middle of the place that lies inside most gaps."""
    edges = sorted([(start, 1) for start, _ in gaps] + [(end, -1) for _, end in gaps])
    depth = best = 0
    middle = 0.0
    for (at, step), following in zip(edges, [*edges[1:], edges[-1]], strict=True):
        depth += step
        if depth > best:
            best, middle = depth, (at + following[0]) / 2
    return middle


def _gap_at(line: Sequence[Run], at: float) -> tuple[float, float] | None:
    return next((gap for gap in _wide_gaps(line) if gap[0] < at < gap[1]), None)


def _cut(line: list[Run], gutter: float | None) -> list[list[Run]]:
    if gutter is None or not _gap_at(line, gutter):
        return [line]
    left = [run for run in line if run.box.right <= gutter]
    right = [run for run in line if run.box.right > gutter]
    return [left, right]
