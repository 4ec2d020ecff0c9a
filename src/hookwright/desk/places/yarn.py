"""The yarn: what each colour takes in each size, in balls, and how full the last one is."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hookwright.desk import told
from hookwright.desk.asked import Asked
from hookwright.source import Span
from hookwright.yarn.facts import Basis, ColourNeed, Estimate, Reach, SizeNeed
from hookwright.yarn.planning import Request, yarn_plan

_METRE, _YARD = Fraction(1000), Fraction(9144, 10)
_STANDS_ON = {
    Basis.SWATCH: "your weighed swatch",
    Basis.PRIOR: "the usual length of a loop, for no swatch was weighed",
}


def answer(asked: Asked) -> dict[str, Any]:
    """The yarn of every size, and what the balls in hand make."""
    asked.tell({"said": "Counting every loop."})
    plan = yarn_plan(asked.checked, Request(None, None, None, None))
    return {
        "sizes": [_size(need) for need in plan.sizes],
        "in_hand": [_reach(reach) for reach in plan.reach],
        "told": [*plan.told, *plan.asked],
        "findings": told.findings((*plan.noted, *plan.of_pattern)),
        "words": asked.spans(_words(asked)),
    }


def _words(asked: Asked) -> list[Span]:
    """What the text says of its yarns."""
    return [colour.span for colour in asked.checked.design.colours]


def _size(need: SizeNeed) -> dict[str, Any]:
    return {
        "name": need.counted.name,
        "colours": [_colour(colour) for colour in need.colours],
        "basis": _STANDS_ON[need.basis],
        "length": _long(need.length),
        "cost": [f"{cost} {money}" for money, cost in need.cost],
        "lots": list(need.lots),
        "short": list(need.short),
    }


def _colour(need: ColourNeed) -> dict[str, Any]:
    return {
        "label": need.yarn.label,
        "told": need.yarn.told,
        "length": _long(need.length),
        "balls": need.balls,
        "to_buy": need.to_buy,
        "last": _last_ball(need),
        "ends": need.ends,
        "how": list(need.said),
    }


def _last_ball(need: ColourNeed) -> float | None:
    """How much of the last ball is used, from 0 to 1; None where a ball has no length."""
    ball = need.yarn.ball_mm
    if need.balls is None or ball is None:
        return None
    last = float(need.bought / ball) - (need.balls - 1)
    return round(min(max(last, 0.0), 1.0), 3)


def _long(length: Estimate) -> dict[str, Any]:
    """A length of yarn in words in both units, in whole metres and yards."""
    return {
        "mm": float(length.mid),
        "cm": f"{round(length.mid / _METRE)} m",
        "in": f"{round(length.mid / _YARD)} yd",
    }


def _reach(reach: Reach) -> dict[str, Any]:
    return {
        "of": reach.of,
        "rows": reach.rows,
        "width": told.length(reach.width_mm),
        "height": told.length(reach.height_mm),
        "limit": reach.limit,
    }
