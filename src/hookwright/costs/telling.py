"""The costs of a design, for people and for programs."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from hookwright.costs.facts import Costs
from hookwright.costs.reckoning import in_money, letters


def costs_lines(costs: Costs) -> Iterator[str]:
    """The costs in paragraphs."""
    money = costs.terms.currency
    hours = [f"- {one.what}: {one.hours} h" for one in costs.work]
    yield "\n".join((f"Hours: {costs.hours}", *hours))
    spent = [f"- {one.what}: {in_money(one.amount, money)}" for one in costs.spent]
    yield "\n".join((f"Spent: {in_money(costs.cash, money)}", *spent))
    if costs.each is None:
        yield "No price is told: write it in the worksheet, [costs] price, or with --price."
    else:
        yield "\n".join(_copies(costs))
    if costs.an_hour is not None:
        yield (
            f"{costs.sold} copies sold: an hour has brought "
            f"{in_money(costs.an_hour, money)} so far."
        )
    if costs.said:
        yield "\n".join(("How the numbers come about:", *costs.said))


def _copies(costs: Costs) -> Iterator[str]:
    if costs.copies_for_cash is not None:
        yield f"{costs.copies_for_cash} copies bring back what was spent."
    if costs.copies_for_all is not None:
        yield f"{costs.copies_for_all} copies bring back the hours as well."
    elif costs.terms.rate is None:
        yield "What the hours cost is not told: [costs] rate, or --rate."
    sales = costs.sold or costs.copies_for_all or costs.copies_for_cash
    if sales:
        least, most = letters(sales)
        yield (
            f"Of {sales} makers {least} to {most} are likely to write with a question "
            f"(1 to 3 in 100, as one designer counted)."
        )


def costs_answer(costs: Costs) -> dict[str, Any]:
    """The costs as an object for programs; money and hours are decimals in quotes."""
    return {
        "hours": str(costs.hours),
        "computed_hours": str(costs.computed),
        "work": [{"what": one.what, "hours": str(one.hours)} for one in costs.work],
        "spent": [{"what": one.what, "amount": str(one.amount)} for one in costs.spent],
        "cash": str(costs.cash),
        "labour": _text(costs.labour),
        "a_copy_brings": _text(costs.each),
        "currency": costs.terms.currency or None,
        "copies_for_cash": costs.copies_for_cash,
        "copies_for_all": costs.copies_for_all,
        "sold": costs.sold,
        "an_hour_so_far": _text(costs.an_hour),
        "how": list(costs.said),
    }


def _text(amount: Decimal | None) -> str | None:
    return str(amount) if amount is not None else None
