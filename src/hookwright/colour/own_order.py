"""The stripe sequences that the pattern tells itself, with the colours of the palette."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.colour.facts import Palette
from hookwright.colour.palette import RULE
from hookwright.colour.working_up import Worked
from hookwright.design.stripes import Stripe, StripePlan, stripe_plans
from hookwright.finding import Finding, Severity
from hookwright.source import Source, Span

_MOST_STRIPES = 2_000
"""Stripes of a whole piece; one with more has a finger slipped in how often."""


def own_sequences(
    checked: Checked, palette: Palette
) -> tuple[tuple[Worked, ...], tuple[Finding, ...]]:
    """The sequences whose colours are all known, and a finding for each other colour."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    findings = [f for plan in plans for f in _unknown(checked.source, plan, palette)]
    found = [_worked(plan, palette) for plan in plans if not any(_strange(plan, palette))]
    kept = tuple(one for one in found if len(one.stripes) * one.times <= _MOST_STRIPES)
    return kept, tuple(dict.fromkeys(findings))


def _strange(plan: StripePlan, palette: Palette) -> Iterator[str]:
    """The names of colours that the palette does not have."""
    for stripe in dict.fromkeys((*plan.stripes, *plan.after)):
        if palette.find(stripe.colour) is None:
            yield stripe.colour


def _unknown(source: Source, plan: StripePlan, palette: Palette) -> Iterator[Finding]:
    words = source.slice(plan.span)
    for name in dict.fromkeys(_strange(plan, palette)):
        found = re.search(rf"\b{re.escape(name)}\b", words)
        start = plan.span.start + (found.start() if found else 0)
        span = Span(start, start + len(name)) if found else plan.span
        labels = ", ".join(shade.label for shade in palette.shades)
        yield Finding(
            RULE,
            Severity.WARNING,
            span,
            f'The stripes are in "{name}", and no yarn of the worksheet with a colour '
            f"is called so: {labels}.",
            "Add it under [[yarn]], or look at the name.",
        )


def _worked(plan: StripePlan, palette: Palette) -> Worked:
    """The plan as it is worked, its colours called as in the palette."""
    fits = [times for times in plan.times if plan.rows(times) == plan.claimed]
    times = next(iter(fits), next(iter(plan.times), 1))

    def called(stripe: Stripe) -> Stripe:
        return Stripe(stripe.rows, palette.label(palette.find(stripe.colour) or 0))

    return Worked(tuple(map(called, plan.stripes)), times, tuple(map(called, plan.after)))
