"""What is done in every row, told once?

"Ch 1 and turn at each row end", "Ch 2, turn between rows": such a sentence is no
instruction of the row or line it stands in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import INTO
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Recall, Remark

_EVERY = frozenset("each every all".split())
_BETWEEN = frozenset({"between"})
_ROWS = frozenset("row rows rnd rnds round rounds".split())
_EDGE = frozenset(
    "turn turning start starts starting begin begins beginning end ends ending".split()
)
_STOPS = (Kind.STOP, Kind.SEMICOLON, Kind.END, Kind.COLON)


_LONGEST = 120  # words and marks of such a sentence


_SUCH_ROWS = Sayings(
    f"{a}{row} {that}"
    for a, rows in (("a ", "row round"), ("any ", "row round"), ("", "rows rounds"))
    for row in rows.split()
    for that in ("that", "which", "beginning with", "starting with")
)
"""Words that begin a sentence about rows of some kind, "a row that opens with a mesh"."""


def read_every_row(reader: Reader) -> bool:
    """A sentence about the edge of every row, which works no stitch."""
    cursor = reader.cursor
    if reader.sentence != len(reader.items) or reader.depth:
        return False
    start = at = cursor.at
    while cursor.tokens[at].kind not in _STOPS:
        at += 1
        if at > start + _LONGEST:
            return False
    sentence = cursor.tokens[start:at]
    if _tells_of_growth(reader, sentence):
        while cursor.at < at and not cursor.is_kind(Kind.OPEN, Kind.EQUALS):
            if cursor.number() is None:
                cursor.step()
        return reader.remark(cursor.span_from(start))
    of_such_rows = cursor.take_any(_SUCH_ROWS) or _tells_of_edges(sentence)
    if not of_such_rows and (not _tells_of_rows(sentence) or _works(cursor, sentence)):
        return False
    cursor.at = at
    return reader.add(Remark(cursor.span_from(start)))


_GROWS = frozenset(
    "adds gains grows loses increase increases decrease decreases add gain grow".split()
)
_LONGEST_GROWTH = 3  # words up to the verb


def _tells_of_growth(reader: Reader, tokens: Sequence[Token]) -> bool:
    """ "(Rep Rnd 4.) Each rnd adds 12 dc": of rows told, which grow as they do."""
    recalled = any(isinstance(item, Recall) for item in reader.items)
    words = [token.text for token in tokens[:_LONGEST_GROWTH]]
    every = recalled and len(words) == _LONGEST_GROWTH and words[0] in _EVERY
    return every and words[1] in _ROWS and words[2] in _GROWS


_ONE = frozenset("a an every each any".split())
_BEGINS = frozenset("starts begins opens start begin open has gets takes".split())
EVERY_SIGNS = _ROWS | _BEGINS
"""Of these one stands in whatever is read here."""


def _tells_of_edges(tokens: Sequence[Token]) -> bool:
    """ "A solid mesh at the edge starts with ch 3": of any such, in any row."""
    if len(tokens) <= 3 or tokens[0].text not in _ONE:
        return False
    pairs = pairwise(token.text for token in tokens)
    return any(a in _BEGINS and b in ("with", "ch") for a, b in pairs)


def _tells_of_rows(tokens: Sequence[Token]) -> bool:
    words = [token.text for token in _outside_brackets(tokens)]
    if _EDGE.isdisjoint(words):
        return False
    pairs = set(pairwise(words)) - {("all", "round")}  # "rep from * all round"
    return any(a in _EVERY | _BETWEEN and b in _ROWS for a, b in pairs)


def _outside_brackets(tokens: Sequence[Token]) -> Iterator[Token]:
    """Without "(counts as first dc, here and in every row)" behind a chain that is made."""
    depth = 0
    for token in tokens:
        depth += token.kind is Kind.OPEN
        if not depth:
            yield token
        depth -= token.kind is Kind.CLOSE and depth > 0


def _works(cursor: Cursor, tokens: Sequence[Token]) -> bool:
    """Whether a stitch is worked somewhere, as in "sc in the end of each row"."""
    end = Token(Kind.END, "", 0, 0, 0)
    inner = Cursor([*tokens, end], own_words=cursor.own_words)
    while not inner.done():
        if inner.stitch() is None:
            inner.step()
        elif inner.token.text in INTO | _EVERY:
            return True
    return False
