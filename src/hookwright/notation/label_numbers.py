"""Which rows does a label stand for: "Rows 2, 4 and 6", "Rnds 3-5 (5, 6, 6)"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.label_words import (
    CALLED,
    ROUND_NAMES,
    SIDES,
    LabelWords,
    is_marked,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import Amount

MOST = 10_000
"""More rows than any label stands for."""


def rows_through(first: int, last: int) -> list[int]:
    """The rows behind one, up to another."""
    return list(range(first + 1, last + 1)) if last - first <= MOST else []


def read_numbers(cursor: Cursor, draft: LabelWords) -> bool:
    """Takes all numbers of a label; false where it begins with none."""
    first = _number_by_size(cursor, draft)
    if first is None:
        return False
    draft.numbers.extend(first)
    while True:
        at = cursor.at
        if _marked_range(cursor):
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
            ranged = cursor.peek(2).kind is Kind.NUMBER and is_marked(cursor, 3)
            if ranged:
                cursor.step()
                cursor.step()
        listed = not ranged and (
            cursor.take_kind(Kind.COMMA, Kind.PLUS) | cursor.take_word("and")
        )
        if not (ranged or listed):
            return True
        if not ranged and all_following(cursor, draft):
            return True
        cursor.take_word(*_ROW_WORDS)
        starts = draft.by_size
        sized = _number_by_size(cursor, draft)
        if sized is None:
            cursor.at = at
            return True
        draft.ranged = True
        if ranged:
            begin = draft.numbers[-1]
            draft.numbers.extend(rows_through(begin, sized[0]))
            _range_to_ends(draft, starts, begin, sized[0])
            _ranges_by_size(cursor, draft, begin)
        else:
            draft.numbers.extend(sized)


def _marked_range(cursor: Cursor) -> bool:
    """Whether "7.-R11." or "6) to 9)" goes on, with a mark behind both its numbers.

    "R1.-6 sc" does not.
    """
    if cursor.token.kind not in (Kind.STOP, Kind.CLOSE) or not _joins(cursor.peek()):
        return False
    named = cursor.peek(2).text in _ROW_WORDS
    return cursor.peek(2 + named).kind is Kind.NUMBER and is_marked(cursor, 3 + named)


def _joins(token: Token) -> bool:
    return token.text == "and" or _is_through(token)


def _range_to_ends(
    draft: LabelWords, starts: tuple[tuple[int, ...], ...], begin: int, end: int
) -> None:
    """ "Rnds 5 (6, 7)-9 (11, 12)", "Rnds 3-8 (9, 10)": each size from its own start."""
    sizes = len(draft.by_size)
    if not sizes:
        return
    firsts = [own[-1] if own else begin for own in starts] or [begin] * sizes
    ended = draft.by_size is not starts
    lasts = [own[-1] if own else end for own in draft.by_size] if ended else [end] * sizes
    draft.by_size = tuple(
        tuple(range(first, min(last, first + MOST) + 1))
        for first, last in zip(firsts, lasts, strict=False)
    )


def _ranges_by_size(cursor: Cursor, draft: LabelWords, begin: int) -> None:
    """ "Rows 5-8 [5-10, 5-12]", "4-12 / 4-13 / 4-14": a range for each further size."""
    slashed = cursor.token.text == "/"
    begins = slashed or cursor.is_kind(Kind.OPEN)
    if cursor.sizes == 1 or not begins or draft.by_size:
        return
    at = cursor.at
    cursor.step()
    ranges = [tuple(range(begin, draft.numbers[-1] + 1))]
    while _row_number_ahead(cursor):
        first = cursor.step().value
        if not _is_through(cursor.token) or not _number_follows(cursor):
            break
        cursor.step()
        cursor.take_word(*_ROW_WORDS)
        last = cursor.step().value
        ranges.append(tuple(range(first, min(last, first + MOST) + 1)))
        if slashed and cursor.token.text == "/":
            cursor.step()
        cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.COLON)
    if len(ranges) < 2 or not (slashed or cursor.take_kind(Kind.CLOSE)):
        cursor.at = at
        return
    draft.by_size = tuple(ranges)


_ROW_WORDS = (*CALLED, "r")


def _row_number_ahead(cursor: Cursor) -> bool:
    """Takes the word for a row before a number, "R3" as "Row 3"; whether one follows."""
    if cursor.token.text in _ROW_WORDS and cursor.peek().kind is Kind.NUMBER:
        cursor.step()
    return cursor.is_kind(Kind.NUMBER)


def _number_follows(cursor: Cursor) -> bool:
    """Whether a number stands behind this word or mark, or a row and its number."""
    named = cursor.peek().text in _ROW_WORDS
    return cursor.peek(1 + named).kind is Kind.NUMBER


def all_following(cursor: Cursor, draft: LabelWords) -> bool:
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
    if every in _OTHERS or not cursor.take_word(*CALLED):
        cursor.at = at
        return False
    draft.every = every
    if not draft.numbers:
        draft.is_round, draft.side = rounds, side
    if cursor.take_word("to", "until", "through") or cursor.take_phrase("up to"):
        cursor.take_word(*CALLED)
        if cursor.token.kind is Kind.NUMBER:
            draft.until = cursor.step().value
    return True


_OTHERS = ("alternate", "alt")


def _number_next(cursor: Cursor) -> bool:
    """Whether a range goes on after a dash: "4-7", "R6-R9", "4 - (21, 23, 25)"."""
    following = cursor.peek()
    if following.kind is Kind.NUMBER:
        wide = not cursor.token.glued and not following.glued
        after = cursor.peek(2)
        ends = after.text in ("and", "to", *_ROW_WORDS)
        stitch_follows = wide and after.kind is Kind.WORD and not ends
        return not (
            stitch_follows and cursor.peek(2).kind is Kind.WORD and not is_marked(cursor, 2)
        )
    if following.kind is Kind.WORD and following.text in ("r", "row", "rnd", "round", "rd"):
        return cursor.peek(2).kind is Kind.NUMBER
    return (
        following.kind is Kind.OPEN
        and cursor.peek(2).kind is Kind.NUMBER
        and cursor.sizes > 1
    )


_AFTER_SPELLED = (Kind.COLON, Kind.STOP, Kind.DASH, Kind.OPEN)
"""What follows a number in words that is a label: "Round one:", "Row two (RS)"."""


def _number_by_size(cursor: Cursor, draft: LabelWords) -> list[int] | None:
    """A number, which may be a list with one a size; the first size's numbers are kept."""
    spelled = cursor.token.kind is Kind.NUMBER and cursor.token.spelled
    if spelled and cursor.peek().kind not in _AFTER_SPELLED and not _goes_on(cursor):
        return None
    amount = _plain_before_ranges(cursor) or _numbers_of_rows(cursor) or cursor.number()
    if amount is None:
        return None
    if len(amount.values) > 1:
        draft.by_size = tuple(() if v is None else (v,) for v in amount.values)
    value = amount.values[0]
    return [value] if value is not None else [max(v or 0 for v in amount.values)]


def _goes_on(cursor: Cursor) -> bool:
    """Whether another number in words follows: "Rows three to eight", "ten and eleven"."""
    mark, further = cursor.peek(), cursor.peek(2)
    joins = mark.text in ("to", "through", "and") or mark.kind in (Kind.COMMA, Kind.DASH)
    return joins and further.kind is Kind.NUMBER and further.spelled


def _numbers_of_rows(cursor: Cursor) -> Amount | None:
    """The list in "R9 (R11, R13)": the word for a row stands before every number."""
    named = cursor.peek().kind is Kind.OPEN and cursor.peek(2).text in _ROW_WORDS
    if cursor.sizes == 1 or not named:
        return None
    start = cursor.at
    values: list[int | None] = [cursor.step().value]
    cursor.step()
    while _row_number_ahead(cursor):
        values.append(cursor.step().value)
        cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.COLON)
    if len(values) != cursor.sizes or not cursor.take_kind(Kind.CLOSE):
        cursor.at = start
        return None
    return Amount(tuple(values), cursor.span_from(start))


def _plain_before_ranges(cursor: Cursor) -> Amount | None:
    """The 8 of "5-8 [5-10, 5-12]": what follows are ranges, not numbers."""
    token = cursor.token
    named = cursor.peek(2).text in _ROW_WORDS
    ranged = cursor.peek().kind is Kind.OPEN and _is_through(cursor.peek(3 + named))
    end = 4 + named + (cursor.peek(4 + named).text in _ROW_WORDS)
    if (
        token.kind is not Kind.NUMBER
        or not ranged
        or cursor.peek(end).kind is not Kind.NUMBER
    ):
        return None
    if cursor.peek(end + 1).kind not in (
        Kind.COMMA, Kind.CLOSE, Kind.SEMICOLON, Kind.COLON
    ):  # fmt: skip
        return None
    cursor.step()
    return Amount((token.value,), token.span)


def _is_through(token: Token) -> bool:
    """Whether a range goes on here to its last row."""
    return token.kind is Kind.DASH or token.text in ("to", "through", "thru")
