"""Where does the last working of a repeat stop: "ending last rep after second shell"?"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Times,
)

_MOST = 40
"""Workings of an inner repeat that are told apart."""

CORNER = "corner"
"""What a last working may stop behind that is a place and no stitch."""

_Halves = tuple[list[Node], list[Node]]


def cut_after(repeat: Repeat, stitch: str, ordinal: int) -> Repeat | None:
    """A repeat that stops for the last time behind its nth stitch of a name.

    An inner repeat in whose middle that is, is written out: "[shell, sk 3] twice" ends
    "after second shell" before its second "sk 3". `ordinal` 0 is the last of them; None
    where there are not so many.
    """
    wanted = ordinal or number_of(repeat.body, stitch)
    halves = _halves(repeat.body, stitch, wanted) if wanted else None
    if halves is None:
        return None
    first, rest = halves
    if not any(not isinstance(node, Remark) for node in rest):
        return repeat  # it stops where it ends in any case
    return replace(repeat, body=(*first, *rest), split=len(first))


def number_of(nodes: Sequence[Node], stitch: str) -> int:
    """How many instructions of some name there are, those of inner repeats unrolled."""
    return sum(_number(node, stitch) for node in nodes)


def _number(node: Node, stitch: str) -> int:
    if isinstance(node, Repeat):
        return _times(node) * number_of(node.body, stitch)
    return int(_is_called(node, stitch))


def _is_called(node: Node, stitch: str) -> bool:
    if stitch == CORNER and isinstance(node, (Make, InOnePlace)):
        return node.target is not None and node.target.noun == CORNER
    made = isinstance(node, Make) and node.stitch == stitch
    return made or (isinstance(node, InOnePlace) and node.name == stitch)


def _times(repeat: Repeat) -> int:
    told = repeat.times.often is Often.TIMES and repeat.times.amount is not None
    number = repeat.times.amount.at(0) if told and repeat.times.amount else 1
    return min(number or 0, _MOST)


def _halves(nodes: Sequence[Node], stitch: str, ordinal: int) -> _Halves | None:
    """The instructions up to the nth of a name, and those behind it."""
    for i, node in enumerate(nodes):
        here = _number(node, stitch)
        if here < ordinal:
            ordinal -= here
            continue
        if not isinstance(node, Repeat):
            return [*nodes[: i + 1]], [*nodes[i + 1 :]]
        each = number_of(node.body, stitch)
        before, within = divmod(ordinal - 1, each)
        inner = _halves(node.body, stitch, within + 1)
        if inner is None:
            return None
        first = [*nodes[:i], *_worked(node, before), *inner[0]]
        after = _worked(node, _times(node) - before - 1)
        return first, [*inner[1], *after, *nodes[i + 1 :]]
    return None


def _worked(repeat: Repeat, times: int) -> list[Node]:
    """A repeat worked so many times; nothing where that is none."""
    if times < 1:
        return []
    number = Amount((times,), repeat.times.span)
    return [replace(repeat, times=Times(Often.TIMES, repeat.times.span, number))]
