"""At which stitches is a piece folded that stands up, when it is laid double?

A garment at the middles of its sleeves and of the underarms below them; what goes on in
rows that leave a gap, as a bonnet does, at the gap; any other so that its rounds begin
behind.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Whole
from hookwright.shape.graph import FabricGraph, Joint, Laid
from hookwright.shape.sleeves import Left, sleeves_left, stretches_left


class Fold(Struct, frozen=True, eq=False):
    """A side at which a piece is folded.

    Attributes:
        nodes: The node of each row at which it lies.
        corners: Of a garment its corners at that side: neck, upper and lower end of the
            sleeve, underarm, lower edge; none of another piece.
        underarm: Half the chain of an underarm, which belongs to the front as well.
    """

    nodes: tuple[int, ...]
    corners: tuple[int, ...] = ()
    underarm: tuple[int, ...] = ()


def folds_of(graph: FabricGraph) -> tuple[Fold, Fold] | None:
    """The two folds, the front between them as rounds go; None for one of rows."""
    if sum(course.closed for course in graph.courses) < _SHORTEST:
        return None
    under = standing_on(graph)
    sleeves = sleeves_left(graph)
    if sleeves is not None:  # the round begins behind, so the front is between them
        one, other = sleeves
        return _at_sleeve(graph, under, one, 1), _at_sleeve(graph, under, other, -1)
    last = max(at for at, course in enumerate(graph.courses) if course.closed)
    number = graph.courses[last].number
    gap = max(stretches_left(graph, last), key=lambda left: left.number, default=None)
    if gap is not None and last + 1 < len(graph.courses):
        return _opposite(graph, under, last, gap.middle)
    step = max(1, number // _TRIES)
    tries = sorted(range(0, number, step), key=lambda begin: abs(begin - number // 4))
    begin = min(tries, key=lambda begin: _uneven(graph.courses[: last + 1], under, begin))
    return _opposite(graph, under, last, begin)


_TRIES = 60
"""How many places of a round are tried for a fold, for halves that are alike."""


def _opposite(graph: FabricGraph, under: Whole, last: int, begin: int) -> tuple[Fold, Fold]:
    """Folds at a stitch of the last round and at the one over against it."""
    end = begin + (graph.courses[last].number + 1) // 2
    return Fold(_line(graph, under, last, begin)), Fold(_line(graph, under, last, end))


def _uneven(courses: Sequence[Laid], under: Whole, begin: int) -> int:
    """By how many stitches front and back of the rounds differ, of a piece folded there.

    They are held against each other in two halves, from each of the folds.
    """
    last = courses[-1]
    lines = [
        _down(courses, under, _node(last, begin + (quarter * last.number + 2) // 4))
        for quarter in range(4)
    ]
    found = 0
    for course, *four in zip(courses, *lines, strict=True):
        if course.closed:
            ends = [*four[1:], four[0]]
            quarters = [(b - a) % course.number for a, b in zip(four, ends, strict=True)]
            for one, other in ((0, 3), (1, 2)):
                found += max(0, abs(quarters[one] - quarters[other]) - _A_FEW)
    return found


def _down(courses: Sequence[Laid], under: Whole, node: int) -> list[int]:
    """What is below a stitch of the last of some rounds, from the first of them on."""
    found = [node]
    for own, lower in pairwise(reversed(courses)):
        found.append(_below(under, found[-1], own, lower))
    return found[::-1]


_A_FEW = 1
_SHORTEST = 2
"""Rounds of a piece that is folded, at least."""


def _at_sleeve(graph: FabricGraph, under: Whole, sleeve: Left, inwards: int) -> Fold:
    """The fold at the middle of a sleeve; `inwards` is the way from there to the front."""
    at, course = sleeve.course, graph.courses[sleeve.course]
    bridge = _bridge(graph, sleeve, under)
    middle = len(bridge) // 2
    line = _line(graph, under, at, sleeve.middle, bridge[middle])
    last = sleeve.first + (sleeve.number - 1 if inwards > 0 else 0)
    below = line[min(at + 2, len(line) - 1)]
    corners = (line[0], line[at], _node(course, last), below, line[-1])
    half = bridge[middle:] if inwards > 0 else bridge[: middle + 1]
    return Fold(line, corners, tuple(half))


def _line(
    graph: FabricGraph, under: Whole, at: int, number: int, following: int | None = None
) -> tuple[int, ...]:
    """The stitches of a fold, from one of them.

    Args:
        graph: The piece.
        under: What each node stands on.
        at: The round that the stitch is of.
        number: Its number there.
        following: The stitch of the next round, where that does not stand on it.
    """
    courses = graph.courses
    nodes = _down(courses[: at + 1], under, _node(courses[at], number))
    if following is not None:
        nodes.append(following)
    for own, upper in pairwise(courses[len(nodes) - 1 :]):
        nodes.append(_above(under, nodes[-1], own, upper))
    return tuple(nodes)


def _node(course: Laid, number: int) -> int:
    return course.first + number % course.number


def standing_on(graph: FabricGraph) -> Whole:
    """(n,) a node of an earlier round that each node stands on; -1 for none."""
    stitch = graph.edge[graph.joint == int(Joint.STITCH)]
    low, high = stitch.min(axis=1), stitch.max(axis=1)
    under = np.full(graph.size, -1)
    under[high[::-1]] = low[::-1]
    return under


def _below(under: Whole, node: int, own: Laid, lower: Laid) -> int:
    """Where a fold goes on in the round below."""
    found = int(under[node])
    if lower.first <= found < lower.first + lower.number:
        return found
    return _node(lower, round((node - own.first) * lower.number / own.number))


def _above(under: Whole, node: int, own: Laid, upper: Laid) -> int:
    """Where a fold goes on in the round above: at what stands nearest to it."""
    nodes = upper.nodes
    stands = under[nodes]
    known = (stands >= own.first) & (stands < own.first + own.number)
    if not known.any():
        return _node(upper, round((node - own.first) * upper.number / own.number))
    apart = np.abs(stands[known] - node)
    apart = np.minimum(apart, own.number - apart)
    return int(nodes[known][int(apart.argmin())])


def _bridge(graph: FabricGraph, sleeve: Left, under: Whole) -> list[int]:
    """The chain of the underarm, from the stitch before the sleeve to the one behind it."""
    below, course = graph.courses[sleeve.course], graph.courses[sleeve.course + 1]
    place = np.array(
        [
            (int(under[node]) - below.first - sleeve.first) % below.number
            if below.first <= under[node] < below.first + below.number
            else -1
            for node in course.nodes
        ]
    )
    known = np.flatnonzero(place >= 0)
    behind = known[place[known].argmin()]
    before = known[place[known].argmax()]
    number = int(behind - before) % course.number
    return [_node(course, int(before) + step) for step in range(number + 1)]


def between(course: Laid, begin: int, end: int) -> Whole:
    """The nodes of a round from one fold to the other, the way the first rounds go."""
    if course.direction < 0:
        begin, end = end, begin
    number = (end - begin) % course.number
    found: Whole = (
        course.first + (begin - course.first + np.arange(number + 1)) % course.number
    )
    return found
