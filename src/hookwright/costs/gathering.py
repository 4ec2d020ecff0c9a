"""What does a worksheet tell of hours, money, price and fees?"""

from __future__ import annotations

from decimal import Decimal

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.costs.facts import Costs, Spent, Terms, Work
from hookwright.costs.reckoning import reckoned
from hookwright.lesson.moves import row_called
from hookwright.lesson.planning import pace_of

_HUNDRED = Decimal(100)


def costs_of(
    checked: Checked, asked: Terms | None = None, sold: int | None = None
) -> Costs:
    """The costs of a design by its worksheet.

    Args:
        checked: The pattern, read with its worksheet.
        asked: A price, fee or rate to try instead; None in a field keeps the worksheet's.
        sold: Copies sold so far; None for what the worksheet tells.
    """
    noted = checked.design.noted
    told = noted.costs if noted is not None else None
    terms = Terms()
    work: tuple[Work, ...] = ()
    spent: tuple[Spent, ...] = ()
    if told is not None:
        terms = Terms(
            told.price, (told.fee or Decimal(0)) / _HUNDRED, told.fee_each or Decimal(0),
            told.rate, told.currency,
        )  # fmt: skip
        work = tuple(Work(what, hours) for what, hours in told.work)
        spent = tuple(Spent(what, amount) for what, amount in told.spent)
        sold = sold if sold is not None else told.sold
    if asked is not None:
        terms = _with(terms, asked)
    lesson = noted.lesson if noted is not None else None
    own = lesson is not None and bool(lesson.pace or lesson.timed)
    return reckoned(work, spent, terms, working_hours(checked), sold, own_pace=own)


def _with(terms: Terms, asked: Terms) -> Terms:
    return replace(
        terms,
        price=asked.price if asked.price is not None else terms.price,
        fee=asked.fee or terms.fee,
        rate=asked.rate if asked.rate is not None else terms.rate,
    )


def working_hours(checked: Checked) -> Decimal:
    """Hours of work in the sample, at her pace or a usual one; first size, in quarters."""
    pace = pace_of(checked)
    outcomes = checked.worked.sizes[0].outcomes
    parts = checked.reading.pattern.parts
    seconds = sum(
        pace.seconds(outcome, row_called(outcome)) * max(1, parts[outcome.step.part].make)
        for outcome in outcomes
    )
    return Decimal(round(seconds / 900)) / 4
