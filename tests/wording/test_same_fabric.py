"""Whatever words a pattern is put in, reading them gives the same fabric."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from hookwright.checking import Checked, check
from hookwright.reading import read_draft
from hookwright.wording import Asked, Form, write_pattern

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(p for p in (ROOT / "examples").glob("*.md") if p.name != "README.md")
CASES = sorted((ROOT / "tests" / "cases").glob("*/*.txt"))
WORDINGS = {
    "UK terms": Asked(terms="UK"),
    "US terms": Asked(terms="US"),
    "in full": Asked(form=Form.LONG),
    "in full, UK terms": Asked(terms="UK", form=Form.LONG),
    "an action a line": Asked(one_a_line=True),
    "left-handed": Asked(left_handed=True),
}


@cache
def checked(path: Path) -> Checked:
    return check(read_draft(path))


def is_same(path: Path, asked: Asked) -> bool:
    worded = write_pattern(checked(path), asked)
    return worded.differs is None


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("wording", WORDINGS)
def test_an_example_in_other_words_is_the_same_fabric(path: Path, wording: str) -> None:
    assert is_same(path, WORDINGS[wording])
