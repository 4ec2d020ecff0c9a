"""Which line ends within a row are only where the paper was too narrow?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import (
    EACH_WORDS,
    LAST_WORDS,
    NEXT_WORDS,
    PREPOSITIONS,
    SMALL_WORDS,
    STITCH_NOUNS,
)

_IN_A_PHRASE = (Kind.WORD, Kind.NUMBER, Kind.ORDINAL, Kind.OPEN)
_ENDS_NOTHING = (
    PREPOSITIONS | NEXT_WORDS | EACH_WORDS | LAST_WORDS | SMALL_WORDS | {"and"}
) - {"around", "round"}
"""Words that no sentence ends with."""


# To look a member up in its enumeration takes as long as a call: these are asked for at
# every token.
_LINE = Kind.LINE


def without_soft_breaks(tokens: Sequence[Token]) -> list[Token]:
    """The tokens of a row without the line ends that stand inside a phrase.

    A line end between two words says nothing in a row that is wrapped. It is kept at a
    mark, where it may end a sentence; before a stitch, where a short line may be an
    instruction of its own; and where lines stand apart.
    """
    return [
        token
        for at, token in enumerate(tokens)
        if not (token.kind is _LINE and _is_soft(tokens, at))
    ]


def _is_soft(tokens: Sequence[Token], at: int) -> bool:
    if tokens[at].value > 1 or not 0 < at < len(tokens) - 1:
        return False
    before, after = tokens[at - 1], tokens[at + 1]
    if before.kind is Kind.COMMA and _in_list(tokens, at):
        return True
    if before.kind not in _IN_A_PHRASE or after.kind not in _IN_A_PHRASE:
        return False
    if _ends_count(tokens, at) and after.text not in _MORE_OF_COUNT:
        return False
    goes_on = before.kind is not Kind.WORD or before.text in _ENDS_NOTHING
    return goes_on or not _begins_work(tokens, at + 1)


def _in_list(tokens: Sequence[Token], at: int) -> bool:
    """Whether the numbers of several sizes go on below: "24 (24," and "26, 28)"."""
    kinds = (Kind.NUMBER, Kind.COMMA, _LINE)
    first = at
    while first > 0 and tokens[first].kind in kinds:
        first -= 1
    last = at
    while last < len(tokens) - 1 and tokens[last].kind in kinds:
        last += 1
    bracketed = tokens[first].kind is Kind.OPEN and tokens[last].kind is Kind.CLOSE
    return bracketed and first > 0 and tokens[first - 1].kind is Kind.NUMBER


_MORE_OF_COUNT = frozenset("and plus with in total made altogether around".split())


def _ends_count(tokens: Sequence[Token], at: int) -> bool:
    """Whether a count was the last thing said: "... - 16 st", "... - 16" and no unit."""
    number = at - 1 if tokens[at - 1].kind is Kind.NUMBER else at - 2
    if number < 1 or tokens[number].kind is not Kind.NUMBER:
        return False
    mark = tokens[number - 1]
    unit = number == at - 1 and _is_unit(tokens, at + 1)
    return mark.kind in (Kind.DASH, Kind.EQUALS) and not mark.glued and not unit


def _is_unit(tokens: Sequence[Token], at: int) -> bool:
    """Whether what a number counts stands here: "sts", "ch-1 sps", "hdc"."""
    if tokens[at].text in STITCH_NOUNS or tokens[at].text in _UNITS:
        return True
    return Cursor([tokens[at], Token(Kind.END, "", 0, 0, 0)]).stitch_at() is not None


_UNITS = frozenset("sp sps space spaces ch chs loop loops lps group groups".split())


def _begins_work(tokens: Sequence[Token], at: int) -> bool:
    """Whether a stitch, or a number of them, stands here."""
    if tokens[at].kind in (Kind.NUMBER, Kind.OPEN):
        return True
    ended = [*tokens[at : at + 8], Token(Kind.END, "", 0, 0, 0)]
    return Cursor(ended).stitch_at() is not None
