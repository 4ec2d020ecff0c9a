"""What stands at the edge of a row: a turn, a join, the yarn cut, a bare count?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.chain_phrases import read_chain
from hookwright.notation.claims import read_claim
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Item, Star
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.said_of_work import meaning_told
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Chain,
    FinishOff,
    Join,
    Make,
    Often,
    Repeat,
    Target,
    Turn,
    Which,
)
from hookwright.notation.vocabulary import StitchWord
from hookwright.notation.yarns import joins_yarn


def read_turn(reader: Reader) -> bool:
    """ "turn", "ch 1 to turn", "do not turn"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and")
    if cursor.take_phrase(
        "do not turn",
        "don't turn",
        "without turning",
        "never turn",
        "no turn",
        "not turn",
        "do not rotate",
    ):
        return reader.add(Turn(cursor.span_from(start), turned=False))
    if _rotated(cursor):
        return reader.add(Turn(cursor.span_from(start), turned=False))
    if _is_turning_chain(cursor):
        cursor.at = start
        return False
    if cursor.take_phrase(
        "turn the work",
        "turn your work",
        "turn work",
        "turn over",
        "turn",
        "turning",
        "to turn",
        "turned",
    ):
        return reader.add(Turn(cursor.span_from(start)))
    if cursor.is_word("to") and cursor.peek().kind in (Kind.END, Kind.STOP):
        cursor.step()  # "ch 1 to.": the word "turn" was left out
        return reader.add(Turn(cursor.span_from(start)))
    cursor.at = start
    return False


def _is_turning_chain(cursor: Cursor) -> bool:
    """ "The turning chain being one", "forget the turn chain": a thing, and no turn."""
    named = cursor.is_word("turning", "turn") and cursor.peek().text in CHAIN_NOUNS
    made = cursor.is_word("turn") and cursor.peek(2).kind is Kind.NUMBER
    return named and not made


_ROUND_THE_END = Sayings(
    ("round", "around", "upside down", "by 180 degrees", "180 degrees")
)


def _rotated(cursor: Cursor) -> bool:
    """ "turn the work round (not over)": the other side of the chain comes up."""
    at = cursor.at
    if cursor.take_word("rotate", "rotating"):
        cursor.take_phrase("the work", "your work", "work", "piece", "the piece")
        cursor.take_any(_ROUND_THE_END)
        return True
    if cursor.take_word("turn", "turning"):
        cursor.take_phrase("the work", "your work", "work", "piece", "the piece")
        if cursor.take_any(_ROUND_THE_END) or _base_comes_up(cursor):
            return True
    cursor.at = at
    return False


def _base_comes_up(cursor: Cursor) -> bool:
    """ "so that the base of the chain is uppermost", "so the other side is on top"."""
    at = cursor.at
    cursor.take_phrase("so that", "so", "until", "with")
    words: set[str] = set()
    while cursor.is_kind(Kind.WORD) and len(words) < _WORDS_OF_BASE:
        words.add(cursor.step().text)
    if words & _BASE and words & _ABOVE:
        return True
    cursor.at = at
    return False


_WORDS_OF_BASE = 9
_BASE = frozenset("base bottom underside side edge loops foundation".split())
_ABOVE = frozenset("uppermost top up upward upwards".split())


_NOT = ("not", "don't", "dont", "without", "never")


def read_finish(reader: Reader) -> bool:
    """ "fasten off", "cut the yarn"; "do not fasten off" only says that it goes on."""
    cursor = reader.cursor
    start = cursor.at
    denied = start > 0 and cursor.tokens[start - 1].text in _NOT
    if cursor.take_phrase(
        "fasten off", "finish off", "end off", "break off", "cut the yarn", "cut yarn",
        "cut off", "tie off", "fasten", "cut thread", "bind off", "cut the thread",
        "break yarn", "break the yarn", "break thread", "cut", "fo",
    ):  # fmt: skip
        cursor.take_word("yarn", "off", "thread", "colour", "color")
        _pass_last_slip(reader)
        if denied:  # the words before it are the remark
            return True
        return reader.add(FinishOff(cursor.span_from(start)))
    return False


def _pass_last_slip(reader: Reader) -> None:
    """ "Finish off with a sl st in the next st": it ends a spiral, and is no stitch."""
    cursor = reader.cursor
    at = cursor.at
    found = _one_stitch(cursor) if cursor.take_word("with", "by") else None
    if found is None or found.family != "slip":
        cursor.at = at
        return
    _join_place(reader)


_JOIN = Sayings((
    "join", "close", "joining", "closed", "closing", "joined", "to join", "to close", "ssj",
    "join rnd", "join round", "close the round", "close round", "close the rnd",
))  # fmt: skip


_INTO_RING = Sayings(
    (
        "to make a ring",
        "to form a ring",
        "to form ring",
        "for a ring",
        "into a ring",
        "in a ring",
        "for a loop",
        "in ring",
        "to make ring",
        "to form a circle",
        "to make a circle",
        "to form a loop",
        "to form the ring",
        "to make the ring",
        "forming a ring",
        "into a circle",
        "to close ring",
        "to close the ring",
        "to close a ring",
        "closing the ring",
    )
)
_MADE_INTO = tuple(
    f"{what}{to}"
    for what in ("them ", "it ", "this ", "these ", "")
    for to in ("into ", "to ", "in ")
)
_MAKE_RING = Sayings(
    f"{make} {into}{ring}{of}"
    for make in ("make", "form", "join", "close", "turn")
    for into in (*_MADE_INTO, "")
    for ring in ("a ring", "a circle", "a loop")
    for of in (" of them", " of it", " of these", " from them", "")
)


def read_slip_into_ring(reader: Reader) -> bool:
    """ "ss to form a ring", "sl st to join": closed, and no stitch says where."""
    cursor = reader.cursor
    start = cursor.at
    found = cursor.stitch()
    slips = found is not None and found.id == "sl st"
    if slips and cursor.is_word("in", "into") and reader.has_work():
        cursor.at = start  # "6 sc, sl st in ring": worked into it
        return False
    ring = slips and cursor.take_any(_INTO_RING)
    joins = slips and not ring and cursor.take_phrase("to join", "to close", "and join")
    ring = ring or (joins and cursor.take_any(_INTO_RING))
    ends = cursor.token.kind is not Kind.WORD  # "ss to join A" brings in a yarn
    if not ring and not (joins and ends):
        cursor.at = start
        return False
    return reader.add(Join(cursor.span_from(start), None, "sl st", to_ring=ring))


def read_join(reader: Reader) -> bool:
    """ "join with sl st in first dc", "close", "ss into top of 3ch"; not joining a yarn."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    if cursor.take_any(_MAKE_RING) and cursor.take_phrase("with", "by"):
        chain = read_chain(cursor)  # "make a ring with a chain of 4"
        if chain is not None:
            reader.add(chain)
        else:
            _one_stitch(cursor)
        return reader.add(Join(cursor.span_from(start), None, "sl st", to_ring=True))
    cursor.at = start
    cursor.take_word("and", "then")
    if not cursor.take_any(_JOIN) or joins_yarn(reader):
        cursor.at = start
        return False
    if cursor.take_phrase("the ring", "a ring", "ring", "into a ring"):  # "close the ring"
        return reader.add(Join(cursor.span_from(start), None, "sl st", to_ring=True))
    if cursor.take_phrase("the last", "last") and cursor.is_word("ch", "chain"):
        read_target(cursor)
    cursor.take_phrase("round", "rnd", "the round", "this round", "the rnd", "up", "it")
    chain = _chain_into_ring(reader)
    if chain is not None:
        reader.add(chain)
        return reader.add(Join(cursor.span_from(start), None, "sl st", to_ring=True))
    stitch = "sl st"
    before = cursor.at
    marked = cursor.take_kind(Kind.COMMA)
    told = cursor.take_word("with", "by", "using")
    found = _one_stitch(cursor)
    if found is not None and marked and not told and found.family != "slip":
        found, cursor.at = None, before  # "sl st in first ch to close, sc in each ch"
    if found is not None:
        stitch = found.id
    target = _join_place(reader)
    cursor.take_phrase("to join", "to close")
    ring = cursor.take_any(_INTO_RING)
    if ring and cursor.take_phrase("with", "by"):
        _one_stitch(cursor)
    return reader.add(Join(cursor.span_from(start), target, stitch, ring))


def _chain_into_ring(reader: Reader) -> Chain | None:
    """ "Close 15 ch to a ring", "join 6 chains into a ring": the chain is told behind."""
    cursor = reader.cursor
    at = cursor.at
    chain = None if reader.has_work() else read_chain(cursor)
    if chain is None or not cursor.take_any(_CHAIN_RING):
        cursor.at = at
        return None
    if cursor.take_phrase("with", "by"):
        _one_stitch(cursor)
    return chain


_CHAIN_RING = Sayings((
    *(
        f"{into} {a}{ring}"
        for into in ("to", "into", "in", "to form", "to make")
        for a in ("a ", "the ", "")
        for ring in ("ring", "circle", "loop", "round", "tube")
    ),
))  # fmt: skip


def _one_stitch(cursor: Cursor) -> StitchWord | None:
    """ "a sl st", "1 slip stitch", "sc": what a round is closed with."""
    at = cursor.at
    counted = cursor.is_kind(Kind.NUMBER) and cursor.token.value == 1
    if counted:
        cursor.step()
    else:
        cursor.take_word("a", "an")
    found = cursor.stitch()
    if found is None and counted:
        cursor.at = at
    return found


def _join_place(reader: Reader) -> Target | None:
    cursor = reader.cursor
    at = cursor.at
    if cursor.take_word("in", "into", "to", "on", "at", "around"):
        if cursor.is_word("form", "make"):
            cursor.at = at
            return None
        target = read_target(cursor)
        if target is not None:
            return target
    cursor.at = at
    return None


def _tells_count(cursor: Cursor) -> bool:
    """ "That is one block.", "This makes 24 sts."."""
    return cursor.peek().text in ("is", "makes", "gives", "was", "leaves")


_COUNT_AFTER = (Kind.STOP, Kind.DASH, Kind.EQUALS, Kind.COLON)


def _closes_round(items: Sequence[Item]) -> bool:
    """Whether a slip stitch behind other work closes a round: no more work follows it."""
    item = items[-1] if items else None
    if (
        len(items) < 2
        or not isinstance(item, Make)
        or item.stitch != "sl st"
        or item.target is None
    ):
        return False
    return item.target.noun in ("tch", "base") or item.target.which is Which.FIRST


_MANY = 5
"""Fewer stitches may be work of their own, which only forgets to say where."""


_LISTS = (Kind.COMMA, Kind.SEMICOLON)
_ENDS_ROW = (Kind.STOP, Kind.LINE, Kind.END)


def _ends_in_count(reader: Reader) -> bool:
    """ "Sc2tog, sc across to last 2 sc, sc2tog; 18 sc.": behind a semicolon, and no more.

    Not where the row is a bare list of stitches: "2 sc; 3 dc; 9 sc."
    """
    cursor = reader.cursor
    if reader.mark is not Kind.SEMICOLON or cursor.token.value < _MANY:
        return False
    placed = any(
        isinstance(item, Repeat) or (isinstance(item, Make) and item.target is not None)
        for item in reader.items
    )
    return placed and cursor.peek(2).kind in _ENDS_ROW


def _at_the_end(reader: Reader) -> bool:
    """Whether nothing is left: "sc in every st, 61 sc", "... and in top of ch, 19 dc"."""
    last = reader.last()
    before = reader.items[-2] if len(reader.items) > 1 else None
    target = last.target if isinstance(last, Make) else None
    edge = target is not None and (target.noun == "tch" or target.which is Which.SAME)
    return _uses_all(last) or (edge and _uses_all(before))


def _uses_all(item: Item | None) -> bool:
    """Whether nothing is left to work into: "sc in every st, 61 sc"."""
    if isinstance(item, Repeat):
        return item.times.often is Often.ACROSS
    target = item.target if isinstance(item, Make) else None
    each = target is not None and target.which is Which.EACH
    return (
        each
        and target is not None
        and not (target.amount or target.until or target.left_out)
    )


def _closes_a_star(reader: Reader) -> bool:
    """Whether a star stands here that closes the group a star before it began."""
    cursor = reader.cursor
    stop = cursor.token.kind is Kind.STOP
    opened = reader.number_of(Star) % 2
    return bool(opened) and cursor.peek(stop).kind is Kind.STAR


def _turn_follows(cursor: Cursor) -> bool:
    comma = cursor.is_kind(Kind.COMMA) and cursor.peek().text in ("turn", "and")
    return comma or cursor.is_word("turn", "to", "and")


_SUMS = Sayings((
    "in all", "in total", "altogether", "again", "once more", "once again", "still",
))  # fmt: skip

_ENDS_SUM = (*_ENDS_ROW, Kind.SEMICOLON)


def _tells_sum(cursor: Cursor) -> bool:
    """ "...; in all 10 tr.", "...; again 10 tr.": behind a mark, before a number."""
    at = cursor.at
    marked = at > 0 and cursor.tokens[at - 1].kind in (*_COUNT_AFTER, *_LISTS)
    told = marked and cursor.take_any(_SUMS) and cursor.is_kind(Kind.NUMBER)
    cursor.at = at
    return bool(told)


_SAYS_COUNT = frozenset(
    "total you you'll you've should there makes making for giving now st stitch count so "
    "that's thats sts stitches".split()
)
_SAYS_WHAT = frozenset("that this it".split())
CLAIM_BEGINS = _SAYS_COUNT | _SAYS_WHAT | {*_SUMS.by_first_word}
"""What a count without brackets begins with, but for its number."""


def read_bare_claim(reader: Reader) -> bool:
    """A count that stands without brackets, where one may stand."""
    cursor = reader.cursor
    start = cursor.at
    if not reader.has_work() or reader.depth:
        return False
    said = cursor.is_word(*_SAYS_COUNT)
    said = said or (cursor.is_word(*_SAYS_WHAT) and _tells_count(cursor))
    of_sum = not said and _tells_sum(cursor)
    said = said or of_sum
    last = reader.last()
    before = cursor.tokens[cursor.at - 1].text if cursor.at else ""
    unmarked = before in ("across", "around", "end", "all") and isinstance(
        last, (Make, Repeat)
    )
    placed = (
        reader.mark in _COUNT_AFTER
        or unmarked
        or isinstance(last, (Join, FinishOff, Turn))
        or _closes_round(reader.items)
        or (reader.mark in _LISTS and _at_the_end(reader) and cursor.token.value >= _MANY)
        or _ends_in_count(reader)
    )
    if not said and not (placed and cursor.token.kind in (Kind.NUMBER, Kind.OPEN)):
        return False
    word = cursor.at and cursor.tokens[cursor.at - 1].kind is Kind.WORD
    if not said and word and not unmarked and not isinstance(last, (Join, FinishOff, Turn)):
        return False
    claim = read_claim(cursor)
    if claim is None:
        return False
    if _closes_a_star(reader) or (of_sum and cursor.token.kind not in _ENDS_SUM):
        cursor.at = start
        return False  # "*Hdc. 2 hdc.*", "again 2 hdc, then ...": stitches, and no count
    chained = all(figure.unit == "ch" for figure in claim.figures)
    begins = isinstance(last, Turn) or _turn_follows(cursor) or cursor.is_kind(Kind.OPEN)
    if chained and begins:
        cursor.at = start
        return False  # "turn with 3 chain", "1 chain, turn", "4 ch (1 tr, 1 ch)": work
    reader.claims.append(claim)
    meaning_told(reader, start)
    return True
