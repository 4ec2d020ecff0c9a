"""What `colours --json` prints: the palette and its orders as plain values for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from hookwright.answer import found_in_pattern, found_in_worksheet
from hookwright.checking import Checked
from hookwright.colour.facts import Breach, ColourPlan, Order, Palette, Rule
from hookwright.colour.working_up import MINUTES


def colour_answer(checked: Checked, plan: ColourPlan) -> dict[str, Any]:
    """The orders of a palette as an object for programs.

    A score is breaches, worst difference of neighbours, sum of differences, turns of light
    and dark; it is compared in that order.
    """
    return {
        "name": checked.source.name,
        "palette": list(_palette(plan.palette)) if plan.palette is not None else [],
        "rules": [_rule(rule) for rule in plan.rules],
        "orders": [_order(order) for order in plan.orders],
        "own": [_order(order) for order in plan.own],
        "clash": [_rule(rule) for rule in plan.clash],
        "findings": list(_findings(checked, plan)),
        "told": list(plan.told),
    }


def _palette(palette: Palette) -> Iterator[dict[str, Any]]:
    for at, shade in enumerate(palette.shades):
        yield {
            "colour": shade.label,
            "name": shade.name,
            "hex": shade.code,
            "lightness": shade.lightness / 100,
            "grey": shade.grey,
            "oklch": [shade.ok_lightness, shade.chroma, shade.hue],
            "most_rows": shade.most_rows,
            "differences": [apart / 100 for apart in palette.difference[at]],
            "seen": {
                str(vision): [apart / 100 for apart in table[at]]
                for vision, table in palette.seen
            },
        }


def _rule(rule: Rule) -> dict[str, Any]:
    return {"rule": str(rule.kind), "says": rule.says}


def _breaches(breaches: Sequence[Breach]) -> list[dict[str, Any]]:
    return [{**_rule(breach.rule), "breach": breach.says} for breach in breaches]


def _order(order: Order) -> dict[str, Any]:
    worked = order.worked
    return {
        "stripes": [{"colour": s.colour, "rows": s.rows} for s in order.stripes],
        "proven": order.proven,
        "score": list(order.score.as_told()),
        "breaches": _breaches(order.breaches),
        "reasons": list(order.reasons),
        "line": worked.line,
        "times": worked.times,
        "rows": worked.rows,
        "runs": [[run.first, run.last, run.colour] for run in worked.runs],
        "rows_of": dict(worked.rows_of),
        "ends": worked.ends,
        "ends_carried": worked.ends_carried,
        "minutes": [minutes * worked.ends for minutes in MINUTES],
        "told": list(worked.told),
    }


def _findings(checked: Checked, plan: ColourPlan) -> Iterator[dict[str, Any]]:
    if checked.worksheet is not None:
        yield from found_in_worksheet(plan.findings, checked.worksheet.source)
    yield from found_in_pattern(plan.of_pattern, checked.draft)
