"""Places with a phrase of their own: "the ring", "base of ch 3", "there"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    GROUP_NOUNS,
    STITCH_NOUNS,
    everything,
    take_chain_length,
)
from hookwright.notation.tree import Target, Which

_BASE = Sayings((
    "the base of the ch", "base of the ch", "the base of the chain",
    "base of the chain", "base of ch", "the base of it", "base of it", "the base of ch",
    "the base", "base of", "the foot of the ch", "foot of the ch", "the foot of ch",
    "the foot", "foot of ch", "base", "the foot of the chain", "foot of the chain",
    "its foot", "its base", "its own foot", "the foot of it", "foot of it",
))  # fmt: skip
_TOP_OF_IT = Sayings((
    "the top of it", "top of it", "the top of that", "top of this chain"
))  # fmt: skip
_JOINING = Sayings((
    "the joining sp", "joining sp", "the joining st", "joining st",
    "the joining stitch", "joining stitch", "the joining space", "joining space",
    "the st of the join", "the same st as join", "st of last join",
    "the st of the last join",
))  # fmt: skip
_OTHER_SIDE = Sayings((
    "the other side of the ch", "the other side of ch", "other side of the ch",
    "other side of ch", "the other side of the chain", "other side of the chain",
))  # fmt: skip
_POST_OF = Sayings(("the post of", "post of"))
_RING = Sayings((
    *(
        f"{the}{kind} {ring}"
        for the in ("the ", "a ", "an ", "your ", "")
        for kind in ("magic", "adjustable", "yarn", "thread", "slip", "sliding")
        for ring in ("ring", "loop", "circle")
    ),
    "the ring", "ring", "the circle", "ring made", "the loop made",
    *(
        f"{the}{centre} of {your}ring"
        for the in ("the ", "") for centre in ("centre", "center")
        for your in ("the ", "")
    ),
))  # fmt: skip
_WHERE_YOU_ARE = Sayings(("where you are", "the st you are in"))
_HERE = ("there", "it", "them", "here")
_RINGS = ("mr", "mc")
_BEGINNINGS = frozenset(
    word
    for sayings in (
        _BASE, _TOP_OF_IT, _JOINING, _POST_OF, _OTHER_SIDE, _WHERE_YOU_ARE, _RING,
    )
    for word in (*sayings.by_first_word, *_HERE, *_RINGS, "closing", "\n")
)  # fmt: skip
"""What such a phrase begins with, but for a leg: other words may stand before it."""


def read_named_place(cursor: Cursor, start: int) -> Target | None:
    """Targets that are named by a phrase of their own."""
    if not cursor.lacks(_SIDES) and _side_of_opening(cursor):
        return Target("gap", Which.NEXT, cursor.span_from(start))
    if cursor.token.text in _BEGINNINGS:
        return _named(cursor, start)
    leg = not cursor.lacks(_LEGS) and _leg(cursor)
    return Target("leg", Which.SAME, cursor.span_from(start)) if leg else None


BASE_OF = "base of"
"""What lies under a stitch of the first row: of which of them, no edge tells."""


def _base(cursor: Cursor, start: int) -> Target:
    """ "(The base of) the 3ch", where it stands; of a stitch, below the first row."""
    if _base_of_stitch(cursor):
        return Target(BASE_OF, Which.NEXT, cursor.span_from(start))
    _take_chain_name(cursor)
    return Target("base", Which.SAME, cursor.span_from(start))


def _base_of_stitch(cursor: Cursor) -> bool:
    """ "(The base of) next V-st", "each shell": under the first row."""
    at = cursor.at
    cursor.take_word("of")
    which = cursor.take_word("the", "next", "each", "last", "first", "every", "following")
    named = which and (cursor.stitch() is not None or cursor.take_word(*GROUP_NOUNS))
    if not named:
        cursor.at = at
    return named


def _named(cursor: Cursor, start: int) -> Target | None:
    span = cursor.token.span
    if cursor.take_any(_BASE):
        return _base(cursor, start)
    if cursor.is_word(*_HERE) and not _names_more(cursor):
        cursor.step()
        return Target("here", Which.SAME, span)
    if _top_of_it(cursor):
        return Target("tch", Which.NEXT, cursor.span_from(start))
    if cursor.take_any(_JOINING):
        return Target("base", Which.SAME, cursor.span_from(start))
    if _closing_stitch(cursor):
        return Target("made", Which.SAME, cursor.span_from(start))
    if cursor.take_any(_OTHER_SIDE):
        return Target("elsewhere", Which.SAME, cursor.span_from(start))
    if _leg(cursor):
        return Target("leg", Which.SAME, cursor.span_from(start))
    if cursor.take_any(_WHERE_YOU_ARE):
        return Target("base", Which.SAME, cursor.span_from(start))
    if _ring(cursor):
        return Target("ring", Which.SAME, cursor.span_from(start))
    return None


def _top_of_it(cursor: Cursor) -> bool:
    """ "The top of it", "the top of that"; not "the top of that same dc"."""
    at = cursor.at
    if cursor.take_any(_TOP_OF_IT) and not cursor.is_word("same"):
        return True
    cursor.at = at
    return False


def _ring(cursor: Cursor) -> bool:
    """ "The ring", "the loop made"; not "the loop made by the turning chain"."""
    at = cursor.at
    if cursor.take_word(*_RINGS):
        return True
    if cursor.take_any(_RING) and not cursor.is_word("by"):
        return True
    cursor.at = at
    return False


_SIDES = frozenset("side corner end".split())
_HOLES = ("opening", "gap", "hole", "armhole", "thumbhole", "slit")


def _side_of_opening(cursor: Cursor) -> bool:
    """ "The other side of the thumb opening": beside what was skipped, in none of it."""
    at = cursor.at
    cursor.take_word("the", "each", "a")
    cursor.take_word("other", "far", "first", "second", "left", "right", "opposite")
    side = cursor.take_word(*_SIDES) and cursor.take_word("of")
    if side:
        cursor.take_word("the")
        cursor.take_word("thumb", "arm", "same")
        if cursor.take_word(*_HOLES) or _stitch_beside(cursor):
            return True
    cursor.at = at
    return False


def _stitch_beside(cursor: Cursor) -> bool:
    """ "(The side of the) htr at the corner": of a stitch beside an opening."""
    named = cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None
    if not named or not cursor.take_word("at", "by", "beside", "next"):
        return False
    cursor.take_word("to")
    cursor.take_word("the", "a", "each")
    cursor.take_kind(Kind.ORDINAL)
    cursor.take_word("other", "same")
    return cursor.take_word("corner", "edge", "end", "side", *_HOLES)


_EVERYTHING = Sayings(
    f"{all_} {ahead}"
    for all_ in (
        "everything", "all", "whatever", "every one", "each one", "what", "those",
        "the ones", "the sts", "all those", "all sts", "all the sts",
    )
    for ahead in (
        "after it", "after that", "that follows", "that follow", "that is left", "left",
        "that comes after", "is left", "follows", "that remains", "remains", "to the end",
        "that are left", "after this", "left over", "that are left over", "leftover",
        "that is left over", "is left over", "that remain", "still left", "is still left",
    )
)  # fmt: skip


def read_everything(cursor: Cursor, start: int) -> Target | None:
    """ "In everything after it", "in all that is left", "in those left over"."""
    if cursor.take_any(_EVERYTHING):
        return everything(cursor.span_from(start))
    return None


def _closing_stitch(cursor: Cursor) -> bool:
    """ "the joining dc", "the post of the closing hdc": the loop that it has closed."""
    at = cursor.at
    cursor.take_any(_POST_OF)
    cursor.take_word("the")
    named = cursor.take_word("joining", "closing")
    stitch = cursor.stitch() if named else None
    if stitch is not None and stitch.family == "plain":
        cursor.take_phrase("just made", "join")
        return True
    cursor.at = at
    return False


_INSIDE = Sayings((
    "the inside of", "inside of", "the inner side of", "the outside of", "the back of",
    "the front of", "the top of", "the edge of",
))  # fmt: skip


_LEGS = frozenset("leg legs foot".split())


def _leg(cursor: Cursor) -> bool:
    """ "the 1st leg", "the other leg", "leg two": another part's open edge."""
    at = cursor.at
    cursor.take_any(_INSIDE)
    cursor.take_word("the", "each")
    while cursor.token.kind is Kind.ORDINAL or cursor.is_word(
        "other", "next", "left", "right"
    ):
        cursor.step()
    if cursor.take_word(*_LEGS):
        cursor.take_kind(Kind.NUMBER)
        return True
    cursor.at = at
    return False


def _names_more(cursor: Cursor) -> bool:
    """ "(In) it and the next one"; "(in) it and the same in each sp" is likewise work."""
    more = cursor.peek().text == "and" and cursor.peek(2).text == "the"
    return more and cursor.peek(3).text != "same"


def _take_chain_name(cursor: Cursor) -> None:
    """The chain in "base of the 3ch", whose length says nothing new."""
    if cursor.tokens[cursor.at - 1].text in ("ch", "chain"):
        take_chain_length(cursor)
        return
    at = cursor.at
    of = cursor.take_word("of")  # "the base of the 3 ch"
    cursor.take_word("the", "beg", "beginning", "turning", "same", "starting")
    at = at if of else cursor.at
    if cursor.token.kind is Kind.NUMBER:
        cursor.step()
        cursor.take_kind(Kind.DASH)
    if cursor.take_word("ch", "chain", "chs", "chains", "it", "tch"):
        take_chain_length(cursor)
    else:
        cursor.at = at
