"""Which yarns are there, and which of them is meant by a name?

Those of the worksheet, or where it tells none those of the materials. A yarn that only the
rows name is one too, of which nothing else is known.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Colour, YarnListed
from hookwright.yarn.facts import Yarn

PLAIN = "yarn"
"""What the only yarn of a pattern is called that names none."""


class Known(Struct, frozen=True):
    """The yarns of a design.

    Attributes:
        yarns: The yarns, in the order in which they are told.
        of_sheet: Whether the worksheet tells them.
    """

    yarns: tuple[Yarn, ...]
    of_sheet: bool = False

    def find(self, name: str) -> Yarn | None:
        """The yarn that is called so; None if none is, or several are."""
        key = " ".join(name.casefold().split())
        for short in (key, key.removeprefix("yarn ").removeprefix("colour ")):
            found = [yarn for yarn in self.yarns if short in map(str.casefold, yarn.names)]
            if len(found) == 1:
                return found[0]
        return None


def known_yarns(checked: Checked) -> Known:
    """The yarns of a pattern and its worksheet."""
    noted = checked.design.noted
    if noted is not None and noted.yarns:
        own = [(yarn, yarn.colours[0] if yarn.colours else None) for yarn in noted.yarns]
        return Known(tuple(_yarns(own)), of_sheet=True)
    listed = [
        (yarn, colour)
        for yarn in checked.design.yarns
        for colour in (yarn.colours or (None,))
    ]
    return Known(tuple(_yarns(listed)))


def only_named(name: str) -> Yarn:
    """A yarn of which only the name is known."""
    return Yarn(name, name, (name,))


def _yarns(own: Sequence[tuple[YarnListed, Colour | None]]) -> Iterator[Yarn]:
    lone = len(own) == 1
    seen: set[str] = set()
    for number, (listed, colour) in enumerate(own, 1):
        letter, name = (colour.letter, colour.name) if colour else ("", "")
        names = [word for word in (letter, name, listed.name) if word]
        free = [word for word in names if word.casefold() not in seen]
        label = next(iter(free), PLAIN if lone else f"yarn {number}")
        seen.add(label.casefold())
        told = f"{letter} {name}".strip() or label
        yield Yarn(
            label,
            told if label in (letter, name) else label,
            tuple(dict.fromkeys((*names, label))),
            colour.code if colour is not None else "",
            listed,
        )
