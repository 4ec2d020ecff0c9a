"""Which colours does a pattern have, and which rows are worked in each?

Letters come from the materials of the text, hex values and balls from the worksheet where
it tells them. A letter on a colour is ink or white, whichever contrasts more with it
(relative luminance, WCAG 2.2).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Colour, YarnListed
from hookwright.design.stripes import StripePlan, stripe_plans
from hookwright.release.facts import Row, Shade, Stripe, Stripes
from hookwright.release.yarn_amounts import Amounts
from hookwright.working.printed_lines import Line

_INK = "#211e1b"
_WHITE = "#ffffff"
_MOST_BANDS = 8
"""More stripes than these are not told apart beside one row."""


def shades_of(checked: Checked) -> tuple[Shade, ...]:
    """The colours in the order they are listed."""
    noted = checked.design.noted
    sheet = [(yarn, colour) for yarn in (noted.yarns if noted else ())
             for colour in yarn.colours]  # fmt: skip
    listed = [(yarn, colour) for yarn in checked.design.yarns for colour in yarn.colours]
    sizes = max(1, len(checked.sizes))
    found = [_shade(colour, _same(colour, sheet), sizes) for _, colour in listed]
    known = {name.lower() for one in found for name in (one.letter, one.name) if name}
    found += [
        _shade(colour, colour, sizes)
        for _, colour in sheet
        if not known & {colour.letter.lower(), colour.name.lower()} - {""}
    ]
    return tuple(found)


def _same(colour: Colour, sheet: list[tuple[YarnListed, Colour]]) -> Colour | None:
    """What the worksheet says of a colour of the text: the one of its letter, or name."""
    for _, other in sheet:
        if colour.letter and colour.letter == other.letter:
            return other
        if colour.name and colour.name.lower() == other.name.lower():
            return other
    return None


def _shade(colour: Colour, noted: Colour | None, sizes: int) -> Shade:
    code = (noted.code if noted else "") or colour.code
    return Shade(
        letter=colour.letter or (noted.letter if noted else ""),
        name=colour.name or (noted.name if noted else ""),
        code=code,
        dark=bool(code) and _contrast(code, _WHITE) > _contrast(code, _INK),
        balls=tuple(_number(n) for n in _for_each(colour.balls, sizes)),
    )


def _for_each(
    balls: tuple[Fraction | None, ...], sizes: int
) -> tuple[Fraction | None, ...]:
    return balls * sizes if len(balls) == 1 else balls if len(balls) == sizes else ()


def _number(balls: Fraction | None) -> str:
    if balls is None:
        return "-"
    whole, rest = divmod(balls, 1)
    half = {Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾"}.get(rest)
    if not rest:
        return str(whole)
    return f"{whole or ''}{half}" if half else str(float(balls))


def _contrast(code: str, other: str) -> float:
    dark, light = sorted((_luminance(code), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(code: str) -> float:
    """Relative luminance of six hex digits. Source: WCAG 2.2, its glossary."""
    parts = [int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def with_amounts(
    shades: tuple[Shade, ...], amounts: Sequence[Amounts]
) -> tuple[Shade, ...]:
    """Shades with what each size takes: lengths, and balls where the text names none."""
    return tuple(_with_amounts(shade, amounts) for shade in shades)


def _with_amounts(shade: Shade, amounts: Sequence[Amounts]) -> Shade:
    found = [size.get(shade.letter) or size.get(shade.name) for size in amounts]
    own = [one for one in found if one is not None]
    if not own or len(own) < len(found):
        return shade
    counted = tuple("-" if one.balls is None else str(one.balls) for one in own)
    told = all(one.balls is not None for one in own)
    return replace(
        shade,
        balls=shade.balls or (counted if told else ()),
        length=tuple(f"{one.metres} m" for one in own),
    )


def stripes_of(checked: Checked, shades: tuple[Shade, ...]) -> Stripes | None:
    """The sequence of stripes that the text tells, in letters; None for none."""
    plan = _plan(checked)
    if plan is None or len({stripe.colour for stripe in plan.stripes}) < 2:
        return None
    letters = _letters(shades)
    times = times_worked(plan)

    def stripe(rows: int, colour: str) -> Stripe:
        return Stripe(letters.get(colour.lower(), colour), rows)

    return Stripes(
        tuple(stripe(one.rows, one.colour) for one in plan.stripes),
        f"{times} times" if times > 1 else "",
        tuple(stripe(one.rows, one.colour) for one in plan.after),
    )


def _plan(checked: Checked) -> StripePlan | None:
    return next(iter(stripe_plans(checked.source, checked.reading.pattern)), None)


def times_worked(plan: StripePlan) -> int:
    """How often the sequence is worked: as often as comes to the number of rows told."""
    fits = [times for times in plan.times if plan.rows(times) == plan.claimed]
    return next(iter(fits), next(iter(plan.times), 1))


def _letters(shades: tuple[Shade, ...]) -> Mapping[str, str]:
    """The letter by all that a colour is called."""
    by_name = {shade.name.lower(): shade.letter or shade.name for shade in shades}
    return by_name | {
        shade.letter.lower(): shade.letter for shade in shades if shade.letter
    }


def yarns_by_row(checked: Checked, shades: tuple[Shade, ...]) -> dict[int, tuple[str, ...]]:
    """The letters of the yarns of each row, by where the row begins in the text."""
    letters = _letters(shades)
    planned = _planned(checked)
    found: dict[int, list[str]] = {}
    for line in checked.lines:
        if line.span.start in planned:
            continue
        names = [letters.get(name.lower(), name) for name, _ in line.colours if name]
        found.setdefault(line.span.start, []).extend(names)
    for start, colours in planned.items():
        found[start] = [letters.get(name.lower(), name) for name in colours]
    return {start: _few(names) for start, names in found.items()}


def _few(names: list[str]) -> tuple[str, ...]:
    """Names without twins side by side; the first ones where there are too many."""
    apart = names[:1] + [b for a, b in pairwise(names) if a != b]
    return tuple(apart[:_MOST_BANDS])


def _planned(checked: Checked) -> dict[int, list[str]]:
    """The colours of the rows of the striped part, by where each row begins."""
    plan = _plan(checked)
    if plan is None:
        return {}
    colours = colours_of_rows(plan)
    part = striped_part(checked.lines, len(colours))
    found: dict[int, list[str]] = {}
    for line in checked.lines:
        first, last = _numbers(line)
        if line.part == part and first is not None and last is not None:
            found.setdefault(line.span.start, []).extend(colours[first - 1 : last])
    return found


def colours_of_rows(plan: StripePlan) -> list[str]:
    """The colour of each row that a stripe sequence plans."""
    once = [stripe.colour for stripe in plan.stripes for _ in range(stripe.rows)]
    after = [stripe.colour for stripe in plan.after for _ in range(stripe.rows)]
    return [*once * times_worked(plan), *after]


def _numbers(line: Line) -> tuple[int | None, int | None]:
    first = next((n for n in line.first if n is not None), None)
    last = max((n for n in line.last if n is not None), default=None)
    return first, last


def striped_part(lines: tuple[Line, ...], rows: int) -> str | None:
    """The first part with as many rows as there are stripes for, and no yarn of its own."""
    for line in lines:
        if any(last == rows for last in line.last if last is not None):
            return line.part
    return None


def with_yarns(rows: list[Row], yarns: list[tuple[str, ...]]) -> Iterator[Row]:
    """Rows of one part with their yarns, and where each stripe begins and ends."""
    for at, row in enumerate(rows):
        own = yarns[at]
        before = yarns[at - 1] if at else ()
        after = yarns[at + 1] if at + 1 < len(rows) else ()
        yield replace(
            row,
            yarns=own,
            begins=bool(own) and before[-1:] != own[:1],
            ends=bool(own) and after[:1] != own[-1:],
        )
