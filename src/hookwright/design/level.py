"""Which skill level does a draft state? Four steps, in the words of both scales.

The trade's scale was Beginner, Easy, Intermediate and Experienced, and is now Basic, Easy,
Intermediate and Complex. Source: data/standards.json.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, cast

from msgspec import json

from hookwright.design.facts import Holds, Level, SectionFound
from hookwright.regex import regex
from hookwright.source import Source, Span

_TABLE = Path(__file__).parent / "data" / "standards.json"
_LONGEST = 120
_SAID = regex(
    r"\b(?:[a-z]+(?:[ /+-]{1,3}[a-z]+){0,3}[ ]level\b|"
    r"(?:suitable|perfect|good|great|ideal) for[ ][a-z ]{4,30}|beginner[ -]friendly|"
    r"(?:skill level|difficulty(?: level)?|level|skill)[ ]?(?:is|:|=|–|-)[ ]?[a-z ]{4,40})",
    re.IGNORECASE,
)


_SIGNS = (
    "level",
    "difficult",
    "skill",
    "suitable",
    "perfect",
    "good",
    "great",
    "ideal",
    "beginner",
)
"""Of these words one stands in whatever `_SAID` finds."""


@cache
def standards() -> Mapping[str, Any]:
    """What a pattern is expected to hold, and the levels. Source: data/standards.json."""
    return cast("Mapping[str, Any]", json.decode(_TABLE.read_bytes()))


@cache
def _words() -> tuple[re.Pattern[str], Mapping[str, int]]:
    levels = enumerate(standards()["levels"].values(), start=1)
    steps = {word: step for step, (words, _) in levels for word in words.split(", ")}
    longest = sorted(steps, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(longest)})\b", re.IGNORECASE), steps


@cache
def _alone() -> re.Pattern[str]:
    """A level by itself on a line, or between marks: "US terms · 15 cm · easy"."""
    pattern, _ = _words()
    return re.compile(
        rf"(?:^|[·•|]|\s/\s)[\s*_]*(?P<word>{pattern.pattern})[\s*_]*(?=[·•|]|\s/\s|$)",
        re.IGNORECASE | re.MULTILINE,
    )


def level_name(step: int) -> str:
    """What a step of the scale is called now: "Intermediate"."""
    return str(list(standards()["levels"])[step - 1])


def level_of(source: Source, sections: tuple[SectionFound, ...]) -> Level | None:
    """The skill level that a draft states, the harder one of "Easy to Intermediate"."""
    text = source.text
    for section in sections:
        if section.holds is Holds.LEVEL:
            end = min(section.body.end, section.body.start + _LONGEST)
            found = _in(text, section.body.start, end)
            if found is not None:
                return found
    alone = _alone().search(text)
    if alone is not None:
        return _in(text, alone.start("word"), alone.end("word"))
    if not any(sign in text.lower() for sign in _SIGNS):
        return None
    for said in _SAID.finditer(text):
        found = _in(text, said.start(), said.end())
        if found is not None:
            return found
    return None


def _in(text: str, start: int, end: int) -> Level | None:
    """The hardest level named in the first line of words that names one."""
    pattern, steps = _words()
    found = list(pattern.finditer(text, start, end))
    line_end = text.find("\n", found[0].start()) if found else -1
    found = [one for one in found if line_end < 0 or one.start() < line_end]
    if not found:
        return None
    span = Span(found[0].start(), found[-1].end())
    step = max(steps[one[0].lower()] for one in found)
    return Level(step, text[span.start : span.end], span)
