"""Pens: what is drawn comes out as SVG, as the room it takes up, and as it was drawn."""

from __future__ import annotations

import math
from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from hookwright.drawing.bounds import BoundsPen, Box
from hookwright.drawing.pen import (
    Group,
    Ink,
    Lettering,
    Outline,
    Pen,
    box,
    curve,
    disc,
    grouped,
    line,
    oval,
)
from hookwright.drawing.png import png_of
from hookwright.drawing.recorder import Recorder, bounds_of, drawn_again
from hookwright.drawing.svg import SvgPen

SVG = "{http://www.w3.org/2000/svg}"


def sketch(pen: Pen) -> None:
    """A little of everything."""
    with grouped(pen, Group("row", (("row", "3"),), "Row 3", Ink(width=0.3))):
        pen.draw((line(0j, 4j), line(-1 + 0j, 1 + 0j)), Ink(width=0.3))
        with grouped(pen, Group("symbol", (("node", "17"),))):
            pen.draw((disc(3 + 3j, 1.0),), Ink(fill="#a5281b"))
    pen.draw((curve(0j, 1 - 1j, 3 - 1j, 4 + 0j),), Ink("#1d4e80", dashes=(1.0, 0.5)))
    pen.words("3 <–> & 4", 1 + 6j, Lettering(2.5, bold=True, anchor="middle", turn=90))


def written(marks: Recorder) -> str:
    pen = SvgPen()
    drawn_again(marks.marks, pen)
    return pen.finished(Box(-2, -2, 12, 8), "A sketch", "A T beside a red disc.")


def test_a_drawing_says_in_its_file_what_it_shows() -> None:
    recorder = Recorder()
    sketch(recorder)
    root = ET.fromstring(written(recorder))  # noqa: S314 - our own
    assert root.findtext(f"{SVG}title") == "A sketch"
    assert root.findtext(f"{SVG}desc") == "A T beside a red disc."
    assert root.attrib["width"] == "14mm"
    assert root.attrib["aria-labelledby"] == "drawing-title drawing-description"


def test_what_is_known_of_a_group_can_be_asked_by_its_name() -> None:
    recorder = Recorder()
    sketch(recorder)
    root = ET.fromstring(written(recorder))  # noqa: S314 - our own
    (found,) = root.findall(f".//{SVG}g[@data-node='17']")
    assert found.attrib["class"] == "symbol"
    assert len(found.findall(f"{SVG}path")) == 1
    assert root.findtext(f".//{SVG}g[@data-row='3']/{SVG}title") == "Row 3"


def test_what_was_recorded_is_drawn_again_byte_for_byte() -> None:
    direct, recorder = SvgPen(), Recorder()
    sketch(direct)
    sketch(recorder)
    room = Box(-2, -2, 12, 8)
    assert direct.finished(room, "A sketch", "A T beside a red disc.") == written(recorder)
    assert recorder.texts() == ("3 <–> & 4",)
    assert [begun.group.kind for begun in recorder.groups("symbol")] == ["symbol"]


def test_an_ink_is_said_once_for_a_group_that_is_drawn_with_it() -> None:
    pen = SvgPen()
    with grouped(pen, Group("row", ink=Ink())):
        pen.draw((line(0j, 1j),), Ink())
    text = pen.finished(Box(0, 0, 1, 1), "t", "d")
    assert text.count("stroke-width") == 1
    assert '<path d="M0 0L0 1"/>' in text


@given(st.text(), st.text())
def test_no_words_break_the_file(words: str, title: str) -> None:
    pen = SvgPen()
    with grouped(pen, Group("symbol", (("word", words),), words)):
        pen.words(words, 0j, Lettering())
    root = ET.fromstring(pen.finished(Box(0, 0, 1, 1), title, words))  # noqa: S314 - our own
    assert root.tag == f"{SVG}svg"


def bezier(outline: Outline, steps: int = 24) -> list[complex]:
    """Points along a curve."""
    found = []
    for first in range(0, len(outline.points) - 1, 3):
        a, b, c, d = outline.points[first : first + 4]
        for step in range(steps):
            t = step / steps
            s = 1 - t
            found.append(s**3 * a + 3 * s * s * t * b + 3 * s * t * t * c + t**3 * d)
    return found


def test_a_disc_is_round() -> None:
    # Source: a quarter of a circle by one cubic curve with arms of 4 (sqrt 2 - 1) / 3 is
    # off by 0.027 % at most (textbook result; figure from memory, here computed).
    far = [abs(point - (2 + 1j)) for point in bezier(disc(2 + 1j, 3.0))]
    assert all(distance + 1e-9 >= 3.0 and distance <= 3.0 * 1.00028 for distance in far)


def test_an_oval_is_as_long_and_broad_as_is_asked() -> None:
    along = 2 * complex(math.cos(0.4), math.sin(0.4))
    turned = [point * along.conjugate() / 2 for point in bezier(oval(0j, along, 0.5))]
    assert math.isclose(max(point.real for point in turned), 2.0)
    assert math.isclose(max(point.imag for point in turned), 0.5, rel_tol=1e-3)


@given(st.floats(-9, 9), st.floats(-9, 9), st.floats(0.1, 9), st.floats(0.1, 9))
def test_a_box_takes_up_its_sides_and_half_its_line(
    x: float, y: float, width: float, height: float
) -> None:
    pen = BoundsPen()
    pen.draw((box(complex(x, y), width, height),), Ink(width=0.5))
    assert pen.box is not None
    assert math.isclose(pen.box.width, width + 0.5)
    assert math.isclose(pen.box.height, height + 0.5)


def test_words_turned_take_up_room_the_other_way() -> None:
    level, upright = Recorder(), Recorder()
    level.words("Row 12", 0j, Lettering(3.0))
    upright.words("Row 12", 0j, Lettering(3.0, turn=90))
    lying, standing = bounds_of(level.marks), bounds_of(upright.marks)
    assert lying is not None
    assert standing is not None
    assert math.isclose(lying.width, standing.height)
    assert lying.width > 3 * lying.height


def test_a_picture_in_points_is_as_wide_as_is_asked() -> None:
    recorder = Recorder()
    sketch(recorder)
    png = png_of(written(recorder), 280)
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    # Source: Portable Network Graphics, IHDR: width and height behind the first 16 bytes.
    assert int.from_bytes(png[16:20], "big") == 280
    assert int.from_bytes(png[20:24], "big") == 200
