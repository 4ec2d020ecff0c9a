"""Which stitches are told of one group: "sc in first dc of the shell, sc in 3rd dc of it"?

A group that is not "the next" is the one the stitch before was worked in; what lies between
the two is passed.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.place_words import EACH_WORDS, NEXT_WORDS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Chain,
    Make,
    Remark,
    Skip,
    Target,
    Which,
)

_OTHER = NEXT_WORDS | EACH_WORDS | {"another", "other"}


def further_in_group(reader: Reader, node: Make) -> Make:
    """A stitch in the group of the one before, as so many places on from there."""
    target = node.target
    before = next(
        (i for i in reversed(reader.items) if not isinstance(i, (Remark, Chain))), None
    )
    last = before.target if isinstance(before, Make) else None
    if target is None or last is None or not _is_same(reader, target, last):
        return node
    passed = _number(target) - _number(last) - 1
    if passed < 0:
        return node
    if passed:
        number = Amount((passed,), target.span)
        between = Target("st", Which.NEXT, target.span, number)
        reader.add(Skip(between, target.span))
    on = replace(target, which=Which.NEXT, ordinal=None, of=None)
    return replace(node, target=on)


def _is_same(reader: Reader, target: Target, last: Target) -> bool:
    """Whether a place is told to be in the group in which the last one was."""
    if target.of is None or last.of is None or target.of.noun != last.of.noun:
        return False
    if not (_number(target) and _number(last)) or target.of.which is Which.EACH:
        return False
    said = reader.text[target.of.span.start : target.of.span.end].lower().split()
    single = target.of.amount is None and target.noun not in ("sp", "gap")
    return single and bool(said) and _OTHER.isdisjoint(said)


def _number(target: Target) -> int:
    """Which stitch of its group a place is; 0 where it is told by no number."""
    if target.which is Which.FIRST:
        return 1
    return (target.ordinal or 0) if target.which is Which.NTH else 0
