"""How does a repeat end: "ending last rep at **", "omit last ch 1", "last sc in tch"?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.cut_short import CORNER
from hookwright.notation.fold import (
    Again,
    EndAfter,
    EndAt,
    Item,
    PlaceMark,
    Star,
    TimesMark,
    fold,
)
from hookwright.notation.lexer import Kind
from hookwright.notation.nested import nested
from hookwright.notation.place_words import INTO
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import Join, Make, Node, Skip, Tail, Target, Which
from hookwright.notation.work import is_work

_LAST_REPEAT = Sayings(
    (
        *(
            f"{lead}{the}{last} {repeat}"
            for lead in ("", "for ", "on ", "in ", "at ")
            for the in ("the ", "")
            for last in ("last", "final", "very last")
            for repeat in ("repeat", "rep", "repetition", "time")
        ),
        *(
            f"for {the}{last} {loop}"
            for the in ("the ", "")
            for last in ("last", "final")
            for loop in ("loop", "lp", "arch", "space", "sp", "one", "petal", "group")
        ),
        "after the last corner",
        "after last corner",
        "behind the last corner",
    )
)


def _every_nth(cursor: Cursor) -> Target | None:
    """ "(Leaving out) every sixth st": of such places, all along the row."""
    target = read_target(cursor)
    every = target is not None and target.which is Which.EACH
    return target if every or (target is not None and target.ordinal) else None


_BEFORE_A_THING = frozenset("the these both two short all row loose yarn cast".split())
"""Words behind which ends are things: "join the ends with sl st"."""


def read_ending(reader: Reader) -> bool:
    """ "ending last rep at **", "ending with dc in tch", "omitting last ch 1"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "and", "noting", "only")
    cursor.take_phrase("that", "on", "work")
    named = cursor.take_any(_LAST_REPEAT)
    if named:
        cursor.take_kind(Kind.COLON, Kind.COMMA)
        cursor.take_word("work", "make", "do")
        cursor.take_word("only", "just")
    omit = cursor.take_word("omit", "omitting") or cursor.take_phrase(
        "leaving out", "leave out"
    )
    if omit and (not reader.has_work() or cursor.attempt(_every_nth)):
        # "leave out the edge tile", "omit every 3rd st": nothing is ended
        cursor.at = start
        return False
    thing = cursor.at > 0 and cursor.tokens[cursor.at - 1].text in _BEFORE_A_THING
    ends = not thing and cursor.take_word(
        "ending", "end", "ends", "finish", "finishing", "finishes"
    )
    if not (ends or omit):
        if named:
            return _tail(reader, start, replaces=True)
        cursor.at = start
        return False
    if cursor.is_word("off") or _is_own_stitch(cursor, start):
        cursor.at = start
        return False
    if ends and _ends_no_repeat(reader, named=named):
        return reader.remark(cursor.span_from(start))
    named = (
        cursor.take_phrase(
            "last rep",
            "the last rep",
            "last repeat",
            "the last repeat",
            "final repeat",
            "the final repeat",
            "final rep",
        )
        or named
    )
    if ends and not named and _in_place(cursor):
        return reader.remark(cursor.span_from(start))
    stop = _where_it_stops(cursor, start, omit=omit)
    if stop is not None:
        reader.add(stop)
        _pass_last_place(cursor)
        return True
    cursor.take_word("with", "by", "in", "on")
    if omit:
        return _omission(reader, start)
    return _tail(reader, start, replaces=True if named else None)


def _where_it_stops(cursor: Cursor, start: int, *, omit: bool) -> EndAfter | EndAt | None:
    """ "(Ending) at **", "(ending) after second shell"."""
    after = None if omit else _after_stitch(cursor, start)
    if after is not None:
        return after
    led = cursor.take_phrase("at", "with", "on", "after", "in")
    if led and cursor.token.kind is Kind.STAR:
        mark = cursor.step().value
        return EndAt(mark, cursor.span_from(start))
    return None


def _pass_last_place(cursor: Cursor) -> None:
    """ "(Ending at **) with the tr in top of ch-4": of what is worked last, and no more."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    told = cursor.take_word("with", "working", "placing", "putting")
    the = told and cursor.take_word("the", "its", "that")
    stitch = cursor.stitch() if the else None
    target = read_target(cursor) if stitch and cursor.take_word(*INTO) else None
    if target is None or (target.which is not Which.LAST and target.noun != "tch"):
        cursor.at = at


def _is_own_stitch(cursor: Cursor, start: int) -> bool:
    """ "End half fan": the words begin a stitch that the pattern calls so."""
    at, cursor.at = cursor.at, start
    named = cursor.token.text in cursor.own_words and cursor.stitch_at() is not None
    cursor.at = at
    return named


def _ends_no_repeat(reader: Reader, *, named: bool) -> bool:
    """ "Ss in top of 3 ch to finish the rnd"; "in each sp but the last, end with ..."."""
    cursor = reader.cursor
    if cursor.take_any(_THE_ROUND) and not cursor.is_word(*_HOW):
        return True
    return not named and _leaves_last_out(reader) and cursor.take_word("with", "by")


def _leaves_last_out(reader: Reader) -> bool:
    """Whether the work before went "in each sp but the last": no repeat is ended."""
    last = reader.last()
    return isinstance(last, Make) and last.target is not None and last.target.left_out == 1


_THE_ROUND = Sayings(
    ("the round", "the rnd", "this round", "this rnd", "the row", "round", "rnd")
)


_HOW = ("with", "by", "in", "on", "at", "after")


def _in_place(cursor: Cursor) -> bool:
    """ "ending in 3rd of 4 ch": where the row comes to its end, and nothing more."""
    at = cursor.at
    placed = cursor.take_word("in", "on", "at", "into") and read_target(cursor) is not None
    if placed and cursor.is_kind(
        Kind.STOP, Kind.CLOSE, Kind.END, Kind.SEMICOLON, Kind.COMMA
    ):
        return True
    cursor.at = at
    return False


def _after_stitch(cursor: Cursor, start: int) -> EndAfter | None:
    """ "(Ending last rep) after second shell", "with the 3rd dc": no more is worked.

    "With a shell" is what stands there instead, and "after sc in next sp" is told with
    its place.
    """
    at = cursor.at
    after = cursor.take_word("after", "following")
    if not after and not cursor.take_word("with", "at", "on"):
        return None
    the = cursor.take_word("the")
    last = cursor.take_word("last", "final")
    ordinal = cursor.step().value if cursor.is_kind(Kind.ORDINAL) else 0
    if after and cursor.is_kind(Kind.NUMBER) and cursor.token.value == 1:
        cursor.step()
    if last and cursor.take_word("corner") and cursor.is_kind(*_CLOSES_CLAUSE):
        return EndAfter(CORNER, 0, cursor.span_from(start))
    stitch = cursor.stitch() if after or (ordinal and not last) else None
    if stitch is not None and after and not the and not ordinal:
        cursor.take_word("in", "into") and read_target(cursor)
    if stitch is None or not cursor.is_kind(*_CLOSES_CLAUSE):
        cursor.at = at
        return None
    return EndAfter(stitch.id, ordinal, cursor.span_from(start))


_CLOSES_CLAUSE = (
    Kind.COMMA, Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.END, Kind.LINE, Kind.DASH,
)  # fmt: skip


_BY_ANOTHER = Sayings(
    f"{is_}{replaced}"
    for is_ in ("is ", "being ", "")
    for replaced in ("replaced by", "replaced with", "exchanged for", "swapped for")
)


def read_replaced(reader: Reader) -> bool:
    """ "The last dc is replaced by ss in first ch": what stands there instead."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "and", "with")
    cursor.take_word("the")
    cursor.take_word("very")
    last = cursor.take_word("last", "final") and cursor.stitch() is not None
    if not (last and cursor.take_any(_BY_ANOTHER)):
        cursor.at = start
        return False
    cursor.take_word("a", "an", "one")
    return _tail(reader, start, replaces=True, dropped=1)


def _omission(reader: Reader, start: int) -> bool:
    cursor = reader.cursor
    cursor.take_word("the")
    last = cursor.take_word("last", "final")
    stitch = cursor.stitch_at() if last else None
    inner = reader.inner()
    inner.read_next()
    cursor.take_phrase(
        "on last rep",
        "on the last rep",
        "on last repeat",
        "in last rep",
        "at end of last rep",
        "at the end",
    )
    span = cursor.span_from(start)
    if stitch is not None and not _was_made(reader, stitch.id):
        # "dc in next, ch 1, all around, omitting the last sc": of the row below
        return reader.add(Skip(Target(stitch.id, Which.LAST, span), span))
    return reader.add(Tail((), span, replaces=True, dropped=1))


def _was_made(reader: Reader, stitch: str) -> bool:
    """Whether a stitch is one of those that the row works."""
    worked = nested([item for item in reader.items if not isinstance(item, _NO_NODES)])
    return any(isinstance(node, Make) and node.stitch == stitch for node in worked)


_NO_NODES = (Star, Again, TimesMark, PlaceMark, EndAt, EndAfter)


def _tail(reader: Reader, start: int, *, replaces: bool | None, dropped: int = 0) -> bool:
    """The words after "ending", up to the end of the sentence."""
    cursor = reader.cursor
    fewer = fewer_in_last(cursor)
    if fewer is not None:
        return reader.add(Tail((fewer,), cursor.span_from(start), replaces=True, dropped=1))
    inner = reader.inner()
    while not cursor.done() and cursor.token.kind not in (Kind.CLOSE, Kind.STOP):
        if cursor.is_word("turn", "join", "fasten") or _instead(cursor):
            break
        if any(map(is_work, inner.items)) and _joins_behind(cursor):
            break
        if cursor.token.kind is Kind.LINE and cursor.token.value > 1:
            break
        inner.read_next()
    if cursor.take_any(INSTEAD):
        dropped, replaces = 1, True
        cursor.take_word("the", "a", "an")
        spare = reader.inner()
        spare.read_next()
    body = fold(inner.items)
    if replaces is None and _only_joins(body):
        return reader.add(Join(cursor.span_from(start)))
    after_each = replaces is None and not dropped and has_worked_each(reader.items)
    if after_each or not any(is_work(node) or isinstance(node, Join) for node in body):
        reader.items.extend(body)
        return cursor.at > start
    return reader.add(Tail(body, cursor.span_from(start), replaces, dropped))


def _only_joins(body: Sequence[Node]) -> bool:
    """ "Finish with a sl st": the round is joined, and no stitch is worked."""
    only = body[0] if len(body) == 1 else None
    if not isinstance(only, Make) or only.stitch != "sl st" or only.target is not None:
        return False
    return only.amount is None or only.amount.values == (1,)


INSTEAD = Sayings(("instead of", "in place of", "rather than", "and not", "not"))


def fewer_in_last(cursor: Cursor) -> Make | None:
    """ "2 hdc (not 4) in last st", "2 hdc, instead of 4, in last st"; else None."""
    start = cursor.at
    amount = cursor.number()
    stitch = cursor.stitch() if amount is not None else None
    other = stitch is not None and other_number(cursor)
    target = read_target(cursor) if other and cursor.take_word(*INTO) else None
    if stitch is None or target is None:
        cursor.at = start
        return None
    span = cursor.span_from(start)
    return Make(stitch.id, span, amount, target, stitch.loop, stitch.legs, stitch.post)


def other_number(cursor: Cursor) -> bool:
    """ "instead of 3", ", not 3 tr,", "(not 3)": what a repeat's other workings have."""
    at = cursor.at
    bracket = cursor.take_kind(Kind.OPEN)
    if not bracket:
        cursor.take_kind(Kind.COMMA)
    told = cursor.take_any(INSTEAD) and cursor.number() is not None
    if told:
        cursor.stitch()
    told = told or _where_others_go(cursor)
    if not told or (bracket and not cursor.take_kind(Kind.CLOSE)):
        cursor.at = at
        return False
    cursor.take_kind(Kind.COMMA)
    return True


def _where_others_go(cursor: Cursor) -> bool:
    """ "(2 dc) where 3 would go", "where 3 dc stood before"."""
    told = cursor.take_word("where") and cursor.number() is not None
    if told:
        cursor.stitch()
        cursor.take_word("would", "usually", "normally", "otherwise", "used")
        cursor.take_word("to")
    return told and cursor.take_word("go", "went", "stand", "stood", "be", "are", "were")


def _instead(cursor: Cursor) -> bool:
    return bool(cursor.is_phrase("instead of") or cursor.is_phrase("in place of"))


def _joins_behind(cursor: Cursor) -> bool:
    """ "(Finishing with ch 2); sl st in first sc": the round is joined behind its end."""
    return cursor.is_kind(Kind.SEMICOLON) and cursor.peek().text in ("sl", "ss", "slip")


def has_worked_each(items: Sequence[Item]) -> bool:
    """Whether each place was worked, with no more behind it than what some are told."""
    for item in reversed(items):
        if not isinstance(item, Make) or item.target is None:
            return False
        if _works_each(item):
            return True
    return False


def _works_each(item: Item | None) -> bool:
    """Whether a stitch was worked in each of some places, the last one too."""
    return (
        isinstance(item, Make)
        and item.target is not None
        and item.target.which is Which.EACH
        and item.target.until is None
    )
