"""What must the new text be read as? The tree of the source, in other terms or one size.

Two trees are the same fabric where they differ in nothing but words: spans, remarks, the
marks of a repeat, how a label is printed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache, lru_cache
from typing import Any

from msgspec.structs import replace

from hookwright.design.trade_words import trade_words
from hookwright.notation.printing import translate
from hookwright.notation.printing.terms import NAMED_IN
from hookwright.notation.rebuilding import bared, rebuilt
from hookwright.notation.tree import (
    Amount,
    Definition,
    Label,
    Node,
    Often,
    PartText,
    Pattern,
    Recall,
    Repeat,
    RowText,
    Target,
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
    return rebuilt(pattern, _essential)


@lru_cache(maxsize=4096)
def plainly(name: str) -> str:
    """The name of a stitch, row or part in short words, in whichever it is written."""
    return " ".join(_shortened(name.lower().replace("-", " ")).split())


def _shortened(name: str) -> str:
    for long, short in _short_of().items():
        if long in name:
            name = re.sub(rf"\b{long}\b", short, name)
    return name


@cache
def _short_of() -> Mapping[str, str]:
    """Words in full with their abbreviations, the longest first."""
    rows = list(trade_words().items())
    words = {word.meaning: plain for plain, word in rows[::-1]}
    words |= {f"{long}s": f"{short}s" for long, short in words.items()}
    words |= {"stitches": "sts", "front post ": "fp", "back post ": "bp"}
    return {long: words[long] for long in sorted(words, key=len, reverse=True)}


def _essential(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
    value = bared(value)
    field = NAMED_IN.get(type(value))
    if field is not None:
        name = getattr(value, field)
        short = plainly(name)
        value = value if short == name else replace(value, **{field: short})
    change = _ESSENTIAL.get(type(value))
    return value if change is None else change(value)


def _essential_definition(told: Definition) -> Definition:
    names = _long_first(told.names)
    return replace(told, words="", names=names, stitch=plainly(told.stitch))


_ESSENTIAL: dict[type, Callable[[Any], Any]] = {
    PartText: lambda part: replace(part, name=""),
    Label: lambda label: replace(label, ranged=False, name=plainly(label.name), yarn=""),
    Recall: lambda one: replace(one, label=plainly(one.label), part=plainly(one.part)),
    Repeat: lambda one: replace(one, mark="", times=_often(one.times)),
    Definition: _essential_definition,
}
"""What is nothing to the fabric, in each kind of node."""


def _often(times: Times) -> Times:
    """ "9 more times" is "10 times"."""
    amount = times.amount
    if times.often is not Often.MORE or amount is None:
        return times
    more = tuple(None if n is None else n + 1 for n in amount.values)
    return replace(times, often=Often.TIMES, amount=replace(amount, values=more))


def _long_first(names: Sequence[str]) -> tuple[str, ...]:
    plain = map(plainly, names)
    return tuple(sorted(plain, key=lambda name: (-len(name), name)))[:1]


def rows_of(pattern: Pattern) -> list[RowText]:
    """All rows of a pattern in printed order."""
    return [row for part in pattern.parts for row in part.rows]


def is_as_wanted(wanted: RowText, found: RowText) -> bool:
    """Whether a row is read as it must be.

    "Rep from * 5 times" may be 5 or 6 in all. Where it is told without a star it is one of
    them, and the fabric says whether it is the right one. So it does of a row that is gone
    back to, "the first st of Row 82 (102)", of which a tree has the number of one size.
    """
    if wanted == found:
        return True
    read = rebuilt(found, _without_rows)
    return any(
        rebuilt(rebuilt(wanted, _settled(more)), _without_rows) == read for more in (0, 1)
    )


def _without_rows(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
    return replace(value, row=0) if isinstance(value, Target) and value.row else value


def _settled(more: int) -> Callable[[Any], Any]:
    def changed(value: Any) -> Any:  # noqa: ANN401 - any value of the tree
        unclear = isinstance(value, Times) and value.often is Often.UNCLEAR
        if not unclear or value.amount is None:
            return value
        numbers = tuple(None if n is None else n + more for n in value.amount.values)
        amount = replace(value.amount, values=numbers)
        return replace(value, often=Often.TIMES, amount=amount)

    return changed


def work_behind_label(row: RowText) -> tuple[int, tuple[Node, ...]]:
    """Where the work of a row begins behind its label, and what is worked there.

    What leads to a row, "Join A in the first ch." on a line before it, is read as its first
    instructions, and stands before its label.
    """
    if row.label is None or row.at >= row.label.span.end:
        return row.at, row.body
    nodes = tuple(
        node for node in row.body if row.at + node.span.start >= row.label.span.end
    )
    return (row.at + nodes[0].span.start if nodes else row.span.end), nodes
