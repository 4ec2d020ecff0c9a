"""Rows told by their kind and number: "work 3 plain rnds, then 1 decrease rnd".

The kinds are rows of a name that are told before: "Plain rnd: ...", "Decrease rnd: ...".
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.tree import Node, Often, Recall, Remark, Times

_LEADS = ("work", "then", "and", "now", "next", "do")
_NO_KINDS = frozenset(
    "more further additional extra other last next first these those "
    "of in to the for and or sts st stitch stitches rs ws pattern patt".split()
)
_MOST_WORDS = 3


def read_rows_of_kind(reader: Reader) -> bool:
    """ "Work 3 plain rnds", and ", then 1 decrease rnd" behind it."""
    cursor = reader.cursor
    start = cursor.at
    before = reader.last()
    goes_on = isinstance(before, Recall) and before.of_kind
    work = cursor.is_word("work")
    while cursor.take_word(*_LEADS):
        pass
    amount = cursor.number() if work or goes_on else None
    name = _kind(cursor) if amount is not None and not reader.depth else ""
    if amount is None or not name or not _ends(cursor):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    times = Times(Often.TIMES, amount.span, amount)
    return reader.add(Recall((), span, name, times, of_kind=True))


def _kind(cursor: Cursor) -> str:
    """The "decrease rnd" of "2 decrease rnds", as its label calls it."""
    words: list[str] = []
    while cursor.is_kind(Kind.WORD) and len(words) <= _MOST_WORDS:
        word = cursor.step().text
        if word in ROW_WORDS:
            return " ".join((*words, word.removesuffix("s"))) if words else ""
        if word in _NO_KINDS:
            break
        words.append(word)
    return ""


def _ends(cursor: Cursor) -> bool:
    marks = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.END, Kind.LINE)
    return cursor.is_kind(*marks, Kind.EQUALS, Kind.DASH) or cursor.is_word("then", "and")


def only_words_of_kinds(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The words of a row that has a label: which of its rows are of which kind is open."""
    return tuple(
        Remark(node.span) if isinstance(node, Recall) and node.of_kind else node
        for node in nodes
    )


def works_kinds(nodes: tuple[Node, ...]) -> bool:
    """Whether a line works rows of some kinds."""
    return any(isinstance(node, Recall) and node.of_kind for node in nodes)
