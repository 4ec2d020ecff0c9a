"""Words that begin no phrase: filler, a misspelt stitch, or a remark?"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.chain_phrases import read_chain
from hookwright.notation.claims import read_claim
from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import Item
from hookwright.notation.lexer import TOO_LARGE, Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import EACH_WORDS, INTO
from hookwright.notation.reader import Reader
from hookwright.notation.skips import read_skip
from hookwright.notation.spelling import likely_word
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    TOO_LONG,
    Amount,
    Chain,
    Make,
    Remark,
    Skip,
    Target,
    Unread,
)
from hookwright.notation.unnamed import UNNAMED

_FILLER = frozenset(
    "work make then and now also please more again just only put place do "
    "worked made each begin beginning commence start starting with continue cont followed "
    "by "
    "next finally first a an the one this it you your there so into in to from "
    "of for at on as but that is are was be or if here same last slowly another go "
    "going carry to be across working worked join".split()
)


def read_other_word(reader: Reader) -> bool:
    """A word that begins no phrase: filler, a misspelt stitch, or the start of a remark."""
    cursor = reader.cursor
    token = cursor.token
    if token.kind is Kind.NUMBER and token.value == TOO_LARGE:
        cursor.step()
        return reader.add(Unread(token.span, TOO_LONG))
    if _unknown_stitch(reader) or _bare_figure(reader):
        return True
    if token.kind is not Kind.WORD or token.text in _FILLER:
        start = cursor.at
        _step_past_list(cursor)
        if token.kind is Kind.NUMBER:
            return _passed(reader, start)
        return True
    return _remark(reader)


_MOST_BARE = 40


def _bare_figure(reader: Reader) -> bool:
    """ "(1, inc) x 6": a figure in a list of stitches is so many plain ones.

    Beside other figures it may be the number of a size.
    """
    cursor = reader.cursor
    token = cursor.token
    listed = cursor.at > 0 and cursor.tokens[cursor.at - 1].kind in (Kind.OPEN, Kind.COMMA)
    figure = token.kind is Kind.NUMBER and not token.spelled and token.value <= _MOST_BARE
    behind = cursor.peek().kind
    if not (reader.depth and listed and figure and behind in (Kind.COMMA, Kind.CLOSE)):
        return False
    at = cursor.at
    cursor.step()
    first = behind is Kind.COMMA and cursor.take_kind(Kind.COMMA)
    beside = isinstance(reader.last(), Make) or (first and cursor.stitch() is not None)
    cursor.at = at + 1
    if cursor.sizes > 1 or not beside:
        cursor.at = at
        return False
    span = cursor.span_from(at)
    return reader.add(Make(UNNAMED, span, Amount((token.value,), span)))


def _unknown_stitch(reader: Reader) -> bool:
    """ "1 de in top of ch 3": a word nobody knows, where a stitch should stand."""
    cursor = reader.cursor
    start = cursor.at
    amount = cursor.number()
    word = cursor.token
    over = None if amount is not None else _worked_over(cursor)
    named = word.text.isalpha() or over is not None
    if word.kind is not Kind.WORD or not named or _names_no_stitch(cursor, amount):
        cursor.at = start
        return False
    if amount is not None and _told_in_all(cursor):
        cursor.at = start
        return False
    cursor.step()
    likely = likely_word(word.text, cursor.own_words)
    if over is not None and not likely:
        cursor.at = over.at
        reader.add(Unread(word.span, likely))
        return reader.add(Make(f"?{word.text}", cursor.span_from(start), None, over.place))
    short = len(word.text) <= 6
    figure = amount is not None and not cursor.tokens[start].spelled
    short = short and (bool(likely) or figure or not set(word.text) & set("aeiou"))
    placed = (
        short and cursor.is_word("in", "into", "around") and cursor.attempt(_place_behind)
    )
    listed = (
        reader.depth > 0 and bool(likely) and cursor.token.kind in (Kind.CLOSE, Kind.COMMA)
    )
    listed = listed and reader.mark is Kind.COMMA and bool(reader.items)
    alone = _stands_alone(cursor, start) or _is_counted(reader, start)
    if not (placed or listed or alone) and not (amount and likely):
        cursor.at = start
        return False
    made = None
    if likely:
        cursor.at = start
        made = read_make(cursor, likely=likely)
    if made:
        reader.add(Unread(word.span, likely))
        for node in made:
            reader.add(node)
        return True
    other = _other_work(cursor, start, likely)
    if other is not None:
        reader.add(Unread(word.span, likely))
        return reader.add(other)
    if cursor.at == start:
        cursor.step()
    cursor.take_word("in", "into", "around")
    target = read_target(cursor)
    reader.add(Unread(word.span, likely))
    return reader.add(Make("?" + word.text, cursor.span_from(start), amount, target))


def _names_no_stitch(cursor: Cursor, amount: Amount | None) -> bool:
    """Filler, and what is short for a row or a measure: "the first rnd into the 2nd ch"."""
    word = cursor.token.text
    row = word in _SHORT_FOR_ROWS and cursor.peek().text in INTO
    return word in _FILLER or row or (word in _SIGNS and amount is not None)


_SHORT_FOR_ROWS = ("rnd", "rnds", "rd", "rds", "rw")


class _Over(Struct, frozen=True):
    """How many stitches a word is worked over, and the token behind them."""

    place: Target
    at: int


def _worked_over(cursor: Cursor) -> _Over | None:
    """ "(TwB) over next 6 sts": a stitch of some kind, in so many places."""
    at = cursor.at
    before = cursor.tokens[at - 1] if at else None
    if before is not None and before.kind is Kind.WORD and before.text not in _LEADS:
        return None  # "in pattern over next 20 sts"
    cursor.step()
    over = cursor.take_word("over") and cursor.token.text in _NEARBY_OVER
    place = read_target(cursor) if over else None
    found = None
    if place is not None and place.amount is not None:
        found = _Over(place, cursor.at)
    cursor.at = at
    return found


_LEADS = ("work", "make", "a", "one", "then", "and")
_NEARBY_OVER = ("next", "the", "first", "last", "following")


def _other_work(cursor: Cursor, start: int, likely: str) -> Skip | Chain | None:
    """A skip or a chain that a word is a slip for: "sj 1"; None where it is neither."""
    read = _NO_STITCHES.get(likely)
    word = cursor.tokens[start]
    behind = cursor.tokens[start + 1]
    if read is None or word.kind is not Kind.WORD or behind.text in ("in", "into"):
        return None  # "KS in next st" is a stitch, whichever
    meant = replace(word, text=likely)
    tokens = (*cursor.tokens[:start], meant, *cursor.tokens[start + 1 :])
    corrected = replace(cursor, tokens=tokens, at=start)
    found = read(corrected)
    if found is not None:
        cursor.at = corrected.at
    return found


_NO_STITCHES: Mapping[str, Callable[[Cursor], Skip | Chain | None]] = {
    "sk": read_skip,
    "ch": read_chain,
}


def _told_in_all(cursor: Cursor) -> bool:
    """ "4 teeth in all": a number of things, not of stitches."""
    at = cursor.at
    cursor.step()
    told = cursor.take_phrase("in all", "in total", "altogether", "all told")
    cursor.at = at
    return told


def _stands_alone(cursor: Cursor, start: int) -> bool:
    """Whether a word is an instruction by itself, and looks short: "*ddc, sc in next 3"."""
    word, before = cursor.tokens[start], cursor.tokens[start - 1 : start]
    if word.kind is not Kind.WORD or len(word.text) not in _SHORT or word.text in _SIGNS:
        return False
    led = before and before[0].kind in (Kind.COMMA, Kind.STAR, Kind.OPEN)
    ended = cursor.token.kind in (Kind.COMMA, Kind.SEMICOLON, Kind.CLOSE)
    return bool(led) and ended and _VOWELS.isdisjoint(word.text)


def _is_counted(reader: Reader, start: int) -> bool:
    """Whether a number or place stands behind a short word: "ch 1, sj 1", "sj next st"."""
    cursor = reader.cursor
    word, before = cursor.tokens[start], cursor.tokens[start - 1 : start]
    if word.kind is not Kind.WORD or len(word.text) not in _COUNTED or word.text in _SIGNS:
        return False
    told = reader.text[word.start : word.end].islower()
    led = before and before[0].kind in (Kind.COMMA, Kind.STAR, Kind.OPEN)
    marked = cursor.peek().kind in (Kind.COMMA, Kind.SEMICOLON, Kind.CLOSE)
    counted = cursor.is_kind(Kind.NUMBER) and marked
    counted = counted or (cursor.is_word(*_NEARBY) and cursor.attempt(read_target))
    return told and bool(led) and counted and _VOWELS.isdisjoint(word.text)


_COUNTED = range(2, 6)
_NEARBY = ("next", "first", "last", "same")
_SHORT = range(3, 6)
_VOWELS = frozenset("aeiouy")
_SIGNS = frozenset(
    "blk rnd rnds sts chs sps lps grp grps cnt tch rd rds rw mm cm st sp lp mc cc in inch "
    "inches yd yds ft oz ml kg".split()
)
"""Short for what is no stitch; common practice, no source."""


def _place_behind(cursor: Cursor) -> Target | None:
    cursor.step()
    return read_target(cursor)


_STOPS = (
    Kind.COMMA,
    Kind.SEMICOLON,
    Kind.STOP,
    Kind.CLOSE,
    Kind.OPEN,
    Kind.STAR,
    Kind.COLON,
)


def _remark(reader: Reader) -> bool:
    """Words up to the next mark; instructions inside them are still found."""
    cursor = reader.cursor
    start = cursor.at
    cursor.step()
    while not cursor.done() and cursor.token.kind not in _STOPS:
        if cursor.token.kind is Kind.LINE and cursor.token.value > 1:
            break
        if _work_ahead(cursor) or (_is_mark(cursor) and cursor.attempt(read_claim)):
            break
        if cursor.token.text == "and" and _goes_on_with(reader.last(), cursor):
            break
        _step_past_list(cursor)
    return _passed(reader, start)


def _passed(reader: Reader, start: int) -> bool:
    """Keeps what nobody knew from a token on, for a row that does not come out."""
    span = reader.cursor.span_from(start)
    return reader.add(Remark(span, reader.text[span.start : span.end], unread=True))


def _step_past_list(cursor: Cursor) -> None:
    """The next word of a remark; a number with those of the other sizes is one."""
    at = cursor.at
    listed = cursor.is_kind(Kind.NUMBER) and cursor.peek().kind is Kind.OPEN
    amount = cursor.number() if listed else None
    if amount is None or len(amount.values) == 1:
        cursor.at = at + 1


def _goes_on_with(last: Item | None, cursor: Cursor) -> bool:
    """Whether the stitch before goes on elsewhere: "... up one side and in each ch"."""
    placed = isinstance(last, Make) and last.target is not None
    each = cursor.peek().text in INTO and cursor.peek(2).text in EACH_WORDS
    return placed and each


def _is_mark(cursor: Cursor) -> bool:
    """Whether a dash or equals sign parts words: "leave these for later - 16 hdc"."""
    return cursor.is_kind(Kind.DASH, Kind.EQUALS) and not cursor.token.glued


def _placed_stitch(cursor: Cursor) -> Make | None:
    made = read_make(cursor)
    placed = made and (made[0].target is not None or made[0].loop)
    return made[0] if made and placed else None


_PLACES_BEFORE = (
    "chain", "ch", "side", "bottom", "underside", "them", "these", "those", "sts",
    "stitches", "front", "behind", "facing", "it",
)  # fmt: skip
"""Words behind which work may begin without a mark: "on the other side of ch sc in 4",
"working in front of them dc in each of the 2 skipped sts".
"""


_MISSED = ("the", "next", "first", "last", "centre", "center")


def _work_ahead(cursor: Cursor) -> bool:
    """Whether an instruction begins here, in the middle of a remark."""
    token = cursor.token
    if token.kind is Kind.NUMBER:
        led = cursor.tokens[cursor.at - 1].text in ("with", "make", "work")
        led = led or cursor.tokens[cursor.at - 1].kind is Kind.LINE
        if led and cursor.attempt(read_chain):
            return True  # "commence with 7 ch", "using grey make 7 ch"; on the next line
        return cursor.attempt(read_make) and cursor.peek().text not in ("st", "sts")
    if token.kind is not Kind.WORD:
        return False
    if token.text in ("turn", "skip", "sk", "rep", "repeat", "fasten"):
        return True
    if token.text == "miss":  # but "you won't miss it"
        return cursor.peek().kind is Kind.NUMBER or cursor.peek().text in _MISSED
    if token.text in ("join", "rejoin", "attach"):
        named = cursor.peek(2 if cursor.peek().text in ("the", "your") else 1)
        return named.text in ("yarn", "thread", "wool", "new")
    if cursor.tokens[cursor.at - 1].text in ("and", "then", "work", *_PLACES_BEFORE):
        return cursor.attempt(_placed_stitch)  # "fold flat and sc through both layers"
    taken = cursor.is_phrase("a chain of") or cursor.is_phrase("a foundation chain of")
    if taken:
        return cursor.peek(taken).kind is Kind.NUMBER
    if token.text in ("ch", "chain") and cursor.peek().kind is Kind.NUMBER:
        return cursor.tokens[cursor.at - 1].text != "the"
    return False
