"""A row in one stitch, with others at places told: "sc across, 3 sc in the 8th st".

So are "sc in all but the 8th, which takes three sc" and "sc across, working 2 sc into every
4th st". They are written out in the order in which the hook meets them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import EACH_WORDS, INTO, STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Amount,
    Evenly,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Times,
    Which,
)
from hookwright.source import Span


class _Other(Struct, frozen=True):
    """A stitch that is worked at some places of the row.

    Attributes:
        make: The stitch, with no place.
        ordinals: The places, counted from the beginning.
        every: Over how many places it comes round again; 0 where it does not.
    """

    make: Make
    ordinals: tuple[int, ...]
    every: int = 0


_LEADS = (
    "working",
    "work",
    "with",
    "making",
    "make",
    "placing",
    "putting",
    "put",
    "having",
)
_CHANGES = ("increasing", "increase", "inc", "decreasing", "decrease", "dec")
_TAKES = ("taking", "working", "drawing", "crocheting", "take", "work")
_TOGETHER = ("together", "tog")
_SO_MANY = Sayings(
    f"{verb}" for verb in ("lose", "losing", "gain", "gaining", "add", "adding", "drop",
                           "dropping", "lessening by", "growing by")
)  # fmt: skip
_AS_YOU_GO = Sayings(("as you go", "on the way", "along the way", "across", "in all"))
OTHERS_SIGNS = frozenset(
    (*_LEADS, *_CHANGES, *_TAKES, "but", "except", "which", "every", "each", "again")
)


def read_others_at(reader: Reader) -> bool:
    """Other stitches than those of the whole row, behind it."""
    cursor = reader.cursor
    start = cursor.at
    row = reader.last()
    if isinstance(row, Evenly) and _explains(cursor):
        return reader.remark(cursor.span_from(start))
    if not isinstance(row, Make) or not _is_whole_row(row):
        return False
    other = _all_but(cursor) or _others(cursor, row)
    if other is None or not cursor.is_kind(*_ENDS):
        cursor.at = start
        return False
    span = row.span.to(cursor.span_from(start))
    reader.items[-1:] = _written_out(row, other, span)
    return True


_ENDS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.LINE, Kind.END, Kind.DASH,
    Kind.EQUALS,
)  # fmt: skip


def _is_whole_row(row: Make) -> bool:
    """Whether a stitch goes into every place of the row, and is one of a kind."""
    target = row.target
    if target is None or target.which is not Which.EACH or target.from_hook:
        return False
    bounded = target.amount or target.until or target.also or target.of or target.ordinal
    one = row.amount is None or row.amount.values == (1,)
    return not bounded and one and row.legs == 1 and target.noun not in ("sp", "corner")


_EXPLAINS = Sayings((
    "that is to say", "that is", "namely", "i e", "ie", "that means", "which means",
))  # fmt: skip


def _explains(cursor: Cursor) -> bool:
    """ "(Increasing 3 evenly), that is, with 2 sc in the 4th, 8th and 12th": the same."""
    if not cursor.take_any(_EXPLAINS):
        return False
    cursor.take_kind(Kind.COMMA, Kind.COLON)
    while not cursor.is_kind(Kind.STOP, Kind.SEMICOLON, Kind.LINE, Kind.END, Kind.OPEN):
        cursor.step()
    return True


_BUT = Sayings(("but", "except for", "except in", "except", "save", "apart from", "bar"))
_GETS = (
    "takes", "gets", "has", "receives", "holds", "wants", "needs", "take", "get", "have",
    "takes up",
)  # fmt: skip
_THERE = Sayings(("there", "in it", "into it", "in that one", "in this one", "in them"))


def _all_but(cursor: Cursor) -> _Other | None:
    """ "(Sc in all) but the 8th, which takes three sc", "except the 5th, 2 sc there"."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    ordinals = _ordinals(cursor) if cursor.take_any(_BUT) else ()
    cursor.take_kind(Kind.COMMA, Kind.DASH, Kind.SEMICOLON)
    cursor.take_word("and", "which", "that", "these", "where", "it", "each")
    gets = cursor.take_word(*_GETS, *_LEADS)
    made = read_make(cursor) if ordinals else None
    there = gets or cursor.take_any(_THERE)
    one = made[0] if made and len(made) == 1 else None
    placed = one is not None and one.target is not None and one.target.noun == "here"
    if one is None or not (there or placed) or (one.target is not None and not placed):
        cursor.at = at
        return None
    cursor.take_any(_THERE)
    return _Other(replace(one, target=None), ordinals)


def _ordinals(cursor: Cursor) -> tuple[int, ...]:
    """ "The 4th, 8th and 12th sts": places counted from the beginning."""
    at = cursor.at
    found: list[int] = []
    while True:
        mark = cursor.at
        if found:
            cursor.take_kind(Kind.COMMA)
            cursor.take_word("and")
        cursor.take_word("the", "in")
        cursor.take_word("the")
        if not cursor.is_kind(Kind.ORDINAL):
            cursor.at = mark
            break
        found.append(cursor.step().value)
    cursor.take_word(*STITCH_NOUNS) or (found and cursor.stitch())
    rising = all(a < b for a, b in pairwise(found))
    if not found or not rising:
        cursor.at = at
        return ()
    return tuple(found)


def _others(cursor: Cursor, row: Make) -> _Other | None:
    """ "Working 2 sc into every 4th st", "3 sc in the 8th", "every 3rd and 4th tog"."""
    at = cursor.at
    led = cursor.take_word("but", "and", "again")
    led = _pass_number(cursor) or led
    led = cursor.take_word("by", "again") or led
    found = _drawn_together(cursor) or _changed(cursor)
    if found is None:
        led = cursor.take_word(*_LEADS) or led
        found = _placed(cursor, row)
    if found is None:
        cursor.at = at
    return found


def _pass_number(cursor: Cursor) -> bool:
    """ "(But) lose 10 sts as you go," before it is told how."""
    at = cursor.at
    number = cursor.number() if cursor.take_any(_SO_MANY) else None
    if number is not None and cursor.take_word(*STITCH_NOUNS):
        cursor.take_any(_AS_YOU_GO)
        cursor.take_kind(Kind.COMMA)
        return True
    cursor.at = at
    return False


def _drawn_together(cursor: Cursor) -> _Other | None:
    """ "Taking every 2nd and 3rd st together", "every 3rd and 4th sts together"."""
    at = cursor.at
    cursor.take_word(*_TAKES)
    pair = _every_pair(cursor)
    if pair and cursor.take_word(*_TOGETHER):
        return _decrease(pair, cursor.span_from(at))
    cursor.at = at
    return None


def _decrease(pair: tuple[int, ...], span: Span) -> _Other:
    return _Other(Make("dec", span, legs=2), pair[:1], pair[-1])


def _every_pair(cursor: Cursor) -> tuple[int, ...]:
    """Two places side by side, of which the second ends what comes round again."""
    at = cursor.at
    pair = _ordinals(cursor) if cursor.take_word(*EACH_WORDS) else ()
    if len(pair) == _PAIR and pair[1] == pair[0] + 1:
        return pair
    cursor.at = at
    return ()


_PAIR = 2


def _changed(cursor: Cursor) -> _Other | None:
    """ "Increasing in every 4th st", "decreasing over every 2nd and 3rd st"."""
    at = cursor.at
    word = cursor.token.text
    if cursor.take_word(*_CHANGES):
        more = word.startswith("inc")
        cursor.take_word(*INTO)
        span = cursor.span_from(at)
        pair = () if more else _every_pair(cursor)
        if pair:
            return _decrease(pair, span)
        target = read_target(cursor) if more else None
        if target is not None and _every(target):
            return _Other(Make("inc", span), (_every(target),), _every(target))
        cursor.at = at + 1
        cursor.take_word(*INTO)
        places = _ordinals(cursor) if more else ()
        if places:
            return _Other(Make("inc", span), places)
    cursor.at = at
    return None


def _every(target: Target) -> int:
    """The 4 of "every 4th st"; 0 where it is another place."""
    nth = target.which is Which.EACH and target.of is None and not target.amount
    return (target.ordinal or 0) if nth else 0


def _placed(cursor: Cursor, row: Make) -> _Other | None:
    """ "2 sc into every 4th st", "3 sc in the 8th", "2 sc in the 5th and 10th sts"."""
    at = cursor.at
    made = read_make(cursor)
    one = made[0] if made else None
    target = one.target if one is not None else None
    if one is not None and target is None and cursor.take_word("in", "into"):
        places = _ordinals(cursor)  # "in the 5th and 10th sts"
        return _Other(one, places) if places else None
    if made is None or one is None or target is None:
        return None
    across(cursor)
    bare = replace(one, target=None)
    every = _every(target)
    if every > 1 and len(made) == 1:
        return _Other(bare, (every,), every)
    if target.which is not Which.NTH or target.from_hook or target.of or target.rows_below:
        return None
    if target.noun not in ("st", row.stitch, row.target and row.target.noun):
        return None
    cursor.at = at
    places = _from_first_ordinal(cursor)
    return _Other(bare, places) if places else None


def _from_first_ordinal(cursor: Cursor) -> tuple[int, ...]:
    """The places of a stitch, read again from the first ordinal on."""
    while not cursor.is_kind(Kind.ORDINAL) and not cursor.is_kind(*_ENDS):
        cursor.step()
    return _ordinals(cursor)


def _written_out(row: Make, other: _Other, span: Span) -> Iterable[Node]:
    if other.every:
        yield _over_and_over(row, other, span)
    else:
        yield from _one_by_one(row, other)
    yield replace(row, if_left=True, span=span)


def _over_and_over(row: Make, other: _Other, span: Span) -> Node:
    """ "(Sc in 3, 2 sc in the next) across": each time the places before it, and it."""
    body = _before(row, other.ordinals[0] - 1)
    legs = other.make.legs
    one = replace(other.make, target=_next(max(1, legs), other.make.span))
    return Repeat((*body, one), Times(Often.ACROSS, span), span)


def _one_by_one(row: Make, other: _Other) -> Iterable[Node]:
    used = 0
    for ordinal in other.ordinals:
        yield from _before(row, ordinal - used - 1)
        yield replace(other.make, target=_next(1, other.make.span))
        used = ordinal


def _before(row: Make, number: int) -> Sequence[Node]:
    """So many stitches of the row."""
    if number < 1:
        return ()
    return (replace(row, amount=None, target=_next(number, row.span)),)


def _next(number: int, span: Span) -> Target:
    amount = Amount((number,), span) if number > 1 else None
    return Target("st", Which.NEXT, span, amount)
