"""What a row is called: "Row 4 (RS):", "2nd Rnd -", "R6-R9:", "Foundation Row:", "3-6."."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.label_brackets import take_brackets
from hookwright.notation.label_drafts import (
    MARKS,
    NAMED,
    ROUND_NAMES,
    ROW_NAMES,
    SIDES,
    LabelDraft,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import Amount, Label
from hookwright.source import Span

_MOST = 10_000


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
        or _parity_label(cursor)
    )
    if draft is None and steps and not inline:
        draft = _step_label(cursor, text)
    if draft is None or not _ended(cursor, draft, inline=inline):
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


def _ordinal_label(cursor: Cursor) -> LabelDraft | None:
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
        numbers.extend(_through(numbers[-1], last) if through else [last])
        ranged = True
    word = cursor.token.text
    if word in ROW_NAMES | ROUND_NAMES:
        cursor.step()
        draft = LabelDraft(numbers, word in ROUND_NAMES, ranged=ranged)
        draft.end = cursor.at
        return draft
    if cursor.is_kind(Kind.STOP) and cursor.peek().kind is Kind.DASH:  # "4th.--Chain 5"
        return LabelDraft(numbers, ranged=ranged, end=cursor.at)
    cursor.at = start
    return None


def _number_label(cursor: Cursor) -> LabelDraft | None:
    """ "2 row:", "4-7 row -": a number before its row, with a mark behind it."""
    start = cursor.at
    if cursor.token.kind is not Kind.NUMBER or cursor.token.spelled:
        return None
    draft = LabelDraft([])
    known = _numbers(cursor, draft)
    several = not draft.ranged and cursor.is_word(*_SEVERAL)
    word = cursor.token.text
    named = known and not several and word in ROW_NAMES | ROUND_NAMES
    if not named or not _marked(cursor, 1):
        cursor.at = start
        return None
    cursor.step()
    draft.is_round = word in ROUND_NAMES
    draft.end = cursor.at
    return draft


_SEVERAL = ("rows", "rnds", "rounds", "rds")
"""Words behind one number that make it how many: "4 rows: Slate"."""


def _through(first: int, last: int) -> list[int]:
    return list(range(first + 1, last + 1)) if last - first <= _MOST else []


def _row_label(cursor: Cursor) -> LabelDraft | None:
    """ "Row 4", "Rows 2, 4 and 6", "Rnd 4 to Rnd 6", "R6-R9", "Rnds 3-5 (5, 6, 6)"."""
    start = cursor.at
    word = cursor.token.text
    letter = word == "r" and cursor.peek().kind is Kind.NUMBER
    if not (word in ROW_NAMES | ROUND_NAMES or letter):
        return None
    cursor.step()
    if cursor.token.kind is Kind.LINE and cursor.peek().kind is Kind.NUMBER:
        cursor.step()
    if cursor.token.text in (".", "#") and cursor.peek().kind is Kind.NUMBER:
        cursor.step()
    cursor.take_word("no", "number")
    draft = LabelDraft([], word in ROUND_NAMES or letter)
    if not _numbers(cursor, draft):
        cursor.at = start
        return None
    draft.end = cursor.at
    return draft


def _numbers(cursor: Cursor, draft: LabelDraft) -> bool:
    first = _number_by_size(cursor, draft)
    if first is None:
        return False
    draft.numbers.extend(first)
    while True:
        at = cursor.at
        if _stopped_range(cursor):
            cursor.step()
        apart = draft.ranged and not cursor.token.glued  # "r5-22 - r3 and r4, 9 times"
        ranged = cursor.take_word("to", "through", "thru") or (
            cursor.token.kind is Kind.DASH
            and not apart
            and _number_next(cursor)
            and bool(cursor.step())
        )
        if (
            not ranged
            and cursor.token.kind is Kind.DASH
            and cursor.peek().kind is Kind.LINE
        ):
            ranged = cursor.peek(2).kind is Kind.NUMBER and _marked(cursor, 3)
            if ranged:
                cursor.step()
                cursor.step()
        listed = not ranged and (cursor.take_kind(Kind.COMMA) | cursor.take_word("and"))
        if not (ranged or listed):
            return True
        if not ranged and _all_following(cursor, draft):
            return True
        cursor.take_word(*ROW_NAMES, *ROUND_NAMES, "r")
        starts = draft.by_size
        sized = _number_by_size(cursor, draft)
        if sized is None:
            cursor.at = at
            return True
        draft.ranged = True
        if ranged:
            begin = draft.numbers[-1]
            draft.numbers.extend(_through(begin, sized[0]))
            _range_to_ends(draft, starts, begin, sized[0])
            _ranges_by_size(cursor, draft, begin)
        else:
            draft.numbers.extend(sized)


def _stopped_range(cursor: Cursor) -> bool:
    """Whether "7.-R11." goes on, with a stop behind both its numbers; not "R1.-6 sc"."""
    if cursor.token.kind is not Kind.STOP or cursor.peek().kind is not Kind.DASH:
        return False
    named = cursor.peek(2).text in ROW_NAMES | ROUND_NAMES | {"r"}
    return cursor.peek(2 + named).kind is Kind.NUMBER and _marked(cursor, 3 + named)


def _range_to_ends(
    draft: LabelDraft, starts: tuple[tuple[int, ...], ...], begin: int, end: int
) -> None:
    """ "Rnds 5 (6, 7)-9 (11, 12)", "Rnds 3-8 (9, 10)": each size from its own start."""
    sizes = len(draft.by_size)
    if not sizes:
        return
    firsts = [own[-1] if own else begin for own in starts] or [begin] * sizes
    ended = draft.by_size is not starts
    lasts = [own[-1] if own else end for own in draft.by_size] if ended else [end] * sizes
    draft.by_size = tuple(
        tuple(range(first, min(last, first + _MOST) + 1))
        for first, last in zip(firsts, lasts, strict=False)
    )


def _ranges_by_size(cursor: Cursor, draft: LabelDraft, begin: int) -> None:
    """ "Rows 5-8 [5-10, 5-12]": a range for each further size."""
    if cursor.sizes == 1 or not cursor.is_kind(Kind.OPEN) or draft.by_size:
        return
    at = cursor.at
    cursor.step()
    ranges = [tuple(range(begin, draft.numbers[-1] + 1))]
    while cursor.is_kind(Kind.NUMBER):
        first = cursor.step().value
        if not _is_through(cursor.token) or cursor.peek().kind is not Kind.NUMBER:
            break
        cursor.step()
        last = cursor.step().value
        ranges.append(tuple(range(first, min(last, first + _MOST) + 1)))
        cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.COLON)
    if len(ranges) < 2 or not cursor.take_kind(Kind.CLOSE):
        cursor.at = at
        return
    draft.by_size = tuple(ranges)


def _all_following(cursor: Cursor, draft: LabelDraft) -> bool:
    """ "Row 3 and all following odd rows to row 9", "Rows 2, 4 and all even rows"."""
    at = cursor.at
    cursor.take_word("all", "every", "each", "the")
    cursor.take_word("following", "other", "foll", "later", "remaining")
    every = cursor.token.text
    if every not in ("odd", "even", "ws", "rs", *_OTHERS):
        cursor.at = at
        return False
    cursor.step()
    cursor.take_kind(Kind.DASH)
    cursor.take_word("numbered")
    rounds = cursor.is_word(*ROUND_NAMES)
    side = SIDES.get(every, "")
    if draft.numbers and every not in ("odd", "even"):
        every = "odd" if draft.numbers[0] % 2 else "even"
    elif side:
        every = "odd" if side == "RS" else "even"
    if every in _OTHERS or not cursor.take_word(*ROW_NAMES, *ROUND_NAMES):
        cursor.at = at
        return False
    draft.every = every
    if not draft.numbers:
        draft.is_round, draft.side = rounds, side
    if cursor.take_word("to", "until", "through") or cursor.take_phrase("up to"):
        cursor.take_word(*ROW_NAMES, *ROUND_NAMES)
        if cursor.token.kind is Kind.NUMBER:
            draft.until = cursor.step().value
    return True


_OTHERS = ("alternate", "alt")


def _parity_label(cursor: Cursor) -> LabelDraft | None:
    """ "All following odd rows", "Even rows", "Every WS row": no row is told by number."""
    draft = LabelDraft([])
    if not _all_following(cursor, draft):
        return None
    draft.end = cursor.at
    return draft


def _number_next(cursor: Cursor) -> bool:
    """Whether a range goes on after a dash: "4-7", "R6-R9", "4 - (21, 23, 25)"."""
    following = cursor.peek()
    if following.kind is Kind.NUMBER:
        wide = not cursor.token.glued and not following.glued
        after = cursor.peek(2)
        stitch_follows = (
            wide and after.kind is Kind.WORD and after.text not in ("and", "to")
        )
        return not (
            stitch_follows and cursor.peek(2).kind is Kind.WORD and not _marked(cursor, 2)
        )
    if following.kind is Kind.WORD and following.text in ("r", "row", "rnd", "round", "rd"):
        return cursor.peek(2).kind is Kind.NUMBER
    return (
        following.kind is Kind.OPEN
        and cursor.peek(2).kind is Kind.NUMBER
        and cursor.sizes > 1
    )


def _marked(cursor: Cursor, ahead: int) -> bool:
    return cursor.peek(ahead).kind in MARKS


_AFTER_SPELLED = (Kind.COLON, Kind.STOP, Kind.DASH, Kind.OPEN)
"""What follows a number in words that is a label: "Round one:", "Row two (RS)"."""


def _number_by_size(cursor: Cursor, draft: LabelDraft) -> list[int] | None:
    """A number, which may be a list with one a size; the first size's numbers are kept."""
    spelled = cursor.token.kind is Kind.NUMBER and cursor.token.spelled
    if spelled and cursor.peek().kind not in _AFTER_SPELLED:
        return None
    amount = _plain_before_ranges(cursor) or cursor.number()
    if amount is None:
        return None
    if len(amount.values) > 1:
        draft.by_size = tuple(() if v is None else (v,) for v in amount.values)
    value = amount.values[0]
    return [value] if value is not None else [max(v or 0 for v in amount.values)]


def _plain_before_ranges(cursor: Cursor) -> Amount | None:
    """The 8 of "5-8 [5-10, 5-12]": what follows are ranges, not numbers."""
    token = cursor.token
    ranged = cursor.peek().kind is Kind.OPEN and _is_through(cursor.peek(3))
    if (
        token.kind is not Kind.NUMBER
        or not ranged
        or cursor.peek(4).kind is not Kind.NUMBER
    ):
        return None
    if cursor.peek(5).kind not in (Kind.COMMA, Kind.CLOSE, Kind.SEMICOLON, Kind.COLON):
        return None
    cursor.step()
    return Amount((token.value,), token.span)


def _is_through(token: Token) -> bool:
    """Whether a range goes on here to its last row."""
    return token.kind is Kind.DASH or token.text in ("to", "through", "thru")


def _named_label(cursor: Cursor) -> LabelDraft | None:
    """ "Foundation Row", "Dec Rnd", "Foundation ch & row 1", "Body Rnd 1", "Next row"."""
    start = cursor.at
    words: list[str] = []
    while cursor.is_kind(Kind.WORD, Kind.ORDINAL, Kind.DASH, Kind.NUMBER):
        token = cursor.token
        if token.text in ROW_NAMES | ROUND_NAMES and words:
            return _finish_named(cursor, words, token)
        known = (
            token.text in NAMED
            or token.kind is Kind.DASH
            or token.text in ("and", "ch", "up", "2", "each", "size", "sizes")
        )
        if not known and not words and _names_row(cursor):
            known = True
        if not known or len(words) > 4:
            break
        words.append(token.text)
        cursor.step()
    cursor.at = start
    return _lone_name(cursor)


_NO_NAMES = frozenset(
    "this that these those each every all any per both same the following previous in on "
    "even odd right wrong remaining of until for rep repeat work as after before at to "
    "with and between".split()
)


def _names_row(cursor: Cursor) -> bool:
    """ "Split Rnd:", "Band row 2:": a word of the writer's, and the mark of a label."""
    token, row = cursor.token, cursor.peek()
    mark = cursor.peek(3 if cursor.peek(2).kind is Kind.NUMBER else 2)
    named = token.kind is Kind.WORD and len(token.text) > 2 and token.text not in _NO_NAMES
    return named and row.text in ROW_NAMES | ROUND_NAMES and mark.kind is Kind.COLON


def _next_rows_label(cursor: Cursor) -> LabelDraft | None:
    """ "Next 4 rows:", "Following 2 (4, 6) rnds -": so many rows from here on."""
    start = cursor.at
    amount = cursor.number() if cursor.take_word("next", "following") else None
    word = cursor.token.text
    too_many = amount is not None and max(v or 0 for v in amount.values) > _MOST
    if amount is None or too_many or word not in ROW_NAMES | ROUND_NAMES:
        cursor.at = start
        return None
    cursor.step()
    return LabelDraft(
        [], word in ROUND_NAMES, f"next {amount} {word}", every="next", next_rows=amount,
        ranged=True, end=cursor.at,
    )  # fmt: skip


_NAME_ENDS = (Kind.COLON, Kind.OPEN)
_AT_EDGE = ("edging", "border", "trim", "hem", "neckband", "armband", "collar", "brim")


def _told_on_the_line(cursor: Cursor) -> bool:
    """Whether "Edging:" or "Edging, all sizes:" has its work behind it on the line."""
    at = cursor.at
    cursor.step()
    _all_sizes(cursor)
    told = cursor.take_kind(Kind.COLON) and _work_begins(cursor)
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


def _lone_name(cursor: Cursor) -> LabelDraft | None:
    """ "Foundation:", "Base (Ink):", "Edging:": a row that is not called a row."""
    following = cursor.peek().kind
    if cursor.is_word(*_AT_EDGE):
        if not _told_on_the_line(cursor):
            return None
    elif not cursor.is_word("foundation", "base") or following not in _NAME_ENDS:
        return None
    elif cursor.peek(2).kind is Kind.NUMBER and cursor.peek(3).text in _LENGTHS:
        return None  # "Base: 15 cm across"
    draft = LabelDraft([], name=cursor.step().text)
    draft.end = cursor.at
    _all_sizes(cursor)
    return draft


def _finish_named(cursor: Cursor, words: list[str], token: Token) -> LabelDraft:
    cursor.step()
    draft = LabelDraft([], token.text in ROUND_NAMES)
    draft.name = " ".join([*(word for word in words if word != "-"), token.text])
    draft.every = "next" if words == ["next"] else ""
    if cursor.token.kind is Kind.NUMBER and not cursor.token.spelled:
        _numbers(cursor, draft)
    draft.end = cursor.at
    return draft


def _step_label(cursor: Cursor, text: str) -> LabelDraft | None:
    """ "1.", "3-6.", "4)": a number with a mark at the start of a line, or in a column."""
    if cursor.token.kind is not Kind.NUMBER or cursor.token.spelled:
        return None
    start = cursor.at
    draft = LabelDraft([])
    if not _numbers(cursor, draft):
        return None
    token, behind = cursor.token, cursor.tokens[cursor.at - 1].end
    marked = token.kind in (Kind.STOP, Kind.CLOSE, Kind.COLON) or token.text == "|"
    if not marked and text[behind : behind + 1] != "\t":
        cursor.at = start
        return None
    draft.end = cursor.at
    return draft


def _ended(cursor: Cursor, draft: LabelDraft, *, inline: bool) -> bool:
    """Takes side, colour and mark after a label; false where what follows makes it none."""
    marked = _take_marks(cursor)
    bracketed = take_brackets(cursor, draft)
    marked = _take_marks(cursor) or marked
    if marked:
        return True
    if inline:
        return bool(draft.numbers) and not draft.name and _work_begins(cursor)
    if draft.name:
        return _on_next_line(cursor)
    if not draft.numbers:
        return _work_begins(cursor) or cursor.is_word(*_AS) or _told_as(cursor)
    said = bracketed and cursor.token.text not in _VERBS
    return said or _told_as(cursor) or _goes_on(cursor)


def _on_next_line(cursor: Cursor) -> bool:
    """Whether the work of a named row begins on the line below its name."""
    at = cursor.at
    begins = cursor.take_kind(Kind.LINE) and _work_begins(cursor)
    cursor.at = at
    return bool(begins)


_AS = ("like", "same", "as")
_TELLS = ("are", "is", "all", "both", "worked", "just", "exactly", "the", "same", *_AS)


def _told_as(cursor: Cursor) -> bool:
    """Whether rows are told by others: "Rows 6 and 7 are the same as Rows 2 and 3"."""
    ahead = 0
    if cursor.token.text not in ("are", "is"):
        return False
    while ahead < _MOST_WORDS and cursor.peek(ahead).text in _TELLS:
        ahead += 1
    return cursor.peek(ahead).text in ROW_NAMES | ROUND_NAMES


_MOST_WORDS = 6
_BEGINS_WORK = frozenset("ch chain turn with repeat rep work join sk skip miss as".split())


def _work_begins(cursor: Cursor) -> bool:
    """Whether an instruction follows: "... Turn. Row 2 ch 1, sc in first sc"."""
    if cursor.is_kind(Kind.STAR, Kind.OPEN) or cursor.token.text in _BEGINS_WORK:
        return True
    numbered = cursor.is_kind(Kind.NUMBER) and cursor.peek().kind is Kind.WORD
    at = cursor.at
    cursor.at += int(numbered)
    begins = cursor.stitch_at() is not None or cursor.token.text in _BEGINS_WORK
    cursor.at = at
    return begins


def _take_marks(cursor: Cursor) -> bool:
    found = False
    while cursor.token.kind in MARKS or cursor.token.text == "|":
        cursor.step()
        found = True
    return found


_VERBS = frozenset(
    "form forms begins starts ends are is should have has make makes set was were "
    "may".split()
)
_NOT_AFTER = _VERBS | frozenset(
    "again of in for only and above below on from with if to".split()
)


def _goes_on(cursor: Cursor) -> bool:
    """Whether a label without a mark is one: no sentence about the row follows it."""
    token = cursor.token
    if token.kind is Kind.END:
        return False
    if token.kind is Kind.LINE:
        return True
    if token.text == "again" and cursor.peek().text in (*_AS, *_BEGINS_WORK):
        return True
    if token.kind is not Kind.WORD or token.text not in _NOT_AFTER:
        return True
    return _in_yarn(cursor) or _from_chain(cursor)


def _from_chain(cursor: Cursor) -> bool:
    """ "R1 from the 2nd ch: 4 sc": where the row begins."""
    at = cursor.at
    cursor.take_word("from")
    cursor.take_word("the")
    begins = cursor.take_kind(Kind.ORDINAL) and cursor.take_word("ch", "chain", "st")
    cursor.at = at
    return bool(begins)


_MOST_OF_YARN = 3
_NO_YARN = frozenset("the a an this that these each every all any both pattern".split())


def _in_yarn(cursor: Cursor) -> bool:
    """ "R7 and R8 in mustard, same as R2": a yarn, set off from the instructions."""
    if not cursor.is_word("in", "with"):
        return False
    for ahead in range(1, _MOST_OF_YARN + 2):
        token = cursor.peek(ahead)
        if token.kind in (Kind.COMMA, Kind.COLON):
            return ahead > 1
        if token.kind is not Kind.WORD or token.text in _NO_YARN:
            return False
    return False
