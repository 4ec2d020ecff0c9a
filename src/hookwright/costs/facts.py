"""What is known of the costs of a design, as values. Money is decimal, in one currency."""

from __future__ import annotations

from decimal import Decimal

from msgspec import Struct


class Work(Struct, frozen=True):
    """Hours of her log: what they went into."""

    what: str
    hours: Decimal


class Spent(Struct, frozen=True):
    """Money that was spent: on what."""

    what: str
    amount: Decimal


class Terms(Struct, frozen=True):
    """What she sells at, and what her hour is to bring.

    Attributes:
        price: The price of a copy; None if not told.
        fee: The share of the price that goes, from 0 to 1.
        fee_each: What goes of each copy besides.
        rate: What an hour is to bring; None if not told.
        currency: In what money; "" if not told.
    """

    price: Decimal | None = None
    fee: Decimal = Decimal(0)
    fee_each: Decimal = Decimal(0)
    rate: Decimal | None = None
    currency: str = ""


class Costs(Struct, frozen=True):
    """What a design costs.

    Attributes:
        work: Her log.
        computed: Hours that the sample takes by the pattern; not in the log.
        spent: What was spent.
        terms: What she sells at.
        hours: All hours of the log.
        cash: All that was spent.
        labour: The hours at her rate; None without one.
        each: What a copy brings; None without a price.
        copies_for_cash: Copies that bring the cash back; None where they never do.
        copies_for_all: Copies that bring cash and hours back.
        sold: Copies sold so far; None if not told.
        an_hour: What an hour has brought so far; None where that is not known.
        own_pace: Whether those are at a pace that she told; else at a usual one.
        said: How each number came about, and what else is to be known.
    """

    work: tuple[Work, ...]
    computed: Decimal
    spent: tuple[Spent, ...]
    terms: Terms
    hours: Decimal
    cash: Decimal
    labour: Decimal | None
    each: Decimal | None
    copies_for_cash: int | None
    copies_for_all: int | None
    sold: int | None = None
    an_hour: Decimal | None = None
    own_pace: bool = False
    said: tuple[str, ...] = ()
