"""Which cautions does a pattern need, told as sentences of its own?

What a caution is for is read from the words and materials of the pattern; one too many
costs a line, one too few may hurt. Its facts and sources stand in `data/cautions.toml`.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.notation.printing.terms import plain_words
from hookwright.release.facts import Paragraph, Run

_Caution = Mapping[str, Any]


def cautions_for(checked: Checked) -> tuple[Paragraph, ...]:
    """The cautions that apply, each a paragraph."""
    text = checked.source.text.lower()
    materials = _materials(checked).lower()
    terms = checked.terms or "US"
    return tuple(
        Paragraph((Run(_said(caution, terms)),))
        for caution in _cautions()
        if _applies(caution, checked, text, materials)
    )


def _applies(caution: _Caution, checked: Checked, text: str, materials: str) -> bool:
    """Whether everything is met that a caution asks for."""
    return (
        (not (words := caution.get("words")) or _any_of(words, text))
        and (not (also := caution.get("also")) or _any_of(also, text))
        and (not (fibre := caution.get("fibre")) or _any_of(fibre, materials))
        and not _any_of(caution.get("unless", ()), materials)
        and _balls(checked) >= caution.get("balls", 0)
        and len(checked.design.colours) >= caution.get("colours", 0)
        and _rows(checked) >= caution.get("rows", 0)
    )


def _any_of(words: Iterable[str], text: str) -> bool:
    """Whether a word stands in a text, not as the beginning of a longer word."""
    return any(re.search(rf"\b{re.escape(word)}(?:e?s|ed|ing)?\b", text) for word in words)


def _materials(checked: Checked) -> str:
    """What the materials say, and what the worksheet says of its yarns."""
    sections = checked.design.sections
    said = [checked.source.slice(s.body) for s in sections if s.holds is Holds.MATERIALS]
    sheet = checked.worksheet.source.text if checked.worksheet is not None else ""
    return "\n".join([*said, sheet])


def _balls(checked: Checked) -> float:
    """The most balls of one colour in any size."""
    numbers = [
        n for colour in checked.design.colours for n in colour.balls if n is not None
    ]
    return float(max(numbers, default=0))


def _rows(checked: Checked) -> int:
    return max((n for line in checked.lines for n in line.last if n is not None), default=0)


def _said(caution: _Caution, terms: str) -> str:
    words = caution["say_uk"] if terms == "UK" and "say_uk" in caution else caution["say"]
    said = f"{words} {caution['final']}".strip()
    return said.replace("color", _colour(terms))


def _colour(terms: str) -> str:
    return plain_words(terms).get("color", "color")


@cache
def _cautions() -> tuple[_Caution, ...]:
    data = Path(__file__).with_name("data") / "cautions.toml"
    return tuple(tomllib.loads(data.read_text("utf-8"))["caution"])
