"""For which sizes is each number of a count: "66 (Small) or 72 (Large) sts"?"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.regex import regex

_MOST_WORDS = 8


def number_of_each(cursor: Cursor) -> Amount | None:
    """ "66 (Small) or 72 (Large)": a number for each size that is named behind it."""
    start = cursor.at
    values: list[int | None] = []
    while cursor.sizes > 1 and cursor.is_kind(Kind.NUMBER):
        number = cursor.step().value
        if not _take_name(cursor):
            break
        values.append(number)
        at = cursor.at
        while cursor.take_kind(Kind.COMMA, Kind.SEMICOLON) or cursor.take_word("or", "and"):
            pass
        if cursor.at == at or not cursor.is_kind(Kind.NUMBER):
            cursor.at = at
            break
    if len(values) < _SEVERAL:
        cursor.at = start
        return None
    return Amount(tuple(values), cursor.span_from(start))


_SEVERAL = 2


def _take_name(cursor: Cursor) -> bool:
    """ "(Small)", "(for size 2 years)": words in a bracket that begin with no number."""
    if not cursor.is_kind(Kind.OPEN) or cursor.peek().kind is not Kind.WORD:
        return False
    end = cursor.at + _MOST_WORDS
    while cursor.at < end and cursor.step().kind is not Kind.CLOSE:
        if cursor.stitch_at() is not None or cursor.done():
            return False
    return cursor.tokens[cursor.at - 1].kind is Kind.CLOSE


def in_order_of_sizes(
    claims: tuple[Claim, ...], text: str, start: int, sizes: Sequence[str]
) -> tuple[Claim, ...]:
    """Counts of a row that starts in a text, with such numbers in the order of the sizes.

    A count that names something else has no number that is known to be of a size.
    """
    if len(sizes) < _SEVERAL:
        return claims
    placed = [(claim, _placed(claim, text, start, sizes)) for claim in claims]
    return tuple(replace(claim, figures=told) for claim, told in placed if told is not None)


def _placed(
    claim: Claim, text: str, start: int, sizes: Sequence[str]
) -> tuple[Figure, ...] | None:
    result: list[Figure] = []
    for figure in claim.figures:
        span = figure.amount.span
        names = _NAMED.findall(text[start + span.start : start + span.end])
        if len(names) != len(figure.amount.values) or len(names) < _SEVERAL:
            result.append(figure)
            continue
        values: list[int | None] = [None] * len(sizes)
        for name, value in zip(names, figure.amount.values, strict=True):
            at = [i for i, size in enumerate(sizes) if _names(name, size)]
            if len(at) != 1:
                return None
            values[at[0]] = value
        result.append(replace(figure, amount=replace(figure.amount, values=tuple(values))))
    return tuple(result)


_NAMED = regex(r"[(\[]([^()\[\]]*[A-Za-z][^()\[\]]*)[)\]]")


def _names(words: str, size: str) -> bool:
    """Whether some words name a size: "for size M", "2 years" of the size 2."""
    near = re.split(r"[^\w/-]+", words.lower())
    own = re.split(r"[^\w/-]+", size.lower())
    named = any(near[i : i + len(own)] == own for i in range(len(near)))
    return named and {*near} - {*own} <= _BESIDE


_BESIDE = frozenset(
    "for size sizes the only in of years year months month mths yrs".split()
)
