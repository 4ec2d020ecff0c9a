"""The orders of a palette for people: a strip with names, the line, the reasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.colour.facts import ColourPlan, Order, Palette, Shade
from hookwright.design.stripes import Stripe
from hookwright.listing.columns import columns_of, padded, wrapped, writable
from hookwright.listing.findings import told, told_of_worksheet
from hookwright.terminal import Ink

_DARK = 60_00
"""CIE L* in hundredths under which words on a patch are white."""
_WIDEST = 8
_LEAST = 2


def colour_listing(checked: Checked, plan: ColourPlan, width: int, ink: Ink) -> str:
    """All there is to say about a palette; paragraphs are parted by blank lines."""
    return "\n\n".join(_paragraphs(checked, plan, width, ink))


def row_colours(order: Order, *, in_rounds: bool) -> str:
    """The rows of an order with their colours, a line a stripe: "3-4 | Rust"."""
    runs = order.worked.runs
    lines = [f"{'Rounds' if in_rounds else 'Rows'} | Colour"]
    for run in runs:
        rows = f"{run.first}" if run.first == run.last else f"{run.first}-{run.last}"
        lines.append(f"{rows} | {run.colour}")
    return "\n".join(lines)


def _paragraphs(checked: Checked, plan: ColourPlan, width: int, ink: Ink) -> Iterator[str]:
    if plan.palette is not None:
        yield "\n".join(_palette(plan.palette, ink))
    for finding in plan.findings:
        if checked.worksheet is not None:
            yield told_of_worksheet(finding, checked.worksheet, width, ink)
    for finding in plan.of_pattern:
        yield told(finding, checked, width, ink)
    if plan.clash:
        yield "\n".join(_clash(plan, width, ink))
    if plan.told:
        yield "\n".join(line for says in plan.told for line in wrapped(says, width))
    if plan.palette is None:
        yield "There are fewer than two colours to arrange."
        return
    for number, order in enumerate(plan.orders, 1):
        heading = f"Order {number}: {_verdict(order, first=number == 1)}"
        yield "\n".join(_order(order, heading, plan.palette, width, ink))
    for order in plan.own:
        heading = f"The pattern's own stripes: {_holds(order)}"
        yield "\n".join(_order(order, heading, plan.palette, width, ink))


def _palette(palette: Palette, ink: Ink) -> Iterator[str]:
    yield ink.strong("Colours")
    labels = max(columns_of(writable(shade.label)) for shade in palette.shades)
    names = max(columns_of(writable(shade.name)) for shade in palette.shades)
    for shade in palette.shades:
        hue = "no hue" if shade.hue is None else f"hue {shade.hue:.0f}"
        most = "" if shade.most_rows is None else f", {shade.most_rows} rows at most"
        label = padded(writable(shade.label), labels)
        name = padded(writable(shade.name), names)
        seen = f"{shade.code}  lightness {shade.lightness / 100:.0f}, {hue}{most}"
        yield f"  {_patch(shade, label, ink)}  {name}  {seen}"


def _clash(plan: ColourPlan, width: int, ink: Ink) -> Iterator[str]:
    one = len(plan.clash) == 1
    yield ink.red("This cannot be held:" if one else "These cannot all be held together:")
    for rule in plan.clash:
        yield from wrapped(rule.says, width, "  ")


def _verdict(order: Order, *, first: bool) -> str:
    how = "proven to be the best" if order.proven else "not proven to be the best"
    return f"{_holds(order)}, {how}" if first else _holds(order)


def _holds(order: Order) -> str:
    broken = len(order.breaches)
    if not broken:
        return "every rule is held"
    return f"{broken} rule{'' if broken == 1 else 's'} not held"


def _order(
    order: Order, heading: str, palette: Palette, width: int, ink: Ink
) -> Iterator[str]:
    yield ink.strong(heading)
    yield from _strip(order.stripes, palette, width, ink)
    yield from wrapped(order.worked.line, width, "  ")
    rows = [f"{colour} {number} rows" for colour, number in order.worked.rows_of]
    yield from wrapped(f"In all: {', '.join(rows)}.", width, "  ")
    for breach in order.breaches:
        yield from (ink.red(line) for line in wrapped(breach.says, width, "  "))
    for says in (*order.worked.told, *order.reasons):
        yield from wrapped(says, width, "  ")


def _strip(
    stripes: Sequence[Stripe], palette: Palette, width: int, ink: Ink
) -> Iterator[str]:
    """The stripes side by side, the wider ones wider, as many on a line as fit.

    In colour they touch, as they do in the piece; without it bars part them.
    """
    bar = "" if ink.on else "|"
    line, taken = "", 0
    for stripe in stripes:
        shade = palette.shades[palette.find(stripe.colour) or 0]
        label = writable(stripe.colour)
        wide = min(_WIDEST, max(_LEAST, stripe.rows)) * (2 if ink.on else 1)
        columns = max(columns_of(label) + 1, wide)
        if line and taken + columns + 3 > width:
            yield f"  {line}{bar}"
            line, taken = "", 0
        line += bar + _patch(shade, padded(label, columns), ink)
        taken += columns + len(bar)
    yield f"  {line}{bar}"


def _patch(shade: Shade, words: str, ink: Ink) -> str:
    return ink.patch(shade.code, words, dark=shade.lightness < _DARK)
