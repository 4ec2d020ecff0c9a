"""A photograph is put out upright and without what the camera wrote.

The test picture is made here, with the tags of an Exif 2.32 file (CIPA DC-008): maker,
place and orientation.
"""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from hookwright.release.photos import (
    LARGEST,
    PhotoAsked,
    UnusablePhoto,
    cleaned,
    photo_file,
    photos_in,
)

MAKE, ORIENTATION, GPS = 0x010F, 0x0112, 0x8825


def photo(width: int = 60, height: int = 40, orientation: int = 6) -> bytes:
    picture = Image.new("RGB", (width, height), "#4e8c97")
    picture.paste("#e0ac48", (0, 0, width // 2, height))
    exif = Image.Exif()
    exif[MAKE] = "Somebody's Camera"
    exif[ORIENTATION] = orientation
    exif[GPS] = {1: "N", 2: (54.0, 20.0, 0.0)}
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=exif.tobytes(), comment=b"at home")
    return out.getvalue()


def test_the_camera_the_place_and_the_comment_are_gone() -> None:
    before = photo()
    assert b"Somebody" in before
    after = cleaned(before, "a.jpg")
    assert b"Somebody" not in after
    assert b"at home" not in after
    with Image.open(io.BytesIO(after)) as picture:
        assert not dict(picture.getexif())
        assert "comment" not in picture.info
        assert "icc_profile" not in picture.info


def test_a_picture_that_lies_on_its_side_is_turned_upright() -> None:
    with Image.open(io.BytesIO(cleaned(photo(60, 40, 6), "a.jpg"))) as picture:
        assert picture.size == (40, 60)


def test_a_large_picture_is_made_smaller() -> None:
    with Image.open(io.BytesIO(cleaned(photo(3000, 1200, 1), "a.jpg"))) as picture:
        assert picture.size == (LARGEST, LARGEST * 1200 // 3000)


def test_what_is_clear_lies_on_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(out, "PNG")
    with Image.open(io.BytesIO(cleaned(out.getvalue(), "a.png"))) as picture:
        assert picture.getpixel((4, 4)) == (255, 255, 255)


@pytest.mark.parametrize("data", [b"", b"no picture", b"\xff\xd8\xff\xe0 cut short"])
def test_what_is_no_picture_is_told_in_a_sentence(data: bytes) -> None:
    with pytest.raises(UnusablePhoto, match=r"a\.jpg"):
        cleaned(data, "a.jpg")


def test_pictures_are_found_with_their_words() -> None:
    text = 'Look: ![A  wave](photos/a.jpg) and ![](b.png "B") and ![A](photos/a.jpg)'
    assert photos_in(text) == (PhotoAsked("photos/a.jpg", "A"), PhotoAsked("b.png", ""))


@pytest.mark.parametrize(
    "path", ["../secret.jpg", "/etc/passwd", "https://a.example/a.jpg"]
)
def test_a_picture_outside_of_the_folder_is_refused(path: str, tmp_path: Path) -> None:
    (tmp_path / "secret.jpg").write_bytes(photo())
    project = tmp_path / "project"
    project.mkdir()
    with pytest.raises(UnusablePhoto, match="not in the folder"):
        photo_file(PhotoAsked(path, "x"), project)
