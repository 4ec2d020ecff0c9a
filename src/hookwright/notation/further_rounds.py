"""Rounds told in prose: "work 3 rounds even", "sc in each st for 6 more rounds".

What is worked stands once, as a row of its own; how often it is worked again is a recall of
that row: a number of times, up to a number of rounds in all, or to a length.
"""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, TimesMark
from hookwright.notation.how_many_rows import rows_in_all
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Change,
    Evenly,
    InOnePlace,
    Make,
    Often,
    Recall,
    Repeat,
    Times,
)

_ROUNDS = ("rounds", "rnds", "rows", "round", "rnd", "row", "rds")
_VERBS = ("work", "continue", "cont", "keep", "carry", "go", "working", "crochet", "do")
_GOING = ("on", "working", "going", "to", "crocheting", "with", "in", "work", "make")
_EVEN = Sayings((
    "even", "evenly", "straight", "straight up", "plain", "as is", "with no increases",
    "the same", "the same way", "in the same way", "just the same", "like this",
    "without any increases", "with no increasing", "with no more increases",
    "with no decreases", "without further increases", "without further shaping",
    *(
        f"without {any_}{what}"
        for any_ in ("", "any ", "further ", "any more ", "any further ")
        for what in (
            "increasing or decreasing", "increasing", "increases", "increase", "inc",
            "decreasing", "decreases", "shaping", "incs",
        )
    ),
))  # fmt: skip


class _Reach(Struct):
    """How far some rounds go: so many of them, up to so many, or to a length."""

    rounds: Amount | None = None
    up_to: Amount | None = None
    length: str = ""
    even: bool = False


def read_further_rounds(reader: Reader) -> bool:
    """Rounds worked as the words before them say, or even where no stitch is named."""
    cursor = reader.cursor
    start = cursor.at
    if reader.depth:
        return False
    if isinstance(reader.last(), (Make, Repeat, InOnePlace, Again, TimesMark)):
        reach = _reach(cursor)
        if reach is not None and _ends(cursor):
            return _worked_again(reader, reach, start)
    elif not reader.has_work() and _even_rounds(reader):
        return True
    cursor.at = start
    return False


def _even_rounds(reader: Reader) -> bool:
    """ "Work even for 5 rounds", "3 rounds of sc", "continue in sc until ..."."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("then", "now", "next")
    led = cursor.take_word(*_VERBS)
    while led and cursor.take_word(*_GOING):
        pass
    even = cursor.take_any(_EVEN)
    cursor.take_word("in", "with") if even else None
    after_lead = cursor.at
    named = cursor.stitch()
    plain = named is not None and named.family == "plain"
    even = cursor.take_any(_EVEN) or even
    _pass_stitches(cursor)
    reach = _reach(cursor)
    begins = led or plain or not reader.items  # not "fasten off. Make one the same."
    if reach is None and even and begins and _ends(cursor) and (plain or named is None):
        reach = _Reach()
    if reach is None or not (plain or (named is None and (even or reach.even))):
        return _only_led(reader, start, after_lead, led=led and plain)
    if reach.rounds and named is None and cursor.take_word("of", "in"):
        named = cursor.stitch()
    if not _ends(cursor):
        return False
    none = Amount((0,), cursor.tokens[start].span)
    stitch = named.id if named is not None else ""
    reader.add(Evenly(none, Change.MORE, cursor.span_from(start), stitch))
    return _worked_again(reader, reach, start)


def _only_led(reader: Reader, start: int, after: int, *, led: bool) -> bool:
    """ "Keep working sc in each st until ...": the stitch and its place come next."""
    cursor = reader.cursor
    if not led or after == start:
        return False
    cursor.at = after
    return reader.remark(cursor.span_from(start))


def _worked_again(reader: Reader, reach: _Reach, start: int) -> bool:
    span = reader.cursor.span_from(start)
    if reach.rounds is not None:
        more = tuple(value and value - 1 for value in reach.rounds.values)
        if more == (0,):
            return True
        times = Times(Often.MORE, reach.rounds.span, Amount(more, reach.rounds.span))
        return reader.add(Recall((-1,), span, times=times))
    if reach.up_to or reach.length:
        return reader.add(Recall((-1,), span, up_to=reach.up_to, open_length=reach.length))
    return True


def _reach(cursor: Cursor) -> _Reach | None:
    """How far, with the position behind it; None, with the position kept."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    found = _until(cursor) or _number_of_rounds(cursor)
    if found is None:
        cursor.at = at
    return found


def _number_of_rounds(cursor: Cursor) -> _Reach | None:
    """ "for another 5 rounds", "3 rounds even", "for the next 4 rnds"."""
    at = cursor.at
    cursor.take_word("for", "over")
    cursor.take_phrase("a further", "another", "the next", "next", "a total of", "about")
    rounds = cursor.number()
    cursor.take_word("more", "further", "additional", "extra", "plain")
    if rounds is None or not cursor.take_word(*_ROUNDS):
        cursor.at = at
        return None
    cursor.take_word("more", "further", "longer")
    even = cursor.take_any(_EVEN) or bool(cursor.is_phrase("of"))
    _pass_stitches(cursor)
    return _Reach(rounds, even=even)


def _pass_stitches(cursor: Cursor) -> None:
    """ "(Work 5 rounds straight) on these 30 stitches": those that are there anyway."""
    at = cursor.at
    on = cursor.take_word("on", "over", "with", "across", "around")
    those = on and cursor.take_word("these", "those", "the", "all")
    cursor.take_word("these", "those", "the", "remaining")
    cursor.number()
    if not (those and cursor.take_word(*STITCH_NOUNS)):
        cursor.at = at


def _until(cursor: Cursor) -> _Reach | None:
    """ "until there are 7 rounds in all", "until piece measures 10 cm"."""
    number = rows_in_all(cursor)
    if number:
        return _Reach(up_to=number, even=True)
    if not cursor.take_word("until", "till", "til"):
        return None
    words = []
    while not _ends(cursor) or _goes_on_with_sizes(cursor):
        words.append(cursor.step().text)
    inches = any(unit == "in" and text.isdigit() for text, unit in pairwise(words))
    if _MEASURED.isdisjoint(words) and not inches:  # "12 loops in a line" is no length
        return None
    return _Reach(length=" ".join(("until", *words)))


def _goes_on_with_sizes(cursor: Cursor) -> bool:
    """ "until it measures 46 (47) [48] cm", "3 (3-4-4) cm": lengths of further sizes."""
    before = cursor.tokens[cursor.at - 1]
    if cursor.is_kind(Kind.DASH) and cursor.token.glued:
        return before.kind is Kind.NUMBER and cursor.peek().kind is Kind.NUMBER
    numbered = before.kind in (Kind.NUMBER, Kind.CLOSE) or before.text.isnumeric()  # "6½"
    return cursor.is_kind(Kind.OPEN) and cursor.peek().kind is Kind.NUMBER and numbered


_MEASURED = frozenset(
    "measures measure cm mm inch inches long length tall high deep wide fits desired "
    'matches match reaches covers big enough " ”'.split()
)
_ENDS = (Kind.STOP, Kind.END, Kind.OPEN, Kind.SEMICOLON, Kind.EQUALS, Kind.DASH)


def _ends(cursor: Cursor) -> bool:
    if cursor.token.kind is Kind.COMMA:
        return cursor.peek().text in ("join", "turn", "joining", "ending", "fasten", "then")
    line = cursor.token.kind is Kind.LINE
    return line or cursor.token.kind in _ENDS or cursor.done()
