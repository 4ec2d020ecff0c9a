"""Which stitches are closed together: "holding back the last loop of each, 3 dc in sp"?

Old leaflets tell a cluster so each time they come to it: the stitches, that the last loop
of each stays on the hook, and how all of them are drawn through at once.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Chain,
    Make,
    Remark,
    Role,
    Unworked,
    Which,
    Yarn,
)
from hookwright.notation.vocabulary import base_stitch

HELD_SIGNS = frozenset("holding hold leaving leave keeping keep retaining retain".split())
_LOOPS = ("loop", "loops", "lp", "lps")
_LAST = ("last", "final")
_ON_HOOK = Sayings(("back on the hook", "back on hook", "back", "on the hook", "on hook"))
_OF_EACH = Sayings(
    f"of {each}" for each in ("each", "every", "all", "these", "them", "the next")
)
_MOST = 20


def read_held_back(reader: Reader) -> bool:
    """ "Leaving the last loop of each on hook", before the stitches or behind them."""
    cursor = reader.cursor
    start = cursor.at
    if not _take_held(cursor):
        cursor.at = start
        return False
    last = reader.last()
    if isinstance(last, Make) and _closes(cursor):
        together = _together(last)
        if together is not None:
            span = last.span.to(cursor.span_from(start))
            reader.items[-1] = replace(together, span=span)
            return True
    cursor.take_kind(Kind.COMMA, Kind.COLON)
    made = read_make(cursor)
    together = _together(made[0]) if made and len(made) == 1 else None
    if together is None or not _closes(cursor):
        return reader.add(Unworked(cursor.span_from(start), "loops held back"))
    together = replace(together, span=cursor.span_from(start))
    first = _with_first_leg(reader, together)
    return reader.add(first or together)


def _take_held(cursor: Cursor) -> bool:
    """ "Holding back the last loop of each dc on the hook"."""
    cursor.take_word("and", "by", "but", "working", "work")
    if not cursor.take_word(*HELD_SIGNS):
        return False
    kept = cursor.take_any(_ON_HOOK)
    cursor.take_word("the", "one", "1")
    if cursor.take_word(*_LAST):
        cursor.number()
    if not cursor.take_word(*_LOOPS):
        return False
    each = cursor.take_any(_OF_EACH)
    if each and cursor.take_word("of"):  # "of each of 3 dc": the stitches stand behind
        return True
    if each and cursor.stitch() is None:
        cursor.take_word("st", "stitch", "one", "leg")
    return cursor.take_any(_ON_HOOK) or each or kept  # "the last loop free" is of lace


_AS_ONE = Sayings(
    f"{work}{them}{as_one}"
    for work in (
        "working ",
        "worked ",
        "work ",
        "drawing ",
        "drawn ",
        "closing ",
        "closed ",
    )
    for them in ("", "them ", "these ", "all ", "them all ", "all of them ")
    for as_one in ("off as one", "off together", "together as one", "as one", "together")
)
ONE_SIGNS = frozenset("one together".split())


def read_worked_as_one(reader: Reader) -> bool:
    """ "1 tr in each of next 3 sts, working them off as one"."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    cursor.take_word("and", "all")
    if not isinstance(last, Make) or not cursor.take_any(_AS_ONE):
        cursor.at = start
        return False
    cursor.take_word("st", "stitch")
    _pass_name(cursor)
    together = _together(last) if _ends(cursor) else None
    if together is None:
        cursor.at = start
        return False
    span = last.span.to(cursor.span_from(start))
    reader.items[-1] = replace(together, span=span)
    return True


def _ends(cursor: Cursor) -> bool:
    marks = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.END)
    return cursor.is_kind(*marks, Kind.LINE, Kind.OPEN)


_YARN_OVER = Sayings((
    "yo", "yoh", "yrh", "yarn over", "thread over", "wool over", "cotton over",
    "yarn over hook", "thread over hook", "wool over hook", "yarn round hook",
    "wool round hook", "thread round hook", "o", "over",
))  # fmt: skip
_DRAWS = (
    "draw", "pull", "take", "work", "drawing", "pulling", "off", "finish", "close",
    "drawn", "pulled", "through", "thru",
)  # fmt: skip
_ALL = frozenset("all loops lps remaining loop lp rem".split())


def _closes(cursor: Cursor) -> bool:
    """ ", yo and draw through all 4 loops on hook (cluster made)"."""
    start = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.STOP)
    cursor.take_word("then", "and", "now")
    over = cursor.take_any(_YARN_OVER)
    cursor.take_kind(Kind.COMMA) if over else None
    cursor.take_word("and", "then")
    at = cursor.at
    while cursor.is_word(*_DRAWS) or (cursor.at > at and _goes_on(cursor)):
        cursor.step()
    words = {token.text for token in cursor.tokens[at : cursor.at]}
    if not _ALL & words or not {*_DRAWS} & words:
        cursor.at = start
        return False
    _pass_name(cursor)
    return True


def _goes_on(cursor: Cursor) -> bool:
    return cursor.is_kind(Kind.WORD, Kind.NUMBER) and not cursor.is_word("and", "then")


_CLUSTERS = frozenset("cluster cl bobble popcorn pc puff group".split())


def _pass_name(cursor: Cursor) -> None:
    """ "(a cluster)", "(first cluster made)": what has been made has a name."""
    at = cursor.at
    words = []
    while cursor.is_kind(Kind.OPEN if cursor.at == at else Kind.WORD, Kind.NUMBER):
        words.append(cursor.step().text)
    if not _CLUSTERS & {*words} or not cursor.take_kind(Kind.CLOSE):
        cursor.at = at


def _together(make: Make) -> Make | None:
    """The stitches of a phrase as one: "1 dc in each of next 3 dc", "3 dc in next sp"."""
    target = make.target
    plain = make.legs == 1 and base_stitch(make.stitch) is not None
    places = target.amount if target is not None else None
    numbers = [number.values for number in (make.amount, places) if number is not None]
    several = [values[0] or 0 for values in numbers if values != (1,)]
    if not plain or len(several) != 1 or not 1 < several[0] <= _MOST:
        return None
    legs = several[0]
    name = f"{make.stitch}{legs}tog"
    if target is None or places is not None:
        over = target and replace(target, which=_in_a_row(target.which))
        return replace(make, stitch=name, legs=legs, amount=None, target=over)
    if target.noun in ("sp", "corner", "ring"):
        return replace(make, stitch=name, legs=legs, amount=None)
    return replace(make, stitch="cluster", amount=None)


def _in_a_row(which: Which) -> Which:
    return Which.NEXT if which is Which.EACH else which


def _with_first_leg(reader: Reader, together: Make) -> Make | None:
    """ "Ch 3, ... 3 dc ... (a cluster), * cluster over next 4 dc": the chain is a leg."""
    before = [i for i in reader.items if not isinstance(i, (Remark, Yarn))]
    while before and isinstance(before[0], Make) and before[0].stitch == "sl st":
        before = before[1:]
    chain = before[0] if len(before) == 1 else None
    more = together.legs + 1
    if not isinstance(chain, Chain) or reader.depth or not _tells(reader.cursor, more):
        return None
    at = reader.items.index(chain)
    reader.items[at] = replace(chain, role=Role.COUNTS_NOT)
    target = together.target
    if target is not None and target.amount is None:
        return together
    stitch = together.stitch.replace(str(together.legs), str(more))
    return replace(together, stitch=stitch, legs=more, target=None)


_NEAR = 16


def _tells(cursor: Cursor, legs: int) -> bool:
    """Whether a cluster of so many stitches is told further on in the row."""
    tokens = cursor.tokens
    for at in range(cursor.at, len(tokens)):
        if tokens[at].kind is not Kind.NUMBER or tokens[at].value != legs:
            continue
        before = {token.text for token in tokens[max(cursor.at, at - _NEAR) : at]}
        if before & _CLUSTERS or (before & {*_LOOPS} and before & HELD_SIGNS):
            return True
    return False
