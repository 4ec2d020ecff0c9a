"""Which lengths does a stretch of text tell?

A length may be a whole number, a decimal or a fraction ("4 1/2", "4½", "4.5", "4,5"), one
of a list with one value a size ("27 (29, 32) in"), told for two ways of a piece ("36 x 48
in") and told once more in the other units ("10 cm / 4 in"). What has no unit is no length.

1 inch is 25.4 mm exactly. Source: international yard and pound agreement, 1959.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.design.facts import Measure
from hookwright.regex import regex
from hookwright.source import Span

MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
}
"""Millimetres in a unit."""
_IMPERIAL = frozenset({"in", "ft", "yd"})

Value = Fraction | None

_GLYPHS = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}  # fmt: skip
_G = "".join(_GLYPHS)
_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10,
    "twelve": 12,
}  # fmt: skip
_OVER = r"(?:1[/⁄]2|[12][/⁄]3|[13][/⁄]4|[1357][/⁄]8|\d{1,2}[/⁄]16)(?![\d/⁄])"
_NUMBER = regex(
    rf"(?P<fraction>{_OVER})|(?P<glyph>[{_G}])|(?P<word>{'|'.join(_WORDS)})\b|"
    rf"(?P<thousands>\d{{1,3}},\d{{3}})(?!\d|,\d)|"
    rf"(?P<whole>\d{{0,6}}\.\d{{1,3}}|\d{{1,6}},\d(?=[ \t]?(?:c?m|in)\b)|\d{{1,6}})(?!\d)"
    rf"(?:[ \t]?(?P<half>[{_G}])|[ \t-](?P<part>{_OVER}))?",
    re.IGNORECASE,
)
_NOT_INCHES = (
    r"(?![ \t]{1,4}(?:the|each|every|any|all|next|same|first|last|a|one|total|ring|st|sts|"
    r"ch|sp|which|this|that|order|case|parenthes[ei]s|(?:round |square )?brackets?|bold|"
    r"italics?)\b)"
)
_UNIT = regex(
    rf"[ \t]?-?[ \t]?(?:(?P<in>inch(?:es)?\b|ins?\b{_NOT_INCHES}|[\"”″“]|''|’’)|"
    r"(?P<mm>mms?\b|milli(?:meter|metre)s?\b)|(?P<cm>cms?\b|centi(?:meter|metre)s?\b)|"
    r"(?P<ft>ft\b|feet\b|foot\b)|(?P<yd>yds?\b|yards?\b)|"
    r"(?P<m>m\b|mtrs?\b|met(?:er|re)s?\b))"
    r"(?:\.(?=[ \t]{1,4}[a-z(/\d]|[,)/]))?",
    re.IGNORECASE,
)
_BEGINS = regex(
    rf"(?<![\w/.,])\.?(?=[\d{_G}])|"
    rf"\b(?=(?:{'|'.join(_WORDS)})[ -](?:inch|inches|cm|centimet))",
    re.IGNORECASE,
)
_DASH = regex(r"[ \t]{0,4}(?:-|–|—|to\b)[ \t]{0,4}")
_TIMES = regex(r"[ \t]{0,4}(?:x|×|by\b|X)[ \t]{0,4}")
_OPEN = regex(r"[ \t]{0,4},?[ \t]{0,4}[(\[{][ \t]{0,4}")
_CLOSE = regex(r"[ \t]{0,4}[)\]}]")
_BETWEEN = regex(
    r"[ \t]{0,4}[,:;/][ \t]{0,4}(?:and[ \t]{1,4})?|[ \t]{0,4}[-–—|][ \t]{0,4}|"
    r"[ \t]{1,4}and[ \t]{1,4}"
)
_NONE = regex(r"(?:--?|[–—]{1,2}|n/a)(?=[ \t]{0,4}[,:;/)\]}])")
_OTHER_UNITS = regex(
    r"[ \t]{0,4}(?:(?P<open>[(\[])|/|=|\bor\b|\|)[ \t]{0,4}"
    r"(?:(?:approx(?:imately)?\.?|about|ca?\.|~|≈|or|=)[ \t]{0,4})?"
)
_OF_HOOK = regex(
    r"[ \t]{0,4}-?(?:crochet |steel )?(?:hook|needle|eyes|button|bead)", re.IGNORECASE
)
_MOST = 30
"""More numbers than any list of sizes has."""


class Told(Struct, frozen=True):
    """Lengths told together: "10 cm (4 in)", "36 x 48 in (91 x 122 cm)".

    Attributes:
        measures: One, or one for each way of a piece.
        span: From the first number to the last unit.
    """

    measures: tuple[Measure, ...]
    span: Span


class _List(Struct, frozen=True):
    """Numbers as they stand, before their unit may be known."""

    values: tuple[Value, ...]
    unit: str
    start: int
    end: int
    also: tuple[Value, ...] = ()
    also_unit: str = ""
    ranged: bool = False


def lengths_in(text: str, start: int, end: int) -> Iterator[Told]:
    """Every length between two places of a text, in order."""
    at = start
    while (begins := _BEGINS.search(text, at, end)) is not None:
        told = _told(text, begins.start(), end)
        if told is None:
            at = _past_number(text, begins.start(), end)
            continue
        yield told
        at = told.span.end


def number_at(text: str, at: int, end: int) -> tuple[Fraction, int] | None:
    """The number that stands at a place, and where it ends."""
    found = _NUMBER.match(text, at, end)
    return (_value(found), found.end()) if found is not None else None


def unit_system(unit: str) -> str:
    """Which of the two systems a unit belongs to."""
    return "imperial" if unit in _IMPERIAL else "metric"


def _past_number(text: str, at: int, end: int) -> int:
    """Where to look on: the last of a run of numbers, which has no unit, or behind one."""
    last = at
    for _ in range(_MOST):
        found = _NUMBER.match(text, last, end)
        between = _BETWEEN.match(text, found.end(), end) if found is not None else None
        if between is None or _NUMBER.match(text, between.end(), end) is None:
            break
        last = between.end()
    if last > at:
        return last
    found = _NUMBER.match(text, at, end)
    return found.end() if found is not None else at + 1


def _value(found: re.Match[str]) -> Fraction:
    if found["fraction"]:
        return _fraction(found["fraction"])
    if found["glyph"]:
        return _GLYPHS[found["glyph"]]
    if found["word"]:
        return Fraction(_WORDS[found["word"].lower()])
    if found["thousands"]:
        return Fraction(found["thousands"].replace(",", ""))
    whole = Fraction(found["whole"].replace(",", "."))
    if found["half"]:
        return whole + _GLYPHS[found["half"]]
    return whole + (_fraction(found["part"]) if found["part"] else 0)


def _fraction(words: str) -> Fraction:
    over, under = re.split("[/⁄]", words)
    return Fraction(int(over), int(under))


def _told(text: str, at: int, end: int) -> Told | None:
    """The lengths that begin here, with the same in other units behind them."""
    first = _group(text, at, end)
    if first is None:
        return None
    between = _OTHER_UNITS.match(text, first.span.end, end)
    if between is None:
        return first
    second = _group(text, between.end(), end)
    if second is not None and len(first.measures) == 1 < len(second.measures):
        second = _single(text, between.end(), end)  # "40 in/100 cm by 50 in/127 cm"
    if second is None or not _are_the_same(first, second):
        return first
    if _OF_HOOK.match(text, second.span.end, end) is not None:
        return first
    closed = _CLOSE.match(text, second.span.end, end) if between["open"] else between
    if closed is None:
        return first
    measures = tuple(
        replace(a, also=b) if a.also is None else a
        for a, b in zip(first.measures, second.measures, strict=True)
    )
    last = closed.end() if between["open"] else second.span.end
    return Told(measures, Span(first.span.start, last))


def _single(text: str, at: int, end: int) -> Told | None:
    """One length, whatever is said across from it."""
    found = _list(text, at, end)
    if found is None or not found.unit:
        return None
    return Told((_measure(found, found.unit),), Span(found.start, found.end))


def _are_the_same(first: Told, second: Told) -> bool:
    """Whether two lengths may be one in two units: as many, and in the other system."""
    systems = [unit_system(told.measures[0].unit) for told in (first, second)]
    return len(first.measures) == len(second.measures) and systems[0] != systems[1]


def _group(text: str, at: int, end: int) -> Told | None:
    """ "36 x 48 in": lists with crosses between; a unit may stand behind the last alone."""
    lists: list[_List] = []
    while len(lists) < 3:
        found = _list(text, at, end)
        if found is None:
            break
        lists.append(found)
        cross = _TIMES.match(text, found.end, end)
        if cross is None:
            break
        at = cross.end()
    if len(lists) == 2:
        lists = _of_all_sizes(text, lists, end)
    if not lists or not lists[-1].unit:
        return None
    last = lists[-1].unit
    measures = tuple(_measure(found, found.unit or last) for found in lists)
    return Told(measures, Span(lists[0].start, lists[-1].end))


def _of_all_sizes(text: str, lists: list[_List], end: int) -> list[_List]:
    """ "36 x 48 (40 x 60, 50 x 70) in": two ways of a piece, a pair a size."""
    pairs = [(lists[0].values[0], lists[1].values[0])]
    opened = _OPEN.match(text, lists[1].end, end)
    if opened is None or len(lists[0].values) + len(lists[1].values) > 2:
        return lists
    place, unit = opened.end(), ""
    while len(pairs) < _MOST:
        first = _item(text, place, end)
        cross = _TIMES.match(text, first.end, end) if first else None
        second = _item(text, cross.end(), end) if cross else None
        if first is None or second is None:
            return lists
        pairs.append((first.values[0], second.values[0]))
        unit, place = second.unit or unit, second.end
        closed = _CLOSE.match(text, place, end)
        between = _BETWEEN.match(text, place, end)
        if closed is not None:
            place = closed.end()
            break
        if between is None:
            return lists
        place = between.end()
    own = lists[1].unit
    behind = _UNIT.match(text, place, end) if not (own or unit) else None
    unit = own or unit or (str(behind.lastgroup) if behind else "")
    if len(pairs) < 3 or (own and unit != own):
        return lists
    last = behind.end() if behind else place
    across, up = zip(*pairs, strict=True)
    start = lists[0].start
    return [_List(across, unit, start, last), _List(up, unit, start, last)]


def _measure(found: _List, unit: str) -> Measure:
    span = Span(found.start, found.end)
    also = (
        Measure(_in_mm(found.also, found.also_unit), found.also_unit, span)
        if found.also
        else None
    )
    return Measure(_in_mm(found.values, unit), unit, span, also, found.ranged)


def _in_mm(values: tuple[Value, ...], unit: str) -> tuple[Value, ...]:
    return tuple(None if value is None else value * MM[unit] for value in values)


def _list(text: str, at: int, end: int) -> _List | None:
    """One number with its unit, or one a size: "27 (29, 32) in", "18-20-22 cm"."""
    bare = _bare_list(text, at, end)
    if bare is not None:
        return bare
    first = _item(text, at, end)
    if first is None:
        return None
    values, unit, last, also = [first.values[0]], first.unit, first.end, list(first.also)
    behind, ranged = unit, first.ranged
    while (more := _in_brackets(text, last, end, first)) is not None:
        values += more.values
        also += more.also
        ranged = ranged or more.ranged
        last, behind = more.end, more.unit
    if len(values) == 1:
        return first
    if not behind and not first.unit and (found := _UNIT.match(text, last, end)):
        unit, last = str(found.lastgroup), found.end()
    unit = unit or behind
    twice = tuple(also) if len(also) == len(values) else ()
    return _List(tuple(values), unit, at, last, twice, first.also_unit, ranged)


def _bare_list(text: str, at: int, end: int) -> _List | None:
    """ "18-20-22 cm", "27/29/32 in", "20, 30 and 40 cm": three or more, no brackets."""
    values: list[Value] = []
    place = at
    while len(values) < _MOST and (number := number_at(text, place, end)) is not None:
        values.append(number[0])
        place = number[1]
        between = _BETWEEN.match(text, place, end)
        if between is None:
            break
        place = between.end()
    unit = _UNIT.match(text, place, end)
    if len(values) < 3 or unit is None:
        return None
    return _List(tuple(values), str(unit.lastgroup), at, unit.end())


def _item(text: str, at: int, end: int) -> _List | None:
    """A number, or a range of two, with its unit and the same in another: "71 cm/28"."""
    number = number_at(text, at, end)
    if number is None:
        return None
    value, last = number
    unit = _UNIT.match(text, last, end)
    upper = _upper(text, unit.end() if unit else last, end, value)
    if upper is not None:
        value, last = (value + upper[0]) / 2, upper[1]
        unit = _UNIT.match(text, last, end) or unit
    ranged = upper is not None
    if unit is None:
        return _List((value,), "", at, last, ranged=ranged)
    name, last = str(unit.lastgroup), max(last, unit.end())
    plain = _List((value,), name, at, last, ranged=ranged)
    slash = _SLASH.match(text, last, end)
    other = number_at(text, slash.end(), end) if slash else None
    other_unit = _UNIT.match(text, other[1], end) if other else None
    if other is None or other_unit is None:
        return plain
    also = str(other_unit.lastgroup)
    within = _OPEN.match(text, other_unit.end(), end)
    in_list = within is not None or _BETWEEN_ITEMS.match(text, other_unit.end(), end)
    if unit_system(also) == unit_system(name) or not in_list:
        return plain
    return _List((value,), name, at, other_unit.end(), (other[0],), also, ranged)


def _upper(text: str, at: int, end: int, value: Fraction) -> tuple[Fraction, int] | None:
    """The upper end of a range, "30-32"; three numbers with dashes are a list."""
    dash = _DASH.match(text, at, end)
    upper = number_at(text, dash.end(), end) if dash is not None else None
    if upper is None or upper[0] <= value:
        return None
    further = _DASH.match(text, upper[1], end)
    is_list = further is not None and number_at(text, further.end(), end) is not None
    return None if is_list else upper


_SLASH = regex(r"[ \t]{0,4}/[ \t]{0,4}")
_BETWEEN_ITEMS = regex(r"[ \t]{0,4}[,;)\]}]")


def _in_brackets(text: str, at: int, end: int, first: _List) -> _List | None:
    """The other sizes in brackets; None for a remark, or the same in other units."""
    opened = _OPEN.match(text, at, end)
    if opened is None:
        return None
    values: list[Value] = []
    also: list[Value] = []
    unit, ranged = "", False
    place = opened.end()
    while len(values) < _MOST:
        none = _NONE.match(text, place, end)
        item = None if none else _item(text, place, end)
        if none is None and item is None:
            return None
        if item is not None:
            values.append(item.values[0])
            also.extend(item.also)
            unit, place, ranged = item.unit or unit, item.end, ranged or item.ranged
        elif none is not None:
            values.append(None)
            place = none.end()
        closed = _CLOSE.match(text, place, end)
        if closed is not None:
            found = _List(tuple(values), unit, at, closed.end(), tuple(also), ranged=ranged)
            return _other_sizes(found, first)
        between = _BETWEEN.match(text, place, end)
        if between is None:
            return None
        place = between.end()
    return None


def _other_sizes(found: _List, first: _List) -> _List | None:
    """A list in brackets, if it goes on with the number before it."""
    same_unit = found.unit == first.unit
    if len(found.values) == 1:
        return found if same_unit else None
    return found if same_unit or not found.unit or not first.unit else None
