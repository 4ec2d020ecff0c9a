"""The facts of a design, gathered from a text that says some.

Each kind of fact has words of which one stands wherever such a fact is told; the module
that reads it is imported where a text has one of them, for most drafts tell of few.
"""

from __future__ import annotations

import re

from hookwright.design.facts import (
    Abbreviation,
    Design,
    Finished,
    Gauge,
    Holds,
    Hook,
    Level,
    SectionFound,
    YarnListed,
)
from hookwright.design.title import title_of
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source

Sections = tuple[SectionFound, ...]

_OF_GAUGE = ("gauge", "tension")
_OF_LEVEL = ("level", "difficult", "skill", "beginner", "easy", "basic", "intermediate",
             "advanced", "experienced", "complex", "suitable")  # fmt: skip
_LISTS = regex(
    r"abbrev|glossary|stitch list|\bused\b|(?:and|&) terms|^\W*stitches\W*$", re.MULTILINE
)
_OF_LISTS = (
    "abbrev",
    "glossary",
    "stitch list",
    "used",
    "and terms",
    "& terms",
    "stitches",
)
"""Of these one stands in whatever `_LISTS` finds."""
_LENGTH = regex(r"\d\S{0,4}[ \-)]{0,3}(?:cm|centim|mm|in\b|inch|\"|″|”|f(?:oo|ee)?t\b|y)")
_KEY = regex(
    r"^\W{0,6}(?:(?:yarn|colou?r|shade) ?)?(?:mc|cc|[a-h])[ \d]{0,3}\s?(?:[:=–—(-]|is\b)",
    re.MULTILINE,
)
""" "A = Slate", in small letters: a key of colours that stands for itself."""


def gathered(source: Source, pattern: Pattern, sections: Sections) -> Design:
    """What the text says of the design beside its rows. Never fails."""
    words = source.text.lower()
    lengths = _LENGTH.search(words) is not None
    materials = any(section.holds is Holds.MATERIALS for section in sections)

    def says(signs: tuple[str, ...]) -> bool:
        return any(sign in words for sign in signs)

    lists = says(_OF_LISTS) and _LISTS.search(words) is not None
    return Design(
        title=title_of(source, pattern, sections),
        sections=sections,
        gauges=_gauges(source, pattern, sections) if says(_OF_GAUGE) else (),
        finished=_finished(source, pattern, sections) if lengths else (),
        hooks=_hooks(source, sections) if materials else (),
        yarns=_yarns(source, pattern, sections) if materials or _KEY.search(words) else (),
        abbreviations=_listed(source, pattern, sections) if lists else (),
        level=_level(source, sections) if says(_OF_LEVEL) else None,
        is_told=True,
    )


def _gauges(source: Source, pattern: Pattern, sections: Sections) -> tuple[Gauge, ...]:
    from hookwright.design.gauge import gauges_in  # noqa: PLC0415

    return gauges_in(source, pattern, sections)


def _finished(source: Source, pattern: Pattern, sections: Sections) -> tuple[Finished, ...]:
    from hookwright.design.finished import finished_in  # noqa: PLC0415

    return finished_in(source, pattern, sections)


def _hooks(source: Source, sections: Sections) -> tuple[Hook, ...]:
    from hookwright.design.hooks import hooks_of  # noqa: PLC0415

    return hooks_of(source, sections)


def _yarns(source: Source, pattern: Pattern, sections: Sections) -> tuple[YarnListed, ...]:
    from hookwright.design.yarns import yarns_of  # noqa: PLC0415

    return yarns_of(source, pattern, sections)


def _listed(
    source: Source, pattern: Pattern, sections: Sections
) -> tuple[Abbreviation, ...]:
    from hookwright.design.abbreviations import abbreviations_of  # noqa: PLC0415

    return abbreviations_of(source, pattern, sections)


def _level(source: Source, sections: Sections) -> Level | None:
    from hookwright.design.level import level_of  # noqa: PLC0415

    return level_of(source, sections)
