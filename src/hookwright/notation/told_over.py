"""Repeats told by what they go over, before their group: "over every six sts work sc, hdc".

The group goes to the end of its clause: "in each quarter: 3 sc, 2 sc in the fourth st",
"6 times over: 4 hdc, 1 hdc dec", "then always alternately 1 dc and 2 dc".
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.ordinals import counted_on, places_of
from hookwright.notation.place_words import STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    DEEPEST,
    Amount,
    Chain,
    InOnePlace,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Target,
    Times,
    Which,
)
from hookwright.notation.work import is_work

_OVER = ("over", "across", "for", "on", "in", "along")
_EVERY = ("every", "each", "all")
_PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4,
    "fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8,
}  # fmt: skip
"""How often a round holds such a part of itself."""
_SIDES = frozenset("side sides edge edges section sections wedge wedges segment segments "
                   "part parts".split())  # fmt: skip
_OF_ROUND = Sayings((
    "of the round", "of the rnd", "of this round", "of this rnd", "of the ring",
    "of the circle", "of the square", "of the way",
))  # fmt: skip
_WORK = ("work", "make", "do", "crochet", "come", "there")
_BY_TURNS = Sayings(
    f"{then}{always}{turns}"
    for then in ("then ", "")
    for always in ("always ", "keep ", "")
    for turns in ("alternately", "in alternation", "alternating", "by turns", "in turns")
)
TOLD_OVER_SIGNS = frozenset(
    "every each all times time x alternately alternation alternating turns".split()
)
"""Words of which one stands in whatever is read here."""
_TIMES = ("times", "time", "x")
_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.EQUALS, Kind.OPEN, Kind.DASH)
_CLOSES = ("join", "sl", "ss", "slst", "turn", "close", "fasten", "repeat", "rep")


def read_told_over(reader: Reader) -> bool:
    """A repeat whose number or reach stands in front of it."""
    cursor = reader.cursor
    start = cursor.at
    if reader.depth >= DEEPEST:
        return False
    cursor.take_word("then", "and")
    by_turns = cursor.take_any(_BY_TURNS)
    times = Times(Often.ACROSS, cursor.span_from(start)) if by_turns else _reach(cursor)
    if times is None:
        cursor.at = start
        return False
    marked = cursor.take_kind(Kind.COLON) or (by_turns and cursor.take_kind(Kind.COMMA))
    led = cursor.take_word(*_WORK)
    body = _group(reader, by_turns=by_turns) if marked or led or by_turns else ()
    if sum(isinstance(node, (Make, InOnePlace, Chain)) for node in body) < 1 + by_turns:
        cursor.at = start
        return False
    if by_turns:
        body = tuple(_in_next(node) for node in body)
    body = counted_on(body)
    if not _goes_over(body, times.amount if times.often is Often.ACROSS else None):
        cursor.at = start
        return False
    times = replace(times, amount=None) if times.often is Often.ACROSS else times
    return reader.add(Repeat(body, times, cursor.span_from(start), mark="("))


def _goes_over(body: tuple[Node, ...], number: Amount | None) -> bool:
    """Whether a group takes as many places as it is told to go over."""
    places = [places_of(node) for node in body if not isinstance(node, Chain)]
    known = sum(place or 0 for place in places) if None not in places else None
    return number is None or known is None or known == number.at(0)


def _reach(cursor: Cursor) -> Times | None:
    """ "Over every 6 sts", "in each quarter", "on each of the four sides", "6 times"."""
    start = cursor.at
    amount = _so_often(cursor) or _parts(cursor)
    if amount is not None:
        return Times(Often.TIMES, cursor.span_from(start), amount)
    cursor.at = start
    every = cursor.take_word(*_OVER) and cursor.take_word(*_EVERY)
    if every:
        cursor.take_phrase("group of", "set of", "lot of")
    number = cursor.number() if every else None
    counted = number is not None and (
        cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None
    )
    if not counted:
        return None
    across(cursor)
    return Times(Often.ACROSS, cursor.span_from(start), number)


def _so_often(cursor: Cursor) -> Amount | None:
    """ "6 times over", "do this 6 times": how often what stands behind the colon."""
    cursor.take_word("work", "do", "make")
    cursor.take_word("this", "these", "the")
    amount = cursor.number()
    if amount is None or not cursor.take_word(*_TIMES):
        return None
    cursor.take_phrase("over", "in all", "around", "round")
    return amount if cursor.is_kind(Kind.COLON) else None


def _parts(cursor: Cursor) -> Amount | None:
    """ "In each quarter of the round", "on each of the four sides"."""
    at = cursor.at
    if not cursor.take_word(*_OVER) or not cursor.take_word(*_EVERY):
        cursor.at = at
        return None
    cursor.take_word("of")
    cursor.take_word("the")
    number = cursor.number()
    named = cursor.token
    told = cursor.take_word(*(_PARTS if number is None else _SIDES | _PARTS.keys()))
    cursor.take_any(_OF_ROUND)
    if not told:
        cursor.at = at
        return None
    return number or Amount((_PARTS[named.text],), named.span)


def _group(reader: Reader, *, by_turns: bool) -> tuple[Node, ...]:
    """What is worked up to the end of the clause, or to the join; by turns up to "and"."""
    cursor = reader.cursor
    inner = reader.inner()
    joined = False
    while not cursor.done() and not cursor.is_kind(*_ENDS):
        if cursor.is_kind(Kind.LINE) and cursor.token.value > 1:
            break
        closes = cursor.peek().text in _CLOSES or (by_turns and joined)
        if cursor.is_kind(Kind.COMMA) and closes:
            break
        joined = joined or cursor.is_word("and")
        if cursor.take_kind(Kind.COMMA, Kind.LINE) or cursor.take_word("and", "then"):
            continue
        if cursor.is_kind(Kind.NUMBER) and cursor.tokens[cursor.at - 1].kind is Kind.EQUALS:
            break
        inner.read_next()
    return tuple(node for node in fold(inner.items) if not isinstance(node, Remark))


def _in_next(node: Node) -> Node:
    """ "(Alternately) 1 dc and 2 dc": one in the next place, and two in the one after."""
    if not isinstance(node, Make) or node.target is not None or not is_work(node):
        return node
    return replace(node, target=Target("st", Which.NEXT, node.span))
