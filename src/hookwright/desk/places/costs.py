"""The costs: hours, money, price and fees, and the copies that bring them back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.costs.facts import Costs
from hookwright.costs.gathering import costs_of
from hookwright.costs.reckoning import in_money
from hookwright.design.worksheet.keys import COSTS, SPENT, WORK, Key, Kind, Table
from hookwright.desk.asked import Asked
from hookwright.listing.summary import counted

_HEADS = {
    "costs": "What it sells at",
    "work": "Hours that went into it",
    "spent": "Money that was spent",
}


def answer(asked: Asked) -> dict[str, Any]:
    """What the design costs, and what the worksheet can be told of it."""
    costs = costs_of(asked.checked)
    noted = asked.checked.design.noted
    told = noted.costs if noted is not None else None
    now = {
        "price": costs.terms.price,
        "currency": costs.terms.currency or None,
        "fee": told.fee if told is not None else None,
        "fee_each": told.fee_each if told is not None else None,
        "rate": costs.terms.rate,
        "sold": costs.sold,
    }
    money = costs.terms.currency
    return {
        "facts": [list(fact) for fact in _facts(costs)],
        "how": list(costs.said),
        "tables": [
            _table(WORK, [(one.what, f"{one.hours} h") for one in costs.work]),
            _table(SPENT, [(one.what, in_money(one.amount, money)) for one in costs.spent]),
            {
                **_table(COSTS, []),
                "now": {key: str(was) for key, was in now.items() if was is not None},
            },
        ],
    }


def _facts(costs: Costs) -> Iterator[tuple[str, str]]:
    money = costs.terms.currency
    yield "Hours so far", f"{costs.hours} h"
    if costs.computed:
        yield "Working one sample", f"{costs.computed} h, by its stitches"
    yield "Spent", in_money(costs.cash, money)
    if costs.each is None:
        yield "A copy brings", "not known yet: note the price of a copy"
        return
    yield "A copy brings", in_money(costs.each, money)
    yield "What was spent", _copies(costs.copies_for_cash)
    if costs.terms.rate is not None:
        yield "The hours as well", _copies(costs.copies_for_all)
    if costs.sold is not None:
        yield "Sold so far", counted(costs.sold, "copy").replace("copys", "copies")
    if costs.an_hour is not None:
        yield "An hour has brought", in_money(costs.an_hour, money)


def _copies(number: int | None) -> str:
    if number is None:
        return "never comes back: a copy brings nothing"
    return f"comes back with {number:,} {'copy' if number == 1 else 'copies'}"


def _table(table: Table, rows: list[tuple[str, str]]) -> dict[str, Any]:
    return {
        "name": table.name,
        "head": _HEADS[table.name],
        "several": table.several,
        "number": len(rows),
        "rows": rows,
        "keys": [_key(key) for key in table.keys],
    }


def _key(key: Key) -> dict[str, Any]:
    return {
        "name": key.name,
        "says": key.says[:1].upper() + key.says[1:],
        "is_number": key.kind is not Kind.TEXT,
    }
