"""For how many rows do others go on: "for 10 more rows", "until there are 7 in all"?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.row_numbers import (
    MOST_ROWS,
    ROW_WORDS,
)
from hookwright.notation.tree import Amount


def rows_for(cursor: Cursor) -> Amount | None:
    """ "for 10 more rows", "a further 42 rows": for how many rows others go on."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    led = cursor.take_word("for", "over")
    led = cursor.take_phrase("a further", "another", "the next", "a total of") or led
    number = cursor.number()
    led = cursor.take_word("more", "further", "additional") or led
    told = number is not None and cursor.take_word(*ROW_WORDS)
    if not told or cursor.is_kind(Kind.NUMBER) or (not led and _of_several(cursor)):
        cursor.at = at
        return None
    cursor.take_word("more", "further")
    return number


def _of_several(cursor: Cursor) -> bool:
    """ "(4 rows) in B and 2 rows in A": one stripe of several, and not how far to go."""
    at = cursor.at
    words = 0
    while (
        cursor.is_kind(Kind.WORD) and not cursor.is_word("and", "then") and words < _WORDS
    ):
        cursor.step()
        words += 1
    cursor.take_kind(Kind.COMMA)
    cursor.take_word("and")
    cursor.take_word("then")
    other = words and cursor.number() is not None and cursor.is_word(*ROW_WORDS)
    cursor.at = at
    return bool(other)


_WORDS = 4
"""How many words name a yarn at most: "in the pale green"."""


_ALTOGETHER = Sayings((
    "in all", "altogether", "in total", "total", "overall", "from the beginning", "done",
    "have been worked", "are done", "are worked", "worked", "are completed", "completed",
))  # fmt: skip


def rows_in_all(cursor: Cursor) -> Amount | None:
    """ "until there are 7 rounds in all", "until you have worked 20 (22, 24) rows"."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if cursor.take_word("until", "till", "til"):
        cursor.take_phrase(
            "there are", "you have", "you've", "it has", "the piece has", "you reach"
        )
        cursor.take_phrase("a total of", "worked", "done", "made")
        number = cursor.number()
        if number is not None and cursor.take_word(*ROW_WORDS):
            cursor.take_any(_ALTOGETHER)
            most = tuple(value and min(value, MOST_ROWS) for value in number.values)
            return replace(number, values=most) if any(most) else None
    cursor.at = at
    return None


_OPEN = frozenset("until till til for as to".split())


def read_open_length(cursor: Cursor) -> str:
    """The words of a length or a wish: they make the number of rows open."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.STOP)
    cursor.take_word("over", "and", "again")
    if cursor.token.text not in _OPEN and not cursor.is_phrase("throughout"):
        cursor.at = at
        return ""
    words, opened = [], 0
    while cursor.token.kind not in _ENDS and (opened or not cursor.is_kind(Kind.CLOSE)):
        opened += cursor.is_kind(Kind.OPEN) - cursor.is_kind(Kind.CLOSE)
        words.append(cursor.step().text)
    return " ".join(words)


_ENDS = (Kind.STOP, Kind.END, Kind.LINE, Kind.SEMICOLON)
