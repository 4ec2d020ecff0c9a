"""Fabric as files: PNG with its description inside, SVG in ink or with the picture in it."""

from __future__ import annotations

import io
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from PIL import Image

from hookwright.checking import check
from hookwright.drawing.fabric import files
from hookwright.drawing.fabric.files import Made, as_png, as_svg, fabric_file
from hookwright.drawing.fabric.picture import (
    Seen,
    Wish,
    frame_of,
    picture_of,
    pieces_seen,
    scene_seen,
)
from hookwright.drawing.fabric.scene import lie_of
from hookwright.drawing.fabric.strokes import strokes_of
from hookwright.source import Source

TEXT = (
    "US terms. The ch 1 at the start of a row does not count as a stitch.\n\nCh 7.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (6 sc)\n"
    "Row 2: Ch 1, dc in each st across. Turn. (6 dc)\n"
)
WISH = Wish(width=120)


def seen() -> Seen:
    (piece,) = pieces_seen(check(Source(TEXT)), WISH)
    assert isinstance(piece, Seen)
    return piece


def test_a_png_is_the_picture_and_says_what_it_shows() -> None:
    picture = picture_of(seen(), WISH)
    held = as_png(picture)
    assert held == as_png(picture)
    with Image.open(io.BytesIO(held)) as image:
        assert np.array_equal(np.asarray(image), picture.points)
        assert image.info["Description"] == picture.description
    assert picture.description == "The right side of crochet fabric, 2 rows."


def test_an_svg_in_ink_is_clean_and_says_what_it_shows() -> None:
    svg = as_svg(seen(), WISH, "A <swatch>")
    root = ET.fromstring(svg)  # noqa: S314 - our own text
    names = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert names == {"svg", "title", "desc", "rect", "defs", "path", "g", "use"}
    assert root[0].text == "A <swatch>"
    assert "2 rows" in (root[1].text or "")
    assert "http" not in svg.replace("http://www.w3.org/2000/svg", "")
    assert svg == as_svg(seen(), WISH, "A <swatch>")


def test_an_svg_of_many_stitches_holds_the_picture(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(files, "MOST_INKED", 3)
    svg = as_svg(seen(), WISH, "Swatch")
    assert "data:image/png;base64," in svg
    assert "<title" in svg


def test_each_stroke_knows_its_stitch_and_lies_near_it() -> None:
    piece = seen()
    frame = frame_of(lie_of(piece.cloth), WISH)
    strokes = strokes_of(scene_seen(piece), frame)
    assert set(strokes.stitch.tolist()) == set(np.flatnonzero(piece.cloth.shown).tolist())
    place = frame.placed(piece.cloth.position[strokes.stitch])
    off = np.abs(strokes.points[:, 0] - place) / frame.scale
    assert off.max() < 3.0
    assert len(strokes.near) == len(strokes.points) == len(strokes.yarn)


def test_a_pattern_becomes_a_file_of_either_kind() -> None:
    checked = check(Source(TEXT))
    png = fabric_file(checked, WISH, "Swatch")
    svg = fabric_file(checked, WISH, "Swatch", svg=True)
    assert isinstance(png, Made)
    assert isinstance(svg, Made)
    assert png.data.startswith(b"\x89PNG")
    assert svg.data.startswith(b"<svg")
    assert png.description == svg.description
    assert isinstance(fabric_file(check(Source("Ch 9.\n")), WISH, "Swatch"), str)
