"""A piece as it is looked at: which stitch lies where, which side is seen, in which yarn.

A picture shows the right side of a piece unless the other one is asked for. Where no row
says which side it is worked from, the first row is taken to be.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from hookwright.drawing.fabric.kinds import form_of
from hookwright.notation.tree import Definition
from hookwright.shape.columns import PARTS, Truth, Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.laying import Heights
from hookwright.working.fabric import Into
from hookwright.working.outcome import Outcome


class Cloth(Struct, frozen=True, eq=False):
    """A piece as it is looked at. Places are complex, x + iy, in widths, y up.

    Attributes:
        position: (n,) where its stitches and chains lie.
        shown: (n,) which of them are drawn; the centre of a ring is not.
        left: (n,) the next one to the left in its row as it is seen; -1 at an end.
        right: (n,) the same to the right.
        front: (n,) whether the worker faced the side that is seen.
        row: (n,) the number of its row; 0 for a foundation.
        number: (n,) its number within its row.
        form: (n,) which of the forms a stitch has.
        forms: The forms that occur.
        is_chain: (n,) whether it is a chain.
        stands: (n,) whether chains stand for it.
        yarn: (n,) the number of its yarn.
        leg: (l, 2) a stitch, and what it is worked into.
        beside: (l,) the other stitch of the gap it goes into; -1 for no gap.
        part: (l,) which part of that, as in `PARTS`.
        leg_order: (l,) its number among those in the same place, from the left.
        leg_shares: (l,) how many are worked into that place in its row.
        foot_order: (l,) the number of the leg among those of its stitch, from the left.
        feet: (l,) how many its stitch has.
        reach: (r, 2) stitches, and the places rows down that a long leg goes to.
        rings: (n,) whether it is the centre of a ring.
    """

    position: Complex
    shown: Truth
    left: Whole
    right: Whole
    front: Truth
    row: Whole
    number: Whole
    form: Whole
    forms: tuple[str, ...]
    is_chain: Truth
    stands: Truth
    yarn: Whole
    leg: Whole
    beside: Whole
    part: Whole
    leg_order: Whole
    leg_shares: Whole
    foot_order: Whole
    feet: Whole
    reach: Whole
    rings: Truth

    @property
    def size(self) -> int:
        """How many stitches and chains it has."""
        return len(self.row)


class Naming(Struct, frozen=True):
    """What tells the forms of stitches.

    Attributes:
        own: The stitches that the pattern defines, by their names.
        heights: How high stitches stand.
    """

    own: Mapping[str, Definition]
    heights: Heights


def face_of(courses: Sequence[Laid], outcomes: Sequence[Outcome]) -> int:
    """Which way rows are worked that have the right side to the worker: 1 or -1.

    Args:
        courses: The rows as laid, a foundation among them.
        outcomes: The same rows as worked.
    """
    rows = [course for course in courses if course.row]
    said = {"RS": 1, "WS": -1}
    votes = sum(
        course.direction * said.get(outcome.step.side, 0)
        for course, outcome in zip(rows, outcomes, strict=False)
    )
    return -1 if votes < 0 else 1


def cloth_of(
    graph: FabricGraph,
    position: Complex,
    view: int,
    naming: Naming,
    yarn: Whole,
) -> Cloth:
    """A piece as it is looked at.

    Args:
        graph: The piece.
        position: (n,) where its nodes lie, level, as its first row was seen when worked.
        view: Which way rows run that have their worker's side shown: 1 or -1.
        naming: What tells the forms of its stitches.
        yarn: (n,) the number of the yarn of each node.
    """
    way, number = _ways(graph)
    way *= view
    before, behind = _neighbours(graph)
    forms, form = _forms(graph, naming)
    at = graph.leg_into >= 0
    leg, beside, part = _one_for_a_gap(graph.leg[at], graph.leg_into[at])
    part = np.where(part == _BOTH, _posts(graph, naming)[graph.name[leg[:, 0]]], part)
    order, shares = _places_shared(leg, graph.row, position, view)
    foot, feet = _feet(leg, way)
    names = np.array([name == "ring" for name in graph.names], dtype=bool)
    rings = names[graph.name] & (graph.row == 0)
    return Cloth(
        position=position if view > 0 else -np.conj(position),
        shown=~rings,
        left=np.where(way > 0, behind, before),
        right=np.where(way > 0, before, behind),
        front=way > 0,
        row=graph.row,
        number=number,
        form=form,
        forms=forms,
        is_chain=graph.is_chain,
        stands=graph.stands,
        yarn=yarn,
        leg=leg,
        beside=beside,
        part=part,
        leg_order=order,
        leg_shares=shares,
        foot_order=foot,
        feet=feet,
        reach=np.concatenate([graph.overlay, _spikes(graph, leg)]),
        rings=rings,
    )


def _spikes(graph: FabricGraph, leg: Whole) -> Whole:
    """(s, 2) stitches called spikes, and what lies below the place they stand on."""
    names = np.array(["spike" in name for name in graph.names], dtype=bool)
    foot = np.full(graph.size, -1)
    foot[leg[::-1, 0]] = leg[::-1, 1]
    known = np.isin(np.arange(graph.size), graph.overlay[:, 0])
    top = np.flatnonzero(names[graph.name] & (foot >= 0) & ~known)
    lower = foot[foot[top]]
    found: Whole = np.stack([top, lower], axis=1)[lower >= 0]
    return found


_BOTH = PARTS.index(Into.BOTH_LOOPS)


def _posts(graph: FabricGraph, naming: Naming) -> Whole:
    """(names,) what a stitch is worked into that its definition puts round a post."""
    told = [naming.own[name].stitch if name in naming.own else "" for name in graph.names]
    of_post = {"fp": Into.FRONT_POST, "bp": Into.BACK_POST}
    parts = [PARTS.index(of_post.get(stitch[:2], Into.BOTH_LOOPS)) for stitch in told]
    return np.array(parts, dtype=np.int64)


def without(cloth: Cloth, kept: Truth) -> Cloth:
    """A piece of which only some stitches are seen."""
    if kept.all():
        return cloth
    legs = kept[cloth.leg[:, 0]]
    return replace(
        cloth,
        shown=cloth.shown & kept,
        leg=cloth.leg[legs],
        beside=cloth.beside[legs],
        part=cloth.part[legs],
        leg_order=cloth.leg_order[legs],
        leg_shares=cloth.leg_shares[legs],
        foot_order=cloth.foot_order[legs],
        feet=cloth.feet[legs],
        reach=cloth.reach[kept[cloth.reach[:, 0]]],
    )


def _ways(graph: FabricGraph) -> tuple[Whole, Whole]:
    """(n,) the direction of the row of each node, and (n,) its number within the row."""
    way = np.ones(graph.size, dtype=np.int64)
    number = np.zeros(graph.size, dtype=np.int64)
    for course in graph.courses:
        way[course.nodes] = course.direction
        number[course.nodes] = np.arange(course.number)
    return way, number


def _neighbours(graph: FabricGraph) -> tuple[Whole, Whole]:
    """(n,) the node worked before each in its row, and (n,) the one behind; -1 for none."""
    before = np.arange(graph.size) - 1
    behind = np.arange(graph.size) + 1
    for course in graph.courses:
        if not course.number:
            continue
        first, last = course.first, course.first + course.number - 1
        closed = course.closed and course.number > 2
        before[first] = last if closed else -1
        behind[last] = first if closed else -1
    return before, behind


def _forms(graph: FabricGraph, naming: Naming) -> tuple[tuple[str, ...], Whole]:
    """The forms that occur, and (n,) which of them each node has."""
    of_name = [
        form_of(name, naming.own, naming.heights.of.get(name, naming.heights.usual))
        for name in graph.names
    ]
    forms = tuple(dict.fromkeys(of_name))
    numbers = np.array([forms.index(form) for form in of_name], dtype=np.int64)
    return forms, numbers[graph.name] if len(numbers) else graph.name


def _one_for_a_gap(leg: Whole, part: Whole) -> tuple[Whole, Whole, Whole]:
    """The legs with one for a stitch in the gap between two others, and that other one."""
    gap = part == PARTS.index(Into.BEFORE)
    second = np.zeros(len(leg), dtype=bool)
    second[1:] = gap[1:] & gap[:-1] & (leg[1:, 0] == leg[:-1, 0])
    beside = np.full(len(leg), -1)
    beside[np.flatnonzero(second) - 1] = leg[second, 1]
    return leg[~second], beside[~second], part[~second]


def _places_shared(
    leg: Whole, row: Whole, position: Complex, view: int
) -> tuple[Whole, Whole]:
    """The number of each leg among those of its row in one place, from the left; of which.

    The order is that in which the tops lie about the place, seen from it.
    """
    number = len(row) + 1
    place = row[leg[:, 0]] * number + leg[:, 1]
    _, which, often = np.unique(place, return_inverse=True, return_counts=True)
    several = often[which] > 1
    order = np.zeros(len(leg), dtype=np.int64)
    if several.any():
        at = np.flatnonzero(several)
        side = _from_the_left(leg[at], which[at], position, view)
        sorted_ = at[np.lexsort((side, which[at]))]
        starts = np.flatnonzero(np.append(True, np.diff(which[sorted_]) != 0))
        lengths = np.diff(np.append(starts, len(sorted_)))
        order[sorted_] = np.arange(len(sorted_)) - np.repeat(starts, lengths)
    return order, often[which]


def _from_the_left(
    leg: Whole, which: Whole, position: Complex, view: int
) -> NDArray[np.float64]:
    """How far to the right of the middle of its place each leg goes, as an angle."""
    out = position[leg[:, 0]] - position[leg[:, 1]]
    mean = np.zeros(int(which.max()) + 1, dtype=complex)
    np.add.at(mean, which, out / np.maximum(np.abs(out), 1e-9))
    side: NDArray[np.float64] = -view * np.angle(out * np.conj(mean[which]))
    return side


def _feet(leg: Whole, way: Whole) -> tuple[Whole, Whole]:
    """The number of each leg among those of its stitch, from the left, and of how many."""
    _, first, which, often = np.unique(
        leg[:, 0], return_index=True, return_inverse=True, return_counts=True
    )
    order = np.arange(len(leg)) - first[which]
    feet = often[which]
    return np.where(way[leg[:, 0]] > 0, feet - 1 - order, order), feet
