"""Lists worked into one place: "in next sp make 2 dc, ch 2, 2 dc", "... all in next ch"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import Item, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import EACH_WORDS, INTO, across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_ordinal_from_hook, read_target
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Join,
    Make,
    Node,
    Repeat,
    Target,
    Which,
    Yarn,
)
from hookwright.source import Span

WORKED_WORDS = ("make", "work", "do", "put", "place", "worked")


_BEGINNING = ("beginning", "starting", "begin", "start")


def read_place_first(reader: Reader) -> bool:
    """ "in next sp make 2 dc, ch 2 and 2 dc", "into the ch-2 sp: sl st, ch 2, 3 hdc"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then", "working", "work")
    begins = start > 0 and cursor.tokens[start - 1].text in _BEGINNING
    if begins or not cursor.take_word(*INTO):  # "beginning in same st, [sc, dc] 4 times"
        cursor.at = start
        return False
    target = _named_first(reader)
    if target is None:
        cursor.at = start
        return False
    further = _further_first(reader)
    listed = cursor.take_kind(Kind.COLON)
    listed = (cursor.take_kind(Kind.COMMA) and target.noun == "ring") or listed
    listed = cursor.take_word(*WORKED_WORDS) or listed
    inner = reader.inner()
    body = _list_for_place(inner, listed=listed)
    if not any(isinstance(node, (Make, InOnePlace, Repeat)) for node in body):
        cursor.at = start
        return False
    _put_in_place(reader, body, target, cursor.span_from(start), inner.called)
    for other in further:
        _put_in_place(reader, body, other, other.span, inner.called)
    return True


def _named_first(reader: Reader) -> Target | None:
    target = read_ordinal_from_hook(reader.cursor) or read_target(reader.cursor)
    if target is not None and target.which is Which.EACH:
        across(reader.cursor)
    return target


def _further_first(reader: Reader) -> list[Target]:
    """ "In same sp and in each sp around make ...": the other places of the same list."""
    cursor = reader.cursor
    found: list[Target] = []
    start = cursor.at
    while True:
        at = cursor.at
        cursor.take_kind(Kind.COMMA)
        led = cursor.take_word("and", "then") and cursor.take_word(*INTO)
        target = _named_first(reader) if led else None
        if target is None:
            cursor.at = at
            break
        found.append(target)
    if found and not (cursor.is_kind(Kind.COLON) or cursor.is_word(*WORKED_WORDS)):
        cursor.at = start
        return []
    return found


def _list_for_place(inner: Reader, *, listed: bool) -> tuple[Node, ...]:
    """What is worked in a place named first: a bracket, a list, or one phrase."""
    cursor = inner.cursor
    while not cursor.done() and cursor.token.kind not in (
        Kind.SEMICOLON,
        Kind.STOP,
        Kind.CLOSE,
        Kind.STAR,
    ):
        if cursor.is_word("rep", "repeat", "turn", "join", "skip", "sk", "miss"):
            break
        at, known = cursor.at, len(inner.items)
        inner.read_next()
        if any(_has_place(item) for item in inner.items[known:]):
            del inner.items[known:]
            cursor.at = at
            break
        if not listed and inner.items:
            break
    return fold(inner.items)


def _has_place(item: Item) -> bool:
    """Whether an item names a place of its own, so that it ends the list for this one."""
    if isinstance(item, InOnePlace):
        return True
    target = item.target if isinstance(item, Make) else None
    if target is None or target.from_hook:  # a picot: into the chain just made
        return False
    return target.which is not Which.SAME


def _put_in_place(
    reader: Reader, body: tuple[Node, ...], target: Target, span: Span, name: str
) -> bool:
    first = body[0]
    if len(body) == 1 and isinstance(first, Make) and not name:
        return reader.add(replace(first, target=target, span=span))
    if target.noun == "ring" and isinstance(first, Chain):  # the round begins in the ring
        reader.items.extend(
            replace(node, target=target)
            if isinstance(node, Make) and node.target is None else node
            for node in body
        )  # fmt: skip
        return True
    return reader.add(InOnePlace(body, target, span, name))


def is_one_space(target: Target) -> bool:
    """A single chain space: "1 sc, 5 dc and 1 sc in next loop" all go into it."""
    single = target.which not in (Which.EACH, Which.ANY)
    return target.noun == "sp" and target.amount is None and single


def where_it_begins(reader: Reader, target: Target | None) -> Target | None:
    """ "Sl st into first ch-1 sp, ch 2, *dc in the sp": the one that was slipped into.

    So is "sl st to center of first loop, ch 1, sc in loop".
    """
    if target is None or target.noun not in _SPACES or target.which is not Which.NEXT:
        return target
    said = reader.text[target.span.start : target.span.end].lower().split()
    told = said[:1] == ["the"] or not _TELLS_WHICH & {*said}
    if not told or "next" in said or target.amount or target.of:
        return target
    last = None
    for item in reader.items:
        joined = isinstance(item, (Yarn, Join)) and item.target is not None
        if joined or (isinstance(item, Make) and item.stitch == "sl st"):
            last = getattr(item, "target", None)
        elif isinstance(item, (Make, InOnePlace, Repeat)):
            return target
    into_space = last is not None and last.noun in _SPACES
    return replace(target, begun=True) if into_space else target


_TELLS_WHICH = frozenset("next following each every same first last any this that".split())


def grow_from_space(reader: Reader) -> bool:
    """ "sl st in next ch-3 sp, ch 3, 3 dc in same sp": a group that stands in it."""
    body = grown_from_space(reader.items[-3:]) if _goes_on(reader) else ()
    slip = reader.items[-3] if body else None
    if not isinstance(slip, Make) or slip.target is None:
        return False
    reader.items[-3:] = [InOnePlace(body, slip.target, slip.span.to(body[-1].span))]
    return True


def grown_from_space(items: Sequence[Item]) -> tuple[Node, ...]:
    """What a slip stitch into a space, a chain and stitches there make; () for others."""
    if len(items) != 3:
        return ()
    slip, chain, made = items
    if not isinstance(slip, Make) or slip.stitch != "sl st" or slip.target is None:
        return ()
    if not isinstance(chain, Chain) or not isinstance(made, Make) or made.target is None:
        return ()
    single = slip.target.noun == "sp" and slip.target.amount is None
    if not single or made.target.which is not Which.SAME:
        return ()
    return replace(slip, target=None), chain, replace(made, target=None)


def _goes_on(reader: Reader) -> bool:
    """Whether the slip stitch is not the first thing of the row: that only travels."""
    return reader.depth > 0 or len(reader.items) > 3


_SPACES = ("sp", "corner")
_ONE_STITCH = (Which.NEXT, Which.FIRST, Which.LAST)


_FOR_CORNER = Sayings(
    f"{for_} {the}{kind}corner"
    for for_ in ("for", "as", "to make", "to form", "making", "forming")
    for the in ("a ", "the ", "each ", "")
    for kind in ("raglan ", "new ", "first ", "next ", "")
)
"""What is told to be a corner goes into one place: "dc, ch 2, dc in next for a corner"."""


def gather_around_chain(reader: Reader, *, joined: bool = False) -> bool:
    """ "3 dc, ch 2, 3 dc in next corner": both sides of a chain go into the one place.

    Into a stitch they go where they are joined: "dc, ch 1 and dc in next sc".
    """
    if len(reader.items) < 3:
        return False
    before, chain, made = reader.items[-3:]
    target = made.target if isinstance(made, Make) else None
    bare = isinstance(before, Make) and before.target is None
    if target is not None and target.from_hook:
        return _gather_at_hook(reader, target)
    if target is None or target.amount or not bare or not isinstance(chain, Chain):
        return False
    here = target.noun == "here" and target.which is Which.SAME
    placed = target.noun in _SPACES or here
    joined = joined or reader.cursor.is_any(_FOR_CORNER)
    if not placed and not (joined and target.which in _ONE_STITCH):
        return False
    assert isinstance(before, Make)
    assert isinstance(made, Make)
    if target.which is Which.SAME:  # the first of them stand beside the beginning chain
        reader.items[-3] = replace(before, target=target)
        return True
    with_chain = not _alike(before, made)
    if with_chain and not _alike_with_chain(reader, before, made):
        return False
    said = reader.text[target.span.start : target.span.end].lower()
    if with_chain and target.which is Which.NEXT and "next" not in said:
        target = replace(target, which=Which.SAME)
    reader.items[-1] = replace(made, target=None)
    body = fold(reader.items[-3:])
    reader.items[-3:] = [InOnePlace(body, target, before.span.to(made.span))]
    return True


def _gather_at_hook(reader: Reader, target: Target) -> bool:
    """ "Ch 4, 4 dc, ch 2, 5 dc in 4th ch from hook": there is no other place for them.

    A chain between them is too short to be the one counted along: "6 sc, ch 3, dc in 3rd".
    """
    first = next((i for i, item in enumerate(reader.items) if isinstance(item, Make)), 0)
    *others, made = reader.items[first:]
    bare = all(
        _is_shorter(item, target.ordinal or 0)
        or (isinstance(item, Make) and item.target is None)
        for item in others
    )
    if not (others and bare and isinstance(made, Make)) or made.stitch == "sl st":
        return False
    body = fold([*others, replace(made, target=None)])
    reader.items[first:] = [InOnePlace(body, target, body[0].span.to(target.span))]
    return True


def _is_shorter(item: Item, chains: int) -> bool:
    return isinstance(item, Chain) and (item.amount.at(0) or 0) < chains


def gather_scallop(reader: Reader) -> bool:
    """ "1 sc, 5 dc and 1 sc in each loop": what rises and falls goes into each whole."""
    first = len(reader.items) - 1
    made = reader.items[-1]
    target = made.target if isinstance(made, Make) else None
    each = target is not None and target.which is Which.EACH and target.amount is None
    if target is None or not each or target.noun not in _SPACES:
        return False
    while first > reader.sentence and _is_bare(reader.items[first - 1]):
        first -= 1
    makes = [item for item in reader.items[first:] if isinstance(item, Make)]
    if len(makes) < _RISES_AND_FALLS or not _alike(makes[0], makes[-1]):
        return False
    reader.items[-1] = replace(makes[-1], target=None)
    body = fold(reader.items[first:])
    span = body[0].span.to(target.span)
    reader.items[first:] = [InOnePlace(body, target, span)]
    return True


_RISES_AND_FALLS = 3


def _is_bare(item: Item) -> bool:
    """Whether an item is so many stitches, and no place is told for them."""
    return isinstance(item, Make) and item.target is None and item.amount is not None


def _alike_with_chain(reader: Reader, before: Make, made: Make) -> bool:
    """ "Ch 3, 2 dc, ch 2, 3 dc into the corner": the chain is the third of the first."""
    begins = [i for i, item in enumerate(reader.items) if isinstance(item, Chain)]
    numbers = [make.amount.at(0) if make.amount else 1 for make in (before, made)]
    one_less = (numbers[0] or 0) + 1 == numbers[1] and before.stitch == made.stitch
    if made.target is not None and made.target.which is Which.FIRST:
        return False  # slipped to in silence, each stitch of its own
    return one_less and begins[:1] == [len(reader.items) - 4]


def _alike(a: Make, b: Make) -> bool:
    numbers = [make.amount.values if make.amount else (1,) for make in (a, b)]
    return a.stitch == b.stitch and numbers[0] == numbers[1]


_ALL_IN = Sayings(("all in", "all into", "all worked in", "all worked into"))


def read_all_in_one(reader: Reader) -> bool:
    """ "work 1 sc, ch 2 and 2 dc all in next ch": the list since the sentence began."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.take_any(_ALL_IN):
        cursor.at = at
        return True
    target = read_target(cursor)
    if target is None:
        cursor.at = at
        return True
    gather(reader, target)
    return True


def all_in_place(reader: Reader, start: int) -> bool:
    """Whether the make read since `start` says "all in": its place is one for a list."""
    tokens = reader.cursor.tokens[start : reader.cursor.at]
    return any(a.text == "all" and b.text in ("in", "into") for a, b in pairwise(tokens))


def gather(reader: Reader, target: Target) -> None:
    """Folds the bare items of this sentence into one place."""
    begin = len(reader.items)
    while begin > reader.sentence:
        item = reader.items[begin - 1]
        if not (
            isinstance(item, Chain) or (isinstance(item, Make) and item.target is None)
        ):
            break
        begin -= 1
    body = fold(reader.items[begin:])
    only = body[0] if len(body) == 1 else None
    if isinstance(only, Make):
        reader.items[begin:] = [replace(only, target=target)]
    elif body:
        span = body[0].span.to(target.span)
        reader.items[begin:] = [InOnePlace(body, target, span)]


def gather_with_chain(reader: Reader) -> bool:
    """ "Puff, ch 1 in each of the 16 sc": the stitch and the chain, in each of them."""
    cursor = reader.cursor
    start = cursor.at
    over = cursor.is_word("for")
    each = cursor.take_word("in", "into", "for") and cursor.is_word(*EACH_WORDS)
    first = _first_placeless(reader.items) if each else 0
    body = fold(reader.items[first:]) if each else ()
    target = read_target(cursor) if body and each else None
    target = None if target is not None and over and target.noun != "sp" else target
    if target is None or target.which is not Which.EACH:
        cursor.at = start
        return False
    across(cursor)
    span = body[0].span.to(cursor.span_from(start))
    reader.items[first:] = [InOnePlace(body, target, span)]
    return True


def _first_placeless(items: Sequence[Item]) -> int:
    """Where a list of stitches and chains without a place begins, at the end of a row."""
    first = len(items)
    while first and (
        isinstance(items[first - 1], Chain) or _is_placeless(items[first - 1])
    ):
        first -= 1
    while first < len(items) and isinstance(items[first], Chain):
        first += 1  # the one that a round begins with
    return first


def _is_placeless(item: Item) -> bool:
    """Whether a stitch is told without its place."""
    return isinstance(item, Make) and item.target is None and item.legs == 1
