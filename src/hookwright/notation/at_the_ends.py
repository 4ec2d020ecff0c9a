"""Shaping told by the ends of a row, and what lies between them.

"Increase at the start, sc to last 2 sts, decrease at the end", "2 in the first, 2 in the
last, and one in every st between", "at each end work 2 sc tog, 12 sc between", "sc across
with an extra sc in the last st": put in the order in which the hook meets them.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import EACH_WORDS, INTO, STITCH_NOUNS, everything
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Amount, Evenly, Make, Remark, Target, Which
from hookwright.notation.unnamed import UNNAMED
from hookwright.source import Span

_STOPS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.CLOSE, Kind.LINE, Kind.END,
    Kind.DASH, Kind.EQUALS, Kind.COLON,
)  # fmt: skip
_OF_ROW = (*(f" of {the}row" for the in ("the ", "this ", "each ", "every ", "")), "")
_BEGINNING = Sayings(
    f"{at}{the}{start}{row}"
    for at in ("at ", "in ", "on ")
    for the in ("the ", "")
    for start in ("start", "beginning", "beg", "near end")
    for row in _OF_ROW
)
_END = Sayings(
    f"{at}{the}{end}{row}"
    for at in ("at ", "on ")
    for the in ("the ", "")
    for end in ("end", "other end", "far end", "opposite end", "second end")
    for row in _OF_ROW
)
_CHANGES = {
    **dict.fromkeys(("increase", "inc", "increasing"), "inc"),
    **dict.fromkeys(("decrease", "dec", "decreasing"), "dec"),
}
AT_ENDS_SIGNS = frozenset(
    "start beginning beg end ends between first extra another more others sides edge "
    "everything once same".split()
)


def read_at_the_ends(reader: Reader) -> bool:
    """A phrase about the ends of the row, or about what is between them."""
    if reader.depth:
        return False
    return (
        _explained(reader)
        or _at_one_end(reader)
        or _at_both_ends(reader)
        or _first_and_last(reader)
        or _one_more(reader)
        or _between(reader)
    )


def _explained(reader: Reader) -> bool:
    """ "(Dec 1 at each end) by working the first 2 together and the last 2 together"."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    if (
        not isinstance(last, Evenly)
        or not last.at_ends
        or not cursor.take_word("by", "with")
    ):
        return False
    if cursor.is_kind(Kind.NUMBER):
        cursor.at = start
        return False
    while not cursor.is_kind(Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.LINE, Kind.END):
        cursor.step()
    return reader.remark(cursor.span_from(start))


def _at_one_end(reader: Reader) -> bool:
    """ "Increase at the start", "dec at the other end": so told, one stitch or two."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then", "work", "make")
    cursor.take_word("a", "an", "one", "1")
    change = _CHANGES.get(cursor.token.text, "")
    if not change or not cursor.take_word(*_CHANGES):
        cursor.at = start
        return False
    one = cursor.take_word("one", "1", "a")
    cursor.take_word(*STITCH_NOUNS) if one else None
    begins = cursor.take_any(_BEGINNING)
    if not (begins or cursor.take_any(_END)) or not _ends_here(cursor):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    _pass_how(reader)
    made = _changed(change, Which.FIRST if begins else Which.LAST, span)
    if not begins:
        _make_room(reader, made)
    return reader.add(made)


def _ends_here(cursor: Cursor) -> bool:
    return cursor.is_kind(*_STOPS) or cursor.is_word("and", "turn", "then")


def _changed(change: str, which: Which, span: Span) -> Make:
    """An increase in the first or last stitch, a decrease over two of them."""
    if change == "inc":
        return Make("inc", span, None, Target("st", which, span))
    return Make("dec", span, None, Target("st", which, span, Amount((2,), span)), legs=2)


def _pass_how(reader: Reader) -> None:
    """ "(2 sc in the first st)" behind "increase at the start": how, and not another."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_kind(Kind.OPEN):
        return
    while not cursor.is_kind(Kind.CLOSE, Kind.OPEN, Kind.END, Kind.STOP):
        cursor.step()
    if not cursor.take_kind(Kind.CLOSE):
        cursor.at = start


def _make_room(reader: Reader, made: Make) -> None:
    """ "Sc across, dec at the end": the row in one stitch stops before what ends it."""
    row = reader.last()
    target = row.target if isinstance(row, Make) else None
    whole = target is not None and target.which is Which.EACH and target.until is None
    if not isinstance(row, Make) or target is None or not whole or target.amount:
        return
    number = made.target.amount if made.target is not None else None
    until = Target("st", Which.LAST, made.span, number or Amount((1,), made.span))
    reader.items[-1] = replace(row, target=replace(target, until=until))


_EACH_END = Sayings((
    *(
        f"{at}{both} {ends}{row}"
        for at in ("at ", "on ", "in ")
        for both in ("each", "both", "either", "every")
        for ends in ("end", "ends", "side", "sides", "edge", "edges")
        for row in _OF_ROW
    ),
    *(
        f"at the {first} and {at}the {last}{row}"
        for first, last in (
            ("beginning", "end"), ("start", "end"), ("beginning", "finish"),
            ("start", "finish"),
        )
        for at in ("at ", "")
        for row in _OF_ROW
    ),
))  # fmt: skip
_WORKS = ("work", "crochet", "make", "working", "crocheting", "take", "we", "always")
_EACH_TIME = Sayings(("each time", "every time", "always"))
_INTO_ONE = Sayings(("to 1", "to one", "into one", "into 1", "as one", "as 1"))


def _at_both_ends(reader: Reader) -> bool:
    """ "At each end work 2 sc in one st", "at the beginning and at the end 2 together"."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() or not cursor.take_any(_EACH_END):
        cursor.at = start
        return False
    cursor.take_kind(Kind.COMMA)
    while cursor.take_any(_EACH_TIME) or cursor.take_word(*_WORKS):
        pass
    made = _two_together(cursor) or _single(cursor)
    cursor.take_any(_INTO_ONE)
    if made is None or not _ends_here(cursor):
        cursor.at = start
        return False
    reader.add(_placed_at(made, Which.FIRST))
    return reader.add(_placed_at(made, Which.LAST))


def _two_together(cursor: Cursor) -> Make | None:
    """ "2 stitches together", "2 sc tog": one decrease."""
    at = cursor.at
    number = cursor.number()
    stitch = None if cursor.is_word(*STITCH_NOUNS) else cursor.stitch()
    if number is not None and stitch is not None and stitch.legs > 1:  # "2 sc tog"
        return Make(stitch.id, cursor.span_from(at), legs=stitch.legs)
    named = cursor.take_word(*STITCH_NOUNS) or stitch is not None
    together = number is not None and named and cursor.take_word("together", "tog")
    if number is None or not together:
        cursor.at = at
        return None
    legs = number.at(0) or 2
    return Make("dec" if legs == _PAIR else f"sc{legs}tog", cursor.span_from(at), legs=legs)


_PAIR = 2


def _single(cursor: Cursor) -> Make | None:
    """ "2 sc in one st", "an increase", "2 sc in the end st": one stitch or group."""
    made = read_make(cursor)
    if made is None or len(made) > 1:
        return None
    target = made[0].target
    one = target is None or target.which in (Which.NEXT, Which.LAST, Which.SAME)
    number = target.amount if target is not None else None
    if not one or (number is not None and number.values != (1,) and made[0].legs < _PAIR):
        return None
    if made[0].legs >= _PAIR:
        return replace(made[0], amount=None, target=None)
    return replace(made[0], target=None)


def _placed_at(made: Make, which: Which) -> Make:
    number = Amount((made.legs,), made.span) if made.legs > 1 else None
    return replace(made, target=Target("st", which, made.span, number))


_IN_BOTH = Sayings(
    f"in {the}first and {in_}{the2}last"
    for the in ("the ", "")
    for in_ in ("in ", "")
    for the2 in ("the ", "")
)


def _first_and_last(reader: Reader) -> bool:
    """ "Sc across, increasing in the first and last st": an increase at either end."""
    cursor = reader.cursor
    start = cursor.at
    row = reader.last()
    cursor.take_word("but", "and")
    change = _CHANGES.get(cursor.token.text, "")
    told = isinstance(row, Make) and _is_whole(row) and cursor.take_word(*_CHANGES)
    if not told or change != "inc" or not cursor.take_any(_IN_BOTH):
        cursor.at = start
        return False
    cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    assert isinstance(row, Make)
    span = cursor.span_from(start)
    last = _changed(change, Which.LAST, span)
    _make_room(reader, last)
    reader.items[-1:] = [_changed(change, Which.FIRST, span), reader.items[-1], last]
    return True


def _is_whole(row: Make) -> bool:
    target = row.target
    if target is None or target.which is not Which.EACH:
        return False
    return not (target.amount or target.until or target.of or target.left_out)


_MORE = ("extra", "more", "additional", "further", "another")
_LEADS = ("with", "and", "then", "plus", "adding", "working", "making", "work", "make")
_IN_LAST = Sayings(
    f"{into} {the}{last}"
    for into in ("in", "into")
    for the in ("the ", "")
    for last in ("last", "very last", "final")
)
_SAME_AGAIN = Sayings((
    *(
        f"{into} the same {place}{as_}"
        for into in ("in", "into")
        for place in ("place", "st", "stitch", "spot")
        for as_ in (" as the last one", " as the last sc", " as the last st",
                    " as the last", " as that", " as the one before", " again", "")
    ),
    "in it again", "into it again", "there too",
))  # fmt: skip
_ONCE_MORE = Sayings(("once more", "again", "one more time"))


def _one_more(reader: Reader) -> bool:
    """ "With an extra sc in the last st", "then sc once more in the same place"."""
    cursor = reader.cursor
    start = cursor.at
    before = reader.last()
    if not isinstance(before, Make):
        return False
    while cursor.take_word(*_LEADS):
        pass
    more = _take_more(cursor)
    stitch = cursor.stitch()
    more = cursor.take_any(_ONCE_MORE) or more
    same = stitch is None or stitch.id == before.stitch
    if not (more and same):
        cursor.at = start
        return False
    last = _is_whole(before) and cursor.take_any(_IN_LAST)
    if last:
        cursor.take_word("one", *STITCH_NOUNS) or cursor.stitch()
    if not (last or cursor.take_any(_SAME_AGAIN)) or not _ends_here(cursor):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    if (
        before.target is None and before.amount is None
    ):  # "work the first sc and then another"
        reader.items[-1] = replace(before, target=Target("st", Which.NEXT, before.span))
    number = Amount((1,), span)
    again = replace(before, span=span, amount=number, target=Target("st", Which.SAME, span))
    return reader.add(again)


def _take_more(cursor: Cursor) -> bool:
    """ "An extra", "one more", "another", "1 additional"."""
    at = cursor.at
    cursor.take_word("a", "an", "one", "1")
    if cursor.take_word(*_MORE):
        return True
    cursor.at = at
    return False


_BETWEEN = Sayings((
    "in between them", "between them", "in between these", "between these", "in between",
    "between those", "between the two", "between", "in the middle",
))  # fmt: skip
_OTHERS = Sayings((
    "all the others", "all others", "all the other sts", "all the other stitches",
    "each of the others", "the others", "the rest", "all the rest", "the other sts",
    "the other stitches", "every other one", "everything else",
))  # fmt: skip


def _between(reader: Reader) -> bool:
    """ "(2 in the first, 2 in the last,) one in every st between", "12 sc between them"."""
    cursor = reader.cursor
    start = cursor.at
    at = _last_one(reader)
    told = (item for item in reversed(reader.items) if not isinstance(item, Remark))
    evenly = next(told, None)
    spread = isinstance(evenly, Evenly) and evenly.at_ends
    if at is None and not spread:
        return False
    found = _told_between(cursor)
    if found is None or not _ends_here(cursor):
        cursor.at = start
        return False
    if at is None:  # "inc each end, sc between": what the words tell already
        return reader.remark(cursor.span_from(start))
    stitch, number = found
    ends = reader.items[at]
    assert isinstance(ends, Make)
    name = stitch or _named(reader)
    span = cursor.span_from(start)
    places = ends.target.amount if ends.target is not None else None
    until = Target("st", Which.LAST, span, places or Amount((1,), span))
    whole = replace(everything(span), until=until)
    made = Make(name, span, number, None if number is not None else whole)
    reader.items.insert(at, made)
    return True


def _last_one(reader: Reader) -> int | None:
    """Which item is worked in the last stitch, where nothing that is worked follows it."""
    for at in range(len(reader.items) - 1, -1, -1):
        item = reader.items[at]
        if isinstance(item, Remark):
            continue
        target = item.target if isinstance(item, Make) else None
        last = target is not None and target.which is Which.LAST and target.noun != "sp"
        before = reader.items[at - 1] if at else None
        first = before.target if isinstance(before, Make) else None
        paired = first is not None and first.which in (Which.FIRST, Which.NEXT)
        return at if last and paired else None
    return None


def _told_between(cursor: Cursor) -> tuple[str, Amount | None] | None:
    """The stitch between the ends, "" for one not named, and how many where it is told."""
    cursor.take_word("and", "then", "with", "work", "make")
    ahead = cursor.take_any(_BETWEEN)
    cursor.take_word("work", "crochet", "there", "are")
    number = cursor.number()
    stitch = cursor.stitch()
    if number is None and stitch is None:
        return None
    name = stitch.id if stitch is not None else ""
    if number is not None and stitch is not None and number.values != (1,):
        told = ahead or cursor.take_any(_BETWEEN)
        return (name, number) if told else None
    if ahead and _ends_here(cursor):
        return name, None
    placed = cursor.take_word(*INTO)
    if placed and cursor.take_any(_OTHERS):
        return name, None
    cursor.at -= placed
    if cursor.take_any(_BETWEEN):
        return name, None
    each = cursor.take_word(*INTO) and cursor.take_word(*EACH_WORDS, "everything")
    cursor.take_word("of", "the")
    cursor.take_word("the")
    cursor.take_word(*STITCH_NOUNS, "one") or cursor.stitch()
    return (name, None) if each and cursor.take_any(_BETWEEN) else None


def _named(reader: Reader) -> str:
    """The stitch that the ends of the row are worked in, or the row's own."""
    made = (item for item in reader.items if isinstance(item, Make) and item.legs == 1)
    return next((m.stitch for m in made if m.stitch not in ("inc", "dec")), UNNAMED)
