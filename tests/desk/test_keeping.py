"""What is saved is kept: whole, with what was there before, never over what is not known."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from desk_kills import kill_saves
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.desk.folder import Folder, NotHere, mark_of
from hookwright.desk.keeping import Changed, Keeper, as_it_was_written, too_many
from hookwright.reading.plain import decoded, with_plain_line_ends


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    return Keeper(Folder(tmp_path))


def test_a_text_is_put_in_the_place_of_the_one_it_was_made_from(keeper: Keeper) -> None:
    first = keeper.save("pattern", "Ch 10.\n", "")
    second = keeper.save("pattern", "Ch 12.\n", first.mark)
    assert keeper.folder.read("pattern").words == "Ch 12.\n"
    assert second.mark == mark_of(b"Ch 12.\n")


def test_a_change_from_elsewhere_is_not_written_over(keeper: Keeper) -> None:
    mark = keeper.save("pattern", "Ch 10.\n", "").mark
    (keeper.folder.path / "pattern.md").write_text("Ch 99.\n", "utf-8")
    with pytest.raises(Changed) as told:
        keeper.save("pattern", "Ch 12.\n", mark)
    assert told.value.now.words == "Ch 99.\n"
    assert keeper.folder.read("pattern").words == "Ch 99.\n"


def test_a_file_that_has_come_meanwhile_is_not_written_over(keeper: Keeper) -> None:
    (keeper.folder.path / "pattern.md").write_text("Ch 99.\n", "utf-8")
    with pytest.raises(Changed):
        keeper.save("pattern", "Ch 12.\n", "")


def test_the_earlier_version_can_be_had_again(keeper: Keeper) -> None:
    mark = keeper.save("pattern", "Ch 10.\n", "").mark
    keeper.save("pattern", "Ch 12.\n", mark)
    (kept,) = keeper.earlier("pattern")
    assert keeper.version("pattern", kept.id) == "Ch 10.\n"
    assert keeper.earlier("worksheet") == []


def test_while_she_types_a_version_is_kept_now_and_then(keeper: Keeper) -> None:
    mark = ""
    for number in range(20):
        mark = keeper.save("pattern", f"Ch {number}.\n", mark).mark
    assert len(keeper.earlier("pattern")) == 1
    keeper.save("pattern", "Ch 99.\n", mark, decided=True)
    assert len(keeper.earlier("pattern")) == 2


@pytest.mark.parametrize("asked", ["", "..", "../../x", "2026-01-01 00.00.00.000000", "\0"])
def test_a_version_that_is_not_there_is_told(keeper: Keeper, asked: str) -> None:
    with pytest.raises(NotHere):
        keeper.version("pattern", asked)


def test_old_versions_are_thinned_out_and_young_ones_stay() -> None:
    now = datetime(2026, 3, 1, 12, tzinfo=UTC)
    ages = [timedelta(seconds=30 * n) for n in range(60)]
    ages += [timedelta(days=2, minutes=n) for n in range(60)]
    ages += [timedelta(days=60, hours=n) for n in range(48)]
    stamps = sorted((now - age).astimezone() for age in ages)[::-1]
    paths = [Path(f"{at.strftime('%Y-%m-%d %H.%M.%S.%f')}.md") for at in stamps]
    gone = set(too_many(paths, now.astimezone()))
    left = [path for path in paths if path not in gone]
    assert left[:60] == paths[:60]
    assert len(left) == 60 + 6 + 2


def test_line_ends_and_encoding_stay_as_they_were() -> None:
    assert as_it_was_written("a\nb\n", b"x\r\ny\r\n") == b"a\r\nb\r\n"
    assert as_it_was_written("½ a\n", "½ x\n".encode("cp1252")) == "½ a\n".encode("cp1252")
    assert as_it_was_written("↑\n", "½ x\n".encode("cp1252")) == "↑\n".encode()
    assert as_it_was_written("a\n", b"\xef\xbb\xbfx\n") == b"\xef\xbb\xbfa\n"


@settings(max_examples=40)
@given(words=st.text(st.characters(blacklist_categories=["Cs", "Cc"]) | st.just("\n")))
def test_what_is_written_is_read_back(words: str) -> None:
    data = as_it_was_written(words, b"Row 1\n")
    assert with_plain_line_ends(decoded(data).text) == with_plain_line_ends(
        words
    ).removeprefix("\ufeff")


def test_what_a_cut_off_save_has_left_is_cleared_away(tmp_path: Path) -> None:
    (tmp_path / ".pattern.md.123.new").write_text("half", "utf-8")
    (tmp_path / ".mine.new").write_text("hers", "utf-8")
    Keeper(Folder(tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == [".mine.new"]


def test_a_kill_at_any_moment_tears_no_file_and_loses_nothing(tmp_path: Path) -> None:
    saves, _ = kill_saves(tmp_path, 8)
    assert saves >= 8


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(NotHere):
        Keeper(Folder(tmp_path / "file" / "inner")).save("pattern", "Ch 1.", "")
