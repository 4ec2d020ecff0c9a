"""What is usual in a print: its letters' size, its lines' distance, its columns' edges."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from hookwright.reading.column_order import Block
from hookwright.reading.printed import PrintedLine
from hookwright.regex import regex

WORD = regex(r"\w+(?:-\w+)*")

_LARGER = 1.15
_RAGGED_PT = 40.0
"""How far apart the ends of the longest lines of a column may lie."""


class Measures(Struct, frozen=True):
    """What is usual in this print.

    Attributes:
        size: The size of most letters, in points.
        line_gap_pt: From one line's foot to the next one's inside a paragraph.
        larger_sizes: Sizes of headings, largest first.
        right_edges: For each left edge (in steps), how far the longest lines reach.
        words: All words; those with a hyphen inside count as one.
    """

    size: float
    line_gap_pt: float
    larger_sizes: tuple[float, ...]
    right_edges: dict[int, float]
    words: frozenset[str]


def measured(pages: Sequence[Sequence[Block]]) -> Measures:
    """Measure all lines of a print."""
    blocks = [block for page in pages for block in page]
    lines = [line for block in blocks for line in block.lines]
    sizes: Counter[float] = Counter()
    words: set[str] = set()
    for line in lines:
        sizes[half_points(line.size)] += len(line.text)
        words.update(word.lower() for word in WORD.findall(line.text))
    body = sizes.most_common(1)[0][0] if sizes else 1.0
    larger = sorted((size for size in sizes if size >= _LARGER * body), reverse=True)
    gaps = [
        half_points(upper.box.bottom - lower.box.bottom)
        for block in blocks
        for upper, lower in pairwise(block.lines)
        if half_points(upper.size) == half_points(lower.size) == body
    ]
    return Measures(
        body, _usual_gap(gaps, body), tuple(larger), _right_edges(lines), frozenset(words)
    )


def half_points(points: float) -> float:
    """A length rounded to half a point and never none, so that like sizes are the same."""
    return max(0.5, round(points * 2) / 2)


def _usual_gap(gaps: Sequence[float], size: float) -> float:
    """The smallest gap that occurs more than by chance."""
    counts = Counter(gap for gap in gaps if gap > size / 2)
    often = [gap for gap, count in counts.items() if count > max(1, len(gaps) // 20)]
    return min(often, default=min(counts, default=1.25 * size))


def _right_edges(lines: Sequence[PrintedLine]) -> dict[int, float]:
    """How far lines reach that begin at one left edge; a lone long line says nothing."""
    by_left: dict[int, list[float]] = {}
    for line in lines:
        by_left.setdefault(line.left_step, []).append(line.reach)
    edges = {}
    for left, rights in by_left.items():
        rights.sort(reverse=True)
        for right, following in pairwise(rights):
            if following > right - _RAGGED_PT:
                edges[left] = right
                break
    return edges
