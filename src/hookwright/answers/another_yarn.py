""" "May I use another yarn?": how many balls of it, by length."""

from __future__ import annotations

from fractions import Fraction

from hookwright.answers.enough import balls_for
from hookwright.answers.facts import Figure, Reply
from hookwright.answers.listed_yarn import Needed, listed_yarn
from hookwright.answers.yarn_told import YARD_M, Ball, ball_told
from hookwright.checking import Checked
from hookwright.design.cautions import caution
from hookwright.sizing.lengths import NoLength

_QUESTION = "Another yarn"
_OTHER_THICKNESS = Fraction(15, 100)
"""Metres to the gram that differ by more make another fabric; common practice, no
source."""


def another_yarn(checked: Checked, size: int, words: str) -> Reply:
    """A reply with the balls of another yarn for each colour.

    Args:
        checked: The pattern.
        size: The size she makes, from 0.
        words: What is on the band of her yarn: "100 g = 240 m".
    """
    ball = ball_told(words)
    if isinstance(ball, NoLength):
        return Reply(_QUESTION, (ball.message, ball.why), answered=False)
    needs = [need for need in listed_yarn(checked, size) if need.metres is not None]
    if not needs:
        why = "The materials do not tell how many balls of how many metres are needed."
        return Reply(_QUESTION, (why,), answered=False)
    told = [f"{_balls(need, ball)} of {need.name}" for need in needs]
    answer = [f"You need {', '.join(told)}.", *_thickness(needs[0], ball)]
    working = [_worked_out(need, ball) for need in needs]
    figures: list[tuple[str, Figure]] = [
        (f"balls {need.name}", balls_for(need.metres, ball.metres))
        for need in needs
        if need.metres is not None
    ]
    return Reply(
        _QUESTION, tuple(answer), tuple(working), (caution("dye_lot"),), tuple(figures)
    )


def _balls(need: Needed, ball: Ball) -> str:
    assert need.metres is not None
    number = balls_for(need.metres, ball.metres)
    return f"{number} {'ball' if number == 1 else 'balls'}"


def _worked_out(need: Needed, ball: Ball) -> str:
    assert need.metres is not None
    assert need.ball_m is not None
    number = need.metres / ball.metres
    return (
        f"{need.name}: {float(need.wanted):.3g} x {float(need.ball_m):g} m = "
        f"{float(need.metres):,.0f} m ({float(need.metres / YARD_M):,.0f} yd); divided by "
        f"{float(ball.metres):,.0f} m ({float(ball.metres / YARD_M):,.0f} yd) a ball that "
        f"is {float(number):.2f}, rounded up."
    )


def _thickness(need: Needed, ball: Ball) -> tuple[str, ...]:
    swatch = "Make a swatch first, and wash it as the piece will be washed."
    if ball.grams is None or need.ball_m is None or need.ball_g is None:
        return (
            (
                "Compare the weight on both bands as well: length alone says nothing of "
                "how thick a yarn is."
            ),
            swatch,
        )
    own, hers = need.ball_m / need.ball_g, ball.metres / ball.grams
    if abs(hers / own - 1) <= _OTHER_THICKNESS:
        return (f"It is about as thick as the yarn of the pattern. {swatch}",)
    which = "thinner" if hers > own else "thicker"
    return (
        (
            f"It is {which} than the yarn of the pattern: {float(hers):.2f} m to the gram "
            f"against {float(own):.2f}. Size and drape change, and so may the amount. "
            f"{swatch}"
        ),
    )
