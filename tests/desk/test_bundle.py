"""The bundle in the package is what its sources give, and tells nobody's address."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WEB = ROOT / "web"
PAGE = ROOT / "src" / "hookwright" / "desk" / "page"


def test_the_lock_file_names_no_host_that_packages_come_from() -> None:
    lock = (WEB / "package-lock.json").read_text("utf-8")
    assert '"resolved"' not in lock
    assert '"integrity"' in lock
    assert "omit-lockfile-registry-resolved=true" in (WEB / ".npmrc").read_text("utf-8")


def test_the_bundle_is_what_its_sources_give(tmp_path: Path) -> None:
    node = shutil.which("node")
    if node is None or not (WEB / "node_modules").is_dir():
        assert not os.environ.get("CI"), "make samebundle brings what this needs"
        pytest.skip("the packages of the page are not here: make samebundle")
    subprocess.run([node, "build.mjs", str(tmp_path)], cwd=WEB, check=True)  # noqa: S603 - ours
    for name in ("desk.js", "desk.css"):
        assert (tmp_path / name).read_bytes() == (PAGE / name).read_bytes(), (
            f"{name} is not what web/ gives: make bundle"
        )


def test_the_page_asks_for_nothing_but_its_own_files() -> None:
    css = (PAGE / "desk.css").read_text("utf-8")
    assert "http" not in css
    assert "eval(" not in (PAGE / "desk.js").read_text("utf-8").replace("retrieval(", "")
