"""What is told once of many alike: "for each petal work sc, 3 dc, sc in a loop"?

Where all of it goes into one space, each of them takes it; where it does not, nobody knows
how many there are.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.chain_phrases import read_chain
from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Target,
    Times,
    Unworked,
    Which,
)

FOR_EACH_SIGNS = frozenset(
    "petal point scallop leaf ray spoke loop arch space hole tooth wing".split()
)
_EACH = ("each", "every")
_WORK = ("work", "make", "do")
_SENTENCE_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.END)


def read_for_each(reader: Reader) -> bool:
    """ "For each petal work ...", up to the end of the sentence."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("then", "and", "now")
    led = not reader.depth and cursor.take_word("for") and cursor.take_word(*_EACH)
    if not led or not cursor.take_word(*FOR_EACH_SIGNS):
        cursor.at = start
        return False
    marked = cursor.take_kind(Kind.COMMA, Kind.COLON)
    if not cursor.take_word(*_WORK) and not marked:
        cursor.at = start
        return False
    inner = reader.inner()
    while not cursor.is_kind(*_SENTENCE_ENDS):
        inner.read_next()
    body = tuple(node for node in fold(inner.items) if not isinstance(node, Remark))
    span = cursor.span_from(start)
    space = _one_space(body)
    if space is None:
        return reader.add(Unworked(span, "told for each"))
    each = replace(space, which=Which.EACH, span=span)
    return reader.add(InOnePlace(tuple(map(_unplaced, body)), each, span))


_FOLLOWED = Sayings(
    f"{lead}{each} followed by"
    for lead in ("", "with ")
    for each in ("each", "each one", "each of them", "every one", "all")
)


def read_followed_by(reader: Reader) -> bool:
    """ "(In the ring: 6 sc,) each followed by ch 3": the chain behind every one of them."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    several = isinstance(last, Make) and last.amount is not None
    if not several or not isinstance(last, Make) or not cursor.take_any(_FOLLOWED):
        return False
    cursor.take_word("a", "one")
    chain = read_chain(cursor)
    target = last.target
    ring = target is None or target.noun == "ring"
    if chain is None or last.amount is None or not ring:
        cursor.at = start
        return False
    span = last.span.to(cursor.span_from(start))
    times = Times(Often.TIMES, last.amount.span, last.amount)
    one = replace(last, amount=None, target=None)
    group: Node = Repeat((one, chain), times, span, mark="(")
    reader.items[-1] = group if target is None else InOnePlace((group,), target, span)
    return True


def _one_space(body: tuple[Node, ...]) -> Target | None:
    """The space that the last stitch of a list is told to go into, and no other is."""
    last = body[-1] if body else None
    if not all(isinstance(node, (Make, Chain)) for node in body):
        return None
    placed = [n.target for n in body if isinstance(n, Make) and n.target is not None]
    at_end = isinstance(last, Make) and placed == [last.target]
    space = placed[0] if at_end else None
    alone = space is not None and space.noun == "sp" and space.amount is None
    return space if alone else None


def _unplaced(node: Node) -> Node:
    return replace(node, target=None) if isinstance(node, Make) else node
