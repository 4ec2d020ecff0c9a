"""Which part of a chart is the repeat, and how is all but one of it left out?

A fabric that repeats lies over itself when it is moved by a repeat. So the chart of one
repeat with its edges is the whole one with a band cut out of its middle, as broad as all
repeats but one, and the sides moved together; of rows that are worked over and over whole
sets are left out in the same way.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from hookwright.drawing.lying import Lying
from hookwright.drawing.round_repeat import first_repeat, repeats_round
from hookwright.drawing.row_ends import on_row_ends, under
from hookwright.shape.columns import Real, Truth
from hookwright.shape.energy import Complex
from hookwright.shape.graph import Laid
from hookwright.shape.row_repeat import longest_repeat
from hookwright.working.fabric import Stitch
from hookwright.working.sequence import Line, Run

_MOST_IN_A_SET = 24
_ROWS_LEFT = 4
"""A chart that would have no more rows than these is not cut."""


class Across(Struct, frozen=True):
    """The repeat along the rows of a piece.

    Attributes:
        stitches: How many nodes one has.
        times: How often it is worked.
        wide: How wide it lies, in widths.
        right: Where the first one begins in a row from right to left, as x.
        share: How much of the whole breadth of the rows it is.
    """

    stitches: int
    times: int
    wide: float
    right: float
    share: float


class Up(Struct, frozen=True):
    """Rows that are worked over and over.

    Attributes:
        first: The course they begin with.
        rows: How many are one set.
        times: How often the set is worked.
        move: From one set to the next, in widths.
    """

    first: int
    rows: int
    times: int
    move: complex


class Cut(Struct, frozen=True, eq=False):
    """What is drawn of a piece.

    Attributes:
        rows: The courses that are drawn.
        keep: (n,) which nodes are drawn.
        move: (n,) complex, by how much each is moved, in widths.
        said: What is to be said of it, in a sentence; "" for nothing.
    """

    rows: frozenset[int]
    keep: Truth
    move: Complex
    said: str = ""


def across_of(piece: Lying) -> Across | None:
    """The repeat along the rows; None where nothing repeats, or all goes in rounds."""
    found: list[tuple[Laid, tuple[int, int, int]]] = []
    outcomes = iter(piece.outcomes)
    for course in piece.graph.courses:
        outcome = next(outcomes) if course.row else None
        if outcome is not None and not course.closed:
            repeat = longest_repeat(outcome)
            if repeat is not None:
                found.append((course, repeat))
    if not found or any(course.own_chains for course in piece.graph.courses):
        return None  # rows that go out beyond the last run aslant over one another
    course, (start, nodes, times) = found[len(found) // 2]
    at = course.first + start + np.arange(nodes * (times - 1))
    x = piece.position.real
    if at[-1] + nodes >= course.first + course.number:
        at = at[at + nodes < course.first + course.number]
    steps = x[at + nodes] - x[at]
    wide = float(abs(steps.mean()))
    inner = slice(course.first + start, course.first + start + nodes * times)
    own = np.sort(x[inner])
    beyond = x[course.nodes][x[course.nodes] > own[-1]]
    edge = (own[-1] + beyond.min()) / 2 if len(beyond) else own[-1] + 0.5
    share = wide / float(np.ptp(x[course.nodes]))
    return Across(nodes, times, wide, float(edge), share)


def up_of(piece: Lying) -> Up | None:
    """The rows that are worked over and over; None where none are."""
    keys = _keys(piece)
    best: Up | None = None
    for rows in range(1, _MOST_IN_A_SET + 1):
        same = [a == b for a, b in zip(keys, keys[rows:], strict=False)]
        first, long = _longest_run(same)
        times = (long + rows) // rows
        if times < 3 or (best is not None and rows * times <= best.rows * best.times):
            continue
        courses = piece.graph.courses
        one, other = (
            piece.position[courses[at].nodes].mean() for at in (first, first + rows)
        )
        best = Up(first, rows, times, complex(other - one))
    return best


def _keys(piece: Lying) -> list[object]:
    """What each course is, so that courses worked alike are the same."""
    found: list[object] = []
    outcomes = iter(piece.outcomes)
    for course, front in zip(piece.graph.courses, piece.front, strict=True):
        outcome = next(outcomes) if course.row else None
        line = outcome.worked.row.line if outcome is not None and outcome.worked else ()
        found.append(
            (_bare(line), bool(front), course.closed, course.number, course.row > 0)
        )
    return found


def _bare(line: Line[Stitch]) -> tuple[object, ...]:
    """A line without its words and yarns."""
    return tuple(
        (piece.item, piece.times)
        if isinstance(piece, Run)
        else (_bare(piece.body), getattr(piece, "times", 1))
        for piece in line
    )


def _longest_run(same: Sequence[bool]) -> tuple[int, int]:
    """Where the longest stretch of True begins, and how long it is."""
    best, begun = (0, 0), 0
    for at, equal in enumerate([*same, False]):
        if not equal:
            if at - begun > best[1]:
                best = begun, at - begun
            begun = at + 1
    return best


def whole(piece: Lying) -> Cut:
    """All of a piece."""
    size = piece.graph.size
    return Cut(
        frozenset(range(len(piece.graph.courses))),
        np.ones(size, dtype=bool),
        np.zeros(size, dtype=complex),
    )


def one_repeat(piece: Lying) -> Cut:
    """One repeat with its edges, and one set of the rows that are worked over and over."""
    cut = whole(piece)
    if piece.rounds:
        return _sector(piece, cut)
    across, up = across_of(piece), up_of(piece)
    if across is not None:
        cut = _narrow(piece, cut, across)
    if up is not None and len(piece.graph.courses) > _ROWS_LEFT:
        cut = _short(piece, cut, up)
    return cut


def _sector(piece: Lying, cut: Cut) -> Cut:
    """The first repeat of each round, or all of a piece that has none."""
    number = 0 if piece.closing else repeats_round(piece)
    if not number:
        said = (
            "Its rounds are not made of one repeat all the way round: all of it is drawn."
        )
        return Cut(cut.rows, cut.keep, cut.move, said)
    said = (
        f"Of each round its beginning and one repeat are drawn: {number} repeats go all "
        "the way round."
    )
    return Cut(cut.rows, first_repeat(piece, number), cut.move, said)


def _narrow(piece: Lying, cut: Cut, across: Across) -> Cut:
    """With a band cut out of the middle, where it takes the same number from each row."""
    x = piece.position.real
    broad = across.wide * (across.times - 1)
    middle = (x.min() + x.max() - broad) / 2
    keep, move = cut.keep.copy(), cut.move.copy()
    below, courses = under(piece.graph), piece.graph.courses
    cuts = [
        _gone(x[course.nodes], many, middle)
        for course, many in zip(courses, _lost(piece, across), strict=True)
    ]
    for number, course in enumerate(courses):
        own, gone = x[course.nodes], cuts[number]
        if course.closed and number:
            base = below[course.nodes]
            keep[course.nodes] &= keep[base]
            move[course.nodes] = move[base]
        if gone is None:
            continue
        first, many, by = gone
        keep[course.first + first : course.first + first + many] = False
        side = np.arange(len(own)) < first
        if own[0] > own[-1]:
            side = ~side
        move[course.nodes] += np.where(side, by, 0.0)
    return Cut(cut.rows, keep, move)


def _lost(piece: Lying, across: Across) -> list[int]:
    """How many nodes each course loses.

    A row that repeats loses whole repeats, any other as large a share of its stitches as
    the nearest one that does. A round loses none.
    """
    outcomes = iter(piece.outcomes)
    share = across.share * (across.times - 1)
    told: dict[int, int] = {}
    courses = piece.graph.courses
    for number, course in enumerate(courses):
        outcome = next(outcomes) if course.row else None
        repeat = longest_repeat(outcome) if outcome is not None else None
        if repeat is not None and not course.closed:
            told[number] = repeat[1] * round(share * (course.number - 1) / repeat[1])
    found = []
    for number, course in enumerate(courses):
        near = min(told, key=lambda other: abs(other - number), default=None)
        if course.closed or near is None:
            found.append(0)
            continue
        share = course.number / courses[near].number
        alike = abs(course.number - courses[near].number) <= _ALIKE
        found.append(told[near] if alike else round(told[near] * share))
    return found


_ALIKE = 2
"""Rows whose numbers differ by no more stand stitch on stitch, apart from the ends."""


def _gone(own: Real, many: int, left: float) -> tuple[int, int, float] | None:
    """What is cut out of a row: its first node, how many, how far that brings the rest."""
    if len(own) < 2:
        return None
    rising = own if own[-1] > own[0] else own[::-1]
    begin = int(np.searchsorted(rising, left))
    if many < 1 or begin + many >= len(own):
        return None
    by = float(rising[begin + many] - rising[begin])
    first = begin if own[-1] > own[0] else len(own) - begin - many
    return first, many, by


def _short(piece: Lying, cut: Cut, up: Up) -> Cut:
    """With all sets of rows left out but the first one."""
    gone_from, sets = up.first + up.rows, up.times - 1
    gone = range(gone_from, gone_from + up.rows * sets)
    graph = piece.graph
    ends = (graph.courses[gone.stop - 1], graph.courses[gone_from - 1])
    there = piece.position + cut.move
    high, low = (there[course.nodes][cut.keep[course.nodes]].mean() for course in ends)
    fall = complex(low - high)
    keep, down = cut.keep.copy(), np.zeros(graph.size, dtype=complex)
    below, sides = under(graph), on_row_ends(graph)
    for number, course in enumerate(graph.courses):
        nodes = course.nodes
        if number in gone:
            keep[nodes] = False
        elif number > gone.stop - 1:
            base = below[nodes]
            at = graph.row[np.maximum(base, 0)]
            # An edging goes with what it stands on; its sides lose the rows that are gone.
            top = (at == gone.stop - 1) & ~sides[nodes]
            keep[nodes] &= ~(np.isin(at, gone) & ~top)
            down[nodes] = np.where(top, fall, down[base])
    return Cut(cut.rows - frozenset(gone), keep, cut.move + down)
