"""How is a last working told by its place: "the last dc in tch", "the last ch gets 2"?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.endings import (
    INSTEAD,
    fewer_in_last,
    has_worked_each,
    other_number,
)
from hookwright.notation.fold import Again, EndAfter, EndAt, Item, Star, TimesMark, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, INTO
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_between, read_target
from hookwright.notation.tree import Amount, Make, Remark, Repeat, Tail, Target, Which

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
    """ "In the very last ch", "in the top of the 3ch": the last place, and no repeat."""
    at = cursor.at
    repeat = cursor.is_any(_AT_THE_END)
    if not repeat and cursor.take_word("in", "into"):
        very = cursor.at
        cursor.take_word("the", "your", "that", "this")
        cursor.take_word("very")
        if not cursor.is_word("last", "final"):
            cursor.at = very
        target = read_target(cursor)
        ends = target is not None and (target.which is Which.LAST or target.noun == "tch")
        if ends:
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
    if _place_first(reader, start):
        return True
    if not cursor.take_word(*_PUTS):
        cursor.at = start
        return False
    fewer = cursor.tokens[cursor.at - 1].text == "only"
    fewer = cursor.take_word("only", "just", "but") or fewer
    at = cursor.at
    amount = cursor.number()
    stitch = cursor.stitch()
    cursor.take_word("only", "here", "there")
    instead = other_number(cursor)
    last = _last_place(cursor) if stitch is not None and fewer else None
    if stitch is not None and last is not None and isinstance(reader.last(), _REPEATED):
        span = cursor.span_from(at)
        other_number(cursor)
        made = Make(stitch.id, span, amount, last, stitch.loop, stitch.legs, stitch.post)
        return reader.add(Tail((made,), cursor.span_from(start)))
    if stitch is None or not cursor.take_any(_AT_THE_END):
        cursor.at = start
        return False
    span = cursor.span_from(at)
    made = Make(stitch.id, span, amount, None, stitch.loop, stitch.legs, stitch.post)
    tail = Tail((made,), cursor.span_from(start), replaces=True, dropped=int(instead))
    return reader.add(tail)


def _place_first(reader: Reader, start: int) -> bool:
    """ "And in the very last ch put just 2 dc (not 3)": the place before its stitches."""
    cursor = reader.cursor
    led = cursor.at
    last = _last_place(cursor) if isinstance(reader.last(), _REPEATED) else None
    cursor.take_kind(Kind.COMMA)
    cursor.take_word(*_PUTS) if last is not None else None
    fewer = cursor.tokens[cursor.at - 1].text == "only"
    fewer = cursor.take_word("only", "just") or fewer
    at = cursor.at
    amount = cursor.number() if last is not None else None
    stitch = cursor.stitch() if amount is not None else None
    told = stitch is not None and cursor.take_word("only")
    told = (stitch is not None and other_number(cursor)) or told or fewer
    if stitch is None or not told:
        cursor.at = led
        return False
    span = cursor.span_from(at)
    made = Make(stitch.id, span, amount, last, stitch.loop, stitch.legs, stitch.post)
    return reader.add(Tail((made,), cursor.span_from(start)))


def read_fewer_last(reader: Reader) -> bool:
    """ "(Rep from * across,) 2 dc in last st, not 3", "2 dc (not 3) in last st"."""
    cursor = reader.cursor
    start = cursor.at
    at = _made_in_last(reader)
    made = reader.items[at] if at is not None else None
    if at is not None and isinstance(made, Make) and other_number(cursor):
        reader.items[at] = Tail((made,), made.span.to(cursor.span_from(start)))
        return True
    cursor.at = start
    fewer = fewer_in_last(cursor) if isinstance(reader.last(), _REPEATED) else None
    if fewer is None:
        cursor.at = start
        return False
    return reader.add(Tail((fewer,), cursor.span_from(start)))


def _made_in_last(reader: Reader) -> int | None:
    """Where the "2 dc in last st" stands that came right behind a repeat."""
    places = [i for i, one in enumerate(reader.items) if not isinstance(one, Remark)]
    if len(places) < _PAIR or not isinstance(reader.items[places[-2]], _REPEATED):
        return None
    made = reader.items[places[-1]]
    target = made.target if isinstance(made, Make) else None
    return places[-1] if target is not None and target.which is Which.LAST else None


_PAIR = 2


def read_working_last(reader: Reader) -> bool:
    """ "..., working the last sc in the 3rd ch of the ch 4": of what is before it."""
    cursor = reader.cursor
    start = cursor.at
    item = reader.items[-1] if reader.items else None
    is_cut = isinstance(item, (EndAt, EndAfter))  # what it ends with is its last stitch
    repeated = not is_cut and (isinstance(item, _REPEATED) or _closes_stars(reader))
    worked_each = is_cut or has_worked_each(reader.items)
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
    if repeated and cursor.take_any(_AS_BEFORE) and cursor.is_kind(*_ENDS_CLAUSE):
        return reader.remark(cursor.span_from(start))
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
    if _one_by_one(cursor) or not repeated:  # each place was worked, these with them
        return reader.remark(cursor.span_from(start))
    places = (target, *_further_places(cursor))
    span = cursor.span_from(start)
    amount = _all_in_one(reader, stitch) if len(places) == 1 else None
    made = tuple(replace(stitch, span=span, amount=amount, target=one) for one in places)
    return reader.add(Tail(made, span, replaces=True))


_AS_BEFORE = Sayings((
    "as before", "as above", "as in the row before", "in the same way", "in the same place",
    "just the same", "the same", "likewise",
    *(
        f"as {of}{the}{last} row"
        for of in ("in ", "on ", "at ") for the in ("the ", "")
        for last in ("last", "previous", "first", "same")
    ),
))  # fmt: skip
"""Where the last stitch of a row goes that is told no other place: as in a row before."""
_ENDS_CLAUSE = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.LINE, Kind.END,
                Kind.OPEN, Kind.DASH)  # fmt: skip


def _one_by_one(cursor: Cursor) -> bool:
    """ "(one in its sp, one in its 3rd ch)": where each of the last few goes."""
    at = cursor.at
    ends = (Kind.CLOSE,) if cursor.is_kind(Kind.OPEN) else (Kind.STOP, Kind.LINE)
    told = cursor.take_kind(Kind.OPEN, Kind.COLON, Kind.DASH)
    if not told or not cursor.take_word("one", "1") or not cursor.is_word(*INTO):
        cursor.at = at
        return False
    while not cursor.done() and not cursor.is_kind(*ends):
        cursor.step()
    cursor.take_kind(Kind.CLOSE)
    return True


def _further_places(cursor: Cursor) -> Iterator[Target]:
    """ "Placing last 2 dc in turning ch sp and in 3rd ch of it": one in each of them."""
    while True:
        at = cursor.at
        led = cursor.take_word("and") and cursor.take_word(*INTO)
        target = read_target(cursor) if led else None
        if target is None:
            cursor.at = at
            return
        yield target


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
        made = _last_make(reader.items)
        named = cursor.stitch() if made is not None else None  # "the last of these dc"
        return made if named is None or (made and named.id == made.stitch) else None
    few = cursor.token.value in _FEW and cursor.peek().text not in CHAIN_NOUNS
    number = cursor.number() if few else None  # "the last 2 dc in ... and in ..."
    meant = _stitch_meant(reader)
    return replace(meant, amount=number) if meant is not None else None


def _all_in_one(reader: Reader, told: Make) -> Amount | None:
    """ "The last 2 htr in tch" of a repeat that ends "2 htr in next st": both go there."""
    last = _last_make(reader.items)
    if told.amount is None or last is None or last.target is None or last.amount is None:
        return None
    one = last.target.amount is None and last.stitch == told.stitch
    return told.amount if one and last.amount.values == told.amount.values else None


_FEW = range(2, 4)


def _closes_stars(reader: Reader) -> bool:
    """Whether a star that closes a pair stands before: "*sk 2, sc in 3rd dc*, ..."."""
    return isinstance(reader.last(), Star) and not reader.number_of(Star) % 2


_REPEATED = (Again, TimesMark, Repeat)


_GOES = (
    "going", "goes", "worked", "being", "placed", "falls", "falling", "made", "is",
    "comes", "coming", "works", "sits", "sitting", "lands", "landing", "lies", "lying",
    "should", "will", "be", "sit", "land", "fall", "go", "come", "lie", "then",
)  # fmt: skip


def _is_of_several(item: Item | None) -> bool:
    """Whether several stitches were worked: "4 dc", "sc in next 5 sts", "3 blocks"."""
    if not isinstance(item, Make):
        return False
    numbers = (item.amount, item.target.amount if item.target is not None else None)
    return _is_square(item) or any(n is not None and (n.at(0) or 0) > 1 for n in numbers)


def _is_square(item: Item | None) -> bool:
    """Whether squares of filet were worked, whose last stitch closes them."""
    return isinstance(item, Make) and item.stitch in ("open mesh", "solid mesh")


def _stitch_meant(reader: Reader) -> Make | None:
    """The stitch named, or for "the last one", "last in ..." the one worked before it."""
    cursor = reader.cursor
    at = cursor.at
    named = cursor.stitch()
    if named is not None:
        span = cursor.span_from(at)
        cursor.take_any(_OF_ROW)
        return Make(named.id, span, None, None, named.loop, named.legs, named.post)
    repeated = isinstance(reader.last(), _REPEATED) and cursor.is_word("in", "into")
    if not cursor.take_word("one", "ones", "stitch", "st") and not repeated:
        return None
    return _last_make(reader.items)


_OF_ROW = Sayings(
    f"{of} {the}{row}"
    for of in ("of", "in")
    for the in ("the ", "this ", "each ", "every ")
    for row in ("row", "round", "rnd", "repeat", "rep")
)


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
        if cursor.take_any(INSTEAD):
            cursor.number()
            break
        inner.read_next()
    body = tuple(
        _in_last(node, last) for node in fold(inner.items) if isinstance(node, Make)
    )
    if not body:
        cursor.at = start
        return False
    return reader.add(Tail(body, cursor.span_from(start)))


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
    instead = other_number(cursor)
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
    number = cursor.number() or _a_single(cursor)
    target = read_target(cursor)
    left = cursor.take_phrase("is left", "are left", "left", "remains", "remain", "is over")
    if number is not None and target is not None and left:
        cursor.take_kind(Kind.COMMA)
        return replace(target, which=Which.LAST, amount=number)
    cursor.at = at
    return None


def _a_single(cursor: Cursor) -> Amount | None:
    """The one of "a single ch remains"."""
    token = cursor.token
    return Amount((1,), token.span) if cursor.take_word("a", "an") else None


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


def _is_it(target: Target) -> bool:
    """Whether a place is only told as "it"."""
    return target.noun == "st" and target.which is Which.NEXT and target.amount is None


def _in_last(node: Make, last: Target) -> Make:
    here = node.target is None or node.target.noun == "here" or _is_it(node.target)
    single = (
        replace(last, amount=None) if last.amount and last.amount.values == (1,) else last
    )
    return replace(node, target=single) if here else node
