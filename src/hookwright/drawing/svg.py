"""A drawing as SVG: what it shows said in words, no scripts, nothing from outside.

The same drawing gives the same bytes. Numbers are rounded to hundredths of a millimetre.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from html import escape

from hookwright.drawing.bounds import Box
from hookwright.drawing.pen import Group, Ink, Lettering, Outline
from hookwright.regex import regex

FACES = "Literata, 'Libertinus Serif', Georgia, serif"
_LINES = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
_BARE = Ink(stroke="")
_FORBIDDEN = regex(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that no XML may hold. Source: Extensible Markup Language 1.0, 2.2 Char."""


class SvgPen:
    """A pen that writes SVG."""

    def __init__(self) -> None:
        self._lines: list[str] = []
        self._inks = [_BARE]

    def draw(self, outlines: Sequence[Outline], ink: Ink) -> None:
        """One `path` for all of them."""
        way = "".join(map(_way, outlines))
        self._lines.append(f'<path{_ink(ink, self._inks[-1])} d="{way}"/>')

    def words(self, text: str, at: complex, lettering: Lettering) -> None:
        """One `text`."""
        x, y = _number(at.real), _number(at.imag)
        self._lines.append(
            f'<text x="{x}" y="{y}"{_lettering(lettering, x, y)}>{_clean(text)}</text>'
        )

    def image(self, png: bytes, corner: complex, width: float, height: float) -> None:
        """One `image`, its bytes inside."""
        x, y = _number(corner.real), _number(corner.imag)
        sides = f'width="{_number(width)}" height="{_number(height)}"'
        inside = f"data:image/png;base64,{b64encode(png).decode()}"
        self._lines.append(f'<image x="{x}" y="{y}" {sides} href="{inside}"/>')

    def begin(self, group: Group) -> None:
        """One `g`, what is known of it as `data-` attributes."""
        ink = group.ink or self._inks[-1]
        data = "".join(f' data-{name}="{_clean(value)}"' for name, value in group.data)
        title = f"<title>{_clean(group.title)}</title>" if group.title else ""
        look = _ink(ink, self._inks[-1])
        self._lines.append(f'<g class="{_clean(group.kind)}"{data}{look}>{title}')
        self._inks.append(ink)

    def end(self) -> None:
        """Its end."""
        self._inks.pop()
        self._lines.append("</g>")

    def finished(
        self, room: Box, title: str, description: str, name: str = "drawing"
    ) -> str:
        """The file.

        Args:
            room: What part of the page is shown; it is as large as this on paper.
            title: What it is, in a few words.
            description: What somebody who looks at it would see.
            name: What its own names begin with, where several stand on one page.
        """
        x, y = _number(room.left), _number(room.top)
        wide, high = _number(room.width), _number(room.height)
        named = f"{name}-title {name}-description"
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
            f'viewBox="{x} {y} {wide} {high}" role="img" aria-labelledby="{named}">'
        )
        lines = (
            head,
            f'<title id="{name}-title">{_clean(title)}</title>',
            f'<desc id="{name}-description">{_clean(description)}</desc>',
            f'<g {_LINES} font-family="{FACES}">',
            *self._lines,
            "</g>",
            "</svg>",
        )
        return "\n".join(lines) + "\n"


def _way(outline: Outline) -> str:
    """The way of the pen, as the `d` of a path tells it."""
    first, *rest = map(_point, outline.points)
    end = "Z" if outline.closed else ""
    if not rest:
        return f"M{first}h0"
    return f"M{first}{'C' if outline.curved else 'L'}{' '.join(rest)}{end}"


def _point(point: complex) -> str:
    return f"{_number(point.real)} {_number(point.imag)}"


def _number(value: float) -> str:
    """Rounded to hundredths, without what says nothing."""
    told = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if told == "-0" else told


def _ink(ink: Ink, around: Ink) -> str:
    """What has to be said of an ink, where what is around it has one already."""
    told = ""
    if ink.stroke != around.stroke:
        told += f' stroke="{_clean(ink.stroke or "none")}"'
    if ink.stroke and (ink.width != around.width or not around.stroke):
        told += f' stroke-width="{_number(ink.width)}"'
    if ink.fill != around.fill:
        told += f' fill="{_clean(ink.fill or "none")}"'
    if ink.dashes != around.dashes:
        told += f' stroke-dasharray="{" ".join(map(_number, ink.dashes)) or "none"}"'
    return told


def _lettering(lettering: Lettering, x: str, y: str) -> str:
    told = f' font-size="{_number(lettering.size)}" fill="{_clean(lettering.colour)}"'
    told += ' stroke="none"'
    if lettering.anchor != "start":
        told += f' text-anchor="{lettering.anchor}"'
    if lettering.bold:
        told += ' font-weight="600"'
    if lettering.turn:
        told += f' transform="rotate({_number(lettering.turn)} {x} {y})"'
    return told


def _clean(text: str) -> str:
    return escape(_FORBIDDEN.sub("", text))
