"""How far does a row go that is told by markers: "until 2 sts before next marker"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.tree import Target, Which

MARKER = "marker"
"""The noun of a target that ends at a marker, so many stitches before it."""

_TO = Sayings(("up to", "up until", "until", "till", "til", "to", "as far as"))
_COMES = Sayings((
    "you reach", "you get to", "you come to", "reaching", "within", "there are",
    "there is", "you are",
))  # fmt: skip
_BEFORE = Sayings((
    "before", "away from", "from", "short of", "remain before", "remains before", "of",
    "are left before", "is left before", "left before",
))  # fmt: skip
_NAMED = frozenset(
    "the a next first second last following other same your stitch st sleeve thumb raglan "
    "side shoulder underarm gusset center centre".split()
)


def read_up_to_marker(cursor: Cursor) -> Target | None:
    """ "To marker", "to last 2 sts before the next marker"; None with the position kept."""
    start = cursor.at
    if cursor.take_any(_TO):
        cursor.take_any(_COMES)
        at = cursor.at
        cursor.take_word("the", "last")
        cursor.take_word("last")
        amount = cursor.number()
        counted = cursor.take_word(*STITCH_NOUNS)
        before = cursor.take_any(_BEFORE)
        if not before or (amount is not None and not counted):
            cursor.at, amount = at, None
        if _marker(cursor):
            span = cursor.span_from(start)
            return Target(MARKER, Which.NEXT, span, amount if before else None)
    cursor.at = start
    return None


def _marker(cursor: Cursor) -> bool:
    """ "The next marker", "first thumb marker", "m", "the next marked st"."""
    while cursor.token.kind is Kind.ORDINAL or cursor.is_word(*_NAMED):
        cursor.step()
    if cursor.take_word("marked"):
        return cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None
    return cursor.take_word("marker", "markers", "m")
