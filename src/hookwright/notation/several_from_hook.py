"""Which of the first chains are told one by one: "dc2tog over 3rd and 4th ch from hook"?

The chains before them are passed, and the stitches go into the next ones.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import Amount, Make, Skip, Target, Which
from hookwright.notation.vocabulary import StitchWord
from hookwright.source import Span

_INTO = ("in", "into", "over", "across")


def read_several_from_hook(reader: Reader) -> bool:
    """ "Dc2tog over 3rd and 4th ch from hook", "1 dc in each of the 4th and 5th ch ..."."""
    cursor = reader.cursor
    start = cursor.at
    told = None if reader.has_work() or reader.depth else _stitch_and_chains(cursor)
    if told is None:
        cursor.at = start
        return False
    stitch, first, number = told
    span = cursor.span_from(start)
    reader.add(Skip(_from_hook(first, span), span))
    chains = Target("ch", Which.NEXT, span, Amount((number,), span))
    return reader.add(
        Make(stitch.id, span, None, chains, stitch.loop, stitch.legs, stitch.post)
    )


def _from_hook(ordinal: int, span: Span) -> Target:
    return Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True)


def _stitch_and_chains(cursor: Cursor) -> tuple[StitchWord, int, int] | None:
    """The stitch, the first chain it goes into, and how many it takes."""
    one = cursor.number()
    stitch = cursor.stitch() if one is None or one.values == (1,) else None
    if stitch is None or not cursor.take_word(*_INTO):
        return None
    cursor.take_phrase("each of", "both")
    ordinals = _ordinals(cursor)
    number = len(ordinals)
    drawn = stitch.family == "together" and stitch.legs == number
    if number < 2 or not (drawn or stitch.family == "plain"):
        return None
    return stitch, ordinals[0], number


def _ordinals(cursor: Cursor) -> Sequence[int]:
    """ "3rd and 4th ch from hook", "2nd, 3rd and 4th": one behind the other, or none."""
    told: list[int] = []
    while True:
        cursor.take_word("the")
        if not cursor.is_kind(Kind.ORDINAL):
            return ()
        at = cursor.at
        last = read_target(cursor) if told else None
        if last is not None and last.from_hook and last.ordinal is not None:
            told.append(last.ordinal)
            break
        cursor.at = at
        told.append(cursor.step().value)
        cursor.take_word(*CHAIN_NOUNS)
        comma = cursor.take_kind(Kind.COMMA)
        if not cursor.take_word("and", "&") and not comma:
            return ()
    return told if told == [*range(told[0], told[0] + len(told))] else ()
