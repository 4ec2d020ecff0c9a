"""What `yarn --json` prints: what each colour takes, as plain values for programs.

Lengths are in metres and weights in grams, each as [low, likeliest, high]; what a ball
costs is a number with its currency beside it. What is not known is null.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from hookwright.answer import found_in_pattern, found_in_worksheet
from hookwright.checking import Checked
from hookwright.yarn.facts import (
    ColourNeed,
    Estimate,
    Join,
    LoopLength,
    Reach,
    SizeNeed,
    YarnPlan,
)

_METRE = 1000


def yarn_answer(checked: Checked, plan: YarnPlan) -> dict[str, Any]:
    """The yarn of a pattern as an object for programs."""
    return {
        "name": checked.source.name,
        "from_row": plan.from_row,
        "sizes": [_size(need) for need in plan.sizes],
        "loops": [
            {
                "colour": label,
                **_loop(law.common),
                "of_stitches": {kind: _loop(own) for kind, own in law.own},
            }
            for label, law in plan.laws
        ],
        "in_hand": [_reach(reach) for reach in plan.reach],
        "told": list(plan.told),
        "asked": list(plan.asked),
        "findings": list(_findings(checked, plan)),
    }


def _size(need: SizeNeed) -> dict[str, Any]:
    size = need.counted
    return {
        "name": size.name,
        "colours": [_colour(colour) for colour in need.colours],
        "basis": str(need.basis),
        "length_m": _metres(need.length),
        "weight_g": _grams(need.weight),
        "cost": [{"currency": money, "cost": float(cost)} for money, cost in need.cost],
        "repeats": size.repeats,
        "rows": len(size.rows),
        "width_mm": _number(size.width_mm),
        "height_mm": _number(size.height_mm),
        "enough_in_hand": need.enough,
        "short": list(need.short),
        "lots": list(need.lots),
    }


def _colour(need: ColourNeed) -> dict[str, Any]:
    listed = need.yarn.listed
    return {
        "colour": need.yarn.label,
        "name": need.yarn.told,
        "length_m": _metres(need.length),
        "weight_g": _grams(need.weight),
        "balls": need.balls,
        "to_buy": need.to_buy,
        "instead": need.instead,
        "cost": float(need.cost) if need.cost is not None else None,
        "currency": (listed.currency or None) if listed is not None else None,
        "ends": need.ends,
        "lengths_cut": need.lengths_cut,
        "leftover_m": _number(need.leftover, _METRE),
        "leftover_g": _number(need.leftover_g),
        "to_have_m": _number(need.bought, _METRE),
        "rows": need.rows,
        "stitches": [
            {
                "stitch": use.kind,
                "number": _number(Fraction(use.number)),
                "loops": use.loops,
            }
            for use in need.uses
        ],
        "of": {str(section): _metres(length) for section, length in need.of_section},
        "tails_m": _number(need.tails, _METRE),
        "joins": [_join(join) for join in need.joins],
        "how": list(need.said),
    }


def _join(join: Join) -> dict[str, Any]:
    inside = bool(join.stripe[0])
    return {
        "ball": join.ball,
        "row": join.row,
        "earliest": join.earliest,
        "latest": join.latest,
        "inside_stripe": list(join.stripe) if inside else None,
    }


def _loop(loop: LoopLength) -> dict[str, Any]:
    return {
        "loop_mm": _number(loop.mm),
        "spread": _number(loop.spread),
        "basis": str(loop.basis),
        "how": list(loop.said),
    }


def _reach(reach: Reach) -> dict[str, Any]:
    return {
        "of": reach.of,
        "repeats": reach.repeats,
        "rows": reach.rows,
        "width_mm": _number(reach.width_mm),
        "height_mm": _number(reach.height_mm),
        "limit": reach.limit or None,
    }


def _findings(checked: Checked, plan: YarnPlan) -> Iterator[dict[str, Any]]:
    if checked.worksheet is not None:
        yield from found_in_worksheet(plan.noted, checked.worksheet.source)
    yield from found_in_pattern(plan.of_pattern, checked.draft)


def _metres(length: Estimate) -> list[float | None]:
    return [_number(mm, _METRE) for mm in (length.low, length.mid, length.high)]


def _grams(weight: Estimate | None) -> list[float | None] | None:
    if weight is None:
        return None
    return [_number(grams) for grams in (weight.low, weight.mid, weight.high)]


def _number(number: Fraction | int | None, unit: int = 1) -> float | None:
    """A number for programs: to a thousandth, which is finer than anybody weighs."""
    return round(float(number / unit), 3) if number is not None else None
