"""What does a row that is another row again do otherwise: "but with sc 8 in the middle"?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import CHAIN_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Chain,
    Instead,
    Make,
    Node,
    Recall,
    Remark,
    Unworked,
)

_LEADS = (
    "but", "except", "only", "with", "work", "working", "for", "that", "rep", "repeat",
    "repeating", "do", "doing", "make", "making", "using", "having",
)  # fmt: skip
_REPEATED = Sayings((
    "the repeat", "the bracket", "the brackets", "the part in brackets", "the group",
    "what is in brackets", "the stars", "the part between the stars", "the repeats",
    "the brackets part", "the bracketed part", "the part in the brackets", "from",
))  # fmt: skip
_REPEATS = ("repeats", "repeat", "reps", "rep", "times", "time")
_FOR = Sayings(
    ("in place of", "instead of", "rather than", "not", "and not", "where it was")
)
_QUOTES = frozenset("\"“”„«»'‘’")


def read_change(reader: Reader) -> bool:
    """A change to a row recalled before it."""
    if not reader.number_of(Recall):
        return False
    cursor = reader.cursor
    start = cursor.at
    begun = _begun(reader, start)
    if begun is not None:
        return reader.add(begun)
    while cursor.take_word(*_LEADS):
        pass
    if cursor.at == start:
        return False
    if _over_each_other(cursor):
        return reader.remark(cursor.span_from(start))
    found = (
        _growth(cursor, start)
        or _longer_run(cursor, start)
        or _run_between(cursor, start)
        or _times(cursor, start)
        or _phrases(reader, start)
        or _stitches(cursor, start)
        or _grows_otherwise(cursor, start)
        or _so_many(cursor, start)
        or _where_they_go(cursor, start)
    )
    if found is None:
        cursor.at = start
        return False
    return reader.add(found)


def _over_each_other(cursor: Cursor) -> bool:
    """ "(As 2nd row) but working dc on tr and tr on dc": which stitch comes where."""
    at = cursor.at
    pairs = 0
    while _one_over_other(cursor):
        pairs += 1
        cursor.take_kind(Kind.COMMA)
        cursor.take_word("and")
    if pairs > 1:
        return True
    cursor.at = at
    return False


def _one_over_other(cursor: Cursor) -> bool:
    cursor.take_word("each", "the", "a")
    first = cursor.stitch()
    placed = first is not None and cursor.take_word("on", "over", "in", "into", "above")
    cursor.take_word("each", "the", "every")
    return placed and cursor.stitch() is not None


_BEGINS = Sayings(
    f"{lead}{begin} {by}"
    for lead in ("but ", "only ", "except ", "just ", "this time ", "and ", "")
    for begin in (
        "starting", "start", "beginning", "begin", "starts", "begins", "start it",
        "begin it", "start off", "starting off", "begin each one", "start each one",
    )
    for by in ("with", "by working", "by making", "by", "the row with", "it with")
)  # fmt: skip


def _begun(reader: Reader, start: int) -> Instead | None:
    """ "(Row 1 again) starting with ch 3, dc in first st": how the row begins instead."""
    cursor = reader.cursor
    cursor.take_phrase("but", "only") and cursor.take_kind(Kind.COMMA)
    if not cursor.take_any(_BEGINS):
        cursor.at = start
        return None
    body = _instructions(reader)
    if cursor.take_any(_FOR):
        _instructions(reader)  # what the other row begins with
    if any(isinstance(node, (Chain, Make)) for node in body):
        return Instead(cursor.span_from(start), body=body, begins=True)
    cursor.at = start
    return None


def _times(cursor: Cursor, start: int) -> Instead | None:
    """ "with 2 repeats in place of 3", "working the bracket 4 times"."""
    at = cursor.at
    cursor.take_any(_REPEATED)
    if cursor.token.kind is Kind.STAR:
        cursor.step()
    cursor.take_phrase("only", "just")
    times = _once_or(cursor)
    if times is None or not (cursor.take_word(*_REPEATS) or _is_spelled(cursor)):
        cursor.at = at
        return None
    was = None
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if cursor.take_any(_FOR):
        was = _once_or(cursor)
        cursor.take_word(*_REPEATS)
    else:
        cursor.at = at
    return Instead(cursor.span_from(start), times, was)


_MIDDLE = Sayings((
    "in the middle", "in the centre", "in the center", "in between", "between them",
    "at the middle",
))  # fmt: skip
_MORE = {"more": 1, "extra": 1, "additional": 1, "fewer": -1, "less": -1}
_ALL_STITCHES = ("st", "sts", "stitch", "stitches")
_EACH_TIME = ("each", "every", "per")
_WITHIN = Sayings(("between", "in between", *_MIDDLE, "before", "after"))
_ROWS = ("time", "row", "rows", "rnd", "rnds", "round", "rounds", "rd", "rds", "repeat")


_ADDS = ("add", "adding")
_HAVING = Sayings(("there are", "there is", "there will be", "having", "only"))


def _growth(cursor: Cursor, start: int, *, adds: bool = False) -> Instead | None:
    """ "with 2 fewer dc between the two dc2tog each time": a run that grows or shrinks."""
    at = cursor.at
    cursor.take_any(_HAVING)
    number = cursor.number()
    sign = _sign(cursor)
    stitch = cursor.stitch()
    named = stitch is not None or cursor.take_word(*_ALL_STITCHES)
    sign = sign or _sign(cursor) or int(adds)
    placed = bool(cursor.take_any(_WITHIN))
    each = False
    while named and not cursor.is_kind(Kind.STOP, Kind.END, Kind.CLOSE, Kind.OPEN):
        each = cursor.take_word(*_EACH_TIME) and cursor.take_word(*_ROWS)
        if each or not (placed or cursor.is_word("on", "in", "for")):
            break
        cursor.step()
    if number is None or not named or not sign or not (placed or each):
        cursor.at = at
        return None
    span = cursor.span_from(start)
    body = (Make(stitch.id, span),) if stitch is not None else ()
    return Instead(span, body=body, more=sign * (number.values[0] or 0), each=each)


_MOST_BETWEEN = 4


def _longer_run(cursor: Cursor, start: int) -> Instead | None:
    """ "Having 6 dc between corners instead of 4": how long its runs are, and were."""
    at = cursor.at
    number = cursor.number()
    stitch = cursor.stitch()
    named = number is not None and stitch is not None and cursor.take_any(_WITHIN)
    for _ in range(_MOST_BETWEEN * named):
        if cursor.is_any(_FOR):
            break
        cursor.step()
    was = cursor.number() if named and cursor.take_any(_FOR) else None
    cursor.stitch()
    if number is None or stitch is None or was is None or was.at(0) == number.at(0):
        cursor.at = at
        return None
    span = cursor.span_from(start)
    more = (number.at(0) or 0) - (was.at(0) or 0)
    return Instead(span, body=(Make(stitch.id, span),), more=more)


_CHANGES = (
    "increases", "increase", "incs", "inc", "decreases", "decrease", "decs", "dec",
)  # fmt: skip
_BETWEEN = Sayings(
    f"{within}{the}"
    for within in ("between", "in between", "before", "after")
    for the in (" the", " each", " each of the", " every", " all the", "")
)


def _run_between(cursor: Cursor, start: int) -> Instead | None:
    """ "(As Row 5), but with 3 sc between the increases": how long its run is now."""
    at = cursor.at
    cursor.take_any(_HAVING)
    number = cursor.number()
    stitch = cursor.stitch()
    named = stitch is not None or cursor.take_word(*_ALL_STITCHES)
    placed = named and cursor.take_any(_BETWEEN) and cursor.take_word(*_CHANGES)
    if number is None or not placed or len(number.values) > 1:
        cursor.at = at
        return None
    span = cursor.span_from(start)
    body = (Make(stitch.id, span),) if stitch is not None else ()
    return Instead(span, body=body, length=number.at(0) or 0)


def _grows_otherwise(cursor: Cursor, start: int) -> Unworked | None:
    """ "With one more gap on each side every round": told, and not by its stitches."""
    number = cursor.number()
    if number is None or not _sign(cursor) or not cursor.is_kind(Kind.WORD):
        return None
    if cursor.is_word(
        "row", "rows", "rnd", "rnds", "round", "rounds"
    ):  # "work 4 more rows"
        return None
    while not cursor.is_kind(Kind.STOP, Kind.END, Kind.CLOSE, Kind.OPEN, Kind.SEMICOLON):
        cursor.step()
    return Unworked(cursor.span_from(start), "grows otherwise")


def _so_many(cursor: Cursor, start: int) -> Unworked | None:
    """ "(As Row 7) but with 2 blocks": so many of a unit, and not where they stand."""
    cursor.at = start
    leads = set()
    while cursor.token.text in _LEADS:
        leads.add(cursor.step().text)
    number = cursor.number()
    unit = cursor.stitch()
    units = unit is not None and unit.family in ("own", "group")
    if "with" not in leads or number is None or not units:
        return None
    while not cursor.is_kind(Kind.STOP, Kind.END, Kind.CLOSE, Kind.OPEN, Kind.SEMICOLON):
        cursor.step()
    return Unworked(cursor.span_from(start), "so many of a unit")


_GO = frozenset("go goes fall falls come comes lie lies are is stand sit".split())


def _where_they_go(cursor: Cursor, start: int) -> Unworked | None:
    """ "(Same again), only now the 2 go in every 4th st": the places told, not the work."""
    cursor.at = start
    if not cursor.take_word("but", "only", "except", "now"):
        return None
    goes = numbered = False
    while not cursor.is_kind(Kind.STOP, Kind.END, Kind.CLOSE, Kind.OPEN, Kind.SEMICOLON):
        numbered = numbered or (goes and cursor.is_kind(Kind.NUMBER, Kind.ORDINAL))
        goes = goes or cursor.token.text in _GO
        cursor.step()
    return Unworked(cursor.span_from(start), "in other places") if numbered else None


_SAME_WAY = Sayings(
    f"{on} {so}".strip()
    for on in (
        "continue", "cont", "carry on", "keep going", "keep on", "go on",
        "continue increasing", "continue decreasing", "continue to inc", "continue to dec",
        "continue to increase", "continue to decrease", "keep increasing", "increase",
        "decrease", "inc", "dec", "work", "work on", "work increases", "increasing",
        "keep decreasing", "go on increasing", "go on decreasing", "repeat",
    )
    for so in (
        "in the same way", "in this way", "in this manner", "in the same manner",
        "like this", "like that", "as established", "as before", "in this fashion",
        "in pattern", "the same way", "as set", "as now set", "so", "",
    )
)  # fmt: skip


_EACH_ROUND = Sayings(f"{every} {row}" for every in _EACH_TIME for row in _ROWS)


_BEFORE_GROWTH = (*_LEADS, *_ADDS, "placing", "by")
SAME_WAY_BEGINS = frozenset(
    (*_BEFORE_GROWTH, *(word for said in (_SAME_WAY, _EACH_ROUND, _HAVING)
                        for word in said.by_first_word))
)  # fmt: skip
"""What such a phrase begins with, but for a number."""


def read_same_way(reader: Reader) -> bool:
    """ "Continue in the same way, working 1 more htr between increases each rnd"."""
    cursor = reader.cursor
    start = cursor.at
    if reader.depth or reader.has_work():
        return False
    same = cursor.take_any(_SAME_WAY)
    same = (same and _by_so_many(cursor)) or same
    span = cursor.span_from(start) if same else cursor.token.span
    change = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.SEMICOLON, Kind.DASH)
    round_ = cursor.take_any(_EACH_ROUND)
    adds = False
    while cursor.take_word(*_BEFORE_GROWTH):
        adds = adds or cursor.tokens[cursor.at - 1].text in _ADDS
    grown = _growth(cursor, change, adds=adds)
    if grown is None or not (same or round_ or grown.each):
        cursor.at = start
        return False
    reader.add(Recall((-1,), span))
    return reader.add(replace(grown, each=True))


_ALIKE = Sayings((
    "in the same way", "in this way", "in the same manner", "in this manner", "as before",
    "as established", "like this", "like that", "as set",
))  # fmt: skip


def _by_so_many(cursor: Cursor) -> bool:
    """ "(Continue to increase) 6 sts each rnd in the same way": how the rows add up."""
    at = cursor.at
    told = cursor.number() is not None and cursor.take_word(*_ALL_STITCHES)
    cursor.take_word("in", "on")
    if told and cursor.take_any(_EACH_ROUND):
        cursor.take_any(_ALIKE)
        if cursor.is_kind(Kind.COMMA, Kind.SEMICOLON, Kind.DASH) or cursor.is_word("by"):
            return True
    cursor.at = at
    return False


def _sign(cursor: Cursor) -> int:
    """1 for "more", -1 for "fewer", 0 for neither."""
    sign = _MORE.get(cursor.token.text, 0)
    if sign:
        cursor.step()
    return sign


def _once_or(cursor: Cursor) -> Amount | None:
    token = cursor.token
    if token.text in ("once", "twice", "thrice"):
        cursor.step()
        return Amount(({"once": 1, "twice": 2, "thrice": 3}[token.text],), token.span)
    return cursor.number()


def _is_spelled(cursor: Cursor) -> bool:
    return cursor.tokens[cursor.at - 1].text in ("once", "twice", "thrice")


def _phrases(reader: Reader, start: int) -> Instead | None:
    """ "with "ch 2, sk 2 dc" in place of "ch 1, sk 1 dc"": some instructions for others."""
    cursor = reader.cursor
    at = cursor.at
    body = _instructions(reader)
    if body and cursor.take_any(_FOR):
        of = _instructions(reader)
        if of:
            return Instead(cursor.span_from(start), body=body, of=of)
    cursor.at = at
    return None


def _instructions(reader: Reader) -> tuple[Node, ...]:
    """The instructions up to the end of the sentence, or up to "in place of"."""
    cursor = reader.cursor
    inner = reader.inner()
    while not cursor.is_kind(Kind.STOP, Kind.END, Kind.CLOSE, Kind.SEMICOLON):
        worked = inner.has_work() or not inner.items
        if cursor.is_any(_FOR) or (
            worked and (cursor.is_kind(Kind.OPEN) or _turns(cursor))
        ):
            break
        if cursor.token.text in _QUOTES or cursor.is_kind(Kind.COMMA):
            cursor.step()
            continue
        inner.read_next()
    return tuple(node for node in fold(inner.items) if not isinstance(node, Remark))


def _turns(cursor: Cursor) -> bool:
    """Whether the row is turned behind its work: no part of what is changed."""
    return cursor.is_word("turn") and cursor.peek().text not in CHAIN_NOUNS


def _stitches(cursor: Cursor, start: int) -> Instead | None:
    """ "but with sc 8 in the middle", "with 3 dc in place of 2 dc"."""
    made = read_make(cursor)
    if made is None or len(made) > 1:
        return None
    middle = cursor.take_any(_MIDDLE)
    replaced = cursor.take_any(_FOR)
    if replaced:
        read_make(cursor) or cursor.number()
    if not (middle or replaced or made[0].target is not None):
        return None
    return Instead(cursor.span_from(start), body=(made[0],))
