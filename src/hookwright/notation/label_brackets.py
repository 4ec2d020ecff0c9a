"""What is told behind a label: its side, its colour, its rows, what it is for."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.label_drafts import (
    MARKS,
    NAMED,
    ROUND_NAMES,
    ROW_NAMES,
    SIDES,
    LabelDraft,
)
from hookwright.notation.lexer import Kind

_MOST_WORDS_OF_YARN = 3


def take_brackets(cursor: Cursor, draft: LabelDraft) -> bool:
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


def _told_behind(cursor: Cursor, draft: LabelDraft) -> bool:
    """ "Row 3, RS:", "Row 3, right side, color A:": told as in a bracket, without one."""
    at = cursor.at
    words: list[str] = []
    cursor.take_kind(Kind.COMMA)
    if _told_how_many(cursor):
        draft.end = cursor.at
        return True
    while cursor.token.kind is Kind.WORD and len(words) < _MOST_WORDS_OF_YARN:
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
        named = cursor.take_word(*ROW_NAMES, *ROUND_NAMES)
        if named and cursor.token.kind in (*MARKS, Kind.COMMA):
            return True
    cursor.at = at
    return False


_TOLD_SIDES = (["rs"], ["ws"], ["right", "side"], ["wrong", "side"])
_COLOUR_WORDS = ("color", "colour", "yarn")


def _mark_follows(cursor: Cursor, draft: LabelDraft) -> bool:
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


def _read_bracket(words: list[str], draft: LabelDraft) -> bool:
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
