"""Files are written whole or not at all, and nothing is lost."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from hookwright.commands.writing import NotWritten, replace_keeping, write_new, write_over


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_the_earlier_text_is_kept_under_a_name_that_is_free(tmp_path: Path) -> None:
    path = tmp_path / "pattern.md"
    path.write_bytes(b"one")
    (tmp_path / "pattern.earlier-1.md").write_bytes(b"older")
    kept = replace_keeping(path, b"one", b"two")
    assert kept.name == "pattern.earlier-2.md"
    assert path.read_bytes() == b"two"
    assert kept.read_bytes() == b"one"
    assert (tmp_path / "pattern.earlier-1.md").read_bytes() == b"older"
    assert len(names(tmp_path)) == 3


def test_a_file_that_was_changed_meanwhile_is_left(tmp_path: Path) -> None:
    path = tmp_path / "pattern.md"
    path.write_bytes(b"hers")
    with pytest.raises(NotWritten, match="has been changed since it was read"):
        replace_keeping(path, b"one", b"two")
    assert path.read_bytes() == b"hers"
    assert names(tmp_path) == ["pattern.md"]


def test_a_file_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotWritten, match="could not be written: no such file"):
        replace_keeping(tmp_path / "pattern.md", b"one", b"two")


def test_permissions_and_links_stay(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    real = tmp_path / "real" / "eider.md"
    real.write_bytes(b"one")
    real.chmod(0o640)
    link = tmp_path / "pattern.md"
    link.symlink_to(real)
    kept = replace_keeping(link, b"one", b"two")
    assert link.is_symlink()
    assert kept.read_bytes() == b"one"
    assert real.read_bytes() == b"two"
    assert real.stat().st_mode & 0o777 == 0o640
    assert names(tmp_path / "real") == ["eider.earlier-1.md", "eider.md"]


@pytest.mark.parametrize("room", [0, 1])
def test_nothing_is_left_where_the_writing_fails(
    room: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "pattern.md"
    path.write_bytes(b"one")
    written: list[int] = []

    def full(file: int) -> None:
        written.append(file)
        if len(written) > room:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(NotWritten, match="no space left"):
        replace_keeping(path, b"one", b"two")
    with pytest.raises(NotWritten, match="no space left"):
        write_new(tmp_path / "new.md", b"two")
    assert path.read_bytes() == b"one"
    assert names(tmp_path) == ["pattern.md"]


def test_a_new_file_never_takes_the_place_of_another(tmp_path: Path) -> None:
    write_new(tmp_path / "pattern.md", b"one")
    with pytest.raises(NotWritten, match="is there already"):
        write_new(tmp_path / "pattern.md", b"two")
    assert (tmp_path / "pattern.md").read_bytes() == b"one"


def test_only_what_this_program_made_is_written_over(tmp_path: Path) -> None:
    path = tmp_path / "report.md"
    write_over(path, b"MARK one", b"MARK")
    write_over(path, b"MARK two", b"MARK")
    assert path.read_bytes() == b"MARK two"
    path.write_bytes(b"her own letter")
    with pytest.raises(NotWritten, match="Choose another name"):
        write_over(path, b"MARK three", b"MARK")
    assert path.read_bytes() == b"her own letter"
    assert names(tmp_path) == ["report.md"]
