"""Every second place, or third: "sc in every other st" is a stitch, and one passed by.

Beside an increase a plain stitch is meant: "inc in every other st".
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.cursor import Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.times import GOAL
from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Join,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Skip,
    Target,
    Times,
    Which,
)
from hookwright.notation.unnamed import UNNAMED
from hookwright.notation.vocabulary import is_increase


def every_nth(nodes: Iterable[Node]) -> tuple[Node, ...]:
    """The instructions of a row, those for every second place written out as a repeat."""
    rest, done = tuple(nodes), list[Node]()
    while rest:
        chained = _with_chain_between(rest)
        if chained is not None:
            done.append(chained)
            rest = rest[_CHAINED:]
            continue
        between = _between(rest)
        every = _every_nth_of_all(rest)
        if every is not None:
            done.append(_with_those_between(rest[every], rest[0], None))
            rest = rest[every + 1 :]
            continue
        among = _among_others(rest) if between is None else None
        if between is not None:
            before = done[-1] if done else None
            done.append(_with_those_between(rest[0], rest[between], before))
            rest = rest[between + 2 :]
        elif among is not None:
            done.extend(among.written)
            rest = rest[among.used :]
        else:
            node = _written_out(rest[0])
            before = next((n for n in reversed(done) if not isinstance(n, Remark)), None)
            if isinstance(node, Repeat) and _after_one(before, rest[0]):
                node = replace(node, body=node.body[::-1])  # first those passed over
            done.append(node)
            rest = rest[1:]
    return tuple(done)


def _every_nth_of_all(nodes: tuple[Node, ...]) -> int | None:
    """Where every nth is told behind all: "hdc around, working 2 in every 3rd st"."""
    at = next((i for i, n in enumerate(nodes) if i and not isinstance(n, Remark)), 0)
    all_of_them, every = nodes[0], nodes[at]
    if not at or not isinstance(all_of_them, Make) or not isinstance(every, Make):
        return None
    whole, some = all_of_them.target, every.target
    if whole is None or some is None or not _is_every_nth(some):
        return None
    alone = whole.which is Which.EACH and whole.noun == "st" and not whole.also
    told = whole.amount or whole.until or whole.ordinal or all_of_them.amount
    more = every.stitch == all_of_them.stitch or is_increase(every.stitch)
    return at if alone and not told and more else None


_CHAINED = 3


def _with_chain_between(nodes: tuple[Node, ...]) -> Repeat | None:
    """ "Dc in every second dc with 1 ch between", in a round: a chain behind each."""
    if len(nodes) < _CHAINED or not _is_nth(nodes[0]) or not isinstance(nodes[1], Chain):
        return None
    said = nodes[2].words.lower().split() if isinstance(nodes[2], Remark) else []
    if not any(map(_joins, nodes[_CHAINED:])) or "between" not in said[:2]:
        return None
    repeat = _written_out(nodes[0])
    if not isinstance(repeat, Repeat):
        return None
    return replace(repeat, body=(*repeat.body, nodes[1]))


def _joins(node: Node) -> bool:
    return isinstance(node, Join) or (isinstance(node, Make) and node.stitch == "sl st")


class _Among(Struct, frozen=True):
    """A repeat of every nth place and of those before it, and how many nodes tell it."""

    written: tuple[Node, ...]
    used: int


def _among_others(nodes: tuple[Node, ...]) -> _Among | None:
    """ "2 sc in every fourth sc, sc in the others", "sc around, 2 sc in every 4th"."""
    at = next((i for i, n in enumerate(nodes) if i and not isinstance(n, Remark)), 0)
    if not at:
        return None
    first, second = nodes[0], nodes[at]
    if _is_nth(first) and is_of_all(second) and _is_worked(first):
        every, others = first, second
    elif _is_nth(second) and _stands_among(second, first) and _works_all(first):
        every, others = second, first
    else:
        return None
    assert isinstance(every, (Make, InOnePlace, Skip))
    assert isinstance(others, Make)
    return _Among(_with_those_before(every, others), at + 1)


def _is_nth(node: Node) -> bool:
    target = node.target if isinstance(node, (Make, InOnePlace, Skip)) else None
    return target is not None and _is_every_nth(target)


def _works_all(node: Node) -> bool:
    """ "Sc around", or "single crochet, (working twice in each eighth st)"."""
    bare = isinstance(node, Make) and node.target is None and node.amount is None
    return is_of_all(node) or (bare and isinstance(node, Make) and node.legs == 1)


def is_of_all(node: Node) -> bool:
    """Whether one stitch is worked in each place: "sc in the others", "sc around"."""
    target = node.target if isinstance(node, Make) else None
    if target is None or not isinstance(node, Make) or target.ordinal or target.until:
        return False
    every = target.which is Which.EACH and target.amount is None and not target.also
    one = node.amount is None or node.amount.values == (1,)
    return every and one and node.legs == 1 and target.noun not in _NO_STITCHES


_NO_STITCHES = ("gap", "corner", "sp", "group")


def _is_worked(every: Node) -> bool:
    """Whether something is worked in every nth stitch: "2 sc in every 4th sc"."""
    target = every.target if isinstance(every, (Make, InOnePlace)) else None
    return target is not None and target.noun not in _NO_STITCHES


def _stands_among(every: Node, others: Node) -> bool:
    """Whether what is told of every nth place differs from what all places get."""
    if not isinstance(others, Make):
        return False
    if isinstance(every, Skip):
        return others.target is not None
    if isinstance(every, Make) and every.stitch == others.stitch:
        return every.amount is not None and every.amount.values != (1,)
    return _is_worked(every)


def _with_those_before(every: Make | InOnePlace | Skip, others: Make) -> tuple[Node, ...]:
    """The repeat of the others and of every nth, and the others in what is left then."""
    target = every.target
    assert target is not None
    number = Amount(((target.ordinal or 2) - 1,), target.span)
    one = replace(target, which=Which.NEXT, ordinal=None, until=None, amount=None)
    filled = replace(
        others, amount=None, target=Target("st", Which.NEXT, others.span, number)
    )
    span = others.span.to(every.span) if others.span.start < every.span.start else None
    span = span or every.span.to(others.span)
    repeat = Repeat(
        (filled, replace(every, target=one)), _as_far_as(target.until, target), span
    )
    left = replace(others, target=Target("st", Which.EACH, others.span), if_left=True)
    return repeat, left


def _between(nodes: tuple[Node, ...]) -> int | None:
    """Where it is told what lies between: "every 4th st, with sc in the sts between".

    None where nothing is told to be.
    """
    target = nodes[0].target if isinstance(nodes[0], Make) else None
    if target is None or not _is_every_nth(target):
        return None
    at = next((i for i, n in enumerate(nodes) if i and not isinstance(n, Remark)), 0)
    others = nodes[at : at + 2]
    if not at or len(others) < _PAIR or not isinstance(others[0], Make):
        return None
    said = others[1].words.lower().split() if isinstance(others[1], Remark) else []
    one = others[0].target is not None and others[0].target.amount is None
    return at if one and said[:1] == ["between"] else None


_PAIR = 2


def _with_those_between(every: Node, others: Node, before: Node | None) -> Node:
    """The repeat of both: behind a first one of its kind it begins with the others."""
    assert isinstance(every, Make)
    assert isinstance(others, Make)
    target = every.target
    assert target is not None
    number = Amount(((target.ordinal or 2) - 1,), target.span)
    one = replace(target, which=Which.NEXT, ordinal=None, until=None, amount=None)
    filled = replace(others, target=Target("st", Which.NEXT, others.span, number))
    begun = isinstance(before, Make) and before.stitch == every.stitch
    own = replace(every, target=one)
    body = (filled, own) if begun else (own, filled)
    return Repeat(body, _as_far_as(target.until, target), every.span)


def _written_out(node: Node) -> Node:
    if isinstance(node, Repeat):
        return replace(node, body=every_nth(node.body))
    target = node.target if isinstance(node, (Make, InOnePlace)) else None
    if target is None or not _is_every_nth(target):
        return node
    if isinstance(node, Make) and node.stitch.endswith(_INCREASE):
        return _among_plain(node, target)
    span = target.span
    passed = Amount(((target.ordinal or 2) - 1,), span)
    one = replace(target, which=Which.NEXT, ordinal=None, until=None, amount=None)
    others = Target(target.noun, Which.NEXT, span, passed, target.chains)
    grown = isinstance(node, Make) and is_increase(node.stitch)  # no hole beside it
    between = Make(UNNAMED, span, None, others) if grown else Skip(others, span)
    body = (replace(node, target=one), between)
    return Repeat(body, _as_far_as(target.until, target), node.span)


def _among_plain(node: Make, target: Target) -> Repeat:
    """ "Inc in every 4th st": three plain ones, and one of it."""
    number = Amount(((target.ordinal or 2) - 1,), target.span)
    one = replace(target, which=Which.NEXT, ordinal=None, until=None, amount=None)
    body = (Make("st", node.span, number), replace(node, target=one))
    return Repeat(body, _as_far_as(target.until, target), node.span)


_INCREASE = "inc"
"""Those between are worked plain: an increase row leaves no stitch out."""


def _is_every_nth(target: Target) -> bool:
    every = target.which is Which.EACH and target.of is None and not target.also
    return every and target.noun not in ("gap", "corner") and (target.ordinal or 0) > 1


def _as_far_as(until: Target | None, target: Target) -> Times:
    """To the end, or to what is told to be left."""
    if until is None or until.which is not Which.LAST:
        return Times(Often.ACROSS, target.span)
    left = until.amount or Amount((1,), until.span)
    return Times(Often.TO_LAST, target.span, left, until.noun)


def _after_one(before: Node | None, node: Node) -> bool:
    """ "Fan in the 3rd sc, then fan in every third sc after that": behind one like it."""
    if not isinstance(before, Make) or not isinstance(node, Make):
        return False
    target = before.target
    one = target is not None and target.which in (Which.NTH, Which.NEXT, Which.FIRST)
    single = target is not None and not target.amount
    return one and single and before.stitch == node.stitch and _is_every(node)


def _is_every(node: Node) -> bool:
    target = node.target if isinstance(node, Make) else None
    return target is not None and _is_every_nth(target)


_UNTIL = Sayings(
    f"{until} {have}"
    for until in ("until", "till", "til")
    for have in ("there are", "you have", "you've made", "you have made", "you've worked",
                 "you have worked")
)  # fmt: skip
_AFTER_IT = Sayings(("after that", "after it", "after this", "thereafter", "from there on"))


def read_until_so_many(reader: Reader) -> bool:
    """ "(Fan in every third sc after that), until there are 4 fans": how many in all."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    if not isinstance(last, Make) or not _is_every(last):
        return False
    cursor.take_any(_AFTER_IT)
    cursor.take_kind(Kind.COMMA)
    amount = cursor.number() if cursor.take_any(_UNTIL) else None
    stitch = cursor.stitch() if amount is not None else None
    if stitch is None or stitch.id != last.stitch:
        cursor.at = start
        return False
    before = reader.items[-2] if len(reader.items) > 1 else None
    repeat = _written_out(last)
    assert isinstance(repeat, Repeat)
    body = repeat.body[::-1] if isinstance(before, Make) else repeat.body
    span = last.span.to(cursor.span_from(start))
    times = Times(Often.TIMES, span, amount, GOAL)
    reader.items[-1] = Repeat(body, times, span)
    return True
