"""The pictures of a pattern's fabric, as they are asked for: one for each piece."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.drawing.asked import Wanted, check_part, is_wanted, size_wanted
from hookwright.drawing.bounds import Box
from hookwright.drawing.fabric.files import as_ink, as_png, width_mm
from hookwright.drawing.fabric.picture import (
    LAYING,
    Seen,
    Wish,
    described,
    picture_of,
    pieces_seen,
)
from hookwright.drawing.recorder import Laid
from hookwright.drawing.sheet import Sheet
from hookwright.progress import Progress, stretch, stretches

_WHOLE = "A picture of fabric shows the whole piece: --repeat is for charts."


class FabricSheet(Sheet, frozen=True):
    """A picture of fabric, which is no drawing of lines.

    Attributes:
        points: The picture as PNG.
        ink: The same drawn in ink, as SVG; "" for a piece of too many stitches.
    """

    points: bytes = b""
    ink: str = ""

    def svg(self) -> str:
        """The piece drawn in ink, or the picture in an SVG."""
        return self.ink or super().svg()

    def png(self, pixels: int) -> bytes:  # noqa: ARG002 - it was drawn as wide as asked
        """The picture, as wide as it was drawn."""
        return self.points


def sheets(
    checked: Checked, wanted: Wanted, progress: Progress | None = None
) -> tuple[Sheet, ...]:
    """The pictures, in working order of the pieces."""
    wish = Wish(
        width=wanted.pixels,
        wrong_side=wanted.wrong_side,
        left_handed=wanted.left_handed,
        size=size_wanted(checked, wanted),
    )
    found = list(pieces_seen(checked, wish, stretch(progress, 0.0, LAYING)))
    pieces = [piece for piece in found if isinstance(piece, Seen)]
    reasons = tuple(reason for reason in found if isinstance(reason, str))
    check_part(wanted, tuple(piece.part for piece in pieces))
    pieces = [piece for piece in pieces if is_wanted(wanted, piece.part)]
    title = checked.design.title or "Fabric"
    told = stretch(progress, LAYING, 1.0, "drawing")
    shares = stretches(told, [piece.cloth.size for piece in pieces])
    names = _names(pieces)
    notes = (*reasons, *((_WHOLE,) if wanted.repeat else ()))
    return tuple(
        _sheet(piece, wish, (name, title), notes, share)
        for piece, name, share in zip(pieces, names, shares, strict=True)
    )


def _names(pieces: list[Seen]) -> Iterator[str]:
    """What the file of each piece is called."""
    for number, piece in enumerate(pieces, 1):
        words = "".join(c if c.isalnum() else " " for c in piece.part.lower()).split()
        own = "-".join(words) or str(number)
        yield "fabric" if len(pieces) == 1 else f"fabric-{own}"


def _sheet(
    piece: Seen,
    wish: Wish,
    called: tuple[str, str],
    notes: tuple[str, ...],
    progress: Progress | None,
) -> FabricSheet:
    name, title = called
    picture = picture_of(piece, wish, progress)
    points = as_png(picture)
    high, wide = picture.points.shape[:2]
    across = width_mm(picture)
    room = Box(0, 0, across, across * high / wide)
    return FabricSheet(
        name=name,
        title=f"{title}, {piece.part}: fabric" if piece.part else f"{title}: fabric",
        description=described(piece, wish),
        room=room,
        marks=(Laid(points, 0j, room.width, room.height),),
        notes=(*picture.said, *notes),
        points=points,
        ink=as_ink(piece, wish, title),
    )
