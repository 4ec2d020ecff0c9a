"""Work told once and done again elsewhere: "the same in every ch-1 sp"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import Star, TimesMark
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Often,
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


def _as_often(target: Target, span: Span) -> Times:
    """As often as there are places: all that are left, or so many more."""
    if target.which is Which.EACH and target.amount is None:
        return Times(Often.ACROSS, span)
    return Times(Often.MORE, span, target.amount or Amount((1,), span))
