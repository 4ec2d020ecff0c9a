"""Of rounds one repeat is drawn with where each begins, or it is said that there is none."""

from __future__ import annotations

import numpy as np
from charted import HEAD, chart, charts, example

from hookwright.drawing.chart import Chart
from hookwright.drawing.chart_words import notes_of

DISC = HEAD + (
    "Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
    "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18 sc)\n"
    "Rnd 4: *Sc in next 2 sts, 2 sc in next st; rep from * around. (24 sc)\n"
    "Rnd 5: *Sc in next 3 sts, 2 sc in next st; rep from * around. (30 sc)\n"
)
ODD = HEAD + (
    "Rnd 1 (RS): 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
    "Rnd 3: Sc in next 7 sts, 2 sc in next st, sc in next 4 sts. (13 sc)\n"
)


def said(drawn: Chart) -> str:
    return " ".join(notes_of(drawn.piece, drawn.cut, drawn.frame, "", striped=False))


def test_a_disc_of_six_increases_a_round_shows_a_sixth() -> None:
    drawn = chart(DISC, repeat=True)
    assert "one repeat are drawn: 6 repeats go all the way round." in said(drawn)
    for course in drawn.piece.graph.courses[2:]:
        # A sixth, the stitch behind it, and the last one, on which the round ends.
        assert int(drawn.cut.keep[course.nodes].sum()) == course.number // 6 + 2


def test_the_repeat_of_a_disc_fills_about_a_sixth_of_the_turn() -> None:
    drawn = chart(DISC, repeat=True)
    at = drawn.piece.position - drawn.piece.position[0]
    last = drawn.piece.graph.courses[-1].nodes
    kept = at[last[drawn.cut.keep[last]]]
    turns = np.degrees(np.angle(kept / kept[0]))
    # From the last stitch of the round to the one behind the repeat: 7 steps of 12 degrees.
    assert np.ptp(turns) <= 84 + 4


def test_a_square_whose_first_corner_is_told_apart_has_four_repeats() -> None:
    whole, one = example("kelp-square")
    assert "4 repeats" in said(one)
    assert len(one.marks) < 0.45 * len(whole.marks)
    # Every round keeps its number, where it is begun.
    assert [head.number for head in one.heads] == [head.number for head in whole.heads]


def test_rounds_without_a_repeat_are_drawn_whole_and_that_is_said() -> None:
    whole, one = charts(ODD)[0], charts(ODD, repeat=True)[0]
    assert len(one.marks) == len(whole.marks)
    assert "not made of one repeat" in said(one)
    assert "not made of one repeat" not in said(whole)
