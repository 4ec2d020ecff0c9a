"""The colours of a photo for people: a swatch each, and yarns to take over and name."""

from __future__ import annotations

from collections.abc import Sequence
from string import ascii_uppercase

from hookwright.colour.photo import InPhoto
from hookwright.listing.columns import padded, wrapped
from hookwright.terminal import Ink

_DARK = 0.62
"""Lightness in OKLCH under which words on a patch are white."""
_PATCH = 10


def photo_listing(colours: Sequence[InPhoto], wanted: int, width: int, ink: Ink) -> str:
    """The colours with their shares, and as yarns of a worksheet."""
    room = max(len(colour.name) for colour in colours)
    lines = [ink.strong("Colours of the photo")]
    for letter, colour in zip(ascii_uppercase, colours, strict=False):
        patch = ink.patch(colour.code, padded(f" {letter}", _PATCH),
                          dark=colour.lightness < _DARK)  # fmt: skip
        share = f"{colour.share:.0%}" if colour.share >= 0.005 else "< 1%"
        lines.append(f"  {patch}  {padded(colour.name, room)}  {colour.code}  {share}")
    told = [_RENAME]
    if len(colours) < wanted:
        told.insert(0, f"No more than {len(colours)} were told apart, not {wanted}.")
    notes = "\n".join(line for sentence in told for line in wrapped(sentence, width))
    yarns = "\n\n".join(
        f'[[yarn]]\nletter = "{letter}"\ncolour = "{colour.name}"\nhex = "{colour.code}"'
        for letter, colour in zip(ascii_uppercase, colours, strict=False)
    )
    return "\n\n".join(("\n".join(lines), notes, yarns))


_RENAME = (
    "Take what is yarn over into worksheet.toml and leave out what is table or wall; give "
    "each its own name. Light and camera change a colour: hold the ball beside the screen."
)
