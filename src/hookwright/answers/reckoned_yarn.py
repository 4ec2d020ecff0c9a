"""How much yarn does a piece take by its stitches: grown, or with what a maker has?

What is listed stays what is asked for. By the stitches (`yarn/`) is reckoned how much
more or less another number of repeats and rows takes, edgings and stripes among it, and how
large a piece some balls make.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec.structs import replace

from hookwright.answers.listed_yarn import Needed
from hookwright.answers.reckoned_size import reckoned_size
from hookwright.checking import Checked
from hookwright.design.facts import Noted
from hookwright.yarn.facts import ColourNeed, Reach, SizeNeed
from hookwright.yarn.joining import row_lengths
from hookwright.yarn.known import known_yarns
from hookwright.yarn.planning import yarn_plan
from hookwright.yarn.sizes import sizes_counted
from hookwright.yarn.stripes import in_stripes, sequence_of


def label_of(reckoned: SizeNeed, need: Needed) -> str:
    """What a colour is called where it is reckoned; "" where none is certain."""
    for one in reckoned.colours:
        if need.letter and need.letter in {one.yarn.label, *one.yarn.names}:
            return one.yarn.label
    return reckoned.colours[0].yarn.label if len(reckoned.colours) == 1 else ""


def times_as_much(
    checked: Checked, size: int, repeats: int | None, rows: int | None
) -> dict[str, Fraction]:
    """How many times as much of each colour other repeats and rows take, by its label.

    Empty where the text cannot be counted in other sizes.
    """
    sizes = sizes_counted(checked, None, None)
    plan = yarn_plan(checked)
    reckoned = reckoned_size(checked, plan, size)
    if sizes.resizer is None or not sizes.resizer.body or reckoned is None:
        return {}
    known = known_yarns(checked)
    stripes = sequence_of(checked, known)
    asked = sizes.resizer.sized(repeats, rows)
    there = sizes.resizer.sized(None, None)
    found: dict[str, Fraction] = {}
    for label, law in plan.laws:
        new, now = (
            sum(
                row_lengths(in_stripes(own, stripes, known, sizes.body), label, law),
                Fraction(0),
            )
            for own in (asked, there)
        )
        if now:
            found[label] = new / now
    return found


def by_the_stitches(checked: Checked, size: int) -> SizeNeed | None:
    """What a size takes by its stitches; None where nothing tells."""
    return reckoned_size(checked, yarn_plan(checked), size)


def colour_of(reckoned: SizeNeed | None, need: Needed) -> ColourNeed | None:
    """What a colour takes of that; None where nothing tells."""
    if reckoned is None:
        return None
    label = label_of(reckoned, need)
    return next((one for one in reckoned.colours if one.yarn.label == label), None)


def largest_with(checked: Checked, balls: Mapping[str, Fraction]) -> tuple[Reach, ...]:
    """The largest pieces that some balls make, by the labels of their colours.

    Empty where the text cannot be counted in other sizes, or a colour is not told.
    """
    own = [
        (yarn.listed, colour)
        for yarn in known_yarns(checked).yarns
        if yarn.listed is not None
        for colour in yarn.listed.colours or (None,)
        if colour is None or colour.letter in yarn.names or colour.name in yarn.names
    ]
    labels = [yarn.label for yarn in known_yarns(checked).yarns]
    if len(own) != len(labels) or not set(labels) <= set(balls):
        return ()
    yarns = tuple(
        replace(listed, colours=(colour,) if colour else (), in_hand=balls[label])
        for (listed, colour), label in zip(own, labels, strict=True)
    )
    noted = checked.design.noted or Noted()
    design = replace(checked.design, noted=replace(noted, yarns=yarns))
    return yarn_plan(replace(checked, design=design)).reach
