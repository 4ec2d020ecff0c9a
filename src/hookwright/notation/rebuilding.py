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
        items = tuple(rebuilt(item, change) for item in value)
        same = all(new is item for new, item in zip(items, value, strict=True))
        return cast("_Value", change(value if same else items))
    if not isinstance(value, Struct):
        return value
    inner: dict[str, Any] = {}
    for name in value.__struct_fields__:
        own = getattr(value, name)
        if isinstance(own, (tuple, Struct)):
            new = rebuilt(own, change)
            if new is not own:
                inner[name] = new
    return cast("_Value", change(replace(value, **inner) if inner else value))


def moved(value: _Value, by: int) -> _Value:
    """A value whose spans lie so many characters further on."""

    def further(inner: object) -> object:
        if isinstance(inner, Span):
            return Span(inner.start + by, inner.end + by)
        return inner

    return rebuilt(value, further)


def bare(tree: _Value) -> _Value:
    """A tree without spans, without the printed form of its labels, and without remarks."""
    return rebuilt(tree, _bared)


def _bared(value: object) -> object:
    match value:
        case Span():
            return _NOWHERE
        case Label():
            return replace(value, text="")
        case RowText():
            return replace(value, at=0)
        case Claim():
            return replace(value, words_span=None)
        case tuple():
            return tuple(item for item in value if not isinstance(item, (Remark, Unread)))
        case _:
            return value
