"""`hookwright colours`: in which order do the stripes lie?"""

from __future__ import annotations

from contextlib import suppress

from hookwright.checking import check
from hookwright.colour.facts import ColourPlan
from hookwright.colour.planning import colour_plan
from hookwright.commands.check import Status
from hookwright.commands.project import WORKSHEET_FILE, draft_at, worksheet_at
from hookwright.listing.colours import colour_listing, row_colours
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ReaderGone, ink, say, say_aside, width


def colours(
    path: str,
    orders: int,
    seed: int,
    *,
    table: int | None = None,
    prove: bool = False,
    as_json: bool = False,
) -> Status:
    """Print orders for the colours of the worksheet beside a pattern."""
    try:
        draft, sheet = draft_at(path), worksheet_at(path)
    except UnreadableDraft as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    if sheet is None:
        say_aside(
            f"There is no {WORKSHEET_FILE} beside the pattern, so no colours are known."
        )
        return Status.NOT_READ
    checked = check(draft, None, sheet)
    plan = colour_plan(checked, max(orders, table or 1), seed, prove=prove)
    if table is not None and len(plan.orders) < table:
        say_aside(f"There is no order {table}: {len(plan.orders)} were found.")
        return Status.NOT_READ
    with suppress(ReaderGone):
        if as_json:
            import json  # noqa: PLC0415 - for programs only

            from hookwright.colour_answer import colour_answer  # noqa: PLC0415

            say(json.dumps(colour_answer(checked, plan)))
        elif table is not None:
            say(row_colours(plan.orders[table - 1], in_rounds=plan.in_rounds))
        else:
            say(colour_listing(checked, plan, width(), ink()))
    return _status(plan)


def _status(plan: ColourPlan) -> Status:
    if not plan.orders:
        return Status.NOT_READ
    broken = plan.orders[0].breaches or plan.of_pattern
    return Status.TO_MEND if broken else Status.CLEAN
