"""Is a row on a longer edge the same row, with more of its repeats?

A row that is worked across as far as it goes comes out on many edges, with its last repeat
cut here or there. It is the same row only where nothing but the number of whole repeats, or
the length of a plain run, is another.
"""

from __future__ import annotations

from hookwright.working.fabric import Stitch
from hookwright.working.sequence import Line, Repeat, Run


def is_same_shape(line: Line[Stitch], other: Line[Stitch]) -> bool:
    """Whether two rows differ in the times of repeats alone, or of plain runs alone."""
    if line == other:
        return True
    repeats = runs = False
    i = j = 0
    while i < len(line) and j < len(other):
        a, b = line[i], other[j]
        i, j = i + 1, j + 1
        if a == b:
            continue
        if isinstance(a, Run) and isinstance(b, Run) and _is_like(a, b):
            runs = True
        elif isinstance(a, Repeat) and isinstance(b, Repeat) and a.body == b.body:
            repeats = True
        elif isinstance(b, Repeat) and line[i - 1 :][: len(b.body)] == b.body:
            i, repeats = i - 1 + len(b.body), True
        elif isinstance(a, Repeat) and other[j - 1 :][: len(a.body)] == a.body:
            j, repeats = j - 1 + len(a.body), True
        else:
            return False
    return i == len(line) and j == len(other) and not (repeats and runs)


def _is_like(a: Run[Stitch], b: Run[Stitch]) -> bool:
    return a.item == b.item and a.span == b.span
