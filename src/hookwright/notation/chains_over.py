"""Chains that stand over places of the row below: "ch 1 over each ch-1 sp"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import Chain, InOnePlace, Skip, Which

_OVER = ("over", "above", "across", "at")
_PASSING = ("skip", "sk", "miss", "skipping", "missing", "pass")


def read_over_spaces(reader: Reader, chain: Chain) -> bool:
    """A chain with the spaces that it lies over: each of them, or the next one."""
    cursor = reader.cursor
    start = cursor.at
    over = cursor.take_word(*_OVER)
    if not over and not cursor.take_word("and"):
        cursor.take_kind(Kind.COMMA)
    passed = not over and cursor.take_word(*_PASSING)
    if passed:
        cursor.take_word("over")
    target = read_target(cursor) if over or passed else None
    spaces = target is not None and target.noun == "sp"
    if target is None or not spaces or (passed and target.which is not Which.EACH):
        cursor.at = start
        return False
    span = chain.span.to(cursor.span_from(start))
    if target.which is Which.EACH:
        across(cursor)
        return reader.add(InOnePlace((chain,), target, span))
    reader.add(chain)
    target = replace(target, which=Which.NEXT) if target.which is Which.SAME else target
    return reader.add(Skip(target, cursor.span_from(start)))
