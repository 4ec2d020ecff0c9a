"""Rows and edges set together by hand, and what is found beneath a row of them."""

from hookwright.working.count import Count
from hookwright.working.fabric import (
    Edge,
    Foot,
    Into,
    Place,
    Row,
    Stitch,
    plain,
    same_place,
    standings,
    turning_chain,
)
from hookwright.working.sequence import Group, Piece, Run, every, unrolled

SC = plain("sc")
DC = plain("dc")
BACK = Into.BACK_LOOP
FRONT = Into.FRONT_LOOP
INTO_SPACE = (Foot(0, 0, Into.WHOLE),)
CHAIN_3 = (turning_chain(3, "dc", counts=True),)


def row(*pieces: Piece[Stitch]) -> Row:
    return Row(pieces)


def several(kind: str, number: int, into: Into = Into.BOTH_LOOPS) -> Group[Stitch]:
    """A number of stitches in one place."""
    return Group((Run(plain(kind, into)), Run(same_place(kind, into), number - 1)))


def plain_edge(kind: str, number: Count) -> Edge:
    """The edge that a row of plain stitches leaves."""
    return row(Run(plain(kind), number)).edge()


def cut(edge: Edge, number: Count) -> tuple[Edge, Edge]:
    parts = edge.cut(number)
    assert parts is not None
    return parts


def rotated(edge: Edge, places: int) -> Edge:
    result = edge.rotated(places, every)
    assert result is not None
    return result


def places(edge: Edge) -> list[Place]:
    return list(unrolled(edge.line, 10_000))


def reached(rows: list[Row], number: int, step: int, *, turned: bool) -> tuple[int, int]:
    """The row, and the head along it, that foot `step` of row `number` stands on.

    Down the feet, never by index; a turned row meets the one below from its other end.
    """
    foot = standings(rows[number])[step]
    place = foot.foot
    for below in range(number - 1, number - 1 - foot.down, -1):
        head = _head(rows[below], place, turned=turned)
        place = next(s.foot for s in standings(rows[below]) if s.head == head)
    last = number - 1 - foot.down
    return last, _head(rows[last], place, turned=turned)


def _head(below: Row, place: int, *, turned: bool) -> int:
    return len(places(below.edge())) - 1 - place if turned else place
