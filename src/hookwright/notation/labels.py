"""What a row is called: "Row 4 (RS):", "2nd Rnd -", "R6-R9:", "Foundation Row:", "3-6."."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.label_ends import is_ended, work_begins
from hookwright.notation.label_numbers import (
    MOST,
    all_following,
    read_numbers,
    rows_through,
)
from hookwright.notation.label_words import (
    CALLED,
    NAMED,
    ROUND_NAMES,
    SIDES,
    LabelWords,
    is_marked,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import Label
from hookwright.source import Span


def read_label(
    cursor: Cursor, text: str, *, inline: bool, steps: bool = False
) -> Label | None:
    """The label that begins here; None, with the position kept, where none does.

    `inline` labels stand inside a paragraph and need a mark after them; `steps` lets a bare
    number with a mark ("3.") be a label.
    """
    start = cursor.at
    draft = (
        _ordinal_label(cursor)
        or _number_label(cursor)
        or _row_label(cursor)
        or _next_rows_label(cursor)
        or _named_label(cursor)
        or _ordinal_named_label(cursor)
        or _parity_label(cursor)
    )
    if draft is None and steps and not inline:
        draft = _step_label(cursor, text)
    if draft is None and not inline:
        draft = _bold_label(cursor) or _sided_label(cursor)
    bold = draft is not None and not inline and _closes_emphasis(cursor, start)
    if draft is None or not (bold or is_ended(cursor, draft, inline=inline)):
        cursor.at = start
        return None
    last = cursor.tokens[draft.end - 1]
    span = Span(cursor.tokens[start].start, last.end)
    return Label(
        text[span.start : span.end].strip(" .:-–—="),
        tuple(draft.numbers), span, draft.is_round, draft.name, draft.side, draft.yarn,
        draft.ranged, draft.by_size, every=draft.every, until=draft.until,
        next_rows=draft.next_rows,
    )  # fmt: skip


def _closes_emphasis(cursor: Cursor, start: int) -> bool:
    """ "**Next 4 rnds** Ch 2": what stands between stars is set off without a mark."""
    opened = cursor.tokens[start - 1] if start else None
    if opened is None or opened.kind is not Kind.STAR or not cursor.is_kind(Kind.STAR):
        return False
    return cursor.step().value == opened.value


_MOST_IN_BOLD = 8
_OF_ROWS = NAMED | SIDES.keys() | {"end", "edge", "side", "half"}


def _bold_label(cursor: Cursor) -> LabelWords | None:
    """ "**First end (RS)** Ch 1, ...": any few words that are set off before their work."""
    start = cursor.at
    opened = cursor.tokens[start - 1] if start else None
    bold = opened is not None and opened.kind is Kind.STAR and opened.value > 1
    if not bold or not cursor.is_kind(Kind.WORD, Kind.ORDINAL) or work_begins(cursor):
        return None
    words = []
    while cursor.is_kind(Kind.WORD, Kind.ORDINAL, Kind.NUMBER, Kind.OPEN, Kind.CLOSE):
        words.append(cursor.step().text)
    draft = LabelWords([], name=" ".join(words), end=cursor.at)
    draft.side = next((SIDES[word] for word in words if word in ("rs", "ws")), "")
    closed = len(words) <= _MOST_IN_BOLD and _closes_emphasis(cursor, start)
    named = not _OF_ROWS.isdisjoint(words)
    begins = closed and named and work_begins(cursor)
    cursor.at = draft.end if begins else start
    return draft if begins else None


def _sided_label(cursor: Cursor) -> LabelWords | None:
    """ "First end (RS): ch 1, ...": any few words with a side behind them, and a mark."""
    start = cursor.at
    words: list[str] = []
    while cursor.is_kind(Kind.WORD, Kind.ORDINAL) and len(words) < _MOST_IN_BOLD:
        words.append(cursor.step().text)
    side = SIDES.get(cursor.peek().text, "") if cursor.is_kind(Kind.OPEN) else ""
    sided = words and side and cursor.peek().text in ("rs", "ws")
    marks = (cursor.peek(2).kind, cursor.peek(3).kind)
    if not sided or marks != (Kind.CLOSE, Kind.COLON):
        cursor.at = start
        return None
    cursor.at += 3
    return LabelWords([], name=" ".join(words), side=side, end=cursor.at)


def _ordinal_label(cursor: Cursor) -> LabelWords | None:
    """ "2nd Row", "4th and 5th rows", "10th to 12th rnds"."""
    start = cursor.at
    if not cursor.is_kind(Kind.ORDINAL):
        return None
    numbers = [cursor.step().value]
    ranged = False
    while cursor.is_kind(Kind.COMMA, Kind.DASH) or cursor.is_word("and", "to", "thru"):
        joint = cursor.step()
        cursor.take_word("and")
        if not cursor.is_kind(Kind.ORDINAL):
            break
        last = cursor.step().value
        through = joint.kind is Kind.DASH or joint.text in ("to", "thru")
        numbers.extend(rows_through(numbers[-1], last) if through else [last])
        ranged = True
    word = cursor.token.text
    if word in CALLED:
        cursor.step()
        draft = LabelWords(numbers, word in ROUND_NAMES, ranged=ranged)
        draft.end = cursor.at
        return draft
    if cursor.is_kind(Kind.STOP) and cursor.peek().kind is Kind.DASH:  # "4th.--Chain 5"
        return LabelWords(numbers, ranged=ranged, end=cursor.at)
    if _begins_line(cursor, start) and cursor.is_kind(Kind.COLON):  # "4th: sc in each st"
        return LabelWords(numbers, ranged=ranged, end=cursor.at)
    cursor.at = start
    return None


def _begins_line(cursor: Cursor, start: int) -> bool:
    """Whether a figure begins its line: "4th: ...", but not "first: ..."."""
    before = cursor.tokens[start - 1].kind if start else Kind.LINE
    return before is Kind.LINE and cursor.tokens[start].text[0].isdigit()


def _number_label(cursor: Cursor) -> LabelWords | None:
    """ "2 row:", "4-7 row -": a number before its row, with a mark behind it."""
    start = cursor.at
    if cursor.token.kind is not Kind.NUMBER or cursor.token.spelled:
        return None
    draft = LabelWords([])
    known = read_numbers(cursor, draft)
    several = not draft.ranged and cursor.is_word(*_SEVERAL)
    word = cursor.token.text
    named = known and not several and word in CALLED
    if not named or not is_marked(cursor, 1):
        cursor.at = start
        return None
    cursor.step()
    draft.is_round = word in ROUND_NAMES
    draft.end = cursor.at
    return draft


_SEVERAL = ("rows", "rnds", "rounds", "rds")
"""Words behind one number that make it how many: "4 rows: Slate"."""


def _row_label(cursor: Cursor) -> LabelWords | None:
    """ "Row 4", "Rows 2, 4 and 6", "Rnd 4 to Rnd 6", "R6-R9", "Rnds 3-5 (5, 6, 6)"."""
    start = cursor.at
    word = cursor.token.text
    letter = word == "r" and cursor.peek().kind is Kind.NUMBER
    if not (word in CALLED or letter):
        return None
    cursor.step()
    if cursor.token.kind is Kind.LINE and cursor.peek().kind is Kind.NUMBER:
        cursor.step()
    if cursor.token.text in (".", "#") and cursor.peek().kind is Kind.NUMBER:
        cursor.step()
    cursor.take_word("no", "number")
    draft = LabelWords([], word in ROUND_NAMES or letter)
    if not _last_of_all(cursor, draft) and not read_numbers(cursor, draft):
        cursor.at = start
        return None
    _pass_how_many(cursor)
    draft.end = cursor.at
    return draft


def _last_of_all(cursor: Cursor, draft: LabelWords) -> bool:
    """The "4/4" of "Rnd 4/4:": the last of four."""
    number, slash, _ = cursor.token.text.partition("/")
    if not slash or not number.isdecimal() or not is_marked(cursor, 1):
        return False
    cursor.step()
    draft.numbers.append(int(number))
    return True


def _pass_how_many(cursor: Cursor) -> None:
    """The "of 4" of "Rnd 2 of 4:", the "/4" of "Rnd 2/4:"."""
    of_all = cursor.token.text in ("of", "/") and cursor.peek().kind is Kind.NUMBER
    if of_all and is_marked(cursor, 2) and cursor.sizes == 1:
        cursor.at += 2


def _parity_label(cursor: Cursor) -> LabelWords | None:
    """ "All following odd rows", "Even rows", "Every WS row": no row is told by number."""
    draft = LabelWords([])
    if not all_following(cursor, draft):
        return None
    draft.end = cursor.at
    return draft


def _named_label(cursor: Cursor) -> LabelWords | None:
    """ "Foundation Row", "Dec Rnd", "Foundation ch & row 1", "Body Rnd 1", "Next row"."""
    start = cursor.at
    words: list[str] = []
    while cursor.is_kind(Kind.WORD, Kind.ORDINAL, Kind.DASH, Kind.NUMBER):
        token = cursor.token
        if token.text in CALLED and words:
            return _finish_named(cursor, words, token)
        known = (
            token.text in NAMED
            or token.kind is Kind.DASH
            or token.text in ("and", "ch", "up", "2", "each", "size", "sizes")
        )
        if not known and not words:
            known = _named_by_writer(cursor, words)
        if not known or len(words) > 4:
            break
        words.append(token.text)
        cursor.step()
    cursor.at = start
    return _lone_name(cursor)


def _ordinal_named_label(cursor: Cursor) -> LabelWords | None:
    """ "1st hem row:", "2nd thumb rnd -": an ordinal, a word or two, and a mark."""
    start = cursor.at
    if not cursor.is_kind(Kind.ORDINAL):
        return None
    number = cursor.step().value
    words: list[str] = []
    while _is_name(cursor.token) and len(words) < _MOST_BEHIND_ORDINAL:
        words.append(cursor.step().text)
    row = cursor.token.text
    if not words or row not in CALLED or not is_marked(cursor, 1):
        cursor.at = start
        return None
    cursor.step()
    name = " ".join([*words, row])
    return LabelWords([number], row in ROUND_NAMES, name, end=cursor.at)


_MOST_BEHIND_ORDINAL = 2
_NO_NAMES = frozenset(
    "this that these those each every all any per both same the following previous in on "
    "even odd right wrong remaining of until for rep repeat work as after before at to "
    "with and between".split()
)


def _named_by_writer(cursor: Cursor, words: list[str]) -> bool:
    """ "Split Rnd:", "Thumb gap round:", "Band rows 2-4 (5, 6):": a writer's words, a mark.

    All but the last of them are taken.
    """
    ahead = 0
    while _is_name(cursor.peek(ahead)) and ahead < _MOST_WORDS:
        ahead += 1
    if not ahead and _is_right_hand(cursor):
        ahead = 1
    if not ahead or not _row_and_mark(cursor, ahead):
        return False
    words.extend(cursor.step().text for _ in range(ahead - 1))
    return True


_MOST_WORDS = 3


def _row_and_mark(cursor: Cursor, ahead: int) -> bool:
    """Whether "row", "rows 2-4 (5, 6)" stands so many words on, and a mark behind it."""
    at = cursor.at
    cursor.at += ahead
    marked = cursor.take_word(*CALLED)
    if marked and cursor.is_kind(Kind.NUMBER) and not cursor.token.spelled:
        read_numbers(cursor, LabelWords([]))
    marked = marked and cursor.is_kind(Kind.COLON)
    cursor.at = at
    return marked


def _is_right_hand(cursor: Cursor) -> bool:
    """ "Right Row 2:" beside "Left Row 2:": no side of the fabric, for it is numbered."""
    named = cursor.is_word("right") and cursor.peek().text in CALLED
    return named and cursor.peek(2).kind is Kind.NUMBER


def _is_name(token: Token) -> bool:
    named = token.kind is Kind.WORD and len(token.text) > 2
    return named and token.text not in _NO_NAMES and token.text not in CALLED


def _next_rows_label(cursor: Cursor) -> LabelWords | None:
    """ "Next 4 rows:", "Following 2 (4, 6) rnds -": so many rows from here on."""
    start = cursor.at
    amount = cursor.number() if cursor.take_word("next", "following") else None
    word = cursor.token.text
    too_many = amount is not None and max(v or 0 for v in amount.values) > MOST
    if amount is None or too_many or word not in CALLED:
        cursor.at = start
        return None
    cursor.step()
    return _numbered_beside(cursor) or LabelWords(
        [], word in ROUND_NAMES, f"next {amount} {word}", every="next", next_rows=amount,
        ranged=True, end=cursor.at,
    )  # fmt: skip


def _numbered_beside(cursor: Cursor) -> LabelWords | None:
    """ "Next 3 rows, Rows 9-11:", "Next row (Row 5)": they are told by number as well."""
    at = cursor.at
    opened = cursor.take_kind(Kind.OPEN)
    if opened or cursor.take_kind(Kind.COMMA, Kind.DASH, Kind.EQUALS):
        draft = _row_label(cursor)
        if draft is not None and (not opened or cursor.take_kind(Kind.CLOSE)):
            draft.end = cursor.at
            return draft
    cursor.at = at
    return None


_NAME_ENDS = (Kind.COLON, Kind.OPEN)
_ROWS_OF_THEIR_OWN = (
    "edging", "border", "trim", "hem", "neckband", "armband", "collar", "brim", "divide",
    "division", "split", "separation", "buttonhole", "buttonholes", "underarm", "underarms",
    "band", "edge",
)  # fmt: skip
"""What a row is called by that its work follows: "Border: sc in each st", "Divide: ..."."""


def _told_on_the_line(cursor: Cursor) -> bool:
    """Whether "Edging:" or "Edging, all sizes:" has its work behind it on the line."""
    at = cursor.at
    cursor.step()
    if cursor.is_kind(Kind.NUMBER) and cursor.peek().kind is Kind.COLON:
        cursor.step()
    _all_sizes(cursor)
    told = cursor.take_kind(Kind.COLON) and work_begins(cursor)
    while not cursor.done() and cursor.token.kind is not Kind.LINE:
        word = cursor.step().text
        told = told and word != "evenly"  # as many as lie flat: no row to be counted
    cursor.at = at
    return bool(told)


def _all_sizes(cursor: Cursor) -> None:
    """ ", all sizes", "(all sizes)" behind a name."""
    at = cursor.at
    opened = cursor.take_kind(Kind.COMMA) or cursor.take_kind(Kind.OPEN)
    if not opened or not cursor.take_phrase("all sizes", "every size"):
        cursor.at = at
        return
    cursor.take_kind(Kind.CLOSE)


_LENGTHS = frozenset("cm mm in inch inches".split())


def _lone_name(cursor: Cursor) -> LabelWords | None:
    """ "Foundation:", "Base (Ink):", "Edging:": a row that is not called a row."""
    following = cursor.peek().kind
    if cursor.is_word(*_ROWS_OF_THEIR_OWN):
        if not _told_on_the_line(cursor):
            return None
    elif not cursor.is_word("foundation", "base") or following not in _NAME_ENDS:
        return None
    elif cursor.peek(2).kind is Kind.NUMBER and cursor.peek(3).text in _LENGTHS:
        return None  # "Base: 15 cm across"
    draft = LabelWords([], name=cursor.step().text)
    if cursor.is_kind(Kind.NUMBER) and is_marked(cursor, 1):  # "Trim 2: sc around"
        draft.numbers.append(cursor.step().value)
    draft.end = cursor.at
    _all_sizes(cursor)
    return draft


def _finish_named(cursor: Cursor, words: list[str], token: Token) -> LabelWords:
    cursor.step()
    draft = LabelWords([], token.text in ROUND_NAMES)
    draft.name = " ".join([*(word for word in words if word != "-"), token.text])
    draft.every = "next" if words == ["next"] else ""
    if draft.every and (numbered := _numbered_beside(cursor)) is not None:
        return numbered
    if cursor.token.kind is Kind.NUMBER and not cursor.token.spelled:
        read_numbers(cursor, draft)
    draft.end = cursor.at
    return draft


def _step_label(cursor: Cursor, text: str) -> LabelWords | None:
    """ "1.", "3-6.", "4)": a number with a mark at the start of a line, or in a column."""
    if cursor.token.kind is not Kind.NUMBER or cursor.token.spelled:
        return None
    start = cursor.at
    draft = LabelWords([])
    if not read_numbers(cursor, draft):
        return None
    token, behind = cursor.token, cursor.tokens[cursor.at - 1].end
    marked = token.kind in (Kind.STOP, Kind.CLOSE, Kind.COLON) or token.text == "|"
    if not marked and text[behind : behind + 1] != "\t":
        cursor.at = start
        return None
    draft.end = cursor.at
    return draft
