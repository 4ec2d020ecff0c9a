"""No path leads out of the folder of a desk."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.desk.folder import EARLIER, Folder, NotHere
from hookwright.desk.keeping import Keeper


@pytest.mark.parametrize(
    "name",
    ["", "..", "../pattern", "/etc/passwd", "pattern.md", "earlier", "worksheet\0", "."],
)
def test_only_two_files_have_a_name(tmp_path: Path, name: str) -> None:
    with pytest.raises(NotHere):
        Folder(tmp_path).file(name)


@pytest.mark.parametrize(
    "names", [("..",), ("..", "x"), ("a", "..", "..", "x"), ("/etc/passwd",), ("\0",)]
)
def test_no_path_leads_out(tmp_path: Path, names: tuple[str, ...]) -> None:
    with pytest.raises(NotHere):
        Folder(tmp_path / "inner").inside(*names)


def test_a_sibling_with_the_same_beginning_is_outside(tmp_path: Path) -> None:
    (tmp_path / "throw-old").mkdir()
    with pytest.raises(NotHere):
        Folder(tmp_path / "throw").inside("..", "throw-old", "pattern.md")


def test_a_link_that_leads_out_is_neither_read_nor_written(tmp_path: Path) -> None:
    outside = tmp_path / "outside.md"
    outside.write_text("mine", "utf-8")
    project = tmp_path / "project"
    project.mkdir()
    (project / "pattern.md").symlink_to(outside)
    folder = Folder(project)
    with pytest.raises(NotHere):
        folder.read("pattern")
    with pytest.raises(NotHere):
        Keeper(folder).save("pattern", "theirs", "")
    assert outside.read_text("utf-8") == "mine"


def test_earlier_versions_are_not_kept_behind_a_link_that_leads_out(tmp_path: Path) -> None:
    project, outside = tmp_path / "project", tmp_path / "outside"
    project.mkdir()
    outside.mkdir()
    (project / EARLIER).symlink_to(outside)
    keeper = Keeper(Folder(project))
    mark = keeper.save("pattern", "one", "").mark
    with pytest.raises(NotHere):
        keeper.save("pattern", "two", mark)
    assert list(outside.iterdir()) == []
    assert keeper.earlier("pattern") == []


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    (tmp_path / "pattern.md").write_bytes(b"\x00\x01\x02")
    with pytest.raises(NotHere, match=r"pattern\.md cannot be read"):
        Folder(tmp_path).read("pattern")
