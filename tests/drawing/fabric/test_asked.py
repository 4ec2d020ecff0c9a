"""Pictures of fabric by the command: a file for each piece, and what is to be said of it."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from hookwright.checking import check
from hookwright.commands.check import Status
from hookwright.commands.draw import DrawOptions, draw
from hookwright.drawing.asked import NotDrawn, Wanted, sheets_of
from hookwright.progress import Cancelled
from hookwright.source import Source

TEXT = (
    "# Knot Coaster\n\nUS terms. The ch 1 at the start of a row does not count as a stitch.\n\n"
    "## Body\n\nCh 7.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (6 sc)\n"
    "Row 2: Ch 1, sc in each st across. Fasten off. (6 sc)\n\n"
    "## Strap\n\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (3 sc)\n"
    "Rows 2-5: Ch 1, sc in each st across. Turn. (3 sc)\n"
)


def test_each_piece_has_a_picture_as_wide_as_asked() -> None:
    found = sheets_of("fabric", check(Source(TEXT)), Wanted(pixels=150))
    assert [sheet.name for sheet in found] == ["fabric-body", "fabric-strap"]
    for sheet in found:
        with Image.open(io.BytesIO(sheet.png(150))) as image:
            assert image.width == 150
        assert sheet.svg().startswith("<svg")
        assert sheet.room.width > 0


def test_one_piece_can_be_asked_for_and_one_that_is_not_there_is_told() -> None:
    checked = check(Source(TEXT))
    (found,) = sheets_of("fabric", checked, Wanted(pixels=120, part="strap"))
    assert found.title == "Knot Coaster, Strap: fabric"
    with pytest.raises(NotDrawn, match="Pieces begin with Body, Strap"):
        sheets_of("fabric", checked, Wanted(pixels=120, part="brim"))


def test_a_repeat_is_for_charts_and_that_is_said() -> None:
    (found, _) = sheets_of("fabric", check(Source(TEXT)), Wanted(pixels=120, repeat=True))
    assert "--repeat is for charts" in found.notes[-1]


def test_the_command_writes_the_files(tmp_path: Path) -> None:
    draft = tmp_path / "coaster.md"
    draft.write_text(TEXT, encoding="utf-8")
    options = DrawOptions("fabric", pixels=120, file=str(tmp_path / "seen.png"))
    assert draw(str(draft), options) is Status.CLEAN
    assert (tmp_path / "seen-body.png").read_bytes().startswith(b"\x89PNG")
    assert (tmp_path / "seen-strap.png").exists()


def test_pictures_that_are_stopped_stop() -> None:
    told: list[float] = []

    def stop(done: float, _: str) -> bool:
        told.append(done)
        return done < 0.7

    with pytest.raises(Cancelled):
        sheets_of("fabric", check(Source(TEXT)), Wanted(pixels=120), stop)
    assert told == sorted(told)
