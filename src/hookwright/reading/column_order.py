"""The order in which a page is read: blocks of lines, down one column, then the next.

Two rules give the order: of two blocks above one another the upper comes first; of two
beside one another the left comes first, unless something between them spans both columns.

Source: T. M. Breuel, "High performance document layout analysis", 2003 (from memory).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from msgspec import Struct, field

from hookwright.reading import limits
from hookwright.reading.draft import Box
from hookwright.reading.printed import PrintedLine

_NEXT_LINE = 2.2
"""How far below the last one, in letter heights, a line of the same block may stand."""
_INDENT = 6.0
"""How far, in letter heights, lines of a block may be indented."""
_HANG = 0.3
"""How exactly, in letter heights, a line hangs under a cell of the one above."""
_BLOCKS = 40
"""More blocks than this on a page are left in the order in which they were drawn."""


class Block(Struct):
    """Lines that stand below one another in one column.

    Attributes:
        lines: The lines from top to foot.
        box: Around all of them.
        reach: How far the words of the longest of them reach to the right.
        reaches: For each left edge (in steps), how many lines begin there, and how far the
            longest of them reaches.
    """

    lines: list[PrintedLine]
    box: Box
    reach: float = 0.0
    reaches: dict[int, tuple[int, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for line in self.lines:
            self._measure(line)

    def add(self, line: PrintedLine, *, at_top: bool = False) -> None:
        """Take a line in at the foot of the block, or at its top."""
        self.lines.insert(0 if at_top else len(self.lines), line)
        self.box = self.box.around(line.box)
        self._measure(line)

    def _measure(self, line: PrintedLine) -> None:
        self.reach = max(self.reach, line.reach)
        number, reach = self.reaches.get(line.left_step, (0, 0.0))
        self.reaches[line.left_step] = (number + 1, max(reach, line.reach))


def blocks_in_order(lines: Sequence[PrintedLine]) -> list[Block]:
    """The blocks of a page as a maker reads them.

    Args:
        lines: The lines of the page in the order in which they were drawn.
    """
    blocks = _blocks(lines)
    if len(blocks) > _BLOCKS or len(lines) > limits.PDF_PAGE_LINES:
        return blocks
    return _in_reading_order(blocks)


def _blocks(lines: Sequence[PrintedLine]) -> list[Block]:
    neighbours = _Neighbours(lines)
    blocks: list[Block] = []
    for line in lines:
        block = blocks[-1] if blocks else None
        if block and _belongs_below(block, line, neighbours):
            block.add(line)
        elif block and _belongs_above(block, line):
            block.add(line, at_top=True)
        else:
            blocks.append(Block([line], line.box))
    return blocks


def _belongs_below(block: Block, line: PrintedLine, neighbours: _Neighbours) -> bool:
    last = block.lines[-1]
    if not _is_next(last, line) or not _share_width(line.box, block.box):
        return False
    edges = [block.box.left, last.box.left]
    indent = min(abs(line.box.left - edge) for edge in edges)
    hangs = any(abs(line.box.left - run.box.left) < _HANG * line.size for run in last.runs)
    if indent > _INDENT * line.size and not hangs:
        return False
    # Under a paragraph that spans two columns, the first line of a column begins a block.
    return not neighbours.has_one_beside(line, left_of=block.box.right)


def _belongs_above(block: Block, line: PrintedLine) -> bool:
    """Whether a line was drawn after the one below it, as some turned pages do."""
    first = block.lines[0]
    indent = abs(line.box.left - first.box.left)
    return (
        _is_next(line, first)
        and _share_width(line.box, block.box)
        and indent < _INDENT * line.size
    )


def _is_next(upper: PrintedLine, lower: PrintedLine) -> bool:
    below = upper.box.bottom - lower.box.top
    return -0.5 * lower.size < below < _NEXT_LINE * lower.size


class _Neighbours:
    """The lines of a page by height, to see what stands beside a line."""

    def __init__(self, lines: Sequence[PrintedLine]) -> None:
        few = lines if len(lines) <= limits.PDF_PAGE_LINES else ()
        self._boxes = sorted((line.box for line in few), key=lambda box: box.bottom)
        self._bottoms = [box.bottom for box in self._boxes]

    def has_one_beside(self, line: PrintedLine, left_of: float) -> bool:
        """Whether something stands right of a line, but begins before this edge."""
        at = bisect_left(self._bottoms, line.box.bottom - line.size)
        while at < len(self._boxes) and self._bottoms[at] < line.box.top:
            box = self._boxes[at]
            if line.box.right < box.left < left_of and box.top > line.box.bottom:
                return True
            at += 1
        return False


def _in_reading_order(blocks: list[Block]) -> list[Block]:
    """Always take the first block that no other block has to come before."""
    boxes = [block.box for block in blocks]
    waits = {
        at: {other for other in range(len(boxes)) if _comes_first(other, at, boxes)}
        for at in range(len(boxes))
    }
    order: list[Block] = []
    while waits:
        free = next((at for at in waits if not waits[at]), next(iter(waits)))
        del waits[free]
        for others in waits.values():
            others.discard(free)
        order.append(blocks[free])
    return order


def _comes_first(one: int, other: int, boxes: Sequence[Box]) -> bool:
    if one == other:
        return False
    a, b = boxes[one], boxes[other]
    if _share_width(a, b):
        return a.bottom + a.top > b.bottom + b.top
    if a.right > b.left:
        return False
    top, bottom = max(a.top, b.top), min(a.bottom, b.bottom)
    return not any(
        _share_width(box, a)
        and _share_width(box, b)
        and bottom < (box.bottom + box.top) / 2 < top
        for box in boxes
        if box is not a and box is not b
    )


def _share_width(a: Box, b: Box) -> bool:
    return a.left < b.right and b.left < a.right
