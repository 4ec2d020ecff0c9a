"""How many balls does a piece of another size ask for?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from hookwright.answers.enough import balls_for
from hookwright.answers.listed_yarn import Needed, listed_yarn
from hookwright.answers.reckoned_size import reckoned_size
from hookwright.answers.reckoned_yarn import label_of, times_as_much
from hookwright.checking import Checked
from hookwright.sizing.made import Made
from hookwright.yarn.planning import yarn_plan


class GrownYarn(Struct, frozen=True):
    """A colour in another size.

    Attributes:
        need: What the pattern lists of it.
        share: How many times as much is taken.
        by_stitches: Whether that is reckoned from the stitches, not only from the area.
        balls: Whole balls of it.
    """

    need: Needed
    share: Fraction
    by_stitches: bool
    balls: int


def grown_yarn(
    checked: Checked, size: int, now: Made | None, made: Made
) -> Iterator[GrownYarn]:
    """The listed balls of each colour, as many times as the piece takes more or less.

    By its stitches, row by row; where the text cannot be counted in other sizes, by the
    area, which takes edgings to grow as the piece does.
    """
    needs = listed_yarn(checked, size)
    if not needs:
        return
    grown = times_as_much(checked, size, made.repeats, made.rows)
    reckoned = reckoned_size(checked, yarn_plan(checked), size) if grown else None
    area = _area(made, now)
    for need in needs:
        label = label_of(reckoned, need) if reckoned is not None else ""
        share = grown.get(label, area)
        if share is not None:
            balls = balls_for(need.wanted * share, Fraction(1))
            yield GrownYarn(need, share, label in grown, balls)


def _area(made: Made, now: Made | None) -> Fraction | None:
    if now is None or made.width is None or now.width is None:
        return None
    wide = made.width.mm / now.width.mm
    if made.height is None or now.height is None:
        return wide
    return wide * made.height.mm / now.height.mm
