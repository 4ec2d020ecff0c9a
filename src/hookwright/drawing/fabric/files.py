"""A picture of fabric as a file: PNG, or SVG that is drawn in ink or holds the picture."""

from __future__ import annotations

from io import BytesIO

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.drawing.bounds import Box
from hookwright.drawing.fabric.inked import inked
from hookwright.drawing.fabric.picture import (
    LAYING,
    FabricPicture,
    Seen,
    Wish,
    described,
    frame_of,
    picture_of,
    piece_wished,
)
from hookwright.drawing.fabric.scene import lie_of, scene_of
from hookwright.drawing.svg import SvgPen
from hookwright.progress import Progress, stretch

MOST_INKED = 800
"""Stitches up to which an SVG is drawn in ink. Source: own measurements; a file of more is
larger than the picture would be."""
_USUAL_MM = 6.0
"""How wide a stitch is taken to be on paper where nothing tells it."""


class Made(Struct, frozen=True):
    """A file that was made.

    Attributes:
        data: What is to be written.
        description: What somebody who looks at it sees.
        said: What is to be said of the piece, in sentences.
    """

    data: bytes
    description: str
    said: tuple[str, ...]


def fabric_file(
    checked: Checked,
    wish: Wish,
    title: str,
    *,
    svg: bool = False,
    progress: Progress | None = None,
) -> Made | str:
    """A picture of a pattern's fabric as a file, or why there is none.

    Args:
        checked: The pattern.
        wish: What is wanted of it.
        title: What an SVG is called.
        svg: Whether it is to be SVG, not PNG.
        progress: Told how much is done; False stops.

    Raises:
        Cancelled: When `progress` answers False.
    """
    seen = piece_wished(checked, wish, stretch(progress, 0.0, LAYING))
    if isinstance(seen, str):
        return seen
    drawing = stretch(progress, LAYING, 1.0, "drawing")
    if svg:
        data = as_svg(seen, wish, title, drawing).encode()
    else:
        data = as_png(picture_of(seen, wish, drawing))
    return Made(data, described(seen, wish), seen.said)


def as_png(picture: FabricPicture) -> bytes:
    """A picture as PNG, its description inside; the same bytes for the same picture."""
    from PIL import Image, PngImagePlugin  # noqa: PLC0415 - only where a picture is made

    told = PngImagePlugin.PngInfo()
    told.add_itxt("Description", picture.description)
    held = BytesIO()
    Image.fromarray(picture.points).save(held, "PNG", pnginfo=told, compress_level=6)
    return held.getvalue()


def width_mm(picture: FabricPicture) -> float:
    """How wide a picture is on paper: as wide as the piece, as far as that is known."""
    wide = float(picture.points.shape[1]) / picture.scale
    return wide * (picture.stitch_mm or _USUAL_MM)


def as_svg(seen: Seen, wish: Wish, title: str, progress: Progress | None = None) -> str:
    """A piece as SVG, in its own size as far as that is known.

    Raises:
        Cancelled: When `progress` answers False.
    """
    ink = as_ink(seen, wish, title)
    if ink:
        return ink
    picture = picture_of(seen, wish, progress)
    wide = width_mm(picture)
    high = wide * picture.points.shape[0] / picture.points.shape[1]
    pen = SvgPen()
    pen.image(as_png(picture), 0j, wide, high)
    return pen.finished(Box(0, 0, wide, high), title, picture.description, "fabric")


def as_ink(seen: Seen, wish: Wish, title: str) -> str:
    """A piece drawn in ink, as SVG; "" for one of too many stitches."""
    if seen.cloth.size > MOST_INKED:
        return ""
    lie = lie_of(seen.cloth)
    frame = frame_of(lie, wish)
    return inked(
        scene_of(lie, seen.diameter),
        frame,
        tuple(colour.code for colour in seen.colours),
        (title, described(seen, wish)),
        wish.table,
        frame.wide / frame.scale * (seen.stitch_mm or _USUAL_MM),
    )
