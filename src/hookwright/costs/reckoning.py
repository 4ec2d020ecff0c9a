"""From hours, cash, price and fees to the copies that bring them back.

A copy brings its price less the share that goes and what goes of each copy. Copies are
rounded up: half a copy is never sold.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from msgspec.structs import replace

from hookwright.costs.facts import Costs, Spent, Terms, Work

_CENT = Decimal("0.01")


def reckoned(
    work: Sequence[Work],
    spent: Sequence[Spent],
    terms: Terms,
    computed: Decimal = Decimal(0),
    sold: int | None = None,
    *,
    own_pace: bool = False,
) -> Costs:
    """What a design costs, and when it is paid.

    Args:
        work: Her log of hours.
        spent: What was spent.
        terms: Price, fees, rate.
        computed: Hours that the sample takes by the pattern.
        sold: Copies sold so far.
        own_pace: Whether those hours are at a pace that she told.
    """
    hours = sum((one.hours for one in work), Decimal(0))
    cash = sum((one.amount for one in spent), Decimal(0))
    labour = _money(hours * terms.rate) if terms.rate is not None else None
    each = brought_by_a_copy(terms)
    costs = Costs(
        tuple(work), computed, tuple(spent), terms, hours, cash, labour, each,
        copies(cash, each), copies(cash + labour, each) if labour is not None else None,
        sold, _an_hour(hours, cash, each, sold), own_pace,
    )  # fmt: skip
    return replace(costs, said=tuple(_said(costs)))


def brought_by_a_copy(terms: Terms) -> Decimal | None:
    """What she has of a copy; None without a price."""
    if terms.price is None:
        return None
    return terms.price * (1 - terms.fee) - terms.fee_each


def copies(cost: Decimal, each: Decimal | None) -> int | None:
    """The copies that bring a cost back; None where a copy brings nothing."""
    if each is None or each <= 0:
        return None
    return int((cost / each).to_integral_value(ROUND_CEILING))


def _an_hour(
    hours: Decimal, cash: Decimal, each: Decimal | None, sold: int | None
) -> Decimal | None:
    if sold is None or each is None or not hours:
        return None
    return _money((each * sold - cash) / hours)


def letters(sales: int) -> tuple[int, int]:
    """How many makers write with a question, at least and at most: 1 to 3 in 100.

    Source: a designer's own count over nine years, on a page about support for patterns.
    """
    return sales // 100, -(-3 * sales // 100)


def _money(amount: Decimal) -> Decimal:
    return amount.quantize(_CENT, ROUND_HALF_UP)


def in_money(amount: Decimal, currency: str) -> str:
    """An amount with its currency: "GBP 12.50"."""
    return f"{currency} {_money(amount):,}".strip()


def _said(costs: Costs) -> Iterator[str]:
    terms, money = costs.terms, costs.terms.currency
    if costs.each is not None and terms.price is not None:
        yield (
            f"A copy brings {in_money(terms.price, money)} x (1 - {terms.fee}) - "
            f"{in_money(terms.fee_each, money)} = {in_money(costs.each, money)}."
        )
        if costs.each <= 0:
            yield "A copy brings nothing at that price and those fees."
    if costs.labour is not None and terms.rate is not None:
        yield (
            f"{costs.hours} hours at {in_money(terms.rate, money)} are "
            f"{in_money(costs.labour, money)}; with {in_money(costs.cash, money)} spent "
            f"that is {in_money(costs.labour + costs.cash, money)}."
        )
    if costs.computed and not any("sample" in one.what.lower() for one in costs.work):
        pace = (
            "your pace" if costs.own_pace else "a usual pace (the worksheet tells no other)"
        )
        yield (
            f"The sample takes about {costs.computed} hours by the pattern, at {pace}; "
            f"no line of the log is called a sample, so they are not counted."
        )
