"""How much yarn does a pattern ask for, in each colour and size?

It is what the materials list: whole balls, so up to a ball more than is used. Where they
list none, it is what is reckoned from the stitches.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from hookwright.answers.reckoned_size import reckoned_size
from hookwright.checking import Checked
from hookwright.design.facts import YarnListed
from hookwright.regex import regex
from hookwright.yarn.facts import YarnPlan
from hookwright.yarn.planning import yarn_plan

_BALLS = regex(
    r"(?P<first>\d+(?:\.\d+)?)\s*(?:[(\[](?P<rest>[\d,.\s;-]+)[)\]])?\s*"
    r"(?:balls?|skeins?|hanks?|cakes?|cones?)\b"
    r"(?:\s+of\s+(?P<name>(?-i:[A-Z])[\w'’]*(?: (?-i:[A-Z])[\w'’]*)*))?",
    re.IGNORECASE,
)


class Needed(Struct, frozen=True):
    """A colour that is needed.

    Attributes:
        name: What it is called: "A (Rust)"; "yarn" where it has no name.
        balls: How many balls are listed, or to be had: whole ones.
        ball_m: Metres in a ball; None where that is not told.
        ball_g: Grams in a ball; None where that is not told.
        letter: Its letter in the rows; "" if it has none.
        exact: The balls that are to be had, not rounded up; None where they are listed.
    """

    name: str
    balls: Fraction
    ball_m: Fraction | None
    ball_g: Fraction | None
    letter: str = ""
    exact: Fraction | None = None

    @property
    def wanted(self) -> Fraction:
        """How many balls it takes, as exactly as is known."""
        return self.balls if self.exact is None else self.exact

    @property
    def metres(self) -> Fraction | None:
        """How many metres that is."""
        return self.wanted * self.ball_m if self.ball_m is not None else None

    @property
    def grams(self) -> Fraction | None:
        """How many grams that is."""
        return self.wanted * self.ball_g if self.ball_g is not None else None


def listed_yarn(
    checked: Checked, size: int, plan: YarnPlan | None = None
) -> tuple[Needed, ...]:
    """The colours that the materials list, with what is needed of each in a size.

    Args:
        checked: The pattern.
        size: The number of the size.
        plan: The yarn of the pattern, where it is reckoned already.
    """
    found = [one for yarn in checked.design.yarns for one in _colours(checked, yarn, size)]
    return tuple(found) or tuple(_reckoned(checked, size, plan or yarn_plan(checked)))


def _reckoned(checked: Checked, size: int, plan: YarnPlan) -> Iterator[Needed]:
    """The balls that are reckoned, where the materials list none."""
    own = reckoned_size(checked, plan, size)
    for one in own.colours if own is not None else ():
        listed = one.yarn.listed
        if one.balls is not None and listed is not None:
            yield Needed(
                one.yarn.told, Fraction(one.balls), listed.ball_m, listed.ball_g,
                one.yarn.label, one.bought / one.yarn.ball_mm if one.yarn.ball_mm else None,
            )  # fmt: skip


def _colours(checked: Checked, yarn: YarnListed, size: int) -> Iterator[Needed]:
    told = [colour for colour in yarn.colours if colour.balls]
    for colour in told:
        balls = colour.balls[0] if len(colour.balls) == 1 else _at(colour.balls, size)
        if balls is None:
            continue
        named = f"{colour.letter} ({colour.name})" if colour.letter and colour.name else ""
        name = named or colour.name or colour.letter or "yarn"
        yield Needed(name, balls, yarn.ball_m, yarn.ball_g, colour.letter)
    if told:
        return
    words = checked.source.slice(yarn.span)
    for match in _BALLS.finditer(words):
        numbers = [match["first"], *re.findall(r"\d+(?:\.\d+)?", match["rest"] or "")]
        balls = Fraction(numbers[min(size, len(numbers) - 1)])
        yield Needed(match["name"] or yarn.name or "yarn", balls, yarn.ball_m, yarn.ball_g)
        return


def _at(values: tuple[Fraction | None, ...], size: int) -> Fraction | None:
    return values[size] if size < len(values) else None
