"""Which other part is worked again: "as for the first tab", "Rounds 1-5 of TOP"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.row_numbers import (
    MOST_ROWS,
    ROW_WORDS,
    ends,
    row_numbers,
)
from hookwright.notation.tree import Amount, Recall

NO_PART = frozenset("to through thru until till up end".split()) | ROW_WORDS


def read_part(cursor: Cursor, start: int) -> Recall | None:
    """ "as for the first tab", "same as left front": the same rows of another part."""
    if cursor.tokens[cursor.at - 1].text not in (
        "for",
        "as",
        "the",
        "like",
        "instructions",
    ):
        return None
    cursor.take_word("the")
    words = _words_of_name(cursor)
    if not words or words[0] in _NO_NAMES:
        return None
    last = _last_row(cursor)
    rows = _up_to(last) if last is not None else _rows_of_it(cursor)
    counted = _counts(cursor) and (rows or cursor.peek().kind is Kind.NUMBER)
    if not ends(cursor) and not counted:
        return None
    by_size = last if last is not None and len(set(last.values)) > 1 else None
    return Recall(rows, cursor.span_from(start), part=" ".join(words), ends=by_size)


_LONGEST_NAME = 5
_NO_NAMES = frozenset(
    "before above a you it far well usual established many much long needed required "
    "wished desired follows".split()
)
"""What stands behind "as" where no part is named: "as far as the middle", "as well"."""


def _words_of_name(cursor: Cursor) -> list[str]:
    """The words of a part's name, up to the rows told of it."""
    words: list[str] = []
    if cursor.is_kind(Kind.NUMBER) and cursor.token.spelled:
        words.append(cursor.step().text)  # "Rnd 1 of One"
    while cursor.token.kind in (Kind.WORD, Kind.ORDINAL) and len(words) < _LONGEST_NAME:
        named_row = cursor.token.text in NO_PART
        ordinal_row = (
            cursor.is_kind(Kind.ORDINAL) and words and cursor.peek().text in NO_PART
        )
        if named_row or ordinal_row:
            break
        words.append(cursor.step().text)
    if words and cursor.token.kind is Kind.NUMBER:
        words.append(cursor.step().text)  # "Leg 1"
    return words


def _last_row(cursor: Cursor) -> Amount | None:
    """ "to end of Round 6", "through Rnd 4", "up to and including Row 8 (10, 12)"."""
    at = cursor.at
    if cursor.take_phrase("up to", "to", "through", "thru", "until", "till", "up until"):
        cursor.take_phrase("and including")
        cursor.take_phrase("the end of", "end of", "the")
        last = _ordinal_row(cursor) or _numbered_row(cursor)
        if last is not None and all(0 < (n or 1) <= MOST_ROWS for n in last.values):
            cursor.take_word("inclusive", "included")
            return last
    cursor.at = at
    return None


def _ordinal_row(cursor: Cursor) -> Amount | None:
    """ "the 6th round"."""
    start = cursor.at
    rows = row_numbers(cursor) if cursor.is_kind(Kind.ORDINAL) else ()
    return Amount(rows, cursor.span_from(start)) if len(rows) == 1 else None


def _numbered_row(cursor: Cursor) -> Amount | None:
    """ "Row 26 (28, 32, 36)": a number, or one a size."""
    return cursor.number() if cursor.take_word(*ROW_WORDS) else None


def _up_to(last: Amount) -> tuple[int, ...]:
    """All rows up to the last one of the largest size."""
    return tuple(range(1, max(number or 0 for number in last.values) + 1))


def _rows_of_it(cursor: Cursor) -> tuple[int, ...]:
    """ "Begin as Head, Rounds 1-4": which rows of the part."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.COLON, Kind.OPEN)
    cursor.take_word("for", "in")
    rows = row_numbers(cursor)
    if rows:
        cursor.take_kind(Kind.CLOSE)
        return rows
    cursor.at = at
    return ()


def _counts(cursor: Cursor) -> bool:
    """Whether a count of what that comes to stands behind it."""
    return cursor.is_kind(Kind.OPEN, Kind.DASH, Kind.EQUALS)


_AS_FOR = Sayings((
    "as for", "as given for", "as in", "same as for", "the same as for", "as on",
))  # fmt: skip


def read_of_part(cursor: Cursor) -> str:
    """ "Rounds 1-5 of TOP", "Rounds 1 and 2 as for Square A": the part they belong to."""
    at = cursor.at
    if cursor.take_word("of", "from") or cursor.take_any(_AS_FOR):
        cursor.take_word("the")
        words = _words_of_name(cursor)
        if words and (ends(cursor) or _counts(cursor)):
            return " ".join(words)
    cursor.at = at
    return ""
