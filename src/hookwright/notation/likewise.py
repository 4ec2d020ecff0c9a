"""Work told once and done again elsewhere: "the same in every ch-1 sp"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import Again, Star, TimesMark
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Often,
    Repeat,
    Skip,
    Target,
    Times,
    Which,
)
from hookwright.source import Span

_THE_SAME = Sayings((
    "the same again", "the same thing", "do the same again", "do the same",
    "work the same again", "work the same", "make the same", "the same group",
    "another one", "one more", "the same", "do this", "do so", "do likewise", "likewise",
    "same again", "again", "same",
))  # fmt: skip


def read_likewise(reader: Reader) -> bool:
    """ "(2 sc, ch 3, 2 sc) in next loop, the same in each loop around"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    told = cursor.take_any(_THE_SAME)
    if told and _on_every_side(reader, start):
        return True
    placed = told and cursor.take_word("in", "into", "for", "over")
    target = read_target(cursor) if placed else None
    if target is None or target.noun == "here":
        cursor.at = start
        return False
    across(cursor)
    span = cursor.span_from(start)
    passed = (item for item in reversed(reader.items) if not isinstance(item, Skip))
    last = next(passed, None)
    if isinstance(last, (Make, InOnePlace)) and last.target is not None:
        return reader.add(replace(last, target=target, span=span))
    stars = reader.number_of(Star)
    if isinstance(last, Star) and stars % 2 == 0:
        return reader.add(TimesMark(_as_often(target, span)))
    cursor.at = start
    return False


_SIDES = ("side", "sides", "corner", "corners", "edge", "edges", "quarter", "quarters")
_ENDS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.END, Kind.LINE, Kind.OPEN)


def _on_every_side(reader: Reader, start: int) -> bool:
    """ "Sc in 3, 3 sc in next; the same on all four sides", "at the other 3 corners"."""
    cursor = reader.cursor
    at = cursor.at
    placed = cursor.take_word("on", "at", "for", "along", "in")
    all_ = cursor.take_word("all", "each", "every", "both")
    cursor.take_word("of")
    cursor.take_word("the", "these")
    others = cursor.take_word("other", "others", "remaining")
    amount = cursor.number()
    others = others or cursor.take_word("other", "remaining")
    told = placed and amount is not None and (all_ or others)
    if not told or not cursor.take_word(*_SIDES) or not _is_list(reader):
        cursor.at = at
        return False
    cursor.take_phrase("of the round", "of the square", "of it")
    if not cursor.is_kind(*_ENDS):
        cursor.at = at
        return False
    span = cursor.span_from(start)
    often = Often.MORE if others else Often.TIMES
    return reader.add(Again(0, 0, Times(often, span, amount), span))


def _is_list(reader: Reader) -> bool:
    """Whether work was told that no repeat holds, behind one star or none."""
    held = any(isinstance(item, (Repeat, Again)) for item in reader.items)
    alone = not held and reader.number_of(Star) < _PAIR
    return not reader.depth and alone and reader.has_work()


_PAIR = 2


def _as_often(target: Target, span: Span) -> Times:
    """As often as there are places: all that are left, or so many more."""
    if target.which is Which.EACH and target.amount is None:
        return Times(Often.ACROSS, span)
    return Times(Often.MORE, span, target.amount or Amount((1,), span))
