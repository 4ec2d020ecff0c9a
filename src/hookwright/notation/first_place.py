"""Where the first stitch along a chain goes, told behind the work.

"15 sc, the first of them in the 2nd ch from hook", "sc in each ch, missing the one nearest
the hook", "25 sc on the chain, starting one chain away from the hook".
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, INTO, everything
from hookwright.notation.reader import Reader
from hookwright.notation.skips import SKIP_WORDS, is_all_before
from hookwright.notation.targets import read_ordinal_from_hook, read_target
from hookwright.notation.tree import Make, Skip, Target, Which

_BEGINS = Sayings(
    f"{begin}{where}"
    for begin in ("starting", "beginning", "start", "begin", "beg")
    for where in (" from", " in", " with", " at", " into", "")
)
_AWAY = Sayings(
    f"{away} {hook}"
    for away in ("away from", "in from", "from", "along from", "back from")
    for hook in ("the hook", "hook", "your hook")
)
_PUTS_HOOK = Sayings((
    *(
        f"{we}{put} {the}hook"
        for we in ("", "we ", "you ")
        for put in ("insert", "stick", "put", "place", "push")
        for the in ("the ", "your ", "")
    ),
    *(f"inserting {the}hook" for the in ("the ", "your ", "")),
))  # fmt: skip
_OF_THEM = Sayings(("of them", "of these", "of all", "of those"))
_GOES = frozenset("goes going being is worked made comes".split())
_NEAREST = Sayings(
    f"{nearest} {hook}"
    for nearest in ("nearest", "nearest to", "next to", "closest to", "beside", "by")
    for hook in ("the hook", "hook", "your hook")
)
_LEAVES = (*SKIP_WORDS, "leaving", "leave", "except", "but")
_FREE = ("free", "unworked", "empty", "alone", "out")
_STOPS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.CLOSE, Kind.LINE, Kind.END,
    Kind.DASH, Kind.EQUALS,
)  # fmt: skip
FIRST_PLACE_SIGNS = frozenset(
    ("hook", "first", "starting", "beginning", "chain", "ch", "1st")
)


def read_first_place(reader: Reader) -> bool:
    """Where the chain is begun, behind the stitches that are worked along it."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    if not reader.has_work() and not reader.depth:
        return _hook_first(reader)
    if not isinstance(last, Make) or not is_all_before(reader):
        return False
    first = _first_stitch(cursor, last) or _away_from_hook(cursor)
    first = first or _second_loop(cursor, last) or _left_free(cursor, last)
    if first is None or not (cursor.is_kind(*_STOPS) or cursor.is_word("turn", "and")):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    if last.target is None and last.amount is None:  # "sc, skipping the first ch"
        last = replace(last, target=everything(span))
    place = Target("ch", Which.NTH, span, ordinal=first, from_hook=True)
    reader.items[-1:] = [Skip(place, span), last]
    return True


_WITH_HOOK = Sayings(f"with {the}hook" for the in ("the ", "your ", ""))


def _hook_first(reader: Reader) -> bool:
    """ "With hook in 2nd ch, 16 sc": where the work begins that is told behind it."""
    cursor = reader.cursor
    start = cursor.at
    into = cursor.take_any(_WITH_HOOK) and cursor.take_word(*INTO)
    ordinal = _chain_named(cursor) if into else None
    if ordinal is None or not cursor.is_kind(Kind.COMMA, Kind.COLON):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    return reader.add(
        Skip(Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True), span)
    )


def _first_stitch(cursor: Cursor, last: Make) -> int | None:
    """ "The first of them in the 2nd ch", "stick the hook for the first one into"."""
    at = cursor.at
    cursor.take_word("and", "with", "working", "placing", "making")
    hook = cursor.take_any(_PUTS_HOOK)
    cursor.take_word("for") if hook else None
    cursor.take_word("the", "your")
    if cursor.take_word("first", "1st"):
        stitch = cursor.stitch()
        same = stitch is None or stitch.id == last.stitch
        cursor.take_word("one", "stitch", "st") if stitch is None else None
        cursor.take_any(_OF_THEM)
        cursor.take_word(*_GOES)
        cursor.take_word(*_GOES)
        target = _chain_named(cursor) if same and cursor.take_word(*INTO) else None
        if target is not None:
            return target
    cursor.at = at
    return None


def _chain_named(cursor: Cursor) -> int | None:
    """Which chain from the hook: "2nd ch from hook", "ch 2 from hook", "the second ch"."""
    target = read_ordinal_from_hook(cursor) or read_target(cursor)
    if target is None or target.noun != "ch" or not target.ordinal:
        return None
    return target.ordinal


def _away_from_hook(cursor: Cursor) -> int | None:
    """ "Starting one chain away from the hook": in the second."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    number = cursor.number() if cursor.take_any(_BEGINS) else None
    chains = number is not None and cursor.take_word(*CHAIN_NOUNS)
    if number is not None and chains and cursor.take_any(_AWAY):
        return (number.at(0) or 0) + 1
    cursor.at = at
    return None


def _second_loop(cursor: Cursor, last: Make) -> int | None:
    """ "(Sc along the chain), starting from the second loop": of the chain."""
    at = cursor.at
    begins = cursor.take_any(_BEGINS) and _is_along_chain(last)
    target = read_target(cursor) if begins else None
    if target is not None and target.noun in ("sp", "st") and target.ordinal:
        return target.ordinal
    cursor.at = at
    return None


def _left_free(cursor: Cursor, last: Make) -> int | None:
    """ "Skipping the first chain", "leaving the ch nearest the hook free"."""
    at = cursor.at
    cursor.take_word("but", "and")
    left = cursor.take_word(*_LEAVES)
    while left and cursor.take_word("only", "just", "out", "for", "the", "over"):
        pass
    first = left and cursor.take_word("first", "1st")
    number = cursor.number() if left and not cursor.is_word("one") else None
    named = cursor.take_word(*CHAIN_NOUNS)
    named = named or (cursor.take_word("one") and _is_along_chain(last))
    near = cursor.take_any(_NEAREST)
    cursor.take_word(*_FREE)
    if left and named and (first or near):
        return ((number.at(0) or 0) if number is not None else 1) + 1
    cursor.at = at
    return None


def _is_along_chain(last: Make) -> bool:
    return last.target is not None and last.target.noun == "ch"
