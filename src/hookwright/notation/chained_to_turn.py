"""Chains told apart from those they stand with: "ch 26 + 1 for turning", "25 ch plus 3"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, STITCH_NOUNS
from hookwright.notation.tree import Amount, Chain

_TO_TURN = Sayings((
    "for turning", "for the turning", "for the turn", "for your turn", "to turn",
    "as turning", "as a turning", "as the turning", "for turn", "turning", "to turn with",
    "for a turning", "for the base", "for base", "for the foundation", "for foundation",
    "for the first row", "for row 1", "for height", "for the edge", "for the turning row",
))  # fmt: skip
_ENDED = (Kind.STOP, Kind.LINE, Kind.END, Kind.SEMICOLON, Kind.CLOSE)


def with_turning(cursor: Cursor, chain: Chain) -> Chain:
    """A chain with those that are told behind it, for the turn or as a second number."""
    start = cursor.at
    bracket = cursor.take_kind(Kind.OPEN)
    cursor.take_kind(Kind.COMMA)
    signed = cursor.take_kind(Kind.PLUS)
    told = cursor.take_word("plus") or signed
    also = not told and cursor.take_word("and", "then", "add", "ch", "chain")
    named = cursor.take_word(*CHAIN_NOUNS)
    added = cursor.number() if told or also or named or cursor.at > start else None
    if added is None:
        cursor.at = start
        return chain
    cursor.take_word("more", "extra", "further", "additional")
    named = cursor.take_word(*CHAIN_NOUNS) or named
    cursor.take_word(*STITCH_NOUNS) if named else None
    turns = cursor.take_any(_TO_TURN)
    cursor.take_word(*CHAIN_NOUNS, "chain-stitch")
    closes = not bracket or cursor.take_kind(Kind.CLOSE)
    bare = told and not named and (bracket or cursor.is_kind(*_ENDED))
    if not (closes and (bare or turns)):
        cursor.at = start
        return chain
    return replace(
        chain, amount=_sum(chain.amount, added), span=chain.span.to(cursor.span_from(start))
    )


def _sum(first: Amount, second: Amount) -> Amount:
    """Both numbers, one a size where either has one a size."""
    sizes = max(len(first.values), len(second.values))
    pairs = ((first.at(size), second.at(size)) for size in range(sizes))
    values = tuple(None if a is None or b is None else a + b for a, b in pairs)
    return Amount(values, first.span.to(second.span))
