"""The colours of a photo are those that were put in it.

Sources of the comparison: photos made of known colours, a scene rendered by the physics of
matt light, and coloraide for OKLab and CIEDE2000.
"""

from __future__ import annotations

import json
import struct
import zlib
from io import BytesIO
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from coloraide import Color
from photographed import photographed
from PIL import Image

from hookwright.cli import main
from hookwright.colour.photo import NoPhotoError, colours_in, oklab, plain_name
from hookwright.commands.check import Status
from hookwright.design.worksheet.reading import read_worksheet
from hookwright.listing.photo import photo_listing
from hookwright.source import Source
from hookwright.terminal import NO_INK, Ink

EIGHT = ("#22324A", "#6F7440", "#4E8C97", "#A8B77C", "#E2AA9B", "#B4532F", "#E0AC48",
         "#F1EADB")  # fmt: skip
TABLE = (60, 60, 66)


def rgb(code: str) -> tuple[int, int, int]:
    return int(code[1:3], 16), int(code[3:5], 16), int(code[5:7], 16)


def photo(kind: str = "PNG", *, shade: bool = True) -> bytes:
    """Eight balls on a table, each with a light side and a shady one."""
    image = Image.new("RGB", (400, 200), TABLE)
    for at, code in enumerate(EIGHT):
        left, top = 10 + 100 * (at % 4), 10 + 100 * (at // 4)
        for x in range(80):
            dark = 1 - 0.35 * x / 80 if shade else 1
            colour = tuple(round(one * dark) for one in rgb(code))
            image.paste(colour, (left + x, top, left + x + 1, top + 80))
    kept = BytesIO()
    image.save(kept, kind, quality=90)
    return kept.getvalue()


def apart(one: str, other: str | Color) -> float:
    return float(Color(one).delta_e(Color(other), method="2000"))


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_the_balls_are_found_and_the_table(kind: str) -> None:
    found = colours_in(photo(kind), 9)
    assert len(found) == 9
    for code in EIGHT:
        assert min(apart(code, one.code) for one in found) < 8, code
    assert abs(sum(one.share for one in found) - 1) < 0.01
    assert [one.share for one in found] == sorted((o.share for o in found), reverse=True)


SCENES = {
    "tide": EIGHT,
    "greys": ("#F4F2EE", "#B9B9B6", "#6B6D70", "#2B2C2E", "#9C2F3A", "#2F4F8F"),
    "near one another": ("#C24A3A", "#D98B5F", "#7F3B6C", "#4D6B9C", "#4F8F6B", "#CFC04A",
                         "#E6D8C8", "#3B3A36", "#8A6A4A", "#B58FC0"),
    "bright": ("#1D2B53", "#7E2553", "#008751", "#AB5236", "#5F574F", "#C2C3C7", "#FFF1E8",
               "#D0305A", "#E0A030", "#D8D860", "#30A050", "#6080D0"),
}  # fmt: skip


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("seed", [1, 2])
def test_balls_on_a_table_by_the_window_are_found(scene: str, seed: int) -> None:
    """Window light, shadows, strands, grain, noise and JPEG: what is put in is known.

    All within 12 of CIEDE2000, on average within 5; what is off is lightness above all, for
    nothing in a photo tells how light it was: hue and chroma by themselves are within 8.
    Yarns that differ by less than 15 may be found as one.
    """
    codes = SCENES[scene]
    found = colours_in(photographed(codes, seed=seed), len(codes) + 2)
    near = [min(found, key=lambda one: apart(code, one.code)).code for code in codes]
    off = [apart(code, own) for code, own in zip(codes, near, strict=True)]
    assert max(off) < 12
    assert sum(off) / len(off) < 5
    evened = [
        apart(code, Color(own).convert("oklab").set("l", lightness(code)).convert("srgb"))
        for code, own in zip(codes, near, strict=True)
    ]
    assert max(evened) < 8
    for one, other in combinations(codes, 2):
        if near[codes.index(one)] == near[codes.index(other)]:
            assert apart(one, other) < 15


def lightness(code: str) -> float:
    return float(Color(code).convert("oklab")["l"])


def test_flat_colours_are_found_as_they_are() -> None:
    found = colours_in(photo(shade=False), 9)
    for code in EIGHT:
        assert min(apart(code, one.code) for one in found) < 1.5, code


def test_the_same_photo_has_the_same_colours() -> None:
    assert colours_in(photo(), 8) == colours_in(photo(), 8)


def test_a_photo_of_one_colour_has_one() -> None:
    kept = BytesIO()
    Image.new("RGB", (50, 50), rgb("#B4532F")).save(kept, "PNG")
    (only,) = colours_in(kept.getvalue(), 8)
    assert (only.code, only.share) == ("#b4532f", 1)


def test_what_is_seen_through_is_no_colour() -> None:
    image = Image.new("RGBA", (50, 50), (255, 0, 0, 0))
    image.paste((34, 50, 74, 255), (0, 0, 20, 20))
    kept = BytesIO()
    image.save(kept, "PNG")
    (only,) = colours_in(kept.getvalue(), 8)
    assert only.code == "#22324a"
    empty = BytesIO()
    Image.new("RGBA", (9, 9), (0, 0, 0, 0)).save(empty, "PNG")
    with pytest.raises(NoPhotoError, match="transparent"):
        colours_in(empty.getvalue(), 8)


@pytest.mark.parametrize("code", [*EIGHT, "#000000", "#ffffff", "#ff0000", "#0000ff"])
def test_oklab_is_that_of_the_reference(code: str) -> None:
    assert oklab(rgb(code)) == pytest.approx(
        Color(code).convert("oklab").coords(), abs=1e-5
    )


@pytest.mark.parametrize(
    ("code", "name"),
    [("#202f45", "dark blue"), ("#f2ecdd", "cream"), ("#bba68d", "beige"),
     ("#a44b2b", "red"), ("#d4a344", "yellow"), ("#477e89", "teal"), ("#000000", "black"),
     ("#ffffff", "white"), ("#808080", "grey"), ("#6a4a20", "brown")],
)  # fmt: skip
def test_a_colour_has_a_plain_name_until_she_gives_it_hers(code: str, name: str) -> None:
    assert plain_name(oklab(rgb(code))) == name


def huge() -> bytes:
    """The head of a PNG of 100,000 x 100,000 pixels."""
    head = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)
    told = b"\x89PNG\r\n\x1a\n"
    for kind, data in ((b"IHDR", head), (b"IDAT", zlib.compress(b""))):
        sum_ = struct.pack(">I", zlib.crc32(kind + data))
        told += struct.pack(">I", len(data)) + kind + data + sum_
    return told


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "no picture"),
        (b"sc in each st", "no picture"),
        (photo()[:400], "broken"),
        (photo("JPEG")[:600], "broken"),
        (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00", "HEIC photo: save it as JPEG or PNG"),
        (huge(), "pixels"),
    ],
)
def test_what_is_no_photo_is_told(data: bytes, told: str) -> None:
    with pytest.raises(NoPhotoError, match=told):
        colours_in(data, 8)


def called(*words: str) -> Result:
    return CliRunner().invoke(main, ["colours", *words])


def test_a_photo_is_printed_as_yarns_to_name(tmp_path: Path) -> None:
    file = tmp_path / "balls.png"
    file.write_bytes(photo())
    result = called("--photo", str(file), "-n", "9")
    assert result.exit_code == Status.CLEAN
    yarns = result.stdout[result.stdout.index("[[yarn]]") :]
    sheet = read_worksheet(Source(yarns))
    assert sheet.findings == ()
    assert len(sheet.noted.yarns) == 9
    answer = json.loads(called("--photo", str(file), "-n", "9", "--json").stdout)
    assert [one["hex"] for one in answer["colours"]] == [
        yarn.colours[0].code for yarn in sheet.noted.yarns
    ]


def test_swatches_lie_on_their_own_ground() -> None:
    found = colours_in(photo(), 9)
    assert "\x1b[97;48;2;" in photo_listing(found, 9, 92, Ink(on=True))
    assert "\x1b" not in photo_listing(found, 9, 92, NO_INK)
    assert "No more than 9 were told apart, not 12." in photo_listing(found, 12, 92, NO_INK)


def test_a_photo_that_is_not_there(tmp_path: Path) -> None:
    result = called("--photo", str(tmp_path / "none.jpg"))
    assert result.exit_code == Status.NOT_READ
    assert "It cannot be opened." in result.stderr
    assert called().exit_code == 2
