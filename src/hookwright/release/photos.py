"""A photograph as it is put out: upright, no larger than a page needs, and bare.

What the camera wrote beside the picture (its make, the place, the hour) is left behind:
the picture is drawn anew and saved without it. Colours are carried over into sRGB first.
"""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

from msgspec import Struct

from hookwright.regex import regex

LARGEST = 2000
"""The longer side in pixels: a whole page at 200 dots an inch."""
_LARGEST_READ = 120_000_000
_QUALITY = 86
_IMAGE = regex(r"!\[(?P<alt>[^\[\]\n]*)\]\((?P<path>[^()\n\"]*?)(?:\s+\"[^\"\n]*\")?\)")


class PhotoAsked(Struct, frozen=True):
    """A picture that a draft asks for.

    Attributes:
        path: Where it is, as the draft writes it.
        alt: Its alternative text; "" if it has none.
    """

    path: str
    alt: str


class UnusablePhoto(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """A photograph that cannot be put out; the message is a sentence."""


def photos_in(markdown: str) -> tuple[PhotoAsked, ...]:
    """The pictures that a draft in Markdown asks for, each once."""
    found = [
        PhotoAsked(image["path"].strip(), " ".join(image["alt"].split()))
        for image in _IMAGE.finditer(markdown)
    ]
    return tuple({photo.path: photo for photo in found}.values())


def photo_file(asked: PhotoAsked, folder: Path) -> Path:
    """Where a picture lies.

    Raises:
        UnusablePhoto: If it is not in the folder of the pattern, or not there.
    """
    if re.match(r"[a-z][a-z0-9+.-]*:", asked.path, re.IGNORECASE):
        raise UnusablePhoto(f"{asked.path} is not in the folder of the pattern.")
    file = folder / asked.path
    try:
        inside = file.resolve().is_relative_to(folder.resolve())
        there = inside and file.is_file()
    except (OSError, ValueError):
        inside = there = False
    if not inside:
        raise UnusablePhoto(f"{asked.path} is not in the folder of the pattern.")
    if not there:
        raise UnusablePhoto(f"The picture {asked.path} is not there.")
    return file


def cleaned(data: bytes, name: str) -> bytes:
    """A photograph as a JPEG that holds nothing but its picture.

    Raises:
        UnusablePhoto: If it is no picture that can be read here.
    """
    from PIL import Image, ImageOps, UnidentifiedImageError  # noqa: PLC0415 - for photos only

    try:
        with Image.open(io.BytesIO(data)) as opened:
            if opened.width * opened.height > _LARGEST_READ:
                raise UnusablePhoto(f"{name} has more than 120 million pixels.")
            opened.draft("RGB", (LARGEST, LARGEST))
            picture = _in_srgb(ImageOps.exif_transpose(opened))
    except UnidentifiedImageError as error:
        raise UnusablePhoto(
            f"{name} is no picture that can be read here: save it as JPEG or PNG."
        ) from error
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise UnusablePhoto(f"{name} is damaged: it cannot be read whole.") from error
    picture.thumbnail((LARGEST, LARGEST), Image.Resampling.LANCZOS)
    bare = Image.new("RGB", picture.size)
    bare.paste(picture)
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=_QUALITY, optimize=True, progressive=False)
    return out.getvalue()


def _in_srgb(picture: Any) -> Any:  # noqa: ANN401 - the library's class, imported late
    """A picture in the colours of a screen, on white where it is clear."""
    from PIL import Image, ImageCms  # noqa: PLC0415 - as above

    profile = picture.info.get("icc_profile")
    if profile and picture.mode in {"RGB", "CMYK", "L"}:
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            there = ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(picture, own, there, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            turned = None
        if turned is not None:
            return turned
    if picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info:
        clear = picture.convert("RGBA")
        ground = Image.new("RGBA", clear.size, "#ffffff")
        ground.alpha_composite(clear)
        return ground.convert("RGB")
    return picture.convert("RGB")
