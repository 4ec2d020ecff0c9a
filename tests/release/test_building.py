"""A release is whole or not there at all, and takes over what is made of the same things."""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from msgspec.structs import replace
from released import (
    SHEET,
    STAMP,
    WAVES,
    Before,
    SmallPictures,
    put_out,
    released,
    waves,
)

from hookwright.checking import check
from hookwright.cli import main
from hookwright.progress import Cancelled
from hookwright.reading.markdown import markdown_draft
from hookwright.release.building import build
from hookwright.release.copies import Edition, copies_of, file_stem, is_safe_name
from hookwright.release.facts import Row
from hookwright.release.ready import Order, Ready
from hookwright.release.texts import Text, Texts
from hookwright.source import Source
from hookwright.wording import Asked, Form


def test_the_manifest_tells_the_hash_of_every_file() -> None:
    files = released("")
    manifest = json.loads(files["manifest.json"].data)
    assert manifest["version"] == "1.0"
    assert manifest["date"] == "2026-11-25"
    assert {entry["name"] for entry in manifest["files"]} == set(files) - {"manifest.json"}
    for entry in manifest["files"]:
        data = files[entry["name"]].data
        assert entry["sha256"] == hashlib.sha256(data).hexdigest()
        assert entry["bytes"] == len(data)


def test_the_bundle_holds_every_file_and_its_bytes_repeat() -> None:
    files = released("")
    with zipfile.ZipFile(io.BytesIO(files["ebb-runner-1-0.zip"].data)) as bundle:
        assert bundle.testzip() is None
        inside = {name.rpartition("/")[2]: bundle.read(name) for name in bundle.namelist()}
    for name, data in inside.items():
        if name != "manifest.json":
            assert data == files[name].data
    assert set(inside) == set(files) - {"ebb-runner-1-0.zip"}


def test_there_is_a_copy_of_every_kind_in_both_terms() -> None:
    names = set(released(""))
    for terms in ("us", "uk"):
        for ending in ("a4.pdf", "letter.pdf", "ink-sparing.pdf", "left-handed.pdf",
                       "large-print-small.pdf", "large-print-large.pdf"):  # fmt: skip
            assert f"ebb-runner-{terms}-{ending}" in names
        assert f"ebb-runner-{terms}.txt" in names
    assert "ebb-runner.html" in names


def test_only_what_changed_is_made_again() -> None:
    first = released("")
    again = put_out(waves(), Before(first))
    copies = [
        made for name, made in again.items() if name.endswith((".pdf", ".html", ".txt"))
    ]
    assert all(made.kept for made in copies)
    assert {name: made.data for name, made in again.items()} == {
        name: made.data for name, made in first.items()
    }
    sheet = SHEET.replace("For your own making.", "Ask first.")
    other = check(
        markdown_draft(WAVES, "pattern.md"), None, Source(sheet, "worksheet.toml")
    )
    order = Order(other, replace(STAMP, rights="Ask first."))
    changed = [made.entry.name for made in build(order, Before(first)) if not made.kept]
    assert "ebb-runner-us-a4.pdf" in changed


def test_a_build_tells_how_far_it_is_and_can_be_stopped() -> None:
    told: list[float] = []

    def until_half(done: float, _: str) -> bool:
        told.append(done)
        return done < 0.5

    with pytest.raises(Cancelled):
        list(build(Order(waves(), STAMP), SmallPictures(), until_half))
    assert told == sorted(told)
    assert told[-1] >= 0.5


def folder(tmp_path: Path) -> Path:
    project = tmp_path / "ebb"
    project.mkdir()
    (project / "pattern.md").write_text(WAVES, "utf-8")
    (project / "worksheet.toml").write_text(SHEET, "utf-8")
    return project


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["release", *words])


def test_a_project_folder_gets_its_release_beside_the_pattern(tmp_path: Path) -> None:
    project = folder(tmp_path)
    result = run(str(project))
    assert result.exit_code == 0, result.output
    assert (project / "release" / "ebb-runner-us-a4.pdf").read_bytes()[:5] == b"%PDF-"
    assert not [one for one in project.iterdir() if one.name.startswith(".")]
    assert "The release 1.0 is in" in result.output
    (project / "release" / "letter.txt").write_text("mine", "utf-8")
    again = run(str(project))
    assert again.exit_code == 0
    assert again.output.count("as before") >= 15
    assert (project / "release" / "letter.txt").read_text("utf-8") == "mine"


def test_a_pattern_with_an_error_is_not_put_out_but_as_a_draft(tmp_path: Path) -> None:
    project = folder(tmp_path)
    wrong = WAVES.replace("turn. 48 (98) dc", "turn. 47 (98) dc")
    (project / "pattern.md").write_text(wrong, "utf-8")
    result = run(str(project))
    assert result.exit_code == 1
    assert "has to be mended" in result.output
    assert not (project / "release").exists()
    draft = run(str(project), "--draft", "-o", str(tmp_path / "draft"))
    assert draft.exit_code == 0, draft.output
    assert "DRAFT" in (tmp_path / "draft" / "ebb-runner-us.txt").read_text("utf-8")


def test_a_folder_that_is_no_release_is_left_alone(tmp_path: Path) -> None:
    project = folder(tmp_path)
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "notes.txt").write_text("mine", "utf-8")
    result = run(str(project), "-o", str(mine))
    assert result.exit_code == 2
    assert [one.name for one in mine.iterdir()] == ["notes.txt"]


def test_a_build_that_fails_leaves_the_earlier_release_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = folder(tmp_path)
    assert run(str(project)).exit_code == 0
    before = {p.name: p.read_bytes() for p in (project / "release").iterdir()}
    (project / "pattern.md").write_text(WAVES.replace("soft waves", "long waves"), "utf-8")

    def stopped(*_: object) -> bool:
        raise KeyboardInterrupt

    monkeypatch.setattr("hookwright.terminal.ProgressLine.__call__", stopped)
    assert run(str(project)).exit_code == 130
    assert {p.name: p.read_bytes() for p in (project / "release").iterdir()} == before
    assert not [one for one in project.iterdir() if one.name.startswith(".")]


def test_a_release_cut_off_while_it_was_put_in_place_comes_back(tmp_path: Path) -> None:
    project = folder(tmp_path)
    assert run(str(project)).exit_code == 0
    (project / "release").rename(project / ".release.earlier")
    result = run(str(project))
    assert result.exit_code == 0
    assert result.output.count("as before") >= 15


@pytest.mark.parametrize(
    ("title", "stem"),
    [
        ("Long Swell", "long-swell"),
        ("../../etc", "etc"),
        ("Ñandú №5", "nandu-no5"),
        ("★", "pattern"),
    ],
)
def test_a_title_becomes_a_name_that_stays_in_its_folder(title: str, stem: str) -> None:
    assert file_stem(title) == stem
    for copy in copies_of(title, ("US", "UK"), ("Cot", "A/B")):
        assert is_safe_name(copy.name)


@pytest.mark.parametrize("day", ["25.11.2026", "2026-13-01", "2026-1-1"])
def test_a_day_that_is_none_is_refused(day: str, tmp_path: Path) -> None:
    assert run(str(folder(tmp_path)), "--date", day).exit_code == 2


def test_large_print_is_in_whole_words_and_the_numbers_of_its_size() -> None:
    bare = WAVES.replace(" (skipped 3 ch count as dc)", "")
    pattern = check(markdown_draft(bare, "pattern.md"), None, Source(SHEET, "sheet"))
    texts = Texts(pattern)
    copies = copies_of("Ebb Runner", ("US", "UK"), pattern.sizes)
    large = [copy for copy in copies if copy.edition is Edition.LARGE]
    assert [copy.size for copy in large] == [0, 1, 0, 1]
    ready = Ready(Order(pattern, STAMP), texts, copies, (), ())
    for copy in large:
        contents = ready.contents(copy)
        rows = [b for s in contents.sections for b in s.blocks if isinstance(b, Row)]
        said = " ".join(words for row in rows for _, words in row.actions)
        assert not set("*[]()") & set(said)
        assert "work the following" in said
        assert f"chain {(50, 100)[copy.size or 0]}" in said
        assert contents.sizes == (("Small", "Large")[copy.size or 0],)
        assert [shade.letter for shade in contents.shades] == ["A", "B"]
        gauge = next(cell for cell in contents.needs if cell.label.startswith(("G", "T")))
        assert "10 cm" in gauge.fact


def test_what_could_not_be_worded_as_a_copy_has_it_is_told() -> None:
    texts = Texts(waves())
    asked = Asked(terms="UK", form=Form.LONG)
    texts._made[asked] = Text(waves(), kept=("Row 1: It stays short.",))  # noqa: SLF001
    assert texts.all_kept() == ("UK terms, long: Row 1: It stays short.",)
