"""What CONTRIBUTING.md asks of a newcomer can be done as it says."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from judging import judged

from hookwright.answer import answer
from hookwright.checking import check
from hookwright.source import Source

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")


def behind(mark: str) -> str:
    """What stands in the fence behind a comment."""
    found = re.search(rf"<!-- {mark} -->\n```\w*\n(.*?)```", PAGE, re.DOTALL)
    assert found, f"CONTRIBUTING.md has no <!-- {mark} -->"
    return found[1]


def test_the_case_that_is_shown_comes_out_right() -> None:
    found = answer(check(Source(behind("case draft"))))
    score = judged(found, tomllib.loads(behind("case sheet")))
    assert score.notes == []
    assert score.judged["faults"] == score.right["whole"] == 1


def test_every_verb_of_make_is_told_and_every_one_told_is_there() -> None:
    (verbs,) = re.findall(r"^\.PHONY: (.*)$", MAKEFILE, re.MULTILINE)
    table = set(re.findall(r"^\| `make (\w+)` \|", PAGE, re.MULTILINE))
    steps_of_check = {"format", "lint", "types", "coverage"}
    assert table == set(verbs.split()) - {"help"} - steps_of_check
    assert set(re.findall(r"@echo \"make (\w+)", MAKEFILE)) == table


def test_every_file_that_is_named_is_there() -> None:
    named = re.findall(r"`([\w/.-]+(?:\.md|\.toml|\.json|\.txt|/))`", PAGE)
    shown = {"knot-strap.txt", "knot-strap.toml", "vocabulary.json", "thresholds.toml"}
    places = [ROOT, ROOT / "src" / "hookwright"]
    for name in set(named) - shown:
        assert any((place / name).exists() for place in places), name
