"""Which names changed and nothing else: of a colour, of a stitch it defines?"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from hookwright.notation.rebuilding import bare
from hookwright.notation.tree import Definition
from hookwright.regex import regex
from hookwright.versions.fabric_of_row import RowMade

_NUMBERS = regex(
    r"\b(?:\d+|once|twice|thrice|one|two|three|four|five|six|seven|eight|nine|ten)\b",
    re.IGNORECASE,
)


def stitches_renamed(
    old: Sequence[Definition], new: Sequence[Definition]
) -> dict[str, str]:
    """New names of stitches that are made as one of another name was before."""
    before = {made_as(one): one.names[0] for one in old}
    had = {name for one in old for name in one.names}
    found: dict[str, str] = {}
    for one in new:
        name = before.get(made_as(one))
        if name is not None and one.names[0] not in had:
            found[one.names[0]] = name
    return found


def made_as(definition: Definition) -> tuple[object, ...]:
    """How a stitch is made, apart from its name and its words: what it uses and leaves.

    Of a definition in words of its own the numbers in them are kept, in order: "3 times" is
    another stitch than "4 times".
    """
    alike = bare(definition.body)
    numbers = tuple(word.lower() for word in _NUMBERS.findall(definition.words))
    return (
        definition.passes, definition.heads, definition.in_one_place,
        definition.stitch, alike, numbers,
    )  # fmt: skip


def colours_renamed(
    pairs: Sequence[tuple[RowMade, RowMade]], listed: Collection[str]
) -> dict[str, str]:
    """New names of colours that stand wherever one other colour stood before.

    Args:
        pairs: Rows of the older version with those of the newer one.
        listed: The names and letters that the older version lists: none of them is new.
    """
    was: dict[str, set[str]] = {}
    old_names: set[str] = set(listed)
    new_names: set[str] = set()
    for old, new in pairs:
        for one, other in zip(_yarns(old), _yarns(new), strict=False):
            old_names.add(one)
            new_names.add(other)
            was.setdefault(other, set()).add(one)
    found = {
        name: next(iter(before))
        for name, before in was.items()
        if len(before) == 1 and name not in old_names
    }
    gone = [name for name in found.values() if name not in new_names]
    return {name: old for name, old in found.items() if gone.count(old) == 1}


def _yarns(made: RowMade) -> list[str]:
    """The yarns of a row in the order they come; of a foundation those it takes up."""
    return [name for name in (*made.begun_in, *made.fabric.yarns) if name is not None]
