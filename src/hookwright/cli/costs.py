"""`hookwright costs`: its options."""

from __future__ import annotations

import sys
from decimal import Decimal, InvalidOperation

import click


class _Money(click.ParamType[Decimal]):
    """An amount, exactly as it is written."""

    name = "amount"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> Decimal:
        """The amount; at least 0, and no more than anybody asks."""
        try:
            amount = Decimal(str(value))
        except InvalidOperation:
            self.fail(f"{value} is no amount: write it as 6.50.", param, ctx)
        if not amount.is_finite() or not 0 <= amount <= 1_000_000:
            self.fail(f"{value} is no amount from 0 to a million.", param, ctx)
        return amount


@click.command()
@click.argument("path", metavar="PATH")
@click.option("--price", type=_Money(), help="A price to try instead of the worksheet's.")
@click.option("--fee", type=_Money(), help="The share that goes of each copy, in percent.")
@click.option("--rate", type=_Money(), help="What an hour is to bring.")
@click.option("--sold", type=click.IntRange(0, 10_000_000), help="Copies sold so far.")
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def costs(
    path: str,
    *,
    price: Decimal | None,
    fee: Decimal | None,
    rate: Decimal | None,
    sold: int | None,
    as_json: bool,
) -> None:
    """Reckon what a pattern costs its designer, and the copies that bring it back.

    PATH is a project folder: hours, money, price and fees stand in its worksheet.

    The exit status is 0 where it is reckoned, 2 where the draft could not be read.
    """
    from hookwright.commands.costs import CostsOptions  # noqa: PLC0415
    from hookwright.commands.costs import costs as tell_costs  # noqa: PLC0415

    sys.exit(tell_costs(path, CostsOptions(price, fee, rate, sold, as_json)))
