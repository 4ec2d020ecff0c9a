"""Which facts stand on the cover and before the start, as on the band of a ball?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, Hook, Measure, State, YarnListed
from hookwright.regex import regex
from hookwright.release.facts import Cell, Shade
from hookwright.release.row_words import one_line
from hookwright.wording.written import LevelTold

_WEIGHTS = (
    "Lace",
    "Super fine",
    "Fine",
    "Light",
    "Medium",
    "Bulky",
    "Super bulky",
    "Jumbo",
)
"""The trade's weight classes 0 to 7. Source: the yarn council's standard weight system."""
_MOST_SIZES = 4
_ROUNDS = regex(r"\b(?:rounds?|rnds?)\b", re.IGNORECASE)


def cover_band(
    checked: Checked, terms: str, shades: tuple[Shade, ...], told: LevelTold | None
) -> tuple[Cell, ...]:
    """The facts of the cover: level, sizes, hook, yarn, terms."""
    found = [
        _level(checked, told),
        _sizes(checked),
        _hook(checked),
        _yarn(checked, terms, shades),
        Cell("Terms", terms) if terms else None,
    ]
    return tuple(cell for cell in found if cell is not None)


def needs_band(checked: Checked) -> tuple[Cell, ...]:
    """The facts before the start: gauge, hook."""
    found = [*_gauges(checked), _hook(checked, remark="or the size that gives the gauge")]
    return tuple(cell for cell in found if cell is not None)


def _level(checked: Checked, told: LevelTold | None) -> Cell | None:
    """The level as it is stated, or as the work has it, with the reasons."""
    level = checked.design.level
    if told is not None:
        reason = f"for {told.reasons[0]}" if told.reasons else ""
        return Cell("Level", _capital(told.name), reason)
    return Cell("Level", _capital(level.name)) if level else None


def _capital(word: str) -> str:
    return word[:1].upper() + word[1:]


def _sizes(checked: Checked) -> Cell | None:
    sizes = checked.sizes
    if len(sizes) < 2:
        return None
    if len(sizes) > _MOST_SIZES:
        return Cell("Sizes", f"{sizes[0]} to {sizes[-1]}", f"{len(sizes)} sizes")
    return Cell("Sizes", ", ".join(sizes))


def _hook(checked: Checked, remark: str = "") -> Cell | None:
    """The hook, in millimetres first."""
    hooks = checked.design.hooks
    if not hooks:
        return None
    if not remark:
        return Cell("Hook", _mm(hooks[0]), hooks[0].name)
    named = [
        f"{_mm(hook)} ({hook.name})" if hook.mm and hook.name else _mm(hook)
        for hook in hooks
    ]
    return Cell("Hook", ", ".join(dict.fromkeys(named)), remark)


def _mm(hook: Hook) -> str:
    return f"{_decimal(hook.mm)} mm" if hook.mm is not None else hook.name


def _decimal(number: Fraction) -> str:
    return f"{float(number):.2f}".rstrip("0").rstrip(".")


def _yarn(checked: Checked, terms: str, shades: tuple[Shade, ...]) -> Cell | None:
    yarns = checked.design.yarns or (
        checked.design.noted.yarns if checked.design.noted else ()
    )
    if not yarns:
        return None
    weight = next((yarn.weight for yarn in yarns if yarn.weight is not None), None)
    fact = f"{_WEIGHTS[weight]} weight" if weight is not None else "see Materials"
    colours = len([shade for shade in shades if shade.letter or shade.name])
    remark = f"in {colours} {'colours' if terms == 'UK' else 'colors'}"
    return Cell("Yarn", fact, remark if colours > 1 else _ball(yarns[0]))


def _ball(yarn: YarnListed) -> str:
    """What a ball is: "100 g, 200 m"."""
    parts = []
    if yarn.ball_g:
        parts.append(f"{_decimal(yarn.ball_g)} g")
    if yarn.ball_m:
        parts.append(f"{_decimal(yarn.ball_m)} m")
    return ", ".join(parts)


def ball_line(checked: Checked) -> str:
    """What the balls of the table are: "100 g, 200 m (219 yd)"; "" if not told."""
    yarns = checked.design.yarns or (
        checked.design.noted.yarns if checked.design.noted else ()
    )
    if not yarns:
        return ""
    metres = yarns[0].ball_m
    yards = f" ({round(float(metres) / 0.9144)} yd)" if metres else ""
    return _ball(yarns[0]) + yards


def _gauges(checked: Checked) -> Iterator[Cell]:
    """The gauge as it is stated, in the words of the text."""
    for gauge in checked.design.gauges[:1]:
        blocked = {State.BLOCKED: ", blocked", State.AS_WORKED: ", as worked"}
        label = "Gauge" + blocked.get(gauge.state, "")
        in_rounds = _ROUNDS.search(checked.source.slice(gauge.span)) is not None
        across, up = _across(gauge), _up(gauge, "rounds" if in_rounds else "rows")
        if across:
            yield Cell(label, across, up)
        else:
            yield Cell(label, one_line(checked.source.slice(gauge.span))[:80])


def _across(gauge: Gauge) -> str:
    if gauge.stitches is None or gauge.width is None:
        return ""
    if any(map(str.isdigit, gauge.of)):  # "Rnds 1-3", not a number of stitches
        return f"{gauge.of} = {_length(gauge.width)}"
    number = _decimal(gauge.stitches)
    of = gauge.of if gauge.of != "st" else "sts"
    plural = "s" if gauge.of != "st" and gauge.stitches != 1 else ""
    return f"{number} {of}{plural} = {_length(gauge.width)}"


def _up(gauge: Gauge, rows: str) -> str:
    height = gauge.height or gauge.width
    if gauge.rows is None or height is None:
        return ""
    return f"{_decimal(gauge.rows)} {rows} = {_length(height)}"


def _length(measure: Measure) -> str:
    """A length in the units it is told in: "10 cm (4 in)"."""
    told = _told(measure)
    also = _told(measure.also) if measure.also else ""
    return f"{told} ({also})" if told and also else told


_MM = {
    "in": Fraction(254, 10),
    "cm": Fraction(10),
    "mm": Fraction(1),
    "ft": Fraction(3048, 10),
}


def _told(measure: Measure) -> str:
    mm = measure.mm[0] if measure.mm else None
    if mm is None or measure.unit not in _MM:
        return ""
    length = mm / _MM[measure.unit]
    return f"{_inches(length) if measure.unit == 'in' else _decimal(length)} {measure.unit}"


def _inches(length: Fraction) -> str:
    """Inches to the nearest eighth where that is what is told: "3 1/4"."""
    eighths = length * 8
    if eighths.denominator != 1:
        return _decimal(length)
    whole, rest = divmod(length, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
