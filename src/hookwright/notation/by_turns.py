"""Stitches worked by turns: "alternate sc and hdc across", "1 sc and 1 hdc by turns"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import INTO, across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.times import read_times
from hookwright.notation.tree import Amount, Make, Often, Repeat, Times, Which
from hookwright.source import Span

_TURNS = (
    "by turns", "in turn", "in turns", "alternately", "alternating", "turn and turn about",
    "one after the other",
)  # fmt: skip
_LEADS = Sayings((
    "alternate between", "alternating between", *_TURNS, "alternate", "working alternately",
    "work alternately", "taking turns with",
))  # fmt: skip
_BEHIND = Sayings(_TURNS)
_ALONG_CHAIN = Sayings(
    f"{along} {the}{chain}"
    for along in ("along", "over", "across", "down", "to the end of")
    for the in ("the ", "your ")
    for chain in ("chain", "ch", "foundation chain", "foundation ch")
)
_MOST = 6
"""So many stitches are at most told by turns."""
_ENDS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.CLOSE, Kind.LINE, Kind.END,
    Kind.DASH, Kind.EQUALS,
)  # fmt: skip
BY_TURNS_SIGNS = frozenset(
    "turn turns alternately alternating alternate about other".split()
)


def read_by_turns(reader: Reader) -> bool:
    """Stitches told by turns, with the words before or behind them."""
    return not reader.depth and (_told_before(reader) or _told_behind(reader))


def _told_before(reader: Reader) -> bool:
    """ "Alternate a fpdc and a bpdc to the end", "by turns a puff and a sc"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("then", "and", "now")
    if not cursor.take_any(_LEADS):
        cursor.at = start
        return False
    made, times = _stitches(cursor)
    if len(made) < _TWO or not (times or cursor.is_kind(*_ENDS)):
        cursor.at = start
        return False
    times = times or Times(Often.ACROSS, cursor.span_from(start))
    pass_one_in_each(cursor)
    return _add(reader, made, times, cursor.span_from(start))


_TWO = 2


def _stitches(cursor: Cursor) -> tuple[list[Make], Times | None]:
    """The stitches of a list, and how far they go where that is told behind the last."""
    made: list[Make] = []
    while len(made) < _MOST:  # a longer list is no list by turns
        at = cursor.at
        cursor.take_kind(Kind.COMMA)
        cursor.take_word("and", "then", "with")
        if not made and cursor.at > at:
            cursor.at = at
        found = read_make(cursor)
        if found is None or len(found) > 1 or not _may_alternate(found[0]):
            cursor.at = at
            break
        made.append(found[0])
        if _as_far(found[0]) is not None:
            break
    if not made:
        return made, None
    times = _as_far(made[-1]) or read_times(cursor) or _along_chain(cursor)
    if times is not None:
        made[-1] = replace(made[-1], target=None) if _as_far(made[-1]) else made[-1]
    return made, times


def _may_alternate(make: Make) -> bool:
    """Whether a stitch has no place of its own, or one that says how far all of them go."""
    target = make.target
    return target is None or _as_far(make) is not None or target.which is Which.NEXT


def _as_far(make: Make) -> Times | None:
    """The "to the end" that was read with the last of them."""
    target = make.target
    if target is not None and target.which is Which.LAST:  # "and a sc to last 2 sts"
        left = target.amount or Amount((1,), target.span)
        return Times(Often.TO_LAST, target.span, left)
    if target is None or target.which is not Which.EACH or target.amount is not None:
        return None
    if target.until is None:
        return Times(Often.ACROSS, target.span)
    until = target.until
    if until.which is not Which.LAST:
        return None
    left = until.amount or Amount((1,), until.span)
    return Times(Often.TO_LAST, target.span, left, until.noun)


def _along_chain(cursor: Cursor) -> Times | None:
    at = cursor.at
    if cursor.take_any(_ALONG_CHAIN):
        return Times(Often.ACROSS, cursor.span_from(at))
    return None


def _told_behind(reader: Reader) -> bool:
    """ "1 sc and 1 hdc by turns to the end": the bare stitches of the sentence."""
    cursor = reader.cursor
    start = cursor.at
    made = _bare_before(reader)
    times = take_by_turns(cursor) if len(made) >= _TWO else None
    if times is None or not (cursor.is_kind(*_ENDS) or cursor.is_word("turn")):
        cursor.at = start
        return False
    del reader.items[len(reader.items) - len(made) :]
    return _add(reader, made, times, made[0].span.to(cursor.span_from(start)))


def _add(reader: Reader, made: list[Make], times: Times, span: Span) -> bool:
    """The list over and over; where one place is left its first stitch is the last."""
    reader.add(Repeat(tuple(made), times, span, mark="("))
    if times.often is Often.ACROSS and times.until is None and len(made) == _TWO:
        reader.add(replace(made[0], if_left=True))
    return True


def _bare_before(reader: Reader) -> list[Make]:
    """The stitches right before, each told by itself and none with a place."""
    made: list[Make] = []
    for item in reversed(reader.items[reader.sentence :]):
        if not isinstance(item, Make) or item.target is not None or item.legs > 1:
            break
        made.insert(0, item)
    return made


def take_by_turns(cursor: Cursor) -> Times | None:
    """ "By turns to the end", "in turn along the chain": over and over, as far as told."""
    start = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.take_any(_BEHIND):
        cursor.at = start
        return None
    times = read_times(cursor) or _along_chain(cursor)
    if times is None and not cursor.is_kind(*_ENDS):
        cursor.at = start
        return None
    pass_one_in_each(cursor)
    return times or Times(Often.ACROSS, cursor.span_from(start))


_ONE = ("one", "1")


def pass_one_in_each(cursor: Cursor) -> None:
    """ ", one round each hdc", ", one st per chain": how they lie, told once more."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    one = cursor.take_word(*_ONE)
    cursor.take_word("st", "stitch", "of them")
    per = cursor.is_word("per")
    into = one and (per or cursor.take_word(*INTO, "to", "round"))
    target = read_target(cursor) if into else None
    across(cursor)
    if target is None or target.which is not Which.EACH or not cursor.is_kind(*_ENDS):
        cursor.at = at
