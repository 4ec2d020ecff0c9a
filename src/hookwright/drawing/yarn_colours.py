"""In which colours are the yarns of a pattern drawn, and how are they told apart?

The colours are those of the worksheet, else stand-ins, as in the picture of the fabric.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.drawing.fabric.shades import mixed, parts_of
from hookwright.drawing.fabric.shades import yarn_colours as shades
from hookwright.drawing.pen import INK, PAPER

READABLE = 4.5
"""Contrast of thin lines with the paper. Source: WCAG 2.2, 1.4.3, as for small type."""


class YarnColour(Struct, frozen=True):
    """A yarn as it is drawn.

    Attributes:
        letter: What it is told apart by: "A", "MC"; else the beginning of its name.
        name: Its name in full; its letter where it has no other.
        code: Its colour as "#rrggbb"; "" where nothing tells it.
    """

    letter: str
    name: str
    code: str = ""


def yarn_colours(checked: Checked, used: Iterable[str] = ()) -> Mapping[str, YarnColour]:
    """The yarns of a pattern by every name that its rows may call them by, lower case.

    Args:
        checked: The pattern.
        used: Names that its rows call yarns by, which may be listed nowhere.
    """
    noted = checked.design.noted
    colours = [*checked.design.colours]
    colours += [c for yarn in (noted.yarns if noted else ()) for c in yarn.colours]
    named: dict[str, tuple[str, str]] = {}
    for colour in colours:
        names = [name for name in (colour.letter, colour.name) if name]
        known = next((named[n.lower()] for n in names if n.lower() in named), ("", ""))
        letter = colour.letter or known[0] or _short(colour.name)
        told = (letter, colour.name or known[1] or colour.letter)
        named.update({name.lower(): told for name in names})
    for name in used:
        if name:
            letter = name if len(name) < _LONG else _short(name)
            named.setdefault(name.lower(), (letter, name))
    order = list(dict.fromkeys(letter for letter, _ in named.values()))
    codes = {shade.name: shade.code for shade in shades(checked, order)}
    return {
        name: YarnColour(letter, full, codes.get(letter, ""))
        for name, (letter, full) in named.items()
    }


def yarn_colour(known: Mapping[str, YarnColour], name: str) -> YarnColour:
    """A yarn by the name that a row calls it by."""
    return known.get(name.lower()) or YarnColour(_short(name), name)


_LONG = 4


def _short(name: str) -> str:
    return name[:2].strip()


def readable(code: str, paper: str = PAPER) -> str:
    """A colour dark enough for thin lines: the yarn's own, mixed with ink if need be."""
    if not code:
        return INK
    for step in range(21):
        darker = mixed(code, INK, step / 20)
        if contrast(darker, paper) >= READABLE:
            return darker
    return INK


def contrast(one: str, other: str) -> float:
    """How much two colours stand apart, from 1 to 21. Source: WCAG 2.2, contrast ratio."""
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _luminance(code: str) -> float:
    """Relative luminance of an sRGB colour. Source: WCAG 2.2."""
    linear = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (channel / 255 for channel in parts_of(code))
    ]
    red, green, blue = linear
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
