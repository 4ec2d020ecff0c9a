"""Stitches spread over a row: "increasing 9 sts evenly", "work 60 sc evenly around"."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, EACH_WORDS, STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.times import read_times
from hookwright.notation.tree import Amount, Change, Evenly, Often
from hookwright.notation.vocabulary import StitchWord

_MORE = ("increasing", "increase", "inc", "adding", "add")
_FEWER = ("decreasing", "decrease", "dec", "losing", "lose")
_MORE_OF = ("increases", "incs")
_FEWER_OF = ("decreases", "decs")
_BEFORE_CHANGE = ("and", "then", "while", "but")
_TAKES_OFF = ("knock", "take", "drop", "lose", "knocking", "taking", "dropping", "losing")
_SPACING = ("spacing", "spreading", "distributing")
_BEFORE_NUMBER = (
    "work", "working", "make", "making", "place", "placing", "with", *_SPACING,
)  # fmt: skip
_SPREAD_VERBS = frozenset((*_MORE, *_FEWER, *_SPACING))
EVENLY_BEGINS = frozenset((
    "evenly", *_MORE, *_FEWER, *_BEFORE_CHANGE, *_BEFORE_NUMBER, *_TAKES_OFF,
))  # fmt: skip
"""What a number of stitches spread over a row begins with, but for the number."""


_EACH_ROUND = Sayings(
    f"{every} {row}{so}"
    for every in ("per", "each", "every", "in each", "in every", "on each", "on every")
    for row in ("rnd", "round", "row")
    for so in (
        " in the same way",
        " in this way",
        " as before",
        " as established",
        " in pattern",
        "",
    )
)
"""What is said of rows that all grow alike: "increase 6 sts per rnd in the same way"."""


def read_evenly(reader: Reader) -> bool:
    """A number of stitches, more or fewer or in all, with the word "evenly"."""
    start = reader.cursor.at
    spaced = _times_spaced(reader.cursor, start)
    if spaced is not None:
        return reader.add(spaced)
    reader.cursor.at = start
    return _kept(reader, _evenly(reader.cursor), start)


def tells_ends(cursor: Cursor) -> bool:
    """Whether so many more or fewer stitches at either end are told here."""
    at = cursor.at
    found = _evenly(cursor)
    cursor.at = at
    return found is not None and found.at_ends


def read_number_along(reader: Reader) -> bool:
    """Stitches along an edge, with their number behind the word "evenly"."""
    start = reader.cursor.at
    return _kept(reader, _number_along(reader), start)


def _kept(reader: Reader, found: Evenly | None, start: int) -> bool:
    if found is None:
        reader.cursor.at = start
        return False
    return reader.add(found)


def _number_along(reader: Reader) -> Evenly | None:
    """ "Sc evenly 24 along the side, 22 along the top": the number stands behind."""
    cursor = reader.cursor
    start = cursor.at
    before = reader.last()
    if not isinstance(before, Evenly) and cursor.lacks(_EVENLY):
        return None
    cursor.take_word("and", "then", "work", "working")
    stitch = cursor.stitch()
    name = stitch.id if stitch is not None and cursor.take_word("evenly") else ""
    if not name and stitch is None and isinstance(before, Evenly) and before.along:
        name = before.stitch
    amount = cursor.number() if name else None
    along = along_edge(cursor) if amount is not None else ""
    if amount is None or not along:
        return None
    return Evenly(amount, Change.TOTAL, cursor.span_from(start), name, along)


_SPACED = Sayings((
    "at equal distances", "at equal intervals", "at regular intervals", "equally spaced",
    "evenly spaced", "evenly spread", "spaced evenly", "spread evenly", "evenly",
    "at even distances", "equally distributed",
))  # fmt: skip
_TWO_AS_ONE = Sayings(
    f"{work}{two}{as_one}"
    for work in ("work ", "working ", "take ", "crochet ", "")
    for two in ("two sts ", "2 sts ", "two stitches ", "2 stitches ", "two ", "2 ")
    for as_one in ("as one", "together", "tog", "into one")
)


def _times_spaced(cursor: Cursor, start: int) -> Evenly | None:
    """ "But four times, at equal distances, work two sts as one": spread along the row."""
    cursor.take_word("but", "and", "while")
    amount = cursor.number()
    if amount is None or not cursor.take_word("times"):
        return None
    cursor.take_kind(Kind.COMMA)
    spaced = cursor.take_any(_SPACED)
    cursor.take_kind(Kind.COMMA)
    fewer = cursor.take_any(_TWO_AS_ONE)
    stitch = None if fewer else cursor.stitch()
    fewer = fewer or (stitch is not None and stitch.legs > 1)
    more = stitch is not None and stitch.family == "increase"
    spaced = spaced or cursor.take_any(_SPACED)
    if not spaced or not (fewer or more):
        return None
    change = Change.FEWER if fewer else Change.MORE
    return Evenly(amount, change, cursor.span_from(start))


def _evenly(cursor: Cursor) -> Evenly | None:
    start = cursor.at
    cursor.take_word(*_BEFORE_CHANGE)
    before = cursor.peek().text in _SPREAD_VERBS and cursor.take_word("evenly")
    change = _change(cursor)
    told = _off_ends(cursor, start) or _told_without_number(cursor, change, start)
    if told is not None:
        return told
    cursor.take_word(*_BEFORE_NUMBER)
    cursor.take_any(_FURTHER)
    first = before or _spread(cursor)  # "evenly spaced 6 increases"
    amount = cursor.number()
    verb = change is not Change.TOTAL
    if amount is None or (not verb and cursor.lacks(_SPREAD)):
        return None
    if not verb:
        change = _change(cursor, _MORE_OF, _FEWER_OF)
    named = change is Change.TOTAL
    stitch = cursor.stitch() if named else _changed_stitch(cursor)
    if stitch is None and named:
        return None
    if stitch is not None and change is Change.TOTAL and stitch.legs > 1:
        amount, change = _fewer_by(amount, stitch.legs - 1), Change.FEWER
    elif stitch is not None and change is Change.TOTAL and stitch.family == "increase":
        change = Change.MORE
    cursor.take_word(*STITCH_NOUNS)
    times = verb and cursor.take_word("times", "x")
    each_round = verb and not times and _in_each_round(cursor)
    if not each_round and not first and not _spread(cursor):
        return _up_a_side(cursor, amount, stitch, start)
    over = _over_next(cursor)
    along = "" if over else along_edge(cursor)
    leaving = None if over or along else _to_last(cursor)
    if along == "side":
        _pass_how(cursor)
    elif not (along or over or leaving):
        across(cursor)
    name = stitch.id if stitch is not None and change is Change.TOTAL else ""
    span = cursor.span_from(start)
    return Evenly(amount, change, span, name, along, over, leaving)


_FURTHER = Sayings(("another", "a further", "a total of", "a"))
_EVENLY_SPREAD = Sayings((
    *(
        f"{spread}{evenly}"
        for spread in ("spaced ", "spread ", "distributed ", "placed ", "scattered ", "")
        for evenly in ("evenly", "out evenly", "at regular intervals", "at even intervals")
    ),
    "evenly spread", "evenly spaced", "evenly distributed", "evenly placed", *_SPACED,
))  # fmt: skip


def _spread(cursor: Cursor) -> bool:
    """ "Evenly", ", evenly spaced", "spread evenly"."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if cursor.take_any(_EVENLY_SPREAD):
        cursor.take_word("spaced", "spread", "distributed")
        return True
    cursor.at = at
    return False


def _over_next(cursor: Cursor) -> Amount | None:
    """ "over next 9 sts", "across the next 20 dc": where within the row."""
    at = cursor.at
    if cursor.take_word("over", "across", "along", "in", "around"):
        cursor.take_word("the", "these", "those")
        cursor.take_word("next", "following", "first", "remaining", "last")
        amount = cursor.number()
        if amount is not None and (
            cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None
        ):
            return amount
    cursor.at = at
    return None


def _to_last(cursor: Cursor) -> Amount | None:
    """ "to last 3 sts": as far as that."""
    times = read_times(cursor) if cursor.is_word("to", "until", "up") else None
    return times.amount if times is not None and times.often is Often.TO_LAST else None


def _in_each_round(cursor: Cursor) -> bool:
    """ "Increase 6 sts each round"; "1 sc2tog in each row end" names a place."""
    at = cursor.at
    if cursor.take_any(_EACH_ROUND) and not cursor.is_word(*_ENDS):
        return True
    cursor.at = at
    return False


def _change(
    cursor: Cursor, more: Sequence[str] = _MORE, fewer: Sequence[str] = _FEWER
) -> Change:
    if cursor.take_word(*more):
        return Change.MORE
    return Change.FEWER if cursor.take_word(*fewer) else Change.TOTAL


_OF_ROW = (
    " of the row", " of row", " of this row", " of the round", " of the rnd",
    " of this round", " of each round", "",
)  # fmt: skip
_EACH_END = Sayings((
    *(
        f"{once}{at}{each} {end}{of}"
        for once in ("once ", "")
        for at in ("at ", "on ", "in ", "")
        for each in ("each", "both", "either", "the two", "every")
        for end in ("end", "ends", "edge", "edges", "side", "sides")
        for of in _OF_ROW
    ),
    *(
        f"{once}at {the}{start} and {again}{its}{end}{of}"
        for once in ("once ", "")
        for the, its in (("the ", "the "), ("the ", ""), ("", ""))
        for start in ("start", "beginning")
        for again in ("once at ", "at ", "again at ", "once more at ", "")
        for end in ("end", "finish")
        for of in _OF_ROW
    ),
))  # fmt: skip


def _at_ends(cursor: Cursor, change: Change, start: int) -> Evenly | None:
    """ "Decreasing 1 st at each end", "inc at both ends": so many at either end."""
    at = cursor.at
    amount = cursor.number() or Amount((1,), cursor.tokens[at - 1].span)
    cursor.take_word(*STITCH_NOUNS) or _changed_stitch(cursor)
    if not cursor.take_any(_EACH_END) or cursor.is_word("of", "until", "till"):
        cursor.at = at
        return None
    cursor.take_word("again")
    if cursor.is_word("as") and not _pass_as_before(cursor):
        cursor.at = at
        return None
    if cursor.is_kind(Kind.WORD) and not cursor.is_word("turn", "and", "ch", "then", "by"):
        cursor.at = at
        return None  # "at each end of every other row", "each side of the marker"
    both = tuple(None if n is None else 2 * n for n in amount.values)
    span = cursor.span_from(start)
    return Evenly(replace(amount, values=both), change, span, at_ends=True)


_AS_BEFORE = Sayings((
    "as before", "as above", "as in the row before", "as in the last row",
    "as you did before", "as in the previous row", "as in last row",
))  # fmt: skip


def _pass_as_before(cursor: Cursor) -> bool:
    """ "(Dec 1 st at each end) as in Row 2", "as before": in a way told already."""
    at = cursor.at
    if cursor.take_any(_AS_BEFORE):
        return True
    named = cursor.take_phrase("as in", "as for", "as on") and cursor.take_word(
        "row", "rnd"
    )
    if named and cursor.take_kind(Kind.NUMBER) and cursor.is_kind(*_ENDS_SIDE, Kind.LINE):
        return True
    cursor.at = at
    return False


_OFF_ENDS = Sayings(
    f"off {each} {end}{of}"
    for each in ("each", "both", "either")
    for end in ("end", "ends", "side", "sides", "edge", "edges")
    for of in (" of the row", " of row", "")
)


def _off_ends(cursor: Cursor, start: int) -> Evenly | None:
    """ "Knock one stitch off each end", "take 2 sts off both ends"."""
    at = cursor.at
    lost = cursor.take_word(*_TAKES_OFF) or cursor.tokens[at - 1].text in _TAKES_OFF
    amount = cursor.number() if lost else None
    cursor.take_word(*STITCH_NOUNS)
    if amount is None or not cursor.take_any(_OFF_ENDS):
        cursor.at = at
        return None
    _pass_as_before(cursor)
    both = tuple(None if n is None else 2 * n for n in amount.values)
    span = cursor.span_from(start)
    return Evenly(replace(amount, values=both), Change.FEWER, span, at_ends=True)


def _told_without_number(cursor: Cursor, change: Change, start: int) -> Evenly | None:
    """ "Decreasing evenly to 24 sc", "increasing at each end"."""
    if change is Change.TOTAL:
        return None
    at = cursor.at
    found = _evenly_to(cursor, start) if cursor.take_word("evenly") else None
    if found is None:
        cursor.at = at
        found = _at_ends(cursor, change, start)
    return found


def _changed_stitch(cursor: Cursor) -> StitchWord | None:
    """ "(Decrease 4) sc evenly": the stitch that there are fewer of."""
    return None if cursor.is_word("st", "sts") else cursor.stitch()


def _fewer_by(amount: Amount, each: int) -> Amount:
    """By how many stitches the row shrinks: two for each of "4 dc3tog"."""
    return replace(
        amount, values=tuple(None if n is None else n * each for n in amount.values)
    )


def _evenly_to(cursor: Cursor, start: int) -> Evenly | None:
    """ "Decreasing evenly to 24 sc": how many there are in all."""
    across(cursor)
    amount = cursor.number() if cursor.take_word("to", "until") else None
    if amount is None:
        return None
    cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    cursor.take_phrase("remain", "are left", "in all")
    return Evenly(amount, Change.TOTAL, cursor.span_from(start))


def _up_a_side(
    cursor: Cursor, amount: Amount, stitch: StitchWord | None, start: int
) -> Evenly | None:
    """ "12 sc up the right side": evenly, though it does not say so."""
    at = cursor.at
    ends = _in_row_ends(cursor, amount)
    along = "side" if ends else along_edge(cursor)
    words = {token.text for token in cursor.tokens[at : cursor.at]}
    chained = _of_chain(cursor) or not words.isdisjoint(CHAIN_NOUNS)
    untold = words.isdisjoint(_TOLD) or _of_each(cursor)
    if stitch is None or along != "side" or untold or chained:
        return None
    _pass_how(cursor)
    return Evenly(amount, Change.TOTAL, cursor.span_from(start), stitch.id, along)


def _of_each(cursor: Cursor) -> bool:
    """ "(3 sc along the side) of each of next 8 blocks": so many for each of them."""
    return cursor.is_word("of") and cursor.peek().text in EACH_WORDS


_FEW = 4
"""As many stitches may go into one row end."""


def _in_row_ends(cursor: Cursor, amount: Amount) -> bool:
    """ "14 sc in row ends": so many along them, and none is told by itself."""
    if (amount.at(0) or 0) <= _FEW or not cursor.is_word("in", "into"):
        return False
    at = cursor.at
    cursor.step()
    if cursor.take_any(_ROW_ENDS):
        return True
    cursor.at = at
    return False


def _of_chain(cursor: Cursor) -> bool:
    """ "(Along the other side) of the ch": its underside."""
    return cursor.is_word("of") and any(
        cursor.peek(ahead).text in CHAIN_NOUNS | {"foundation"} for ahead in range(1, 4)
    )


def _pass_how(cursor: Cursor) -> None:
    """ "(24 sc up the side,) working 2 sc in each row": how the number comes about."""
    at = cursor.at
    opened = cursor.take_kind(Kind.OPEN)
    cursor.take_kind(Kind.COMMA)
    told = opened or cursor.take_word(*_HOW) or cursor.is_word("one", "two", "three")
    rows = False
    while told and not cursor.is_kind(
        Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.OPEN, Kind.CLOSE, Kind.END, Kind.LINE
    ):
        rows = rows or cursor.is_word("row", "rows", "block", "blocks")
        cursor.step()
    closed = not opened or cursor.take_kind(Kind.CLOSE)
    if not rows or not closed:
        cursor.at = at


_HOW = frozenset("working placing putting making at that".split())
_TOLD = frozenset(
    "up down left right side sides slope selvedge row end ends bottom lower foundation "
    "short long top".split()
)
_EVENLY = frozenset({"evenly"})
_SPREAD = _EVENLY | _TOLD
"""Words of which one is in all that spreads a number of stitches, and has no verb."""
_ENDS = frozenset("end ends".split())
_ROW_ENDS = Sayings(
    f"{the}{ends}"
    for the in ("the ", "")
    for ends in ("row ends", "row-ends", "ends of the rows", "ends of rows")
)
_SIDES = frozenset("side sides edge selvedge slope top bottom".split())
_CHAINED = Sayings(
    f"{the}{begun} {chain}"
    for the in ("the ", "your ", "")
    for begun in ("foundation", "starting", "beginning")
    for chain in ("chain", "ch", "edge")
)
_OPENINGS = frozenset(
    "slit hole opening armhole neckline neck thumbhole armholes thumb gap".split()
)
ALONG_SIGNS = _SIDES | _OPENINGS | _ENDS | {"foundation", "starting", "beginning"}
"""Words of which one is in all that names an edge to work along."""
_SIDE_WORDS = frozenset(
    "the a each this that other second first left right short long next row selvedge "
    "straight same opposite front back center centre bottom lower foundation".split()
)


_PIECES = frozenset(
    "base bottom panel piece square rectangle strip blanket work body front back cuff "
    "band flap heel thumb neck sole tongue strap".split()
)


def _of_piece(cursor: Cursor) -> None:
    """ "of the base" behind a side."""
    at = cursor.at
    if not (cursor.take_word("of") and cursor.take_word("the", "your", "this")):
        cursor.at = at
        return
    if not cursor.take_word(*_PIECES):
        cursor.at = at


def along_edge(cursor: Cursor) -> str:
    """ "down the side", "along the left edge", "around the slit"."""
    at = cursor.at
    if cursor.take_word("down", "up", "along", "around", "round", "across", "over"):
        if cursor.take_any(_ROW_ENDS) or cursor.take_any(_CHAINED):
            return "side"
        while cursor.take_word(*_SIDE_WORDS) or cursor.take_kind(Kind.ORDINAL):
            pass
        if cursor.is_word(*_PIECES) and cursor.peek().text in _SIDES:
            cursor.step()  # "along the flap side"
        named = cursor.tokens[cursor.at - 1].text in _SIDES and cursor.is_kind(*_ENDS_SIDE)
        if named:  # "along the bottom, ..."
            return "side"
        for words, along in ((_OPENINGS, "opening"), (_SIDES, "side")):
            if cursor.take_word(*words):
                cursor.take_word("edge", "edges", "opening")
                _of_piece(cursor)
                return along
        if cursor.take_word(*_ENDS) and _of_band(cursor):
            return "side"
    cursor.at = at
    return ""


_ENDS_SIDE = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.END)


_BANDS = frozenset("band bands border borders edging edgings rib ribs ribbing".split())
_WHICH_BAND = frozenset(
    "the a each this other second first left right front button buttonhole".split()
)


def _of_band(cursor: Cursor) -> bool:
    """ "(Across the end) of the other front band": the short side of a strip."""
    if not cursor.take_word("of"):
        return False
    while cursor.take_word(*_WHICH_BAND):
        pass
    return cursor.take_word(*_BANDS)
