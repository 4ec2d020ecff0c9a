"""Small patterns, each in words met for one thing: what every row makes.

They stand in files called `...-in-other-words.txt`: a title, the pattern, and after "=>" the
stitches of its rows in order; after "!" the rules that tell its faults, where it holds any.
The counts are added up by hand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Wording:
    """A small pattern, and the stitches its rows make."""

    title: str
    text: str
    stitches: tuple[int, ...]
    faults: tuple[str, ...]


def wordings() -> list[Wording]:
    files = sorted(HERE.glob("*-in-other-words.txt"))
    whole = "\n".join(file.read_text("utf-8") for file in files)
    found = re.findall(
        r"^=== ([^\n]*)\n(.*?)^=>([ \d]*)(?:! ([^\n]*))?$", whole, re.MULTILINE | re.DOTALL
    )
    return [
        Wording(title, text, tuple(map(int, numbers.split())), tuple(faults.split()))
        for title, text, numbers, faults in found
    ]


@pytest.mark.parametrize("wording", wordings(), ids=lambda wording: wording.title)
def test_rows_in_other_words_make_what_they_say(wording: Wording) -> None:
    checked = check(Source(wording.text))
    made = [
        line.stitches[0]
        for line in checked.lines
        if any(below is not None for below in line.below)  # no chain by itself
        for _ in range(line.times)
    ]
    assert tuple(made) == wording.stitches
    loud = [f.rule for f in checked.findings if f.severity is not Severity.ADVICE]
    assert tuple(loud) == wording.faults
