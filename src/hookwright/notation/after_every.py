"""What is worked behind every nth stitch: "sc in each st, with a picot after every 3rd"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.every_nth import is_of_all
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import EACH_WORDS, STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Target,
    Times,
    Which,
)

AFTER_SIGNS = frozenset(("after", "behind", "following"))
"""Words of which one stands in whatever is read here."""
_ENDS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE, Kind.OPEN,
)  # fmt: skip


def read_after_every(reader: Reader) -> bool:
    """What was told last stands behind every nth of the stitches told before it."""
    cursor = reader.cursor
    start = cursor.at
    number = _number(cursor) if cursor.take_word(*AFTER_SIGNS) else None
    if number is None or not cursor.is_kind(*_ENDS):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    at = len(reader.items)
    added: list[Node] = []
    while at > reader.sentence and isinstance(reader.items[at - 1], _ADDED):
        at -= 1
        item = reader.items[at]
        if isinstance(item, Make) and item.target is not None:
            break
        if isinstance(item, (Make, Chain, InOnePlace)):
            added.insert(0, item)
    all_ = reader.items[at] if at < len(reader.items) else None
    if not added or not isinstance(all_, Make) or not is_of_all(all_):
        cursor.at = start
        return False
    some = Target("st", Which.NEXT, all_.span, number)
    body = (replace(all_, amount=None, target=some), *added)
    repeat = Repeat(body, Times(Often.ACROSS, span), all_.span.to(span))
    left = replace(all_, target=Target("st", Which.EACH, all_.span), if_left=True)
    reader.items[at:] = [repeat, left]
    return True


_ADDED = (Make, Chain, InOnePlace, Remark)


def _number(cursor: Cursor) -> Amount | None:
    """The 3 of "every third sc", "every 3 sts"."""
    if not cursor.take_word(*EACH_WORDS):
        return None
    token = cursor.token
    counted = cursor.take_kind(Kind.ORDINAL)
    amount = Amount((token.value,), token.span) if counted else cursor.number()
    cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    return amount
