"""How far "each st" goes: "to the last 2 sts", "up to next ch-2 sp", "except the last"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, ReadPlace
from hookwright.notation.lexer import Kind
from hookwright.notation.markers import read_up_to_marker
from hookwright.notation.place_words import CENTRE_WORDS, across
from hookwright.notation.tree import MIDDLE, Target, Which


def take_how_far(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """Where "each" ends and what it leaves out; the target itself where nothing is told."""
    return _left_out(cursor, _until(cursor, target, read))


_ALONG_SIDE = tuple(
    f"{way} {side}"
    for way in ("of", "along", "on", "down", "up")
    for side in (
        "the side",
        "this side",
        "that side",
        "each side",
        "this edge",
        "each edge",
    )
)


def _until(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "each st to the last 2 sts", "to next ch-2 sp", "up to the last st"."""
    if target.which is not Which.EACH or target.until is not None:
        return target
    at = cursor.at
    cursor.skip_lines()
    if cursor.take_phrase(*_ALONG_SIDE):
        corner = Target("corner", Which.NEXT, cursor.span_from(at))
        return replace(target, until=corner)
    across(cursor)
    cursor.skip_lines()
    marker = read_up_to_marker(cursor)
    if marker is not None:
        return replace(target, until=marker)
    if cursor.take_phrase(
        "up to", "until", "to", "till", "til", "as far as", "up until", "down to"
    ):
        cursor.take_phrase(
            "you reach", "you get to", "you come to", "within", "before", "there are"
        )
        begun = cursor.at
        until = _middle(cursor) or read(cursor)
        if until is not None and cursor.is_word("measures", "measure", "reaches"):
            until = None  # "until the foot measures 6 in"
        if until is not None and _is_corner_stitch(cursor, begun, until):
            until = replace(until, noun="corner")
        if until is not None and (until.which is not Which.EACH):
            left = cursor.take_phrase(
                "are left", "is left", "remain", "remains", "left", "are reached"
            )
            if left and until.which is Which.NEXT:
                until = replace(until, which=Which.LAST)
            return replace(target, until=until)
    cursor.at = at
    return target


def _middle(cursor: Cursor) -> Target | None:
    """ "(As far as) the middle": what is worked next lies there."""
    at = cursor.at
    cursor.take_word("the")
    if cursor.take_word(*CENTRE_WORDS) and cursor.is_kind(*_STOPS):
        return Target(MIDDLE, Which.NEXT, cursor.span_from(at))
    cursor.at = at
    return None


_STOPS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE)


def _is_corner_stitch(cursor: Cursor, start: int, target: Target) -> bool:
    """ "(Each sc to) next corner sc": the stitch in which the fabric turns."""
    plain = target.which is Which.NEXT and target.of is None and target.amount is None
    if not plain or target.noun in ("sp", "ch", "tch", "gap", "group", "corner"):
        return False
    return any(token.text == "corner" for token in cursor.tokens[start : cursor.at])


def _left_out(cursor: Cursor, target: Target) -> Target:
    if target.which is not Which.EACH:
        return target
    at = cursor.at
    across(cursor)
    after = cursor.take_phrase("after it", "after that", "after them", "behind it")
    behind = cursor.at
    if cursor.take_phrase(
        "except the last",
        "except for the last",
        "but the last",
        "except last",
        "excluding the last",
        "leaving the last",
        "save the last",
        "save for the last",
        "apart from the last",
        "bar the last",
        "other than the last",
    ):
        amount = cursor.number()
        cursor.take_word("st", "sts", "stitch", "sp", "space")
        return replace(target, left_out=(amount.at(0) if amount else 1) or 1)
    goes_on = after and (cursor.is_kind(*_ENDS) or cursor.is_word("and"))
    cursor.at = behind if goes_on else at
    return target


_ENDS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.CLOSE, Kind.LINE, Kind.END)
