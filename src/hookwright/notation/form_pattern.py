"""Which words say that rows form the pattern, and whether these are worked again then?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.row_numbers import numbered_times

FORMS_PATTERN = Sayings((
    *(
        f"{verb} {the}{pattern}"
        for verb in ("form", "forms", "make", "makes", "set", "sets", "establish",
                     "establishes", "are", "make up", "form one")
        for the in ("the ", "")
        for pattern in ("pattern", "patt", "pat")
    ),
    "are repeated for pattern",
))  # fmt: skip


def repeats_them(cursor: Cursor) -> bool:
    """ "Rows 2 and 3 form the pattern; repeat them 5 times", "and are repeated ..."."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.DASH)
    cursor.take_word("and", "then", "now")
    if cursor.take_any(_THEM_AGAIN) and tells_how_often(cursor):
        return True
    cursor.at = at
    return False


_THEM_AGAIN = Sayings((
    *(
        f"{verb} {them}"
        for verb in ("repeat", "rep", "work")
        for them in ("it", "them", "this", "these", "both", "all")
    ),
    "repeated", "is repeated", "are repeated",
))  # fmt: skip


def tells_how_often(cursor: Cursor) -> bool:
    """Whether a number of times, or how far, stands here."""
    return numbered_times(cursor) or cursor.is_word("until", "till", "for", "to")


def pass_what_they_do(cursor: Cursor) -> None:
    """ "(Row 3 forms the pattern): each row adds 4 dc" tells of them and asks no work."""
    at = cursor.at
    while not cursor.is_kind(Kind.STOP, Kind.LINE, Kind.END):
        if cursor.token.text in _GOES_ON:
            cursor.at = at
            return
        cursor.step()


_GOES_ON = frozenset(
    "repeat rep reps work continue cont keep carry go ch chain turn join fasten".split()
)
