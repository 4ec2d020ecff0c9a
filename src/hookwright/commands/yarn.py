"""`hookwright yarn`: what does each colour take, and what do the balls cost?"""

from __future__ import annotations

from contextlib import suppress

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.finding import Severity
from hookwright.listing.yarn import yarn_listing
from hookwright.reading import UnreadableDraft
from hookwright.sizing.sized import unit_of
from hookwright.terminal import ReaderGone, ink, say, say_aside, width
from hookwright.yarn.facts import YarnPlan
from hookwright.yarn.planning import Request, yarn_plan


class YarnOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        size: One size by its name; None for all.
        from_row: The row from which on it is reckoned.
        gauge: The gauge a maker has instead.
        instead: The length of a ball of another yarn.
        terms: "US" or "UK", whatever the text says of itself.
        how: Whether every number says how it came about.
        as_json: An object for programs.
    """

    size: str | None = None
    from_row: int | None = None
    gauge: str | None = None
    instead: str | None = None
    terms: str | None = None
    how: bool = False
    as_json: bool = False


def yarn(path: str, options: YarnOptions) -> Status:
    """Print the yarn of the pattern at a path."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
    except UnreadableDraft as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    if not checked.has_rows():
        say_aside("There are no rows, so there is no yarn to reckon.")
        return Status.NOT_READ
    request = Request(options.size, options.from_row, options.gauge, options.instead)
    plan = yarn_plan(checked, request)
    with suppress(ReaderGone):
        if options.as_json:
            import json  # noqa: PLC0415 - for programs only

            from hookwright.yarn_answer import yarn_answer  # noqa: PLC0415 - the same

            say(json.dumps(yarn_answer(checked, plan)))
        else:
            unit = unit_of(checked)
            say(yarn_listing(checked, plan, unit, width(), ink(), how=options.how))
    return _status(checked, plan)


def _status(checked: Checked, plan: YarnPlan) -> Status:
    found = (*plan.noted, *plan.of_pattern)
    loud = any(one.severity is not Severity.ADVICE for one in found)
    to_mend = loud or plan.asked or checked.has_errors()
    return Status.TO_MEND if to_mend else Status.CLEAN
