"""What must the new text be read as? The tree of the source, in other terms or one size.

Two trees are the same fabric where they differ in nothing but words: spans, remarks, the
marks of a repeat, how a label is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from msgspec.structs import replace

from hookwright.notation.printing import bare, translate
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import (
    Amount,
    Claim,
    Definition,
    Figure,
    Label,
    Often,
    PartText,
    Pattern,
    Recall,
    Repeat,
    RowText,
    Times,
)
from hookwright.wording.asked import Asked
from hookwright.wording.mirrored import mirrored


def expected(pattern: Pattern, asked: Asked, gone: frozenset[int]) -> Pattern:
    """The tree that a wording of a pattern is to have.

    Args:
        pattern: The tree of the source, in known terms.
        asked: The wording.
        gone: The rows, by number, that the only size wanted does not have.
    """
    tree = pattern
    if asked.size is not None:
        tree = at_size(tree, asked.size, gone)
    if asked.terms is not None:
        tree = translate(tree, asked.terms)
    if asked.left_handed:
        tree = rebuilt(tree, _mirrored)
    return tree


def at_size(pattern: Pattern, size: int, gone: frozenset[int]) -> Pattern:
    """A pattern in one of its sizes."""
    rows = iter(range(sum(len(part.rows) for part in pattern.parts)))
    parts = []
    for part in pattern.parts:
        kept = tuple(row for row in part.rows if next(rows) not in gone)
        if kept:
            parts.append(replace(part, rows=kept))

    return rebuilt(replace(pattern, parts=tuple(parts), sizes=()), _in_size(size))


def row_at_size(row: RowText, size: int) -> RowText:
    """A row in one size."""
    return rebuilt(row, _in_size(size))


def _in_size(size: int) -> Callable[[Any], Any]:
    def changed(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
        match value:
            case Amount() if len(value.values) > 1:
                return replace(value, values=(value.at(size),))
            case Label():
                own = value.by_size[size] if value.by_size else value.numbers
                return replace(value, numbers=own, by_size=(), sizes=())
            case _:
                return value

    return changed


def _mirrored(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
    match value:
        case Label():
            return replace(value, name=mirrored(value.name))
        case Recall():
            return replace(value, part=mirrored(value.part), label=mirrored(value.label))
        case _:
            return value


def essence(pattern: Pattern) -> Pattern:
    """A tree without anything that is nothing to the fabric."""
    return rebuilt(bare(pattern), _essential)


_LONG_NAMES = {
    "rnd": "round", "rnds": "rounds", "inc": "increase", "dec": "decrease", "st": "stitch",
    "beg": "beginning", "rep": "repeat", "ch": "chain", "sts": "stitches",
}  # fmt: skip


def _plainly(name: str) -> str:
    """The name of a row or part, its words in full."""
    return " ".join(_LONG_NAMES.get(word, word) for word in name.lower().split())


def _essential(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
    match value:
        case PartText():
            return replace(value, name="")
        case Label():
            return replace(value, ranged=False, name=_plainly(value.name), yarn="")
        case Recall():
            return replace(value, label=_plainly(value.label), part=_plainly(value.part))
        case Repeat():
            return replace(value, mark="", times=_often(value.times))
        case Definition():
            return replace(value, words="", names=_long_first(value.names))
        case Claim():
            return replace(value, figures=tuple(map(_counted, value.figures)))
        case _:
            return value


def _often(times: Times) -> Times:
    """ "9 more times" is "10 times"."""
    amount = times.amount
    if times.often is not Often.MORE or amount is None:
        return times
    more = tuple(None if n is None else n + 1 for n in amount.values)
    return replace(times, often=Often.TIMES, amount=replace(amount, values=more))


def _long_first(names: Sequence[str]) -> tuple[str, ...]:
    return tuple(sorted(names, key=lambda name: (-len(name), name)))[:1]


def _counted(figure: Figure) -> Figure:
    return replace(figure, unit=_plainly(figure.unit))


def rows_of(pattern: Pattern) -> list[RowText]:
    """All rows of a pattern in printed order."""
    return [row for part in pattern.parts for row in part.rows]
