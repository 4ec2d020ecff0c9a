"""Which words of the pattern tell its order of colours, and how do they tell another?"""

from __future__ import annotations

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.colour.facts import Order
from hookwright.design.stripes import stripe_plans
from hookwright.finding import Edit
from hookwright.regex import regex

_END = regex(r"[ \t]*\.?$")


class Written(Struct, frozen=True):
    """The change that writes an order.

    Attributes:
        edit: The change of the text; None where its words cannot tell this order.
        reason: Why not; "" where they can.
    """

    edit: Edit | None = None
    reason: str = ""


def order_written(checked: Checked, order: Order) -> Written:
    """The change that makes the pattern's own line of stripes tell an order.

    Only a pattern that tells its stripes in one place can be changed so.
    """
    plans = stripe_plans(checked.source, checked.reading.pattern)
    if not plans:
        return Written(
            reason="The pattern has no line of stripes yet. Write one in its notes:"
            f' "Stripe sequence: {order.worked.line}"'
        )
    if len(plans) > 1:
        return Written(
            reason="The pattern tells its stripes in several places. Write the new order"
            f' yourself: "{order.worked.line}"'
        )
    span = plans[0].span
    old, new = checked.source.slice(span), order.worked.line
    if not old.rstrip().endswith("."):
        new = _END.sub("", new)
    return Written(Edit(span, new))
