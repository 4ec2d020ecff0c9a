"""Which sections does a whole pattern lack that a maker looks for?

Told once, of all that is missing. A section may be no section at all, but a gauge in a
sentence or a hook in the introduction: a thing is there where any words of it stand.
The terms have a rule of their own, and so has the skill level.
Source: design/data/standards.json.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.design.facts import Holds
from hookwright.design.level import standards
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.prose import beside_rows
from hookwright.finding import Finding, Severity
from hookwright.regex import regex
from hookwright.source import Span

_AMONG: frozenset[Holds] = frozenset(
    (Holds.MATERIALS, Holds.GAUGE, Holds.SIZES, Holds.FINISHED)
)
_BESIDE: frozenset[Holds] = _AMONG | {
    Holds.LEVEL,
    Holds.ABBREVIATIONS,
    Holds.SPECIAL_STITCHES,
    Holds.NOTES,
    Holds.TERMS,
    Holds.CHARTS,
}
_LENGTH = (
    r"\d\s?(?:½|¼|¾|1/2|1/4|3/4)?\s?-?(?:cm|mm|m|in|ins|inch|inches|[\"”″]|ft|feet)(?!\w)"
)
_WORDS: dict[Holds, re.Pattern[str]] = {
    Holds.FINISHED: regex(
        rf"{_LENGTH}|\bsizes?\b|\bmeasur|\bwide\b|\btall\b|\bfits?\b", re.IGNORECASE
    ),
    Holds.MATERIALS: regex(
        r"\b(?:yarns?|wool|threads?|cotton|balls?|skeins?|hanks?|hooks?|worsted|dk|aran|"
        r"acrylic|chunky|bulky)\b",
        re.IGNORECASE,
    ),
    Holds.GAUGE: regex(
        r"\bgauge|\btension|\bswatch|\b(?:sts?|stitches|rows|rnds|rounds|repeats?)\b"
        rf"[^.\n]{{0,60}}{_LENGTH}",
        re.IGNORECASE,
    ),
    Holds.ABBREVIATIONS: regex(
        r"\babbrev|\bterms used|\bstitches used|\bglossary|\bstitch (?:key|guide)|"
        r"\b(?:sc|dc|hdc|htr|tr|dtr|sl st|ss|slst|sk|ch|chs?|sts?|sp|rep|inc|dec)(?:\(s\))?"
        r"(?:\s?[=:–—|]|\s-\s|-\s|\t|\s\(|\))",
        re.IGNORECASE,
    ),
    Holds.FINISHING: regex(
        r"\b(?:fasten|finish|weav|sew|seam|block|end off|bind off|"
        r"cut (?:the )?(?:yarn|thread)|"
        r"break (?:off|the)|tie off|close up|pull (?:tight|through|shut)|ends)",
        re.IGNORECASE,
    ),
}
"""Words by which a thing is there, whatever its heading."""

_ENDS = (
    "fasten",
    "finish",
    "weav",
    "sew",
    "seam",
    "block",
    "bind off",
    "end off",
    "tie off",
    "cut the",
    "cut yarn",
    "break off",
    "break the",
    "close up",
    "pull t",
    "pull shut",
)
"""The same for the end of the work, which is mostly told in its last row."""
_SHORT = regex(r"\b(?:sc|dc|hdc|htr|tr|dtr|sl st|ss|sk|ch)\b")


def missing_sections(manuscript: Manuscript) -> Iterator[Finding]:
    """One finding that names every section which is expected and not there."""
    if not is_whole(manuscript):
        return
    lines = beside_rows(manuscript).split("\n")
    beside = "\n".join(line for line in lines if line.strip())
    missing = [
        told
        for holds, (required, told, _) in standards()["sections"].items()
        if required == "must" and _lacks(manuscript, Holds(holds), beside)
    ]
    if not missing:
        return
    named = (
        " or ".join((", ".join(missing[:-1]), missing[-1])) if missing[1:] else missing[0]
    )
    yield Finding(
        "missing-section",
        Severity.ADVICE,
        _where(manuscript),
        f"The pattern has not got {named}.",
        "Put in what is missing, or say why it does not matter.",
    )


def is_whole(manuscript: Manuscript) -> bool:
    """Whether a draft is a whole pattern: with rows, and sections that makers shop by."""
    held = {section.holds for section in manuscript.design.sections}
    rows = any(row.label for part in manuscript.pattern.parts for row in part.rows)
    return rows and len(held & _BESIDE) > 1 and bool(held & _AMONG)


def _lacks(manuscript: Manuscript, holds: Holds, beside: str) -> bool:
    """Whether nothing in the draft can be what a section would hold.

    What stands beside the rows is searched first, for that is mostly where it is told.
    """
    words = _WORDS.get(holds)
    if words is None or manuscript.design.section(holds) is not None:
        return False
    if words.search(beside):
        return False
    text = manuscript.source.text
    if holds is Holds.ABBREVIATIONS:
        special = manuscript.design.section(Holds.SPECIAL_STITCHES)
        told = manuscript.pattern.definitions or special
        return not told and _SHORT.search(text) is not None
    if holds is Holds.FINISHED and manuscript.design.section(Holds.SIZES) is not None:
        return False
    return holds is not Holds.FINISHING or not any(end in text.lower() for end in _ENDS)


def _where(manuscript: Manuscript) -> Span:
    """The heading of the first section, which anything missing would stand beside."""
    source = manuscript.source
    heading = manuscript.design.sections[0].heading
    words = source.slice(heading).rstrip(" *_:–—-=|.\n\t")
    return Span(heading.start, heading.start + len(words))
