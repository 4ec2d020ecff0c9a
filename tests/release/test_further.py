"""Further pages go out beside the copies: help in both terms, corrections where there are any."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
import webvtt
from released import SHEET, STAMP, WAVES, Before, released, waves

from hookwright.checking import Checked, check
from hookwright.commands.further_pages import further_pages
from hookwright.commands.kept_versions import keep
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.writing import NotWritten
from hookwright.release.building import build
from hookwright.release.further import Further, further_files
from hookwright.release.ready import Order
from hookwright.sheets.facts import Sheet, Words


def project(tmp_path: Path, version: str = "1.0") -> tuple[str, Checked]:
    (tmp_path / "pattern.md").write_text(WAVES, "utf-8")
    sheet = SHEET.replace('version = "1.0"', f'version = "{version}"')
    (tmp_path / "worksheet.toml").write_text(sheet, "utf-8")
    path = str(tmp_path)
    return path, check(draft_at(path), None, worksheet_at(path))


def names(pages: tuple[Further, ...], checked: Checked) -> list[str]:
    found = further_files(pages, "Ebb Runner", ("US", "UK"), lambda _: checked)
    return [file.name for file in found]


def test_help_goes_out_in_both_terms_and_is_taken_over_as_the_copies_are() -> None:
    first = released("")
    order = Order(waves(), STAMP, further=further_pages("-", waves()))
    made = {file.entry.name: file for file in build(order, Before(first)) if not file.kept}
    for terms in ("us", "uk"):
        assert made[f"ebb-runner-{terms}-help.pdf"].data[:5] == b"%PDF-"
        assert b"Help with Ebb Runner" in made[f"ebb-runner-{terms}-help.html"].data
    assert b"ebb-runner-uk-help.pdf" in made["manifest.json"].data
    before = Before({**first, **made})
    again = {file.entry.name: file for file in build(order, before)}
    assert all(again[name].kept for name in made if "help" in name)


def test_corrections_go_out_where_another_version_is_kept(tmp_path: Path) -> None:
    path, checked = project(tmp_path)
    assert "ebb-runner-us-corrections.pdf" not in names(
        further_pages(path, checked), checked
    )
    keep(path, "1.0", "2026-11-01")
    assert len(further_pages(path, checked)) == 1, "it is the version that is kept"
    path, checked = project(tmp_path, "1.1")
    pages = further_pages(path, checked, "2026-11-25")
    assert "ebb-runner-us-corrections.html" in names(pages, checked)
    assert "ebb-runner-uk-corrections.html" not in names(pages, checked)
    sheet = pages[1].sheet(checked)
    assert sheet is not None
    assert ("Replaces", "1.0") in sheet.band
    assert ("Date", "25 November 2026") in sheet.band


def test_a_filmed_lesson_goes_out_with_its_chapters_and_captions(tmp_path: Path) -> None:
    path, checked = project(tmp_path)
    captions = (
        "WEBVTT\n\n00:00.000 --> 00:04.000\nHello.\n\n"
        "00:20.000 --> 00:25.000\nRow one, double crochet all along.\n\n"
        "01:10.000 --> 01:15.000\nRow two, chain 3.\n"
    )
    (tmp_path / "lesson.vtt").write_text(captions, "utf-8")
    pages = further_pages(path, checked)
    found = further_files(pages[1:], "Ebb Runner", ("US", "UK"), lambda _: checked)
    made = {file.name: file.make() for file in found}
    assert set(made) == {
        "ebb-runner-us-lesson.pdf", "ebb-runner-us-lesson.html",
        "ebb-runner-chapters.txt", "ebb-runner-chapters.vtt", "ebb-runner-captions.vtt",
    }  # fmt: skip
    assert b"0:20" in made["ebb-runner-us-lesson.html"]
    assert made["ebb-runner-captions.vtt"].decode() == captions
    # webvtt-py reads the track; players take three chapters and more, the first at 0:00.
    track = webvtt.from_buffer(io.StringIO(made["ebb-runner-chapters.vtt"].decode()))
    assert [one.start_in_seconds for one in track.captions] == [0, 20, 70]


def test_captions_in_which_no_row_is_announced_make_no_page(tmp_path: Path) -> None:
    path, checked = project(tmp_path)
    (tmp_path / "lesson.txt").write_text("0:01 Good evening.\n", "utf-8")
    assert [page.name for page in further_pages(path, checked)] == ["help"]


def test_a_kept_version_that_is_gone_is_told(tmp_path: Path) -> None:
    path, checked = project(tmp_path)
    keep(path, "0.9", "2026-11-01").unlink()
    with pytest.raises(NotWritten, match=r"Version 0\.9 is kept, but"):
        further_pages(path, checked)


def test_a_page_with_nothing_to_say_is_left_out() -> None:
    def one(checked: Checked) -> Sheet | None:
        said = Sheet("Ebb", "Nothing", blocks=(Words("Ebb."),))
        return said if checked.terms == "UK" else None

    pages = (Further("none", "nothing", one, both_terms=True),)
    assert names(pages, waves()) == []
