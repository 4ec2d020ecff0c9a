"""Which rows are other rows again: "Rep Row 2", "as Row 3", "rep rows 2-5 9 more times"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.form_pattern import (
    FORMS_PATTERN,
    pass_what_they_do,
    repeats_them,
    tells_how_often,
)
from hookwright.notation.how_many_rows import read_open_length, rows_for, rows_in_all
from hookwright.notation.lexer import Kind
from hookwright.notation.parts_recalled import NO_PART, read_of_part, read_part
from hookwright.notation.reached import read_reached
from hookwright.notation.row_numbers import (
    LIKE,
    MOST_ROWS,
    ROW_WORDS,
    numbered_times,
    read_numbers,
    row_numbers,
)
from hookwright.notation.times import read_times
from hookwright.notation.tree import Often, Recall

_REPEAT = frozenset("rep repeat repeating repeats rpt reps alternate alternating".split())


_LEADS = Sayings((
    "same as for", "same as in", "the same as", "same as", "work same as", "work as for",
    "work as given for", "work as in", "worked as", "work as", "as given for", "as for",
    "make as for", "make as", "begin as for", "begin as", "start as for", "start as",
    "make same as", "make the same as", "made as for", "made as", "begin like",
    "as in", "as", "like", "as per", "work like",
    *(f"{just} {as_}"
      for just in ("exactly", "just", "much", "exactly the same", "just the same")
      for as_ in ("as for", "as in", "as", "like")),
    "as in", "as", "like", "as per", "work like", "exactly as", "just like",
    "what you did in", "what you did for", "exactly what you did in", "what was done in",
    "exactly what you did for", "what you worked in",
    "is the same as", "are the same as", "follow",
    *(
        f"{lead}{the}same {way} as{given}"
        for lead in ("in ", "") for the in ("the ", "") for way in ("way", "manner")
        for given in (" for", " in", " given for", "")
    ),
))  # fmt: skip


_GOING_ON = (
    "then", "now", "and", "next", "continue", "cont", "work", "by", "to", "keep", "on",
    "carry", "go", "going", "just", "working", "with", "again",
    "is", "are", "all", "both",
)  # fmt: skip


_MOST_ON = 8


_GOES = frozenset("go going work working".split())


_TURNS = Sayings((
    "by turns", "in turn", "in turns", "by turn", "alternately", "alternating",
    "one after the other", "turn and turn about",
))  # fmt: skip


RECALL_SIGNS = (
    ROW_WORDS
    | _REPEAT
    | {
        "as",
        "like",
        "same",
        "follow",
        "pattern",
        "patt",
        "ditto",
        "likewise",
    }
)
"""Words of which one stands wherever rows are recalled."""


def read_recall(cursor: Cursor) -> Recall | None:
    """Rows recalled here; None, with the position kept, where the words are others."""
    start = cursor.at
    cursor.take_kind(Kind.OPEN)
    _turns(cursor)
    for _ in range(_MOST_ON):
        if not cursor.take_word(*_GOING_ON):
            break
    led = _lead(cursor)
    if led and not cursor.is_word("i", "you"):
        recall = (
            _colours_of_rows(cursor, start)
            or _rows_named(cursor, start)
            or _named_or_before(cursor, start)
            or read_part(cursor, start)
        )
        if recall is not None:
            return recall
    cursor.at = start
    again = _named_again(cursor, start)
    return again or _rows_like(cursor, start) or _rows_first(cursor, start)


def _named_again(cursor: Cursor, start: int) -> Recall | None:
    """ "Work the Inc Row once again", "make the lace row again": a row by its name."""
    led = cursor.take_word("work", "do", "make") and cursor.take_word("the", "another")
    recall = _row_by_name(cursor, start) if led else None
    told = recall is not None and cursor.tokens[cursor.at - 1].text in _ONCE_AGAIN
    told = cursor.take_word("again", "more") or told
    if recall is None or not told:
        cursor.at = start
        return None
    return recall


_ONCE_AGAIN = ("again", "once", "twice", "times", "time", "more")


def _lead(cursor: Cursor) -> bool:
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    led = cursor.take_word(*_REPEAT) or (before in _GOES and cursor.take_word("through"))
    led = cursor.take_any(_LEADS) or led
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    if cursor.token.text in ROW_WORDS and before == "work":
        return True
    if before == "work" and cursor.is_word("this", "that"):
        return cursor.peek().text in ROW_WORDS
    if cursor.is_word("work", "do", "make") and cursor.peek().text in ROW_WORDS:
        cursor.step()
        return True
    if cursor.take_word("do"):
        cursor.take_word("the", "this", "that")
        return cursor.token.text in ROW_WORDS
    took = cursor.take_phrase(
        "from the beginning of",
        "from beginning of",
        "from the start of",
        "from start of",
        "from",
        "between",
        "the instructions for",
        "instructions for",
        "the",
        "all of",
        "both",
    )
    # "pattern rows 2-5", but not "pattern row", which is a name
    numbered = cursor.peek().text in ROW_WORDS and cursor.peek(2).kind is Kind.NUMBER
    if numbered and not took:
        cursor.take_word("pattern")
    return led


def _colours_of_rows(cursor: Cursor, start: int) -> Recall | None:
    """ "Repeat the colors of Rows 1-8", "Rows 1-8 color sequence, working Row 2".

    Only the yarns come again: the row worked is the one named for it, else the last one.
    """
    at = cursor.at
    told = cursor.take_any(_COLOURS_OF)
    rows = row_numbers(cursor, bare=True)
    told = cursor.take_any(_COLOURS) or told
    if not (rows and told):
        cursor.at = at
        return None
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    worked = cursor.take_any(_WORKING) and row_numbers(cursor, bare=True)
    if not worked:
        cursor.at = at
    return _rest(cursor, worked or (-1,), start)


_COLOURS_OF = Sayings(
    f"{the}{colours}{of}"
    for the in ("the ", "")
    for colours in (
        "colours", "colors", "colour sequence", "color sequence", "colour order",
        "color order", "stripe sequence", "stripes",
    )
    for of in (" of", " as", " as in", " as for", " in", " from")
)  # fmt: skip


_COLOURS = Sayings((
    "colour sequence", "color sequence", "colour order", "color order", "stripe sequence",
    "for colours", "for colors", "for the colours", "for the colors",
))  # fmt: skip


_WORKING = Sayings(("working", "work", "and working", "and work", "in pattern"))


def _rows_named(cursor: Cursor, start: int) -> Recall | None:
    """ "Row 2", "rows 2-5", "2nd and 3rd rows", "row 5 with dark"."""
    rows = row_numbers(cursor, bare=True)
    if not rows:
        return None
    return _rest(cursor, rows, start)


def _rows_like(cursor: Cursor, start: int) -> Recall | None:
    """ "A plain row like Row 2 and a decrease row like Row 3, by turns"."""
    rows: list[int] = []
    while _one_like(cursor):
        named = row_numbers(cursor, bare=True)
        if not named:
            break
        rows.extend(named)
        if not cursor.take_word("and", "then"):
            return _rest(cursor, tuple(rows), start) if len(rows) > 1 else None
    cursor.at = start
    return None


def _one_like(cursor: Cursor) -> bool:
    """Takes "a plain row like", "one as": a row told by what it looks like."""
    at = cursor.at
    if cursor.take_word("a", "an", "one"):
        words = 0
        while not cursor.is_word(*LIKE) and cursor.is_kind(Kind.WORD) and words < _WORDS:
            words += 1
            cursor.step()
        row = not words or cursor.tokens[cursor.at - 1].text in (*ROW_WORDS, "one")
        if row and cursor.take_word(*LIKE):
            return True
    cursor.at = at
    return False


_WORDS = 4
"""How many words tell a row that another is like: "a plain increase row like"."""


_NAMES_END = frozenset("row rnd round rows rnds rounds".split())


def _row_by_name(cursor: Cursor, start: int) -> Recall | None:
    """ "Rep Dec Row 3 times", "as Hem Row 2": a row told by its name, or with a number."""
    words: list[str] = []
    while cursor.token.kind is Kind.WORD and len(words) < 3:
        words.append(cursor.step().text)
        if words[-1] in _NAMES_END:
            break
    if len(words) < 2 or words[-1] not in _NAMES_END or words[0] in _NO_NAME:
        return None
    if not NO_PART.isdisjoint(words[:-1]):  # "head to round 3"
        return None
    numbered = cursor.token.kind is Kind.NUMBER and not numbered_times(cursor)
    rows = read_numbers(cursor) if numbered else ()
    name = " ".join((*words[:-1], words[-1].rstrip("s")))
    return _rest(cursor, rows, start, name)


_NO_NAME = frozenset(
    "last previous prev above preceding this these that those next every each all same "
    "other first the of whole past".split()
)


def _named_or_before(cursor: Cursor, start: int) -> Recall | None:
    at = cursor.at
    named = _row_by_name(cursor, start)
    if named is None:
        cursor.at = at
        return _rows_before(cursor, start)
    return named


def _rest(cursor: Cursor, rows: tuple[int, ...], start: int, name: str = "") -> Recall:
    _turns(cursor)
    cursor.take_word("continuously", "consecutively", "again", "throughout")
    cursor.take_kind(Kind.CLOSE)
    at = cursor.at
    if not (cursor.take_kind(Kind.COMMA) and numbered_times(cursor)):
        cursor.at = at
    part = read_of_part(cursor) if rows and rows[0] > 0 and not name else ""
    reached = read_reached(cursor)
    times = read_times(cursor) if reached is None else None
    cursor.take_word("over") if times is not None else None
    _turns(cursor)
    if times is not None and times.often in (Often.ACROSS, Often.TO_LAST):
        times = None
    then = _then(cursor)
    more = rows_for(cursor) if times is None and not then else None
    up_to = None if times or more else rows_in_all(cursor)
    open_length = "" if times or up_to or more else read_open_length(cursor)
    span = cursor.span_from(start)
    return Recall(
        rows, span, name, times, then, open_length, up_to=up_to, part=part, more=more,
        reached=reached,
    )  # fmt: skip


def _turns(cursor: Cursor) -> None:
    """ ", by turns", "alternately": rows listed are worked so in any case."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.take_any(_TURNS):
        cursor.at = at


def _then(cursor: Cursor) -> tuple[int, ...]:
    """ "then row 2 once", ", then work row 2 a last time", "ending with Row 3"."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.STOP)
    if not cursor.take_phrase(
        "then",
        "and then",
        "ending with",
        "and end with",
        "end with",
        "ending with a",
        "and finish with",
        "and",
        "finishing with",
    ):
        cursor.at = at
        return ()
    cursor.take_word("work", "rep", "repeat", "do", "again")
    cursor.take_word("work", "rep", "repeat", "do")
    rows = row_numbers(cursor)
    if not rows:
        cursor.at = at
        return ()
    cursor.take_phrase(
        "once more",
        "once",
        "a last time",
        "one last time",
        "one more time",
        "again",
        "one time",
        "1 more time",
        "one time more",
        "1 time",
    )
    return (*rows, *_then(cursor))


def _rows_before(cursor: Cursor, start: int) -> Recall | None:
    """ "last 2 rows", "this row", "these 4 rows", "previous round"."""
    cursor.take_word("the", "these", "those")
    if _row_just_worked(cursor):
        return _rest(cursor, (-1,), start)
    if cursor.take_word("this", "that") and cursor.take_word(*ROW_WORDS):
        return _rest(cursor, (-1,), start)
    begins = start == 0 or cursor.tokens[start - 1].kind in (Kind.STOP, Kind.LINE)
    if begins and cursor.take_word("it") and tells_how_often(cursor):
        return _rest(cursor, (-1,), start)  # "Repeat it 3 more times."
    cursor.take_word("that", "this") if cursor.peek().text in _BEFORE else None
    if cursor.take_word(*_BEFORE):
        amount = cursor.number()
        if cursor.take_word(*ROW_WORDS):
            number = (amount.at(0) if amount else 1) or 1
            if number > MOST_ROWS or cursor.is_any(_OF_COLOUR):
                return None
            return _rest(cursor, tuple(range(-number, 0)), start)
        return None
    amount = cursor.number()
    if amount and cursor.take_word(*ROW_WORDS) and not cursor.is_any(_OF_COLOUR):
        number = amount.at(0) or 1
        return _rest(cursor, tuple(range(-min(number, MOST_ROWS), 0)), start)
    return None


_JUST_WORKED = Sayings((
    *(
        f"{that}{you} {have}{just}{worked}"
        for that in ("", "that ", "which ")
        for you in ("you", "you've", "we", "we've")
        for have in ("", "have ")
        for just in ("", "just ")
        for worked in ("finished", "worked", "done", "made", "completed", "did")
    ),
    "just worked", "just finished", "just made", "just done", "before it",
    "before this one", "before this", "before that", "before", "below it",
    "below this one", "below", "under it", "under this one",
))  # fmt: skip


def _row_just_worked(cursor: Cursor) -> bool:
    """ "(Like) the row you have just finished", "the row before this one"."""
    at = cursor.at
    one = cursor.take_word("row", "rnd", "round", "one")
    if one and cursor.take_any(_JUST_WORKED):
        return True
    cursor.at = at
    return False


_BEFORE = ("last", "previous", "prev", "above", "preceding", "these", "past")


_OF_COLOUR = Sayings(("of colour", "of color", "of colours", "of colors", "of stripes"))
"""What says that only the order of the colours is told again."""


_AGAIN = Sayings((
    "again and again", "are repeated", "is repeated", "again", "once more", "over and over",
    "repeat", "are then repeated", "repeated", *_TURNS,
))  # fmt: skip


def _pass_bracket(cursor: Cursor) -> None:
    """Passes "(ending with a right side row)"."""
    if cursor.is_kind(Kind.OPEN):
        while not cursor.done() and not cursor.is_kind(Kind.CLOSE, Kind.STOP):
            cursor.step()
        cursor.take_kind(Kind.CLOSE)


def _rows_first(cursor: Cursor, start: int) -> Recall | None:
    """ "Rows 2 and 3 again and again", "[R2 and R3] 6 times", "these 2 are the pattern"."""
    rows = _rows_in_bracket(cursor) or row_numbers(cursor)
    if not rows:
        rows = _these_rows(cursor)
    if not rows:
        cursor.at = start
        return None
    at = cursor.at
    if start == 0 and rows[0] > 0 and cursor.is_kind(*_ENDS_TEXT) and _says_no_more(cursor):
        return _rest(cursor, rows, start)  # "Rows 3-8: Row 2."
    _pass_bracket(cursor)
    if cursor.take_any(FORMS_PATTERN):
        if repeats_them(cursor):
            return _rest(cursor, rows, start)
        pass_what_they_do(cursor)
        return Recall(rows, cursor.span_from(start), forms_pattern=True)
    cursor.at = at
    if cursor.take_any(_AGAIN) or numbered_times(cursor) or _times_behind_comma(cursor):
        return _rest(cursor, rows, start)
    cursor.at = start
    return None


_ENDS_TEXT = (Kind.STOP, Kind.LINE, Kind.END)


def _says_no_more(cursor: Cursor) -> bool:
    """Whether no word follows: a row is told by the numbers of others, and nothing else."""
    return all(token.kind in _ENDS_TEXT for token in cursor.tokens[cursor.at :])


def _rows_in_bracket(cursor: Cursor) -> tuple[int, ...]:
    """ "[R2 and R3] 6 times": a bracket that holds rows and nothing else."""
    at = cursor.at
    rows = row_numbers(cursor) if cursor.take_kind(Kind.OPEN) else ()
    if rows and cursor.take_kind(Kind.CLOSE):
        return rows
    cursor.at = at
    return ()


def _times_behind_comma(cursor: Cursor) -> bool:
    """Whether a comma and a number of times stand here: "r3 and r4, 9 times"."""
    at = cursor.at
    found = cursor.take_kind(Kind.COMMA) and numbered_times(cursor)
    cursor.at = at
    return found


def _these_rows(cursor: Cursor) -> tuple[int, ...]:
    if not cursor.take_word("these", "those", "last"):
        return ()
    amount = cursor.number()
    if not cursor.take_word(*ROW_WORDS):
        return ()
    number = (amount.at(0) if amount else 2) or 2
    return tuple(range(-min(number, MOST_ROWS), 0))
