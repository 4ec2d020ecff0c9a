"""The yarn of a design for people: a table a size, where balls end, what a stash makes."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from hookwright.checking import Checked
from hookwright.listing.columns import columns_of, in_a_line, padded, wrapped, writable
from hookwright.listing.findings import told, told_of_worksheet
from hookwright.sizing.lengths import in_both
from hookwright.terminal import Ink
from hookwright.yarn.facts import (
    Basis,
    ColourNeed,
    Estimate,
    Join,
    Reach,
    SizeNeed,
    YarnPlan,
)

_GAP, _INDENT = "  ", "  "
_METRE = 1000
_DARK = 140
"""Of 255, the brightness under which words on a patch are white."""
_MONEY = {"GBP": "£", "USD": "$", "EUR": "€", "CAD": "CA$", "AUD": "A$", "NZD": "NZ$"}

Cells = tuple[str, ...]


def yarn_listing(
    checked: Checked, plan: YarnPlan, unit: str, width: int, ink: Ink, *, how: bool = False
) -> str:
    """All there is to say of the yarn; paragraphs are parted by blank lines."""
    return "\n\n".join(_paragraphs(checked, plan, unit, width, ink, how=how))


def _paragraphs(
    checked: Checked, plan: YarnPlan, unit: str, width: int, ink: Ink, *, how: bool
) -> Iterator[str]:
    if checked.worksheet is not None:
        for finding in plan.noted:
            yield told_of_worksheet(finding, checked.worksheet, width, ink)
    for finding in plan.of_pattern:
        yield told(finding, checked, width, ink)
    for sentence in plan.asked:
        yield "\n".join(ink.red(line) for line in wrapped(sentence, width))
    for need in plan.sizes:
        yield "\n".join(_size(need, plan, unit, width, ink, how=how))
    if plan.reach:
        yield "\n".join(_reaches(plan.reach, unit, width, ink))
    if plan.sizes:
        yield "\n".join(_basis(plan, width, ink, how=how))
    if plan.sizes and not how:
        name = writable(shlex.quote(checked.source.name))
        yield f"How each number came about is told with --how: {name}"


def _size(
    need: SizeNeed, plan: YarnPlan, unit: str, width: int, ink: Ink, *, how: bool
) -> Iterator[str]:
    yield ink.strong(_heading(need, plan, unit))
    yield from _table(need, _HEADS if plan.from_row is None else _STILL, width, ink)
    if how:
        for colour in need.colours:
            yield f"{_INDENT}{in_a_line(colour.yarn.told)}"
            for sentence in colour.said:
                yield from wrapped(sentence, width, _INDENT * 2)
    yield from _joins(need, width, how=how)
    if need.enough is not None:
        yield from wrapped(_in_hand(need), width, _INDENT)
    for sentence in need.lots if plan.from_row is None else ():
        yield from wrapped(sentence, width, _INDENT)


def _heading(need: SizeNeed, plan: YarnPlan, unit: str) -> str:
    size = need.counted
    name = in_a_line(size.name) or "As written"
    if plan.from_row is not None:
        return f"{name}: from {size.rows[0].label} to the end, {len(size.rows)} rows"
    told = [size.said] if size.said else []
    lengths = [
        in_both(mm, unit) for mm in (size.width_mm, size.height_mm) if mm is not None
    ]
    told += [" x ".join(lengths)] if lengths else []
    return f"{name}: {', '.join(told)}" if told else name


def _table(need: SizeNeed, heads: Cells, width: int, ink: Ink) -> Iterator[str]:
    """The colours in columns, those left out that say nothing."""
    lines = [tuple(_cell(head, [colour]) for head in heads) for colour in need.colours]
    whole = tuple(_cell(head, need.colours) for head in heads)
    used = [n for n in range(len(heads)) if n == 0 or any(line[n] for line in lines)]
    rooms = {n: max(columns_of(c[n]) for c in (heads, *lines, whole)) for n in used}
    if sum(rooms.values()) + len(_GAP) * len(rooms) > width:
        yield from _in_words(lines, heads, width)
        return
    yield ink.quiet(_INDENT + _set(heads, rooms))
    for colour, cells in zip(need.colours, lines, strict=True):
        name = padded(cells[0], rooms[0])
        rest = _set(cells, {n: room for n, room in rooms.items() if n})
        yield f"{_INDENT}{_patch(colour, f'{name} ', ink)}{_GAP[1:]}{rest}"
    if len(lines) > 1:
        yield _INDENT + _set(whole, rooms)


_HEADS = ("colour", "m", "from-to", "g", "balls", "to buy", "instead", "cost", "left, g",
          "ends")  # fmt: skip
_STILL = ("colour", "g", "g, from-to", "with allowance, g", "m", "ends")
"""What a maker asks who weighs what is left of her balls."""


def _cell(head: str, colours: Sequence[ColourNeed]) -> str:
    """What stands under a head, for a colour or for all together; "" if it is not known."""
    if head == "colour":
        return in_a_line(colours[0].yarn.told) if len(colours) == 1 else "in all"
    if head == "cost":
        return _costs(colours)
    numbers = [_NUMBERS[head](colour) for colour in colours]
    if any(number is None for number in numbers) and head != "to buy":
        return ""
    if head in {"from-to", "g, from-to"}:
        lows = sum((n[0] for n in numbers if isinstance(n, tuple)), Fraction(0))
        highs = sum((n[1] for n in numbers if isinstance(n, tuple)), Fraction(0))
        return f"{float(lows):,.0f}-{float(highs):,.0f}"
    known = [n for n in numbers if n is not None and not isinstance(n, tuple)]
    return f"{float(sum(known, Fraction(0))):,.0f}" if known else ""


Number = Fraction | int | tuple[Fraction, Fraction] | None


def _range(number: Estimate | None, unit: int = 1) -> tuple[Fraction, Fraction] | None:
    return None if number is None else (number.low / unit, number.high / unit)


def _with_allowance(need: ColourNeed) -> Fraction | None:
    gram = need.yarn.mm_per_g
    return need.bought / gram if gram is not None else None


_NUMBERS: dict[str, Callable[[ColourNeed], Number]] = {
    "m": lambda need: need.length.mid / _METRE,
    "from-to": lambda need: _range(need.length, _METRE),
    "g": lambda need: need.weight.mid if need.weight is not None else None,
    "g, from-to": lambda need: _range(need.weight),
    "with allowance, g": _with_allowance,
    "balls": lambda need: need.balls,
    "to buy": lambda need: need.to_buy,
    "instead": lambda need: need.instead,
    "left, g": lambda need: need.leftover_g,
    "ends": lambda need: need.ends,
}


def _costs(colours: Sequence[ColourNeed]) -> str:
    """The cost by currency; "" where one is not known."""
    sums: dict[str, Decimal] = {}
    for need in colours:
        if need.cost is None or need.yarn.listed is None:
            return ""
        money = need.yarn.listed.currency
        sums[money] = sums.get(money, Decimal(0)) + need.cost
    return " + ".join(_money(cost, money) for money, cost in sums.items())


def _money(cost: Decimal, currency: str) -> str:
    amount = f"{cost:,.2f}" if cost == round(cost, 2) else f"{cost:,f}"
    sign = _MONEY.get(currency.upper(), "")
    return f"{sign}{amount}" if sign else f"{amount} {in_a_line(currency)}".strip()


def _set(cells: Sequence[str], rooms: dict[int, int]) -> str:
    return _GAP.join(
        padded(cells[n], room, right=n > 0) for n, room in rooms.items()
    ).rstrip()


def _in_words(lines: Sequence[Cells], heads: Cells, width: int) -> Iterator[str]:
    """A colour in lines of words, where there is no room for columns."""
    for cells in lines:
        pairs = zip(heads[1:], cells[1:], strict=True)
        told = [f"{head} {cell}" for head, cell in pairs if cell]
        yield from wrapped(f"{cells[0]}: {', '.join(told)}", width, _INDENT)


def _patch(need: ColourNeed, words: str, ink: Ink) -> str:
    code = need.yarn.code
    if len(code) != 7 or not code.startswith("#"):
        return words
    red, green, blue = (int(code[at : at + 2], 16) for at in (1, 3, 5))
    bright = (299 * red + 587 * green + 114 * blue) / 1000
    return ink.patch(code, words, dark=bright < _DARK)


def _joins(need: SizeNeed, width: int, *, how: bool) -> Iterator[str]:
    """Where balls end; without `how` only those that end inside a stripe."""
    shown = [
        (colour, join)
        for colour in need.colours
        for join in colour.joins
        if how or join.stripe[0]
    ]
    if not shown:
        return
    if how:
        for colour, join in shown:
            yield from wrapped(_join(colour, join), width, _INDENT)
        return
    by_colour: dict[str, list[str]] = {}
    for colour, join in shown:
        by_colour.setdefault(colour.yarn.label, []).append(join.row.removeprefix("Row "))
    told = "; ".join(f"{label} {', '.join(rows)}" for label, rows in by_colour.items())
    yield from wrapped(f"Balls end inside a stripe about row: {told}.", width, _INDENT)


def _join(colour: ColourNeed, join: Join) -> str:
    where = f"about {join.row}"
    if join.earliest != join.latest:
        where += f" (between {join.earliest} and {join.latest})"
    told = f"{colour.yarn.told}: ball {join.ball} begins {where}"
    if not join.stripe[0]:
        return f"{told}."
    first, last = join.stripe
    stripe = first if first == last else f"{first} to {last}"
    spare = float(join.spare_mm) / _METRE
    told += f", inside the stripe of {stripe}"
    if not join.spare_mm:
        return f"{told}."
    if colour.leftover is not None and colour.leftover >= join.spare_mm:
        return (
            f"{told}; it may begin with the stripe, {spare:.0f} m of the old one are over."
        )
    return f"{told}; the {spare:.0f} m of the old one are needed there."


def _in_hand(need: SizeNeed) -> str:
    if need.enough:
        return "The balls in hand are enough."
    told = []
    for label in need.short:
        colour = next(c for c in need.colours if c.yarn.label == label)
        ball, have = colour.yarn.ball_mm, colour.yarn.in_hand
        if ball and have is not None:
            told.append(
                f"{label} has {float(have):g} of {float(colour.bought / ball):.1f} balls"
            )
    return f"The balls in hand are not enough: {', '.join(told)}."


def _reaches(reach: Sequence[Reach], unit: str, width: int, ink: Ink) -> Iterator[str]:
    yield ink.strong("The balls in hand make")
    for one in reach:
        limit = f"{one.limit} ends first" if one.limit else "and more"
        if one.repeats is None:
            yield from wrapped(f"{one.of}: nothing, {limit}.", width, _INDENT)
            continue
        told = f"{one.of}: {one.repeats} repeats and {one.rows} rows"
        if one.width_mm is not None and one.height_mm is not None:
            told += f", {in_both(one.width_mm, unit)} x {in_both(one.height_mm, unit)}"
        yield from wrapped(f"{told}; {limit}.", width, _INDENT)


def _basis(plan: YarnPlan, width: int, ink: Ink, *, how: bool) -> Iterator[str]:
    """What the figures stand on, and how wide that is."""
    weighed = all(need.basis is Basis.SWATCH for need in plan.sizes)
    yield ink.strong("By weighed swatches" if weighed else "Before a swatch is weighed")
    seen: dict[tuple[str, ...], list[str]] = {}
    for label, law in plan.laws:
        for kind, loop in (("", law.common), *law.own):
            spread = f"± {float(loop.spread):.0%}"
            of = f" in {kind}" if kind else ""
            brief = f"A loop of yarn{of} is {float(loop.mm):.1f} mm {spread}."
            said = (*loop.said, brief) if how or loop.basis is Basis.PRIOR else (brief,)
            seen.setdefault(said, []).append(label)
    for said, labels in seen.items():
        of = f"{', '.join(labels)}: " if len(seen) > 1 else ""
        yield from wrapped(of + " ".join(said), width, _INDENT)
    for sentence in plan.told:
        yield from wrapped(sentence, width, _INDENT)
