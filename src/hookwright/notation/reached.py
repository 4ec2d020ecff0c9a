"""How many stitches there are when rows have been worked often enough?

"Until you have 61 dc", "until 3 sts remain", "until there are 20 blocks": no number of rows
is told, and none is needed.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.figures import read_figure
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Figure, Recall

_UNTIL = Sayings((
    *(
        f"{until} {have}"
        for until in ("until", "till", "til")
        for have in (
            "you have a total of", "you have", "you've", "there are a total of",
            "there are", "there is", "your row has", "the row has", "row has", "it has",
            "a row has",
            "only", "you are left with", "you're left with", "you have only",
            "there are only", "you have increased to", "you have decreased to",
            "you are down to", "you reach", "the piece has", "you get to", "you get",
            "the work has", "you count", "the stitch count is", "each row has",
            "you have got", "a total of", "about",
        )
    ),
    "until", "till", "til", "down to",
))  # fmt: skip
_BEHIND = Sayings((
    "remain", "remains", "remaining", "are left", "is left", "left", "in all", "in total",
    "altogether", "total", "across", "on your row", "on the row", "in the row", "in a row",
    "in your row", "along the row", "on the last row", "on one row", "in one row",
    "across the row", "per row", "wide", "on hook", "rem",
))  # fmt: skip
_NO_STITCHES = frozenset(
    "row rows rnd rnds round rounds stripe stripes repeat repeats pattern time times "
    "cm mm inch inches in ins".split()
)
_ENDED = (Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.LINE, Kind.END, Kind.CLOSE, Kind.OPEN)


def read_reached(cursor: Cursor) -> Figure | None:
    """The count that ends rows worked again; None where none is told here."""
    start = cursor.at
    cursor.take_kind(Kind.COMMA)
    figure = read_figure(cursor) if cursor.take_any(_UNTIL) else None
    told = figure is not None and cursor.tokens[cursor.at - 1].kind is Kind.WORD
    cursor.take_any(_BEHIND)
    ends = cursor.is_kind(*_ENDED, Kind.DASH) or cursor.is_word(
        "and", "then", "ending", "with"
    )
    if figure is None or not told or not ends or figure.unit in _NO_STITCHES:
        cursor.at = start
        return None
    return figure


_GOES_ON = Sayings((
    "continue", "cont", "keep", "carry on", "go on", "keep on", "work on", "then continue",
    "and continue", "work in this way", "work in this manner", "work like this",
    "work as set", "work as established", "keep going", "increase", "decrease",
    "inc", "dec", "repeat",
))  # fmt: skip
_CHANGES = ("increase", "decrease", "inc", "dec")
_PLACES = ("in", "into", "over", "on", "at")
_OF_ROWS = ("row", "rows", "rnd", "rnds", "round", "rounds", "time", "side", "end", "ends")
_LONGEST = 24
"""Words and marks that say how: "in this way, decreasing at both ends of every row,"."""


def read_going_on(reader: Reader) -> bool:
    """ "Continue in this way until 3 sts remain", "Continue like this": the last rows."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() or reader.depth:
        return False
    cursor.take_word("and", "then", "now")
    if not cursor.take_any(_GOES_ON):
        cursor.at = start
        return False
    alike = False
    here = cursor.tokens[cursor.at - 1].text in _CHANGES and cursor.is_word(*_PLACES)
    for _ in range(_LONGEST):
        reached = read_reached(cursor)
        here = here and not cursor.is_word(*_OF_ROWS)
        if reached is not None and here:
            break  # "inc in the first st, sc until one st is left": this row
        if reached is not None:
            span = cursor.span_from(start)
            return reader.add(Recall((-2, -1), span, reached=reached, onward=True))
        if cursor.is_kind(*_SENTENCE_ENDS) or _names_row(cursor):
            break
        alike = alike or cursor.is_any(_LIKE_THIS)
        if cursor.is_kind(Kind.NUMBER) and not alike:
            break  # "continue to increase 6 sts per rnd in the same way"
        cursor.step()
    if not alike or not cursor.is_kind(*_SENTENCE_ENDS):
        cursor.at = start
        return False
    return reader.add(Recall((-1,), cursor.span_from(start), onward=True))


_SENTENCE_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.END, Kind.OPEN, Kind.STAR, Kind.COLON)
_LIKE_THIS = Sayings((
    "like this", "in this way", "this way", "in this manner", "in the same manner",
    "in the same way", "in same manner", "in same way", "in this fashion",
    "in the same fashion", "as established", "as set", "as now set",
))  # fmt: skip


def _names_row(cursor: Cursor) -> bool:
    return cursor.token.text in _NUMBERED and cursor.peek().kind is Kind.NUMBER


_NUMBERED = frozenset("row rows rnd rnds round rounds r".split())
