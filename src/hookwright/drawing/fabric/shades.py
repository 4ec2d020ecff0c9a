"""Which colour on a screen has a yarn, by the name that rows call it?

What the worksheet tells counts first. A yarn that has only a name takes the colour of its
word, and one that has only a letter the next of a few that go well together: stand-ins, and
it is said that they are.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Colour, YarnListed
from hookwright.regex import regex

_TABLE = Path(__file__).parent / "data" / "shades.toml"
_WORD = regex(r"[^\W\d_]+")


class YarnColour(Struct, frozen=True):
    """The colour of a yarn.

    Attributes:
        name: The yarn, as rows call it; "" where they call it nothing.
        code: Its colour as "#rrggbb".
        told: Whether the worksheet tells it, so that it is no stand-in.
    """

    name: str
    code: str
    told: bool


def yarn_colours(checked: Checked, names: Iterable[str]) -> tuple[YarnColour, ...]:
    """The colours of some yarns.

    Args:
        checked: The pattern.
        names: Yarns as rows call them, in the order they come into play.
    """
    design, text = checked.design, checked.source.text
    noted = design.noted.yarns if design.noted is not None else ()
    told = [colour for yarn in noted for colour in yarn.colours if colour.code]
    known = [(colour, colour.name) for colour in told]
    known += [(colour, _described(colour, text)) for colour in design.colours]
    main = _main_yarn(design.yarns, text) if not known else ""
    taken: set[str] = set()
    found: list[YarnColour] = []
    for name in names:
        found.append(_colour(name or main, told, known, taken, called=name))
        taken.add(found[-1].code)
    return tuple(found)


def _colour(
    name: str,
    told: Sequence[Colour],
    known: Sequence[tuple[Colour, str]],
    taken: set[str],
    *,
    called: str,
) -> YarnColour:
    for colour in told:
        if not name or _is(name, colour):
            return YarnColour(called, screen_code(colour.code), told=True)
    words = [name, *(said for colour, said in known if not name or _is(name, colour))]
    code = next((code for told_by in words for code in _shades(told_by)), "")
    return YarnColour(called, code or next(_others(taken)), told=False)


def _main_yarn(yarns: Sequence[YarnListed], text: str) -> str:
    """What the materials say of the only yarn: "6 balls of Skerry, slate blue"."""
    if len(yarns) != 1:
        return ""
    span = yarns[0].span
    return _NEXT.split(text[span.start : max(span.end, span.start + _LONGEST)])[0]


def _described(colour: Colour, text: str) -> str:
    """What the materials say of a colour: "Turnstone, rust" of "A (Turnstone, rust)"."""
    behind = text[colour.span.start : colour.span.start + _LONGEST]
    return f"{colour.name} {_ENDS.split(behind)[0]}"


_NEXT = regex(r"[;\n]")
_ENDS = regex(r"[);:\n]|\d")
_LONGEST = 60


def _is(name: str, colour: Colour) -> bool:
    own = name.casefold()
    return own in (colour.letter.casefold(), colour.name.casefold())


def _shades(words: str) -> Iterator[str]:
    """The colours that words name, the last word first: "dark sea green" is a green."""
    table = _words()
    said = _WORD.findall(words.casefold())
    for at in range(len(said) - 1, -1, -1):
        if said[at] in table:
            before = said[at - 1] if at else ""
            yield mixed(table[said[at]], *_TONES.get(before, ("#000000", 0.0)))


_TONES = {
    "dark": ("#000000", 0.4),
    "pale": ("#ffffff", 0.5),
    "light": ("#ffffff", 0.35),
}
"""With what, and how much of it, a colour is mixed that is told so."""


def mixed(code: str, other: str, share: float) -> str:
    """A colour with so much of another in it, both as "#rrggbb"."""
    pairs = zip(parts_of(code), parts_of(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


def _others(taken: set[str]) -> Iterator[str]:
    colours = _told()["others"]["colours"]
    yield from (code for code in colours if code not in taken)
    yield from colours


@cache
def _told() -> Mapping[str, Mapping[str, Sequence[str]]]:
    return tomllib.loads(_TABLE.read_text("utf-8"))


def _words() -> Mapping[str, str]:
    return _told()["words"]  # type: ignore[return-value] # one code a word there


def screen_code(code: str) -> str:
    """A colour as a worksheet has it, "teal" or "#2F7D7D", as "#rrggbb"."""
    from PIL import ImageColor  # noqa: PLC0415 - only where something is drawn

    red, green, blue = ImageColor.getrgb(code)[:3]
    return f"#{red:02x}{green:02x}{blue:02x}"


def parts_of(code: str) -> tuple[int, int, int]:
    """Red, green and blue of "#rrggbb", 0 to 255."""
    return int(code[1:3], 16), int(code[3:5], 16), int(code[5:7], 16)
