"""Which stitches does a list of other names tell: "firm loop (sc), chained loop (sl st)"?

A pattern in words of its own, or from another language, says so once which stitch of the
trade each of its names is. One name with a stitch behind it may be anything else; several
in one sentence are such a list.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.notation.collected import Collected
from hookwright.notation.definitions import is_stitch_name, read_definition
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import Definition
from hookwright.notation.vocabulary import Phrases

_LONGEST_NAME = 3
_FEWEST = 2
_MARKS = (Kind.COMMA, Kind.SEMICOLON, Kind.COLON)
_CHAINS = frozenset("ch chain".split())


def named_in_brackets(draft: Collected, words: Phrases) -> Iterator[Definition]:
    """A definition for each name of such a list that is no stitch of the trade itself."""
    for entries in _lists(draft):
        for name, stitch in entries:
            equals = Token(Kind.EQUALS, "=", 0, name[-1].end, name[-1].end)
            told = [*name, equals, *stitch]
            found = read_definition(told, draft.source.text, words, listed=True)
            if found is not None and found.is_alias:
                yield found


_Entry = tuple[list[Token], list[Token]]


def _lists(draft: Collected) -> Iterator[list[_Entry]]:
    """The entries that stand one behind the other, where there are enough of them."""
    entries: list[_Entry] = []
    ended = 0
    for at in draft.marks[Kind.OPEN]:
        name = _name_before(draft.tokens, at)
        closed = _closed(draft.tokens, at) if name else 0
        if not closed:
            continue
        if at - len(name) - 1 != ended:
            yield from _enough(entries)
            entries = []
        entries.append((name, draft.tokens[at + 1 : closed]))
        ended = closed + 1
    yield from _enough(entries)


def _enough(entries: list[_Entry]) -> Iterator[list[_Entry]]:
    if len(entries) >= _FEWEST:
        yield entries


def _name_before(tokens: list[Token], at: int) -> list[Token]:
    """The words between a mark and a bracket; none where they are too many."""
    first = at
    while first > 0 and tokens[first - 1].kind is Kind.WORD:
        first -= 1
    marked = first > 0 and tokens[first - 1].kind in _MARKS
    return tokens[first:at] if marked and 0 < at - first <= _LONGEST_NAME else []


def _closed(tokens: list[Token], at: int) -> int:
    """Where the bracket is closed that holds the name of a stitch, or a chain; else 0."""
    end = at + 1
    while tokens[end].kind is Kind.WORD and end - at <= _LONGEST_NAME:
        end += 1
    words = [token.text for token in tokens[at + 1 : end]]
    known = bool(words) and (is_stitch_name(words) or not _CHAINS.isdisjoint(words))
    return end if known and tokens[end].kind is Kind.CLOSE else 0
