"""Places that this row has made or begun in: "loop just made", "where you began"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Target, Which

BEGUN_IN = Sayings((
    "you began in", "you started in", "you began", "you started", "where you began",
    "where you started", "where you joined", "begun in", "where the round began",
    "where the rnd began", "where you first worked", "you first worked into",
    "you worked into first", "that you began in", "that you started in", "we began in",
    "we started in", "at the start of the round", "at the start of the rnd",
))  # fmt: skip
_CLOSED_BY = Sayings((
    "just made", "just formed", "just worked", "just completed", "formed by", "made by",
    "created by", "under",
))  # fmt: skip


def take_just_closed(cursor: Cursor, target: Target) -> Target:
    """ "loop just made", "sp formed by joining dc": where a round begins."""
    if target.noun != "sp" or target.which is Which.EACH:
        return target
    at = cursor.at
    by = cursor.take_any(_CLOSED_BY) and cursor.tokens[cursor.at - 1].text
    if by in ("by", "under"):
        cursor.take_word("the", "that")
        cursor.take_word("joining", "closing", "last", "beg", "beginning")
        found = cursor.stitch() is not None
        cursor.take_word("just")
        cursor.take_word("made", "worked", "join")
    else:
        found = bool(by)
    if not found:
        cursor.at = at
        return target
    return replace(target, noun="made", which=Which.SAME)


def take_just_made(cursor: Cursor, target: Target) -> Target:
    """ "last sc made", "dc just made", "dc just skipped": not the next one below.

    So it is with several: "each of the 3 sts you skipped".
    """
    if target.noun in ("sp", "gap", "corner", "ch"):
        return target
    at = cursor.at
    passed = target.which is not Which.LAST and cursor.take_any(_PASSED_OVER)
    if passed and not (cursor.tokens[cursor.at - 1].text == "left" and _says_more(cursor)):
        return replace(target, which=Which.SKIPPED)
    cursor.at = at
    if target.which is Which.EACH:
        return target
    cursor.take_word("just", "you")
    if cursor.take_word("made", "worked", "completed"):
        return replace(target, noun="made", which=Which.SAME)
    cursor.at = at
    return target


def _says_more(cursor: Cursor) -> bool:
    """ "The 4 sts you left unworked" were not passed over to be worked next."""
    return cursor.token.kind is Kind.WORD and not cursor.is_word("before", "and", "then")


_PASSED_OVER = Sayings((
    *(
        f"{that}{you}{just}{passed}"
        for that in ("that ", "which ", "")
        for you in ("you ", "you have ", "you've ", "we ", "was ", "were ")
        for just in ("just ", "")
        for passed in (
            "skipped", "missed", "sk", "passed over", "passed by", "left behind",
            "left out", "left waiting", "left standing", "left alone", "left for now",
            "left for later", "jumped over", "jumped", "went past", "let be",
        )
    ),
    "just skipped", "just missed", "just sk", "just passed over", "just passed by",
    "passed over", "passed by", "left behind", "left out", "left waiting", "left alone",
    "left for now", "left for later", "jumped over", "waiting behind",
    "you left", "that you left", "which you left",
    "you have left", "you've left", "you just left", "left before",
    "skipped before", "missed before", "passed over before", "left out before",
))  # fmt: skip
"""What is said of a place that the hook goes back to: "dc in the one you passed over"."""
