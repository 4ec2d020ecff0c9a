"""`hookwright colours --photo`: which colours are in a photo of the balls?"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from hookwright.colour.photo import InPhoto, NoPhotoError, colours_in
from hookwright.commands.check import Status
from hookwright.listing.photo import photo_listing
from hookwright.terminal import ReaderGone, ink, say, say_aside, width

_MOST_BYTES = 60 * 1024 * 1024


def colours_of_photo(path: str, number: int, *, as_json: bool) -> Status:
    """Print the colours of a photo as swatches and as yarns for a worksheet."""
    try:
        found = colours_in(_bytes_of(path), number)
    except NoPhotoError as refusal:
        say_aside(f"No colours can be taken from {path}. {refusal}")
        return Status.NOT_READ
    with suppress(ReaderGone):
        if as_json:
            import json  # noqa: PLC0415 - for programs only

            say(json.dumps({"photo": path, "colours": [_answer(one) for one in found]}))
        else:
            say(photo_listing(found, number, width(), ink()))
    return Status.CLEAN


def _bytes_of(path: str) -> bytes:
    try:
        with Path(path).open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise NoPhotoError("It cannot be opened.") from error
    if len(data) > _MOST_BYTES:
        raise NoPhotoError("It is larger than 60 MB: save it smaller.")
    return data


def _answer(colour: InPhoto) -> dict[str, object]:
    return {
        "name": colour.name,
        "hex": colour.code,
        "share": colour.share,
        "oklch": [colour.lightness, colour.chroma, colour.hue],
    }
