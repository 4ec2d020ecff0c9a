"""Which rows are other rows again: "Rep Row 2", "as Row 3", "rep rows 2-5 9 more times"?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.claims import read_figure
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reached import read_reached
from hookwright.notation.times import read_times
from hookwright.notation.tree import Amount, Often, Recall

ROW_WORDS = frozenset("row rows rnd rnds round rounds rd rds r rs rw step steps".split())
_REPEAT = frozenset("rep repeat repeating repeats rpt reps alternate alternating".split())
_LEADS = Sayings((
    "same as for", "same as in", "the same as", "same as", "work same as", "work as for",
    "work as given for", "work as in", "worked as", "work as", "as given for", "as for",
    "make as for", "make as", "begin as for", "begin as", "start as for", "start as",
    "make same as", "make the same as", "made as for", "made as", "begin like",
    "as in", "as", "like", "as per", "work like", "exactly as", "just like",
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
_TURNS = Sayings((
    "by turns", "in turn", "in turns", "by turn", "alternately", "alternating",
    "one after the other", "turn and turn about",
))  # fmt: skip
_MOST_ROWS = 10_000
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
            or _part(cursor, start)
        )
        if recall is not None:
            return recall
    cursor.at = start
    return _rows_like(cursor, start) or _rows_first(cursor, start)


def _lead(cursor: Cursor) -> bool:
    led = cursor.take_word(*_REPEAT)
    led = cursor.take_any(_LEADS) or led
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    if cursor.token.text in ROW_WORDS and before == "work":
        return True
    if cursor.is_word("work", "do", "make") and cursor.peek().text in ROW_WORDS:
        cursor.step()
        return True
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
    rows = _row_numbers(cursor, bare=True)
    told = cursor.take_any(_COLOURS) or told
    if not (rows and told):
        cursor.at = at
        return None
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    worked = cursor.take_any(_WORKING) and _row_numbers(cursor, bare=True)
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
    rows = _row_numbers(cursor, bare=True)
    if not rows:
        return None
    return _rest(cursor, rows, start)


def _rows_like(cursor: Cursor, start: int) -> Recall | None:
    """ "A plain row like Row 2 and a decrease row like Row 3, by turns"."""
    rows: list[int] = []
    while _one_like(cursor):
        named = _row_numbers(cursor, bare=True)
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
        while not cursor.is_word(*_LIKE) and cursor.is_kind(Kind.WORD) and words < _WORDS:
            words += 1
            cursor.step()
        row = not words or cursor.tokens[cursor.at - 1].text in (*ROW_WORDS, "one")
        if row and cursor.take_word(*_LIKE):
            return True
    cursor.at = at
    return False


_LIKE = ("like", "as")
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
    if not _NO_PART.isdisjoint(words[:-1]):  # "head to round 3"
        return None
    numbered = cursor.token.kind is Kind.NUMBER and not _numbered_times(cursor)
    rows = read_numbers(cursor) if numbered else ()
    name = " ".join((*words[:-1], words[-1].rstrip("s")))
    return _rest(cursor, rows, start, name)


_NO_NAME = frozenset(
    "last previous prev above preceding this these that those next every each all same "
    "other first the of whole past".split()
)


def _part(cursor: Cursor, start: int) -> Recall | None:
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
    if not words or words[0] in ("before", "above", "a", "you", "it"):
        return None
    ends = _last_row(cursor)
    rows = _up_to(ends) if ends is not None else _rows_of_it(cursor)
    if not _ends(cursor) and not (rows and _counts(cursor)):
        return None
    by_size = ends if ends is not None and len(set(ends.values)) > 1 else None
    return Recall(rows, cursor.span_from(start), part=" ".join(words), ends=by_size)


_LONGEST_NAME = 5
_NO_PART = frozenset("to through thru until till up end".split()) | ROW_WORDS


def _words_of_name(cursor: Cursor) -> list[str]:
    """The words of a part's name, up to the rows told of it."""
    words: list[str] = []
    while cursor.token.kind in (Kind.WORD, Kind.ORDINAL) and len(words) < _LONGEST_NAME:
        named_row = cursor.token.text in _NO_PART
        ordinal_row = (
            cursor.is_kind(Kind.ORDINAL) and words and cursor.peek().text in _NO_PART
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
        if last is not None and all(0 < (n or 1) <= _MOST_ROWS for n in last.values):
            cursor.take_word("inclusive", "included")
            return last
    cursor.at = at
    return None


def _ordinal_row(cursor: Cursor) -> Amount | None:
    """ "the 6th round"."""
    start = cursor.at
    rows = _row_numbers(cursor) if cursor.is_kind(Kind.ORDINAL) else ()
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
    rows = _row_numbers(cursor)
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


def _of_part(cursor: Cursor) -> str:
    """ "Rounds 1-5 of TOP", "Rounds 1 and 2 as for Square A": the part they belong to."""
    at = cursor.at
    if cursor.take_word("of", "from") or cursor.take_any(_AS_FOR):
        cursor.take_word("the")
        words = _words_of_name(cursor)
        if words and (_ends(cursor) or _counts(cursor)):
            return " ".join(words)
    cursor.at = at
    return ""


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
    if not (cursor.take_kind(Kind.COMMA) and _numbered_times(cursor)):
        cursor.at = at
    part = _of_part(cursor) if rows and rows[0] > 0 and not name else ""
    reached = read_reached(cursor)
    times = read_times(cursor) if reached is None else None
    cursor.take_word("over") if times is not None else None
    _turns(cursor)
    if times is not None and times.often in (Often.ACROSS, Often.TO_LAST):
        times = None
    then = _then(cursor)
    more = rows_for(cursor) if times is None and not then else None
    up_to = None if times or more else rows_in_all(cursor)
    open_length = "" if times or up_to or more else _open_length(cursor)
    span = cursor.span_from(start)
    return Recall(
        rows, span, name, times, then, open_length, up_to=up_to, part=part, more=more,
        reached=reached,
    )  # fmt: skip


def rows_for(cursor: Cursor) -> Amount | None:
    """ "for 10 more rows", "a further 42 rows": for how many rows others go on."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    led = cursor.take_word("for", "over")
    led = cursor.take_phrase("a further", "another", "the next", "a total of") or led
    number = cursor.number()
    led = cursor.take_word("more", "further", "additional") or led
    if number is None or not cursor.take_word(*ROW_WORDS) or cursor.is_kind(Kind.NUMBER):
        cursor.at = at
        return None
    led = cursor.take_word("more", "further") or led
    return number


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
    rows = _row_numbers(cursor)
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


def _row_numbers(cursor: Cursor, *, bare: bool = False) -> tuple[int, ...]:
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
    rows = read_numbers(cursor)
    if not rows or not (named or _ends(cursor)):
        cursor.at = at
        return ()
    return rows


def _ends(cursor: Cursor) -> bool:
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
        return tuple(numbers) if bare and _ends(cursor) else ()
    return tuple(numbers)


def read_numbers(cursor: Cursor) -> tuple[int, ...]:
    """ "2-5", "2 and 3", "2, 4 and 6", "7 through 10", "3&4"."""
    if not cursor.is_kind(Kind.NUMBER):
        return ()
    numbers = [max(0, cursor.step().value)]
    while True:
        at = cursor.at
        ranged = _range_mark(cursor)
        listed = not ranged and _list_mark(cursor)
        if not (ranged or listed):
            return tuple(numbers)
        if cursor.take_word(*ROW_WORDS) and cursor.tokens[at].kind is Kind.COMMA:
            ranged = ranged or cursor.tokens[at + 1].text == "and"
            if not ranged:  # "as row 2, row 5 in B": no list goes on so
                cursor.at = at
                return tuple(numbers)
            ranged = False
        one_like = cursor.token.spelled and cursor.peek().text in _LIKE
        following = cursor.peek().text in ("more", "x") or _numbered_times(cursor)
        following = following or one_like  # "as row 2, and one like row 3"
        if cursor.token.kind is not Kind.NUMBER or (following and not ranged):
            cursor.at = at
            return tuple(numbers)
        last = max(0, cursor.step().value)
        numbers.extend(_between(numbers[-1], last) if ranged else [last])


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
    if last - first > _MOST_ROWS:
        return []
    return list(range(first + 1, last + 1))


def _rows_before(cursor: Cursor, start: int) -> Recall | None:
    """ "last 2 rows", "this row", "these 4 rows", "previous round"."""
    cursor.take_word("the", "these", "those")
    if cursor.take_word("this", "that") and cursor.take_word(*ROW_WORDS):
        return _rest(cursor, (-1,), start)
    if cursor.take_word("last", "previous", "prev", "above", "preceding", "these", "past"):
        amount = cursor.number()
        if cursor.take_word(*ROW_WORDS):
            number = (amount.at(0) if amount else 1) or 1
            if number > _MOST_ROWS or cursor.is_any(_OF_COLOUR):
                return None
            return _rest(cursor, tuple(range(-number, 0)), start)
        return None
    amount = cursor.number()
    if amount and cursor.take_word(*ROW_WORDS) and not cursor.is_any(_OF_COLOUR):
        number = amount.at(0) or 1
        return _rest(cursor, tuple(range(-min(number, _MOST_ROWS), 0)), start)
    return None


_OF_COLOUR = Sayings(("of colour", "of color", "of colours", "of colors", "of stripes"))
"""What says that only the order of the colours is told again."""

_FORMS = Sayings((
    *(
        f"{verb} {the}{pattern}"
        for verb in ("form", "forms", "make", "makes", "set", "sets", "establish",
                     "establishes", "are", "make up", "form one")
        for the in ("the ", "")
        for pattern in ("pattern", "patt", "pat")
    ),
    "are repeated for pattern",
))  # fmt: skip
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
    """ "Rows 2 and 3 again and again", "these 2 rows form the pattern"."""
    rows = _row_numbers(cursor)
    if not rows:
        rows = _these_rows(cursor)
    if not rows:
        cursor.at = start
        return None
    at = cursor.at
    _pass_bracket(cursor)
    if cursor.take_any(_FORMS):
        return Recall(rows, cursor.span_from(start), forms_pattern=True)
    cursor.at = at
    if cursor.take_any(_AGAIN) or _numbered_times(cursor) or _times_behind_comma(cursor):
        return _rest(cursor, rows, start)
    cursor.at = start
    return None


def _times_behind_comma(cursor: Cursor) -> bool:
    """Whether a comma and a number of times stand here: "r3 and r4, 9 times"."""
    at = cursor.at
    found = cursor.take_kind(Kind.COMMA) and _numbered_times(cursor)
    cursor.at = at
    return found


def _numbered_times(cursor: Cursor) -> bool:
    """Whether a number of times stands here: "rows 2 and 3 twice more"."""
    at = cursor.at
    times = read_times(cursor)
    cursor.at = at
    return times is not None and times.often in (Often.TIMES, Often.MORE)


def _these_rows(cursor: Cursor) -> tuple[int, ...]:
    if not cursor.take_word("these", "those", "last"):
        return ()
    amount = cursor.number()
    if not cursor.take_word(*ROW_WORDS):
        return ()
    number = (amount.at(0) if amount else 2) or 2
    return tuple(range(-min(number, _MOST_ROWS), 0))


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
            most = tuple(value and min(value, _MOST_ROWS) for value in number.values)
            return replace(number, values=most) if any(most) else None
    cursor.at = at
    return None


_OPEN = frozenset("until till til for as to".split())


def _open_length(cursor: Cursor) -> str:
    """The words of a length or a wish: they make the number of rows open."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.STOP)
    cursor.take_word("over", "and", "again")
    if cursor.token.text not in _OPEN and not cursor.is_phrase("throughout"):
        cursor.at = at
        return ""
    words = []
    while cursor.token.kind not in (
        Kind.STOP,
        Kind.END,
        Kind.LINE,
        Kind.SEMICOLON,
        Kind.CLOSE,
    ):
        words.append(cursor.step().text)
    return " ".join(words)
