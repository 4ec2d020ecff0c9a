"""Which gap is meant, and what lies on both sides of it: "between the next 2 groups"."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, ReadPlace, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.tree import Target, Which


def take_gap(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "the gap between the groups", "every space between the groups"."""
    target = _beside_chain(cursor, target)
    at = cursor.at
    if target.noun in ("sp", "gap") and cursor.is_word("before", "after"):
        before = cursor.step().text == "before"
        inner = read(cursor)
        if inner is not None and inner.which in (Which.FIRST, Which.LAST):
            which = Which.FIRST if before else Which.LAST
            if not before and inner.which is Which.FIRST:
                which = Which.NEXT  # "the gap after the first pair"
            return replace(target, noun="gap", which=which, of=inner)
        cursor.at = at
    if cursor.take_word("between") and target.noun in ("sp", "gap"):
        beside = _beside(cursor, read)
        if beside is not None:
            of, end = beside
            told = replace(target, noun="gap", which=end or target.which, of=of)
            return _from_edge(cursor, told, at)
    cursor.at = at
    return target


_BESIDE = Sayings(
    f"{right}{by} {chain}"
    for right in ("right ", "just ", "")
    for by in ("beside", "next to", "alongside", "behind")
    for chain in ("it", "this", "this chain", "this ch", "that chain", "that ch",
                  "the beginning chain", "the beginning ch")
)  # fmt: skip


def _beside_chain(cursor: Cursor, target: Target) -> Target:
    """ "The gap beside it, before the first pair": it is the beginning chain."""
    plain = target.noun == "gap" and target.which is Which.NEXT and target.of is None
    if not plain or not cursor.take_any(_BESIDE):
        return target
    ended = cursor.at
    cursor.take_kind(Kind.COMMA)
    if not cursor.is_word("before"):
        cursor.at = ended
    return replace(target, which=Which.FIRST)


def read_gap(cursor: Cursor, read: ReadPlace) -> Target | None:
    """After "between": "next 2 groups", "the first two groups and in each gap after"."""
    start = cursor.at
    within = _in_group(cursor, read, start)
    if within is not None:
        return within
    beside = _beside(cursor, read)
    if beside is None:
        cursor.at = start
        return None
    of, end = beside
    after = cursor.at
    if cursor.take_word("and"):
        cursor.take_word("in", "into")
        other = read(cursor)
        if other is not None and other.noun == "gap" and other.which is Which.EACH:
            cursor.take_phrase("after that", "after it", "after them", "thereafter")
            return replace(other, span=cursor.span_from(start))
    cursor.at = after
    plain = of is None or of.amount or of.which is Which.SKIPPED
    which = Which.NEXT if of is None or plain else of.which
    if of is not None and of.which in (Which.FIRST, Which.LAST, Which.EACH):
        which = of.which
    gap = Target("gap", end or which, cursor.span_from(start), of=of)
    return _from_edge(cursor, gap, start)


def _from_edge(cursor: Cursor, gap: Target, start: int) -> Target:
    """ "Between the edge pair and the first group": the second gap from the edge."""
    words = [token.text for token in cursor.tokens[start : cursor.at]]
    paired = any(one in _EDGES and other == "pair" for one, other in pairwise(words))
    ends = gap.which in (Which.FIRST, Which.LAST)
    return replace(gap, ordinal=_PAIR) if paired and ends else gap


_PAIR = 2


def _in_group(cursor: Cursor, read: ReadPlace, start: int) -> Target | None:
    """ "The 2nd and 3rd dc of next shell": between two stitches of a group."""
    cursor.take_word("the")
    if cursor.is_kind(Kind.ORDINAL):
        number = cursor.step().value
        _pass_noun(cursor)
        joined = cursor.take_word("and")
        cursor.take_word("the")
        if joined and cursor.is_kind(Kind.ORDINAL):
            cursor.step()
            _pass_noun(cursor)
            group = read(cursor) if cursor.take_word("of", "in", "from") else None
            if group is not None:
                span = cursor.span_from(start)
                return Target("gap", Which.NTH, span, ordinal=number, of=group)
    cursor.at = start
    return None


def _pass_noun(cursor: Cursor) -> None:
    if cursor.stitch() is None:
        cursor.take_word(*STITCH_NOUNS)


_EDGES = frozenset("edge end side".split())


def _beside(cursor: Cursor, read: ReadPlace) -> tuple[Target | None, Which | None] | None:
    """What a gap lies between, and whether it is the first or the last of the row.

    Reads "the groups", "next 2 dc", "that edge and the first group", "the last group and
    the turning chain".
    """
    at = cursor.at
    if cursor.take_word("the", "every", "any") and not cursor.is_word("two", "2"):
        cursor.at = at
    first, edge = _one_side(cursor, read)
    if first is None and not edge:
        return None
    at = cursor.at
    joined = cursor.take_word("and")
    second, other_edge = _one_side(cursor, read) if joined else (None, False)
    if second is None and not other_edge:
        cursor.at = at
        return first, None
    if second is not None and second.which is Which.SKIPPED:
        return second, None
    for here, there, beyond in ((first, second, other_edge), (second, first, edge)):
        alone = beyond or there is None or there.noun in ("tch", "ch", "here")
        if here is not None and alone and here.which is Which.LAST:
            return here, Which.LAST
        if here is not None and alone and here.which is Which.FIRST:
            return here, Which.FIRST
    if edge or (first is not None and first.noun in ("tch", "ch", "here")):
        return second or first, Which.FIRST
    ends = other_edge or (second is not None and second.noun in ("tch", "ch"))
    return first, Which.LAST if ends else None


def _one_side(cursor: Cursor, read: ReadPlace) -> tuple[Target | None, bool]:
    """One side of a gap: a stitch or group, or the edge of the piece."""
    at = cursor.at
    if cursor.take_word("it"):
        return None, True
    cursor.take_word("the", "that", "this")
    if cursor.take_word(*_EDGES):
        _at_edge(cursor)
        return None, True
    cursor.at = at
    return read(cursor), False


def _at_edge(cursor: Cursor) -> None:
    """ "(The edge) st", "tr", "pair": what stands at the edge of the piece."""
    if not cursor.take_word(*STITCH_NOUNS, "pair"):
        cursor.stitch()
