"""A ball is charted as two discs, so that its closing rounds can be read."""

from __future__ import annotations

import numpy as np
from charted import HEAD, chart
from overlapping import overlaps

BALL = (
    f"{HEAD}Work in a spiral.\n\nMagic ring.\n"
    "Rnd 1: 6 sc in ring. (6 sc)\n"
    "Rnd 2: 2 sc in each st around. (12 sc)\n"
    "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)\n"
    "Rnd 4: Sc in each st around. (18 sc)\n"
    "Rnd 5: Sc in each st around. (18 sc)\n"
    "Rnd 6: *Sc in next st, sc2tog; rep from * around. (12 sc)\n"
    "Rnd 7: Sc2tog around. (6 sc)\n"
)
CAP = "".join(BALL.partition("Rnd 6")[:1])


def test_the_closing_rounds_of_a_ball_lie_inside_one_another_on_a_second_disc() -> None:
    piece = chart(BALL).piece
    courses = piece.graph.courses
    # Rounds 3 to 5 are the widest: it is cut behind the one amid them.
    assert [c.number for c in courses[piece.closing :]] == [18, 12, 6]
    first = piece.position[courses[0].nodes].mean()
    second = piece.position[courses[-1].nodes].mean()
    out = [np.abs(piece.position[c.nodes] - first).max() for c in courses[: piece.closing]]
    inwards = [
        np.abs(piece.position[c.nodes] - second).max() for c in courses[piece.closing :]
    ]
    assert out == sorted(out)
    assert inwards == sorted(inwards, reverse=True)
    assert abs(second - first) > out[-1] + inwards[0]


def test_no_symbol_of_a_ball_is_drawn_out_or_lies_on_another() -> None:
    drawn = chart(BALL)
    assert overlaps(drawn.marks) == []
    points = [np.array([p for quad in m.glyph.boxes for p in quad]) for m in drawn.marks]
    long = [max(np.ptp(p.real), np.ptp(p.imag)) / drawn.unit for p in points]
    assert max(long) < 3


def test_a_cap_that_stays_open_is_one_disc() -> None:
    assert chart(CAP).piece.closing == 0
