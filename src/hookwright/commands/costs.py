"""`hookwright costs`: hours, cash, price, fees, and the copies that pay for them."""

from __future__ import annotations

import json
from decimal import Decimal

from msgspec import Struct

from hookwright.checking import check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.costs.facts import Terms
from hookwright.costs.gathering import costs_of
from hookwright.costs.telling import costs_answer, costs_lines
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ReaderGone, say, say_aside, width


class CostsOptions(Struct, frozen=True):
    """What was asked for: a price, a fee in percent, a rate to try; copies sold."""

    price: Decimal | None = None
    fee: Decimal | None = None
    rate: Decimal | None = None
    sold: int | None = None
    as_json: bool = False


def costs(path: str, options: CostsOptions) -> Status:
    """Print what the design at a path costs."""
    try:
        checked = check(draft_at(path), None, worksheet_at(path))
        asked = Terms(options.price, (options.fee or Decimal(0)) / 100, rate=options.rate)
        found = costs_of(checked, asked, options.sold)
        if options.as_json:
            say(json.dumps(costs_answer(found)))
        else:
            text = "\n\n".join(costs_lines(found))
            lines = (
                line for one in text.split("\n") for line in wrapped(one, width()) or [""]
            )
            say("\n".join(lines))
    except UnreadableDraft as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN
    return Status.CLEAN if checked.has_rows() else Status.NOT_READ
