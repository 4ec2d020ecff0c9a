"""What stands behind a label: its side, its colour, a mark, and then the work?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.label_words import (
    CALLED,
    MARKS,
    NAMED,
    SIDES,
    LabelWords,
)
from hookwright.notation.lexer import Kind


def is_ended(cursor: Cursor, draft: LabelWords, *, inline: bool) -> bool:
    """Takes side, colour and mark after a label; false where what follows makes it none."""
    marked = _take_marks(cursor)
    bracketed = _take_brackets(cursor, draft)
    marked = _take_marks(cursor) or marked
    if marked:
        return True
    if inline:
        told = work_begins(cursor) or cursor.is_phrase("same as")
        return bool(draft.numbers) and not draft.name and bool(told)
    if draft.name:
        return _on_next_line(cursor)
    if not draft.numbers:
        return work_begins(cursor) or cursor.is_word(*_AS) or _told_as(cursor)
    said = bracketed and cursor.token.text not in _VERBS
    return said or _told_as(cursor) or _goes_on(cursor)


def _on_next_line(cursor: Cursor) -> bool:
    """Whether the work of a named row begins on the line below its name."""
    at = cursor.at
    begins = cursor.take_kind(Kind.LINE) and work_begins(cursor)
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
    return cursor.peek(ahead).text in CALLED


_MOST_WORDS = 6
_BEGINS_WORK = frozenset("ch chain turn with repeat rep work join sk skip miss as".split())


def work_begins(cursor: Cursor) -> bool:
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
    "may gain gains lose loses grow grows shrink shrinks".split()
)
_OF_ALL = ("each", "all", "both")
_TELLS_OF = _VERBS | frozenset("take takes use uses count counts show shows".split())
"""Verbs of a sentence about rows: "Rows 1-45 each gain a block, Rows 46-89 lose one"."""
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
    if token.text in _OF_ALL and cursor.peek().text in _TELLS_OF:
        return False
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


def _take_brackets(cursor: Cursor, draft: LabelWords) -> bool:
    """ "(RS)", "(color A)", "(4 rounds)", "(in BLO, edges excepted)" behind a label."""
    found = False
    while cursor.token.kind is Kind.OPEN:
        start = cursor.at
        words = _bracket_words(cursor)
        if cursor.sizes > 1 and words[-1:] == ["only"]:  # "(Adult L only)": for whom it is
            cursor.at = start
            return found
        about = _read_bracket(words, draft) or _tells_what(cursor, words)
        if not about and not _mark_follows(cursor, draft):
            cursor.at = start
            return found
        if not about and _is_work(words):
            cursor.at = start
            return found
        draft.end = cursor.at if about or len(words) <= 4 else draft.end
        found = True
    while _told_behind(cursor, draft):
        found = True
    return found


_WHAT = frozenset(
    "inc increase increases increasing dec decrease decreases decreasing plain eyelet "
    "mesh lace bobble bobbles setup".split()
)


def _tells_what(cursor: Cursor, words: list[str]) -> bool:
    """ "R2 (inc) Ch 1, turn": what the row is for, as its work begins behind it."""
    told = bool(words) and set(words) <= _WHAT | {"row", "and", "the"}
    return told and (cursor.token.kind in MARKS or cursor.is_word("ch", "chain", "turn"))


def _told_behind(cursor: Cursor, draft: LabelWords) -> bool:
    """ "Row 3, RS:", "Row 3, right side, color A:": told as in a bracket, without one."""
    at = cursor.at
    words: list[str] = []
    cursor.take_kind(Kind.COMMA)
    if _told_how_many(cursor):
        draft.end = cursor.at
        return True
    while cursor.token.kind is Kind.WORD and len(words) < _MOST_OF_YARN:
        words.append(cursor.step().text)
    told = words in _TOLD_SIDES or (len(words) > 1 and words[0] in _COLOUR_WORDS)
    marked = cursor.token.kind in (*MARKS, Kind.COMMA)
    if told and marked and _read_bracket(words, draft):
        draft.end = cursor.at
        return True
    cursor.at = at
    return False


def _told_how_many(cursor: Cursor) -> bool:
    """ "(Rnds 4-8), that is 5 rounds": their number once more."""
    at = cursor.at
    if cursor.take_phrase("that is") and cursor.number() is not None:
        named = cursor.take_word(*CALLED)
        if named and cursor.token.kind in (*MARKS, Kind.COMMA):
            return True
    cursor.at = at
    return False


_TOLD_SIDES = (["rs"], ["ws"], ["right", "side"], ["wrong", "side"])
_COLOUR_WORDS = ("color", "colour", "yarn")


def _mark_follows(cursor: Cursor, draft: LabelWords) -> bool:
    return cursor.token.kind is Kind.COLON and bool(draft.numbers or draft.name)


def _is_work(words: list[str]) -> bool:
    """A bracket that may hold instructions is left for the row, unless it names loops."""
    return "ch" in words and not {"blo", "flo", "loops", "loop"} & set(words)


def _bracket_words(cursor: Cursor) -> list[str]:
    depth = 0
    words = []
    while not cursor.done():
        token = cursor.step()
        depth += (token.kind is Kind.OPEN) - (token.kind is Kind.CLOSE)
        if not depth:
            break
        words.append(token.text)
    return words[1:]


_COLOURS = frozenset("color colour yarn mc cc col".split())


def _read_bracket(words: list[str], draft: LabelWords) -> bool:
    """Whether a bracket is about the row: its side, its colour, how many rows it is."""
    side = next((SIDES[word] for word in words if word in SIDES), "")
    if side and len(words) <= 6:
        draft.side = side
        return True
    if words and words[0] in _COLOURS:
        draft.yarn = " ".join(words[1:]) or words[0]
        return True
    if "odd" in words or "even" in words:
        draft.every = "odd" if "odd" in words else "even"
        return True
    rows = {"row", "rows", "rnd", "rnds", "round", "rounds"}
    if 1 < len(words) < 4 and words[-1] in rows and words[0] in NAMED:
        draft.name = " ".join(words)
        return True
    if len(words) == 2 and words[0].isdigit() and words[1] in rows:
        return True
    return words == ["foundation"]
