"""How does a repeat end: "ending last rep at **", "omit last ch 1", "last sc in tch"?"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, EndAfter, EndAt, Item, Star, TimesMark, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import INTO
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_between, read_target
from hookwright.notation.tree import Join, Make, Repeat, Tail, Target, Which
from hookwright.notation.work import is_work

_LAST_REPEAT = Sayings(
    (
        *(
            f"{lead}{the}{last} {repeat}"
            for lead in ("", "for ", "on ", "in ", "at ")
            for the in ("the ", "")
            for last in ("last", "final")
            for repeat in ("repeat", "rep", "repetition")
        ),
        *(
            f"for {the}{last} {loop}"
            for the in ("the ", "")
            for last in ("last", "final")
            for loop in ("loop", "lp", "arch", "space", "sp", "one", "petal", "group")
        ),
    )
)


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
    omit = cursor.take_word("omit", "omitting") or cursor.take_phrase(
        "leaving out", "leave out"
    )
    if omit and not reader.has_work():  # "leave out the edge tile": nothing is ended
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
    after = None if omit else _after_stitch(cursor, start)
    if after is not None:
        return reader.add(after)
    if (
        cursor.take_phrase("at", "with", "on", "after", "in")
        and cursor.token.kind is Kind.STAR
    ):
        mark = cursor.step().value
        return reader.add(EndAt(mark, cursor.span_from(start)))
    cursor.take_word("with", "by", "in", "on")
    if omit:
        return _omission(reader, start)
    return _tail(reader, start, replaces=True if named else None)


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


_AT_THE_END = Sayings(
    f"{lead} {last} {repeat}"
    for lead in (
        "at the end of",
        "at end of",
        "to end",
        "to finish",
        "in",
        "on",
        "for",
        "at",
    )
    for last in ("the last", "last", "the final", "final")
    for repeat in ("repeat", "rep", "pattern repeat", "time")
)


_PUTS = (
    "working", "work", "making", "make", "with", "placing", "only", "put", "putting",
    "place",
)  # fmt: skip


def _last_place(cursor: Cursor) -> Target | None:
    """ "In the very last ch": the last place of its kind, and no repeat."""
    at = cursor.at
    repeat = cursor.is_any(_AT_THE_END)
    if not repeat and cursor.take_word("in", "into"):
        cursor.take_word("the", "your")
        cursor.take_word("very")
        target = read_target(cursor) if cursor.is_word("last", "final") else None
        if target is not None and target.which is Which.LAST:
            return target
    cursor.at = at
    return None


def read_in_last(reader: Reader) -> bool:
    """ "working only 2 dtr at the end of the last repeat": a repeat's end, told last.

    "But put only 2 dc in the very last ch" tells it by its place.
    """
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "and")
    if not cursor.take_word(*_PUTS):
        cursor.at = start
        return False
    fewer = cursor.tokens[cursor.at - 1].text == "only"
    fewer = cursor.take_word("only", "just", "but") or fewer
    at = cursor.at
    amount = cursor.number()
    stitch = cursor.stitch()
    cursor.take_word("only", "here", "there")
    instead = _other_number(cursor)
    last = _last_place(cursor) if stitch is not None and fewer else None
    if stitch is not None and last is not None and isinstance(reader.last(), _REPEATED):
        span = cursor.span_from(at)
        _other_number(cursor)
        made = Make(stitch.id, span, amount, last, stitch.loop, stitch.legs, stitch.post)
        return reader.add(Tail((made,), cursor.span_from(start), None))
    if stitch is None or not cursor.take_any(_AT_THE_END):
        cursor.at = start
        return False
    span = cursor.span_from(at)
    made = Make(stitch.id, span, amount, None, stitch.loop, stitch.legs, stitch.post)
    tail = Tail((made,), cursor.span_from(start), replaces=True, dropped=int(instead))
    return reader.add(tail)


def _other_number(cursor: Cursor) -> bool:
    """ "instead of 3", ", not 3 tr,": what the repeat has in its other workings."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.take_any(_INSTEAD) or cursor.number() is None:
        cursor.at = at
        return False
    cursor.stitch()
    cursor.take_kind(Kind.COMMA)
    return True


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


def _omission(reader: Reader, start: int) -> bool:
    cursor = reader.cursor
    cursor.take_word("the")
    cursor.take_word("last", "final")
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
    return reader.add(Tail((), cursor.span_from(start), replaces=True, dropped=1))


def _tail(reader: Reader, start: int, *, replaces: bool | None) -> bool:
    """The words after "ending", up to the end of the sentence."""
    cursor = reader.cursor
    inner = reader.inner()
    while not cursor.done() and cursor.token.kind not in (Kind.CLOSE, Kind.STOP):
        if cursor.is_word("turn", "join", "fasten") or _instead(cursor):
            break
        if cursor.token.kind is Kind.LINE and cursor.token.value > 1:
            break
        inner.read_next()
    dropped = 0
    if cursor.take_any(_INSTEAD):
        dropped, replaces = 1, True
        cursor.take_word("the", "a", "an")
        spare = reader.inner()
        spare.read_next()
    body = fold(inner.items)
    after_each = replaces is None and not dropped and _has_worked_each(reader.items)
    if after_each or not any(is_work(node) or isinstance(node, Join) for node in body):
        reader.items.extend(body)
        return cursor.at > start
    return reader.add(Tail(body, cursor.span_from(start), replaces, dropped))


_INSTEAD = Sayings(("instead of", "in place of", "rather than", "and not", "not"))


def _instead(cursor: Cursor) -> bool:
    return bool(cursor.is_phrase("instead of") or cursor.is_phrase("in place of"))


def read_working_last(reader: Reader) -> bool:
    """ "..., working the last sc in the 3rd ch of the ch 4": of what is before it."""
    cursor = reader.cursor
    start = cursor.at
    repeated = bool(reader.items) and isinstance(reader.items[-1], _REPEATED)
    repeated = repeated or _closes_stars(reader)
    worked_each = _has_worked_each(reader.items)
    several = not (repeated or worked_each)
    if several and not _is_of_several(reader.last()):
        return False
    stitch = _last_told(reader)
    if stitch is None:
        cursor.at = start
        return False
    goes = False
    while cursor.take_word(*_GOES):
        goes = True
    if several and not goes and not _is_square(reader.last()):
        cursor.at = start
        return False  # "sc in next 5 sts, last sc in tch" may be one more
    if cursor.take_word("between"):
        target = read_between(cursor)
        target = replace(target, which=Which.LAST) if target is not None else None
    else:
        under = cursor.is_word("under")
        told = cursor.take_word(*INTO, "on", "use", "using")
        target = read_target(cursor) if told else None
        if under and target is not None and target.noun == "tch" and not target.ordinal:
            target = Target("sp", Which.NEXT, target.span, of=target)
    if target is None:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    if not repeated:  # each place was worked, this one with them
        return reader.remark(span)
    made = replace(stitch, span=span, amount=None, target=target)
    return reader.add(Tail((made,), span, replaces=True))


_WHICH_ENDS = Sayings((
    "which ends", "which end", "so that it ends", "so that they end", "so it ends",
    "and so ends", "which brings you",
))  # fmt: skip


def _last_told(reader: Reader) -> Make | None:
    """ "Working the last sc", "the last of these", "which ends": the stitch meant."""
    cursor = reader.cursor
    if cursor.take_any(_WHICH_ENDS):
        return _last_make(reader.items)
    cursor.take_word("and")
    cursor.take_word("working", "placing", "making", "with", "work", "putting", "for", "so")
    cursor.take_word("the", "your")
    if not cursor.take_word("last", "final"):
        return None
    if cursor.take_word("of") and cursor.take_word("these", "them", "those"):
        return _last_make(reader.items)
    return _stitch_meant(reader)


def _closes_stars(reader: Reader) -> bool:
    """Whether a star that closes a pair stands before: "*sk 2, sc in 3rd dc*, ..."."""
    return isinstance(reader.last(), Star) and not reader.number_of(Star) % 2


_REPEATED = (Again, TimesMark, Repeat)
_GOES = (
    "going", "goes", "worked", "being", "placed", "falls", "falling", "made", "is",
    "comes", "coming", "works", "sits", "sitting", "lands", "landing", "lies", "lying",
    "should", "will", "be", "sit", "land", "fall", "go", "come", "lie", "then",
)  # fmt: skip


def _has_worked_each(items: Sequence[Item]) -> bool:
    """Whether each place was worked, with no more behind it than what some are told."""
    for item in reversed(items):
        if not isinstance(item, Make) or item.target is None:
            return False
        if _works_each(item):
            return True
    return False


def _is_of_several(item: Item | None) -> bool:
    """Whether several stitches were worked: "4 dc", "sc in next 5 sts", "3 blocks"."""
    if not isinstance(item, Make):
        return False
    numbers = (item.amount, item.target.amount if item.target is not None else None)
    return _is_square(item) or any(n is not None and (n.at(0) or 0) > 1 for n in numbers)


def _is_square(item: Item | None) -> bool:
    """Whether squares of filet were worked, whose last stitch closes them."""
    return isinstance(item, Make) and item.stitch in ("open mesh", "solid mesh")


def _works_each(item: Item | None) -> bool:
    """Whether a stitch was worked in each of some places, the last one too."""
    return (
        isinstance(item, Make)
        and item.target is not None
        and item.target.which is Which.EACH
        and item.target.until is None
    )


def _stitch_meant(reader: Reader) -> Make | None:
    """The stitch named, or for "the last one" the one worked before it."""
    cursor = reader.cursor
    at = cursor.at
    named = cursor.stitch()
    if named is not None:
        span = cursor.span_from(at)
        return Make(named.id, span, None, None, named.loop, named.legs, named.post)
    if not cursor.take_word("one", "ones", "stitch", "st"):
        return None
    return _last_make(reader.items)


def _last_make(items: Sequence[Item]) -> Make | None:
    for item in reversed(items):
        if isinstance(item, Make):
            return item
        if isinstance(item, Repeat):
            return _last_make(item.body)
    return None


def read_when_left(reader: Reader) -> bool:
    """ "..., and when one ch is left put only 2 dc there": the end of a repeat.

    "But when you get to the very last ch it only gets 2 dc" tells it by its place.
    """
    cursor = reader.cursor
    start = cursor.at
    if not reader.items:
        return False
    cursor.take_phrase("except that", "and", "but", "only")
    asked = cursor.take_phrase("when", "once", "as soon as")
    last = (_what_is_left(cursor) or _the_very_last(cursor)) if asked else None
    if last is None:
        cursor.at = start
        return False
    inner = reader.inner()
    while not cursor.done() and cursor.token.kind not in (
        Kind.COMMA,
        Kind.STOP,
        Kind.CLOSE,
    ):
        if cursor.take_any(_INSTEAD):
            cursor.number()
            break
        inner.read_next()
    body = tuple(
        _in_last(node, last) for node in fold(inner.items) if isinstance(node, Make)
    )
    if not body:
        cursor.at = start
        return False
    return reader.add(Tail(body, cursor.span_from(start), None))


_GETS = ("gets", "takes", "has", "receives", "holds", "wants", "needs")


def read_last_gets(reader: Reader) -> bool:
    """ "..., only the very last ch gets 2 dc and not 3": a repeat's end, by its place."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("but", "and")
    cursor.take_word("only")
    cursor.take_word("the")
    cursor.take_word("very")
    found = bool(reader.items) and cursor.is_word("last", "final")
    target = read_target(cursor) if found else None
    cursor.take_phrase("of all", "of the row", "in the row", "of the round")
    gets = target is not None and cursor.take_word(*_GETS)
    cursor.take_word("only", "just")
    amount = cursor.number() if gets else None
    stitch = cursor.stitch() if amount is not None else None
    if target is None or stitch is None:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    cursor.take_word("and")
    instead = _other_number(cursor)
    made = Make(stitch.id, span, amount, target, stitch.loop, stitch.legs, stitch.post)
    if not isinstance(reader.items[-1], _REPEATED):
        return reader.add(made)
    tail = Tail((made,), cursor.span_from(start), None if not instead else True)
    return reader.add(tail)


def _what_is_left(cursor: Cursor) -> Target | None:
    """ "One ch is left", "you have only 2 sts left"."""
    at = cursor.at
    while cursor.take_phrase("there is", "there are", "only", "you have", "just"):
        pass
    number = cursor.number()
    target = read_target(cursor)
    left = cursor.take_phrase("is left", "are left", "left", "remains", "remain", "is over")
    if number is not None and target is not None and left:
        cursor.take_kind(Kind.COMMA)
        return replace(target, which=Which.LAST, amount=number)
    cursor.at = at
    return None


_COMES_TO = Sayings(
    f"you {verb}" for verb in ("get to", "come to", "reach", "arrive at", "are at", "meet")
)


def _the_very_last(cursor: Cursor) -> Target | None:
    """ "You get to the very last ch it only gets": the last of its kind."""
    at = cursor.at
    comes = cursor.take_any(_COMES_TO)
    cursor.take_word("the", "your")
    cursor.take_word("very")
    target = read_target(cursor) if comes and cursor.is_word("last", "final") else None
    if target is None or target.which is not Which.LAST:
        cursor.at = at
        return None
    cursor.take_kind(Kind.COMMA)
    cursor.take_phrase("it", "that one", "this one", "that", "this")
    cursor.take_word("only", "just")
    cursor.take_word(*_GETS)
    cursor.take_word("only", "just")
    return target


def _in_last(node: Make, last: Target) -> Make:
    here = node.target is None or node.target.noun == "here"
    single = (
        replace(last, amount=None) if last.amount and last.amount.values == (1,) else last
    )
    return replace(node, target=single) if here else node
