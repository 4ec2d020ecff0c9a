"""A tree made anew with something changed in it, and a tree without its places in a text.

Two texts say the same when their bare trees are equal.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Claim, Label, Remark, RowText, Unread
from hookwright.source import Span

_Value = TypeVar("_Value")
_NOWHERE = Span(0, 0)


def rebuilt(value: _Value, change: Callable[[Any], Any]) -> _Value:
    """A value with every node and every tuple in it changed, the innermost first."""
    if isinstance(value, tuple):
        return cast("_Value", change(_items_rebuilt(value, change)))
    if isinstance(value, Span):
        return cast("_Value", change(value))
    if not isinstance(value, Struct):
        return value
    inner: dict[str, Any] = {}
    for name in value.__struct_fields__:
        own = getattr(value, name)
        if type(own) in _PLAIN:
            continue
        new = rebuilt(own, change)
        if new is not own:
            inner[name] = new
    return cast("_Value", change(replace(value, **inner) if inner else value))


_PLAIN = frozenset((str, int, bool, type(None)))
"""Of these no value holds another."""


def _items_rebuilt(value: tuple[Any, ...], change: Callable[[Any], Any]) -> tuple[Any, ...]:
    items: list[Any] = []
    same = True
    for item in value:
        new = item if type(item) in _PLAIN else rebuilt(item, change)
        same = same and new is item
        items.append(new)
    return value if same else tuple(items)


def moved(value: _Value, by: int) -> _Value:
    """A value whose spans lie so many characters further on."""

    def further(inner: object) -> object:
        if isinstance(inner, Span):
            return Span(inner.start + by, inner.end + by)
        return inner

    return rebuilt(value, further)


def bare(tree: _Value) -> _Value:
    """A tree without spans, without the printed form of its labels, and without remarks."""
    return rebuilt(tree, bared)


def bared(value: Any) -> Any:  # noqa: ANN401 - any value of a tree
    """A value without its place, its printed form, and the remarks in it."""
    change = _BARED.get(type(value))
    return value if change is None else change(value)


_BARED: dict[type, Callable[[Any], Any]] = {
    Span: lambda _: _NOWHERE,
    Label: lambda label: replace(label, text=""),
    RowText: lambda row: replace(row, at=0),
    Claim: lambda claim: replace(claim, words_span=None),
    tuple: lambda items: tuple(
        item for item in items if not isinstance(item, (Remark, Unread))
    ),
}
