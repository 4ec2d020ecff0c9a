"""The colours: the palette, her rules, good orders, and one that is moved by hand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from hookwright.checking import Checked
from hookwright.colour.facts import ColourPlan, Order
from hookwright.colour.planning import colour_plan, order_of
from hookwright.colour.working_up import Worked
from hookwright.colour.written import order_written
from hookwright.design.stripes import Stripe, stripe_plans
from hookwright.design.worksheet.keys import STRIPES, Kind
from hookwright.desk.asked import Asked, changes
from hookwright.source import Span

_ORDERS = 4
_MOST_ROWS = 9_999
_MOST_STRIPES = 120
_WISHED = (Kind.YES_NO, Kind.PAIRS, Kind.TEXTS)


def answer(asked: Asked) -> dict[str, Any]:
    """The palette with its orders, or the one that was laid by hand."""
    if asked.wished.stripes:
        return _by_hand(asked)
    asked.tell({"said": "Looking for orders."})
    plan = colour_plan(asked.checked, _ORDERS, asked.wished.seed)
    return {
        "palette": _palette(plan),
        "yarns": _yarns(asked.checked),
        "wishes": list(_wishes(asked.checked)),
        "words": asked.spans(_words(asked.checked)),
        "rules": [{"rule": str(rule.kind), "says": rule.says} for rule in plan.rules],
        "orders": [_order(asked, order) for order in plan.orders],
        "own": [_order(asked, order) for order in plan.own],
        "clash": [rule.says for rule in plan.clash],
        "findings": [
            {"message": found.message, "why": found.why}
            for found in (*plan.findings, *plan.of_pattern)
        ],
        "told": list(plan.told),
    }


def _by_hand(asked: Asked) -> dict[str, Any]:
    stripes = tuple(
        Stripe(max(1, min(rows, _MOST_ROWS)), colour)
        for colour, rows in asked.wished.stripes[:_MOST_STRIPES]
    )
    times = max(1, min(asked.wished.times, _MOST_STRIPES))
    order = order_of(asked.checked, Worked(stripes, times, ()))
    if order is None:
        return {"refused": "One of these colours is not in the worksheet."}
    return {"order": _order(asked, order)}


def _yarns(checked: Checked) -> list[dict[str, str]]:
    """The yarns of the worksheet, table by table."""
    sheet = checked.worksheet
    yarns = sheet.noted.yarns if sheet is not None else ()
    colours = [next(iter(yarn.colours), None) for yarn in yarns]
    return [
        {"letter": one.letter, "name": one.name, "hex": one.code}
        if one is not None
        else {"letter": "", "name": "", "hex": ""}
        for one in colours
    ]


def _wishes(checked: Checked) -> Iterator[dict[str, Any]]:
    """Every wish that is there to be made, with what is wished of it now."""
    sheet = checked.worksheet
    stripes = sheet.noted.stripes if sheet is not None else None
    told = {} if stripes is None else msgspec.structs.asdict(stripes)
    names = {"keep_apart": "apart", "keep_together": "together"}
    for key in STRIPES.keys:
        if key.kind in _WISHED:
            now = told.get(names.get(key.name, key.name)) or None
            yield {"key": key.name, "kind": key.kind.name, "says": key.says, "now": now}


def _words(checked: Checked) -> list[Span]:
    """What the text says of its colours and its stripes."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    listed = [colour.span for colour in checked.design.colours]
    return [*listed, *(plan.span for plan in plans)]


def _palette(plan: ColourPlan) -> list[dict[str, Any]]:
    if plan.palette is None:
        return []
    return [
        {"label": shade.label, "name": shade.name, "hex": shade.code, "grey": shade.grey}
        for shade in plan.palette.shades
    ]


def _order(asked: Asked, order: Order) -> dict[str, Any]:
    written = order_written(asked.checked, order)
    worked = order.worked
    return {
        "stripes": [[stripe.colour, stripe.rows] for stripe in order.stripes],
        "proven": order.proven,
        "breaches": [breach.says for breach in order.breaches],
        "reasons": list(order.reasons),
        "line": worked.line,
        "times": worked.times,
        "rows": worked.rows,
        "runs": [[run.first, run.last, run.colour] for run in worked.runs],
        "ends": worked.ends,
        "told": list(worked.told),
        "changes": changes([written.edit], asked.offsets) if written.edit else [],
        "not_written": written.reason,
    }
