"""Which row numbers are told: "Rows 2-5", "2nd and 3rd rows", "7 through 10"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.figures import read_figure
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reached import read_reached
from hookwright.notation.times import read_times
from hookwright.notation.tree import Often

ROW_WORDS = frozenset(
    "row rows rnd rnds round rounds rd rds r rs rw step steps line lines".split()
)


_COUNTED = frozenset(("rows", "rnds", "rounds", "less", "fewer", *STITCH_NOUNS))
"""What follows a number of rows or stitches, and no row: "same as row 2, 2 less a row"."""


MOST_ROWS = 10_000


LIKE = ("like", "as")


def row_numbers(cursor: Cursor, *, bare: bool = False) -> tuple[int, ...]:
    """The rows told here, by number or ordinal; `bare` ones need not be called rows."""
    at = cursor.at
    cursor.take_word("the", "all", "of")
    if cursor.is_kind(Kind.ORDINAL):
        rows = _ordinal_rows(cursor, bare=bare)
        if rows:
            return rows
        cursor.at = at
        return ()
    named = cursor.take_word(*ROW_WORDS)
    if not named and not bare:
        cursor.at = at
        return ()
    rows = _row_before_count(cursor) if named else ()
    rows = rows or read_numbers(cursor)
    several = len(rows) > 1 and numbered_times(cursor)  # "repeat 2 and 3 three times"
    if not rows or not (named or several or ends(cursor)):
        cursor.at = at
        return ()
    return rows


def _row_before_count(cursor: Cursor) -> tuple[int, ...]:
    """ "Like Rnd 3 - 32": one row, and behind the dash how many stitches there are."""
    row, dash, count = (cursor.peek(ahead) for ahead in range(3))
    one = cursor.tokens[cursor.at - 1].text in _ONE_ROW and row.kind is Kind.NUMBER
    parted = dash.kind is Kind.DASH and not dash.glued and count.kind is Kind.NUMBER
    if not (one and parted and cursor.peek(3).kind in _ENDS_LIST):
        return ()
    if count.value < row.value + _MORE_THAN_ROWS:
        return ()
    cursor.step()
    return (row.value,)


_ONE_ROW = ("row", "rnd", "round", "r")
_MORE_THAN_ROWS = 10
"""So far behind a row no range that is called a row goes; common practice, no source."""


def ends(cursor: Cursor) -> bool:
    """Whether a clause ends here."""
    return cursor.token.kind in (Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.END, Kind.LINE)


def _ordinal_rows(cursor: Cursor, *, bare: bool) -> tuple[int, ...]:
    """ "2nd and 3rd rows"; after "as" the word "rows" may be left out."""
    numbers = [cursor.step().value]
    while cursor.is_kind(Kind.COMMA, Kind.DASH) or cursor.is_word("and", "to", "thru"):
        joint = cursor.step()
        cursor.take_word("and", "the")
        if not cursor.is_kind(Kind.ORDINAL):
            return ()
        last = cursor.step().value
        ranged = joint.kind is Kind.DASH or joint.text in ("to", "thru")
        numbers.extend(_between(numbers[-1], last) if ranged else [last])
    if not cursor.take_word(*ROW_WORDS):
        return tuple(numbers) if bare and ends(cursor) else ()
    return tuple(numbers)


def read_numbers(cursor: Cursor) -> tuple[int, ...]:
    """ "2-5", "2 and 3", "2, 4 and 6", "7 through 10", "3&4"."""
    if not cursor.is_kind(Kind.NUMBER):
        return ()
    numbers = [max(0, cursor.step().value)]
    while True:
        _own_mark(cursor)
        at = cursor.at
        ranged = _range_mark(cursor)
        listed = not ranged and _list_mark(cursor)
        if not (ranged or listed):
            return tuple(numbers)
        if cursor.take_word(*ROW_WORDS) and cursor.tokens[at].kind is Kind.COMMA:
            ranged = ranged or cursor.tokens[at + 1].text == "and"
            if not (ranged or _ends_list(cursor)):  # "as row 2, row 5 in B"
                cursor.at = at
                return tuple(numbers)
            ranged = False
        one_like = cursor.token.spelled and cursor.peek().text in LIKE
        following = cursor.peek().text in ("more", "x") or numbered_times(cursor)
        following = following or one_like  # "as row 2, and one like row 3"
        following = following or cursor.peek().text in _COUNTED  # "row 2, 4 rows in B"
        if cursor.token.kind is not Kind.NUMBER or (following and not ranged):
            cursor.at = at
            return tuple(numbers)
        last = max(0, cursor.step().value)
        numbers.extend(_between(numbers[-1], last) if ranged else [last])


def _ends_list(cursor: Cursor) -> bool:
    """Whether a number ends a list here: "as R2, R3"; in "row 2, row 5 in B" it is new."""
    behind = cursor.peek().kind
    return cursor.is_kind(Kind.NUMBER) and behind in _ENDS_LIST


_ENDS_LIST = (Kind.STOP, Kind.LINE, Kind.END, Kind.CLOSE)


def _own_mark(cursor: Cursor) -> None:
    """ "Repeat 2) to 5)": takes the mark of a number, where no bracket is open."""
    if cursor.is_kind(Kind.CLOSE) and not _in_bracket(cursor):
        cursor.step()


def _in_bracket(cursor: Cursor) -> bool:
    """Whether a bracket was opened shortly before, and has not been closed."""
    closed = 0
    for token in reversed(cursor.tokens[max(0, cursor.at - _NEAR) : cursor.at]):
        if token.kind is Kind.OPEN and not closed:
            return True
        closed += (token.kind is Kind.CLOSE) - (token.kind is Kind.OPEN)
    return False


_NEAR = 60  # words and marks before a number in which its bracket would open


def _range_mark(cursor: Cursor) -> bool:
    if cursor.token.kind is Kind.DASH and cursor.peek().kind in (Kind.NUMBER, Kind.WORD):
        return not _count_behind(cursor) and bool(cursor.step())
    if cursor.is_word("until") and cursor.attempt(read_reached):
        return False
    if cursor.is_word("until") and not _ends_number(cursor):
        return False  # "Rows 2 and 3 until 4 sc remain"
    return cursor.take_word("to", "through", "thru", "until")


def _ends_number(cursor: Cursor) -> bool:
    """Whether a number stands behind this word, and no stitches behind that."""
    at = cursor.at
    cursor.step()
    alone = cursor.number() is not None and cursor.stitch_at() is None
    alone = alone and cursor.token.text not in STITCH_NOUNS
    cursor.at = at
    return alone


def _count_behind(cursor: Cursor) -> bool:
    """Whether a dash stands before a count: "Rep Rnd 2 - 124 (136, 148) dc"."""
    at = cursor.at
    cursor.step()
    figure = read_figure(cursor)
    counted = figure is not None and (figure.unit != "st" or cursor.at > at + 2)
    cursor.at = at
    return counted


def _list_mark(cursor: Cursor) -> bool:
    found = cursor.take_kind(Kind.COMMA)
    return cursor.take_word("and") or found


def _between(first: int, last: int) -> list[int]:
    if last - first > MOST_ROWS:
        return []
    return list(range(first + 1, last + 1))


def numbered_times(cursor: Cursor) -> bool:
    """Whether a number of times stands here: "rows 2 and 3 twice more"."""
    at = cursor.at
    times = read_times(cursor)
    cursor.at = at
    return times is not None and times.often in (Often.TIMES, Often.MORE)
