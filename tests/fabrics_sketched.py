"""Fabrics for tests, told row by row by the places their stitches stand on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from hookwright.shape.columns import Columns, columns_of
from hookwright.shape.feet import Base
from hookwright.shape.graph import FabricGraph
from hookwright.shape.mesh import Mesh
from hookwright.working.fabric import Foot, Row, Stitch, top
from hookwright.working.sequence import Piece, Run, join

Bases = Sequence[tuple[int, ...]]
"""For each stitch of a row the numbers of the places below that it stands on."""


def row_of(bases: Bases, kinds: Sequence[str] | str = "sc") -> Row:
    """A row from the places of its stitches, each used in order."""
    used = 0
    made: list[Piece[Stitch]] = []
    for at, feet in enumerate(bases):
        kind = kinds if isinstance(kinds, str) else kinds[at]
        passes = max(0, max(feet) + 1 - used)
        steps = tuple(Foot(foot - used) for foot in feet)
        made.append(Run(Stitch(kind, passes, steps, (top(kind),))))
        used = max(used, max(feet) + 1)
    return Row(join(made))


def fabric(
    rows: Sequence[tuple[Bases, Sequence[str] | str]],
    heights: Mapping[str, float],
    *,
    foundation: int = 0,
    widths: Mapping[int, float] | None = None,
) -> FabricGraph:
    """A fabric of rows on a foundation, or of rounds in a ring where there is none."""
    mesh = Mesh()
    closed = not foundation
    known: dict[tuple[int, int], Columns] = {}  # the same row over again is made once
    nodes = mesh.ring() if closed else mesh.foundation(foundation)
    for number, (bases, kinds) in enumerate(rows, start=1):
        one = np.ones(len(nodes), dtype=np.int64)
        ring = closed and number == 1
        columns = known.get((id(bases), id(kinds)))
        if columns is None:
            columns = known[id(bases), id(kinds)] = columns_of(row_of(bases, kinds))
        base = Base(nodes, np.arange(len(nodes)), one, one, closed, ring)
        laid = mesh.row_on(
            base, columns, heights, 1.0, closed=closed,
            direction=1, width=(widths or {}).get(number, 1.0),
        )  # fmt: skip
        nodes = laid.nodes
    return mesh.graph()


def disc(increases: int, rounds: int, height: float) -> FabricGraph:
    """A disc with so many increases a round, spread evenly and staggered."""
    return surface([increases * r for r in range(1, rounds + 1)], height)


def surface(counts: Sequence[int], height: float) -> FabricGraph:
    """Rounds of given counts, their increases or decreases spread evenly and staggered."""
    rows: list[tuple[Bases, str]] = [([(0,)] * counts[0], "sc")]
    for number, (count, new) in enumerate(pairwise(counts), start=2):
        rows.append((_spread(count, new, shifted=number % 2 == 1), "sc"))
    return fabric(rows, {"sc": height})


def _spread(count: int, new: int, *, shifted: bool) -> Bases:
    if new >= count:
        more = new - count
        at = np.arange(more) * count / max(more, 1)
        if shifted:
            at = at + 0.5 * count / max(more, 1)
        often = 1 + np.bincount(at.astype(int) % count, minlength=count)
        return [(i,) for i in range(count) for _ in range(often[i])]
    fewer = count - new
    drawn = set((np.arange(fewer) * count / fewer).astype(int).tolist())
    bases: list[tuple[int, ...]] = []
    at_place = 0
    while at_place < count:
        two = at_place in drawn and at_place + 1 < count
        bases.append((at_place, at_place + 1) if two else (at_place,))
        at_place += 2 if two else 1
    return bases


def polygon(
    corners: int, in_corner: int, rounds: int, height: float
) -> tuple[FabricGraph, list[int]]:
    """Rounds with all increases in the corners, and the corners' places in the last one."""
    each = in_corner - 1
    count = corners * each
    rows: list[tuple[Bases, str]] = [([(0,)] * count, "sc")]
    at = [c * each for c in range(corners)]
    for _ in range(rounds - 1):
        bases: list[tuple[int, ...]] = []
        new = []
        for i in range(count):
            if i in at:
                new.append(len(bases) + in_corner // 2)
                bases += [(i,)] * in_corner
            else:
                bases.append((i,))
        rows.append((bases, "sc"))
        at, count = new, len(bases)
    return fabric(rows, {"sc": height}), at


def ripple_bases(plain: int, repeats: int) -> Bases:
    """A row of a ripple: valleys at both ends, 3 in 1 on peaks, 3 together in valleys."""
    each = 2 * plain + 4
    last = each * repeats
    bases: list[tuple[int, ...]] = []
    for stitch in range(last + 1):
        at, start = stitch % each, stitch - stitch % each
        if at == 0:
            near = (stitch - 1, stitch, stitch + 1)
            bases.append(tuple(b for b in near if 0 <= b <= last))
        elif at <= plain:
            bases.append((start + at + 1,))
        elif at <= plain + 3:
            bases.append((start + plain + 2,))
        else:
            bases.append((start + at - 1,))
    return bases
