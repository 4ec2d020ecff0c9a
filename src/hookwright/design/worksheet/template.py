"""The worksheet a design begins with: what is known filled in, the rest as examples."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Along, Colour, Design, Gauge, Measure, YarnListed
from hookwright.design.worksheet.keys import TABLES, Key, Kind, Table
from hookwright.design.worksheet.values import listed, wrong_with
from hookwright.notation.tree import Pattern

_INTRODUCTION = """\
# What is known of this design beside its pattern. What the pattern says itself was filled
# in; a line behind a "#" is an example: take the "#" away and write what is true.
"""
_MM_IN: dict[str, Fraction] = {
    "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
}  # fmt: skip

Values = Mapping[str, str | int | float]


class Template(Struct, frozen=True):
    """A worksheet to begin with.

    Attributes:
        text: The whole of it.
        filled: What was filled in, in a few words each: "2 yarns".
    """

    text: str
    filled: tuple[str, ...]


def worksheet_for(pattern: Pattern, design: Design, title: str) -> Template:
    """The worksheet for a pattern, with what its text says of the design."""
    known: dict[str, Sequence[Values]] = {
        "design": [dict(_of_design(pattern, design, title))],
        "swatch": [dict(_of_swatch(gauge)) for gauge in design.gauges],
        "yarn": [dict(_of_yarn(*pair)) for pair in _yarns(design)],
        "size": [
            dict(_of_size(design, size, name)) for size, name in enumerate(pattern.sizes)
        ],
    }
    tables = [_table(table, known.get(table.name, [])) for table in TABLES]
    return Template("\n".join([_INTRODUCTION, *tables]), tuple(_filled(known)))


def _filled(known: Mapping[str, Sequence[Values]]) -> Iterator[str]:
    for key in known["design"][0]:
        yield f"the {key}"
    for name in ("swatch", "yarn", "size"):
        number = sum(bool(values) for values in known[name])
        if number:
            plural = "" if number == 1 else "es" if name == "swatch" else "s"
            yield f"{number} {name}{plural}"


def _table(table: Table, known: Sequence[Values]) -> str:
    """A table once, or as often as something is known; its first names every key."""
    told = [values for values in known if values] or [{}]
    heading = table.heading if any(told) else f"# {table.heading}"
    more = " (one for each)" if table.several else ""
    pieces = [f"# {table.says[0].upper()}{table.says[1:]}{more}.\n"]
    for number, values in enumerate(told):
        lines = [heading, *_keys(table, values, examples=number == 0)]
        pieces.append("\n".join(lines) + "\n")
    return "".join(pieces[:1]) + "\n".join(pieces[1:])


def _keys(table: Table, values: Values, *, examples: bool) -> Iterator[str]:
    for key in table.keys:
        says = f"  # {key.says}{_choices(key)}" if examples else ""
        if key.name in values:
            yield f"{key.name} = {_written(values[key.name])}{says}"
        elif examples:
            yield f"# {key.name} = {key.example}{says}"


def _choices(key: Key) -> str:
    words = listed([f'"{word}"' for word in key.of], "or")
    return f": {words}" if key.kind is Kind.CHOICE else ""


def _written(value: str | float) -> str:
    """A value as TOML writes it; its strings are those of JSON but for one letter."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _of_design(pattern: Pattern, design: Design, title: str) -> Iterator[tuple[str, str]]:
    title = " ".join((design.title or title).split())
    if title:
        yield "title", title
    if pattern.terms_said and pattern.terms:
        yield "terms", pattern.terms
    units = {gauge.width.unit for gauge in design.gauges if gauge.width is not None}
    if len(units) == 1 and units <= {"in", "cm"}:
        yield "units", units.pop()


def _of_swatch(gauge: Gauge) -> Iterator[tuple[str, str | int | float]]:
    if gauge.stitch:
        yield "stitch", " ".join(gauge.stitch.split())
    if gauge.stitches and gauge.width is not None:
        yield ("stitches" if gauge.of == "st" else "repeats"), _number(gauge.stitches)
    if gauge.rows and gauge.height is not None:
        yield "rows", _number(gauge.rows)
    for name, measure in (("width", gauge.width), ("height", gauge.height)):
        length = _length(measure, 0)
        if length:
            yield name, length
    if gauge.state:
        yield "state", str(gauge.state)
    if gauge.hook_mm:
        yield "hook_mm", _number(gauge.hook_mm)


def _yarns(design: Design) -> Iterator[tuple[YarnListed, Colour | None]]:
    """Each yarn in each of its colours; a letter that comes twice is told once."""
    letters: set[str] = set()
    for yarn in design.yarns:
        for colour in yarn.colours or (None,):
            letter = colour.letter if colour is not None else ""
            if not letter or letter not in letters:
                yield yarn, colour
            letters.add(letter)


def _of_yarn(
    yarn: YarnListed, colour: Colour | None
) -> Iterator[tuple[str, str | int | float]]:
    named = [("name", yarn.name)]
    if colour is not None:
        named += [("colour", colour.name), ("letter", colour.letter)]
    yield from ((key, " ".join(words.split())) for key, words in named if words.strip())
    if yarn.weight is not None:
        yield "weight_class", yarn.weight
    for key, number in (("ball_m", yarn.ball_m), ("ball_g", yarn.ball_g)):
        if number:
            yield key, _number(number)


def _of_size(design: Design, size: int, name: str) -> Iterator[tuple[str, str]]:
    yield "name", name
    told = [found for found in design.finished if not found.of]
    for key, along in (("width", Along.WIDTH), ("height", Along.LENGTH)):
        for found in told:
            length = _length(found.measure, size)
            if found.along is along and not found.to_fit and length:
                yield key, length
                break
    fits = [found for found in design.finished if found.to_fit]
    if len(fits) == 1 and (length := _length(fits[0].measure, size)):
        yield "to_fit", length


def _length(measure: Measure | None, size: int) -> str:
    """A length as a worksheet writes it, in the unit it was told in."""
    mm = measure.at(size) if measure is not None else None
    if measure is None or not mm or measure.unit not in _MM_IN:
        return ""
    words = f"{_number(mm / _MM_IN[measure.unit])} {measure.unit}"
    return "" if wrong_with(_ANY_LENGTH, words) else words


_ANY_LENGTH = next(key for table in TABLES for key in table.keys if key.name == "width")


def _number(number: Fraction) -> int | float:
    """A number for a worksheet: whole where it is, else with three decimal places."""
    return int(number) if number.denominator == 1 else round(float(number), 3)
