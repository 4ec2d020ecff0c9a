"""How far does a list go on that has no star: "sc in 2, skip 1, and so on around"?

Whatever the row has worked since its beginning chain is the group. One that was told more
than once, "sc in first dc, ch 2, sc in next dc, ch 2, and so on", is its shortest part.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, Item, Star, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.markers import read_up_to_marker
from hookwright.notation.ordinals import counted_on
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.rebuilding import bare
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Join,
    Loops,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Skip,
    Target,
    Times,
    Turn,
    Which,
    Yarn,
)

_SO_ON = Sayings((
    "so on", "so forth", "etc", "alternating", "keep alternating", "by turns", "in turn",
    "alternately", "turn and turn about", "over and over", "repeat like this",
    "repeat in this way", "repeating like this", "repeat this", "repeat that",
    *(
        f"{on} {so}"
        for on in ("keep on", "keep going", "carry on", "continue", "go on", "keep at it",
                   "continue on", "continue round", "continue around", "keep working")
        for so in ("like that", "like this", "in this way", "that way", "this way", "so",
                   "in the same way", "in this manner", "alternating", "in that way",
                   "in turn", "by turns")
    ),
))  # fmt: skip
SO_ON_SIGNS = frozenset(_SO_ON.by_first_word)
_GROUP_MARKS = (Kind.COMMA, Kind.SEMICOLON, Kind.DASH)
_IN_GROUP = (Make, InOnePlace, Skip, Chain, Remark)
_BEFORE_GROUP = (Chain, Turn, Loops, Remark, Yarn, Join)


def read_and_so_on(reader: Reader) -> bool:
    """ "..., and so on around", "keep alternating", "carry on like this to the marker"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    if not cursor.take_any(_SO_ON):
        cursor.at = start
        return False
    return _as_repeat(reader, start, told=True)


def read_list_along(reader: Reader) -> bool:
    """ "Sc in 1, 2 sc in 1, to end of round": the list, and not its last stitch alone."""
    cursor = reader.cursor
    start = cursor.at
    marked = cursor.tokens[start - 1].kind in _GROUP_MARKS and across(cursor)
    placed = cursor.is_word("the", "each", "next", "every", "a")  # "around the post of"
    cursor.at = start
    if not marked or placed:
        return False
    return _as_repeat(reader, start, told=False)


def read_first_of_list(reader: Reader) -> bool:
    """ "(Fpdc and bpdc by turns), beginning with a bpdc": which of them comes first."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    one_more = isinstance(last, Make) and last.if_left
    at = len(reader.items) - 1 - one_more
    last = reader.items[at] if at >= 0 else None
    if not isinstance(last, Repeat) or last.times.often is not Often.ACROSS:
        return False
    if not cursor.take_any(_BEGUN):
        return False
    cursor.take_word("a", "an", "the", "one") or cursor.take_kind(Kind.NUMBER)
    stitch = cursor.stitch()
    names = [node.stitch if isinstance(node, Make) else "" for node in last.body]
    ends = cursor.is_kind(*_ENDS) or cursor.is_word("and", "ending")
    if stitch is None or stitch.id not in names or not ends:
        cursor.at = start
        return False
    first = names.index(stitch.id)
    body = (*last.body[first:], *last.body[:first])
    reader.items[at] = replace(last, body=body)
    begun = body[0]
    if one_more and isinstance(begun, Make):
        reader.items[-1] = replace(begun, if_left=True)
    return reader.remark(cursor.span_from(start))


_BEGUN = Sayings(
    f"{lead}{begin} {by}"
    for lead in ("", "always ")
    for begin in ("beginning", "begin", "starting", "start")
    for by in ("with", "on")
)
_ENDS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.END, Kind.LINE)


def _as_repeat(reader: Reader, start: int, *, told: bool) -> bool:
    cursor = reader.cursor
    _how_far(cursor)
    span = cursor.span_from(start)
    starred = reader.number_of(Star) % 2
    begins = _begins(reader.items)
    group = reader.items[begins:]
    works = [item for item in group if isinstance(item, (Make, InOnePlace))]
    enough = works if told else works[1:]
    if not enough or reader.depth or not all(map(_in_group, group, [starred] * len(group))):
        cursor.at = start
        return False
    times = Times(Often.ACROSS, span)
    if starred:
        return reader.add(Again(0, 0, times, span))
    body = _once(counted_on(_begun_next(fold(group))))
    reader.items[begins:] = [Repeat(body, times, body[0].span.to(span))]
    return True


def _how_far(cursor: Cursor) -> None:
    """ "All the way around", "until you reach the marker": to the end of the row."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if across(cursor):
        return
    marker = read_up_to_marker(cursor)
    if marker is None or marker.amount is not None:
        cursor.at = at


def _begins(items: Sequence[Item]) -> int:
    """Where the group begins: behind the chain that the row begins with."""
    begin = 0
    while begin < len(items) and isinstance(items[begin], _BEFORE_GROUP):
        begin += 1
    return begin


def _in_group(item: Item, starred: int) -> bool:
    """Whether an item may be one of a list that is worked over and over."""
    if starred and isinstance(item, Star):
        return True
    target = item.target if isinstance(item, (Make, InOnePlace)) else None
    if target is not None and (target.from_hook or target.noun == "ring"):
        return False
    whole = target is not None and target.which is Which.EACH and target.amount is None
    return isinstance(item, _IN_GROUP) and not whole


def _once(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """The shortest list that all of them are."""
    nodes = tuple(node for node in nodes if not isinstance(node, Remark))
    shapes = [bare(node) for node in nodes]
    for size in range(1, len(nodes)):
        if all(one == shapes[i % size] for i, one in enumerate(shapes)):
            return nodes[:size]
    return nodes


def _begun_next(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """ "One in the first, two in the second": the first of each time is the next one."""
    return tuple(map(_into_next, nodes))


def _into_next(node: Node) -> Node:
    target = node.target if isinstance(node, (Make, InOnePlace)) else None
    if target is None or not isinstance(node, (Make, InOnePlace)) or not _is_first(target):
        return node
    return replace(node, target=replace(target, which=Which.NEXT))


def _is_first(target: Target) -> bool:
    return target.which is Which.FIRST and target.of is None
