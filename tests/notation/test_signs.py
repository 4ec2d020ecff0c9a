"""A reader of phrases that is passed over, as its sign is not in the row, would take nothing."""

from pathlib import Path

import pytest

from hookwright.notation import collected, parse_text, rows
from hookwright.remembered import Remembered

CASES = Path(__file__).parents[1] / "cases"
FOLDERS = sorted(path.name for path in CASES.iterdir() if path.is_dir())


@pytest.mark.parametrize("folder", FOLDERS)
def test_the_signs_of_phrases_hide_none(
    folder: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (CASES / folder).glob("*.txt")}
    quick = {name: parse_text(text).pattern for name, text in texts.items()}
    monkeypatch.setattr(rows, "_SIGNS", {})
    monkeypatch.setattr(rows, "_NEAR", {})
    for kept in ("_readers_of", "_readers_in"):  # nothing remembered of the signs
        monkeypatch.setattr(rows, kept, getattr(rows, kept).__wrapped__)
    monkeypatch.setattr(collected, "_READ", Remembered(1))
    slow = {name: parse_text(text).pattern for name, text in texts.items()}
    assert [name for name in texts if quick[name] != slow[name]] == []
