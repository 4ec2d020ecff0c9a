"""The picture of the fabric on the cover, and the same as a left-hander works it.

Fabric in rows bleeds in from the top and both sides and ends on its own edge; what is
worked in rounds, or stands up, is seen whole.
"""

from __future__ import annotations

from io import BytesIO
from typing import Any

from hookwright.checking import Checked
from hookwright.progress import Progress, stretch, tell
from hookwright.release.copies import Edition
from hookwright.release.drawn import Drawn
from hookwright.release.facts import Picture
from hookwright.release.sample import in_stripes, sample_of

FILE, LEFT_FILE = "fabric.jpg", "fabric-left-handed.jpg"
_WIDTH = 1500
_PAPER = "#ffffff"
_NEARLY_WHITE = 250
_SIDE, _TOP = 0.045, 0.07
"""The share of a picture that is cut off so that the fabric bleeds."""
_PROPORTION = 0.74
"""How high a picture that bleeds is for its width."""
_SEEN_WHOLE = (1240, 1180)
"""As large as a picture is that is seen whole, in points: 210 to an inch of a page."""
_MARGIN = 20
_QUALITY = 82


def covers_of(
    checked: Checked, made_of: str, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The pictures of the cover; none where there is no fabric that can be drawn.

    Args:
        checked: The pattern.
        made_of: The hash of all that its pictures follow from.
        progress: Told how far it is; False stops.

    Raises:
        Cancelled: When `progress` answers False.
    """
    data = _fabric_drawn(checked, progress)
    if data is None:
        return ()
    files = ((FILE, data), (LEFT_FILE, _mirrored(data)))
    found = (cover_of(checked, name, picture, made_of) for name, picture in files)
    return tuple(one for one in found if one is not None)


def cover_of(checked: Checked, name: str, data: bytes, made_of: str) -> Drawn | None:
    """A picture of the cover by its file; None for a file of another kind."""
    if name not in (FILE, LEFT_FILE):
        return None
    left = name == LEFT_FILE
    words = _words(checked) + (" It is worked left-handed." if left else "")
    kind = "cover" if _bleeds(data) else "object"
    editions = (Edition.LEFT_HANDED if left else Edition.COLOUR,)
    return Drawn(Picture(name, words, kind=kind), data, made_of, editions)


def _fabric_drawn(checked: Checked, progress: Progress | None) -> bytes | None:
    from hookwright.drawing.fabric.picture import (  # noqa: PLC0415 - numpy and all that
        Wish,
        fabric_picture,
    )

    sample = sample_of(checked)
    tell(progress, 0.2)
    shown = in_stripes(sample or checked, checked)
    wish = Wish(width=_WIDTH, table=_PAPER)
    picture = fabric_picture(shown, wish, stretch(progress, 0.2, 1.0), like=checked)
    if isinstance(picture, str):
        return None
    return _as_jpeg(picture.points, bleeds=sample is not None)


def _words(checked: Checked) -> str:
    names = [colour.name for colour in checked.design.colours if colour.name]
    of = f" in {', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else ""
    return f"The crochet fabric{of}, each stitch drawn as it is worked."


def _mirrored(data: bytes) -> bytes:
    """The same fabric as a left-hander works it."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - only where a picture is made

    with Image.open(BytesIO(data)) as picture:
        return _saved(ImageOps.mirror(picture))


def _bleeds(data: bytes) -> bool:
    """Whether a picture was cut to bleed: its upper corners are fabric."""
    from PIL import Image  # noqa: PLC0415 - only where a picture is made

    with Image.open(BytesIO(data)) as picture:
        picture.draft("RGB", (picture.width // 8, picture.height // 8))
        corners = [picture.getpixel((x, 0)) for x in (0, picture.width - 1)]
    return all(isinstance(c, tuple) and min(c) < _NEARLY_WHITE for c in corners)


def _as_jpeg(points: Any, *, bleeds: bool) -> bytes:  # noqa: ANN401 - an array, made late
    from PIL import Image, ImageOps  # noqa: PLC0415 - only where a picture is made

    whole = Image.fromarray(points)
    if bleeds:
        wide, high = whole.size
        side = round(wide * _SIDE)
        left, right = side, wide - side
        top = max(round(high * _TOP), high - round((right - left) * _PROPORTION))
        whole = whole.crop((left, top, right, high))
    else:
        whole.thumbnail(_SEEN_WHOLE)
        whole = ImageOps.expand(whole, _MARGIN, _PAPER)  # by which it is known again
    return _saved(whole)


def _saved(picture: Any) -> bytes:  # noqa: ANN401 - the library's class, imported late
    out = BytesIO()
    picture.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return out.getvalue()
