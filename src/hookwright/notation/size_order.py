"""Which sizes are told by where they stand: "2nd and 3rd sizes", "the two largest sizes"?

So are "Adult sizes" where several names begin with that word. And which sizes are the
numbers of a list for, in a row that is for some of them?
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Amount

_Told = TypeVar("_Told")

_FROM_BELOW = ("smallest", "smaller", "first")
_FROM_ABOVE = ("largest", "larger", "biggest", "bigger", "last")


def sizes_by_order(sizes: Sequence[str], cursor: Cursor) -> tuple[str, ...]:
    """Take such words, up to and with "size"; () and nothing taken where there are none."""
    start = cursor.at
    cursor.take_word("the")
    found = (
        _by_ordinals(sizes, cursor)
        or _from_an_end(sizes, cursor)
        or _by_first_word(sizes, cursor)
    )
    if not found or not cursor.take_word("size", "sizes"):
        cursor.at = start
        return ()
    return found


def _by_ordinals(sizes: Sequence[str], cursor: Cursor) -> tuple[str, ...]:
    """ "2nd, 3rd and 4th", "first"."""
    start = cursor.at
    found: list[str] = []
    while cursor.is_kind(Kind.ORDINAL):
        place = cursor.step().value
        if not 1 <= place <= len(sizes):
            break
        found.append(sizes[place - 1])
        while cursor.take_kind(Kind.COMMA) or cursor.take_word("and", "or", "&"):
            pass
    if not cursor.is_word("size", "sizes"):
        cursor.at = start
        return ()
    return tuple(found)


def _from_an_end(sizes: Sequence[str], cursor: Cursor) -> tuple[str, ...]:
    """ "two largest", "larger two", "smallest"; "larger" alone is said of two sizes."""
    start = cursor.at
    number = cursor.step().value if cursor.is_kind(Kind.NUMBER) else 0
    word = cursor.step().text
    if number == 0 and cursor.is_kind(Kind.NUMBER):
        number = cursor.step().value
    if number == 0 and word not in ("smallest", "largest", "biggest") and len(sizes) != 2:
        word = ""
    number = number or 1
    if number < len(sizes) and word in _FROM_BELOW:
        return tuple(sizes[:number])
    if number < len(sizes) and word in _FROM_ABOVE:
        return tuple(sizes[-number:])
    cursor.at = start
    return ()


def _by_first_word(sizes: Sequence[str], cursor: Cursor) -> tuple[str, ...]:
    """ "Adult" of "Adult S" and "Adult L"."""
    first = cursor.token.text.lower()
    words = [name.lower().split() for name in sizes]
    found = [n for n, own in zip(sizes, words, strict=True) if own[0] == first and own[1:]]
    if not found or not cursor.peek().text.startswith("size"):
        return ()
    cursor.step()
    return tuple(found)


def for_sizes(told: _Told, own: Sequence[str], sizes: Sequence[str]) -> _Told:
    """What a line for some of the sizes tells: no other size has a number of it."""
    if not own:
        return told

    def without_others(value: object) -> object:
        if not isinstance(value, Amount) or len(value.values) not in (1, len(sizes)):
            return value
        values = (value.at(i) if name in own else None for i, name in enumerate(sizes))
        return replace(value, values=tuple(values))

    return rebuilt(told, without_others)


def of_some_sizes(told: _Told, own: Sequence[str], sizes: Sequence[str]) -> _Told:
    """What a row for some of the sizes tells: "(56, 64)" has one for each of them."""
    at = [sizes.index(name) for name in own if name in sizes]
    if not 1 < len(at) < len(sizes) or sorted(at) != at:
        return told

    def spread(value: object) -> object:
        if not isinstance(value, Amount) or len(value.values) != len(at):
            return value
        values: list[int | None] = [None] * len(sizes)
        for place, number in zip(at, value.values, strict=True):
            values[place] = number
        return replace(value, values=tuple(values))

    return rebuilt(told, spread)
