"""Which stitches does a sentence name: "the dropped dc (ddc) goes into the row below"?

A word that sets a stitch apart, the stitch, a short name in brackets, and then where it
is worked: the short name stands for it everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.notation.collected import Collected
from hookwright.notation.definitions import is_stitch_name, read_definition
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import Definition
from hookwright.notation.vocabulary import Phrases

_LONGEST_STITCH = 3
_SHORT = range(2, 7)
_PLACED = frozenset("in into around over through on".split())
_ARTICLES = frozenset("the a an each every this".split())
_STOPS = (Kind.STOP, Kind.SEMICOLON, Kind.OPEN, Kind.END)


def named_in_sentences(draft: Collected, words: Phrases) -> Iterator[Definition]:
    """A definition for every short name given so."""
    tokens = draft.tokens
    for at in draft.marks[Kind.OPEN]:
        if not _names_shortly(tokens[at + 1 : at + 4]):
            continue
        first = _stitch_before(tokens, at)
        if not first:
            continue
        last = at + 4
        while tokens[last].kind not in _STOPS:
            last += 1
        equals = Token(Kind.EQUALS, "=", 0, tokens[at].start, tokens[at].start)
        told = [tokens[at + 1], equals, *tokens[first:at], *tokens[at + 3 : last]]
        plain = [token for token in told if token.kind is not Kind.LINE]
        found = read_definition(plain, draft.source.text, words, listed=True)
        if found is not None and found.body:
            yield found


def _stitch_before(tokens: list[Token], at: int) -> int:
    """Where the stitch before a bracket begins, if a word sets it apart; else 0."""
    for number in range(_LONGEST_STITCH, 0, -1):
        first = at - number
        name = [token.text for token in tokens[max(0, first) : at]]
        if first < 2 or not is_stitch_name(name):
            continue
        apart = tokens[first - 1]
        led = tokens[first - 2].text in _ARTICLES
        return first if led and apart.kind is Kind.WORD else 0
    return 0


def _names_shortly(behind: list[Token]) -> bool:
    """Whether a bracket holds one short word that is no stitch, and a place follows it."""
    kinds = [token.kind for token in behind]
    if kinds != [Kind.WORD, Kind.CLOSE, Kind.WORD] or behind[2].text not in _PLACED:
        return False
    word = behind[0].text
    return len(word) in _SHORT and not is_stitch_name([word])
