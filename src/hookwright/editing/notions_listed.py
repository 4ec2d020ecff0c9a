"""Are the buttons, zips and ribbons that are put on among the materials?

Only a list that names a notion sets out to tell them all. A thing counts as told where its
word stands anywhere but where it is put to use: it may be crocheted, or told in a note.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.design.facts import Holds
from hookwright.design.notions import Notion, notions
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import row_at
from hookwright.finding import Finding, Severity
from hookwright.regex import regex
from hookwright.source import Span

_VERBS = (
    r"(?:sew|attach|insert|fix|fasten|add|put|glue|thread|place|secure|stitch|slip|fit|"
    r"weave|run|use|set|with|using)(?:ing)?"
)
_BEFORE = (
    r"(?:on |in |to |through )?(?:the |an? |your |both |all |each |two |three |four |five |"
    r"six |\d{1,2} )?"
)
_KIND = r"(?:(?!(?:of|to|on|in|and|or|for|crochet\w*|knit\w*)\b)[a-z][a-z-]{1,14} ){0,2}?"
_PART_OF_IT = (
    r"(?!\s?-?(?:bands?|loops?|holes?|plackets?|tabs?|sides?|edges?|openings?|seams?|"
    r"stitch\w*|sts?|rows?|casings?|rounds?|bind|cast|flaps?|straps?)\b)"
)
_MAY_BE_LEFT = regex(
    r"\b(?:optional\w*|if (?:you|desired|wished|wanted|liked|using|preferred|needed)|"
    r"or|instead|alternatively|never|do not|don't|without|may|can|could)\b",
    re.IGNORECASE,
)


def _pattern(one: Notion) -> str:
    used = rf"(?P<what>{_KIND}(?:{one.words})){_PART_OF_IT}"
    return rf"\b{_VERBS} {_BEFORE}{used}\b"


def notion_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Each kind of notion that is put to use and told nowhere else, where it is used."""
    listed = _listed(manuscript)
    rows = [row.span.start for part in manuscript.pattern.parts for row in part.rows]
    if not listed or not rows:
        return
    text, first = manuscript.source.text, min(rows)
    every = "|".join(f"(?:{one.words})" for one in notions())
    any_notion = re.compile(rf"\b(?:{every})\b", re.IGNORECASE)
    if not any_notion.search(listed):
        return
    used = {found[0].lower() for found in any_notion.finditer(text, first)}
    for notion in notions():
        if not any(re.fullmatch(notion.words, word, re.IGNORECASE) for word in used):
            continue
        named = re.compile(rf"\b(?:{notion.words})", re.IGNORECASE)
        places = [found.start() for found in named.finditer(text)]
        if not places or places[0] < first:
            continue
        uses = list(re.compile(_pattern(notion), re.IGNORECASE).finditer(text, first))
        own = [found for found in uses if not _may_be_left(text, found)]
        spans = [found.span("what") for found in uses]
        if not own or not any(start <= places[0] < end for start, end in spans):
            continue
        yield _finding(manuscript, notion, Span(*own[0].span("what")))


def _listed(manuscript: Manuscript) -> str:
    """All that stands among the materials."""
    return "\n".join(
        manuscript.source.slice(section.heading.to(section.body))
        for section in manuscript.design.sections
        if section.holds is Holds.MATERIALS
    )


_NEAR = 160


def _may_be_left(text: str, found: re.Match[str]) -> bool:
    """Whether its sentence leaves it to the maker."""
    before = re.split(r"[.;\n]", text[max(0, found.start() - _NEAR) : found.start()])[-1]
    behind = re.split(r"[.;\n]", text[found.end() : found.end() + _NEAR], maxsplit=1)[0]
    return _MAY_BE_LEFT.search(f"{before}{found[0]}{behind}") is not None


def _finding(manuscript: Manuscript, notion: Notion, span: Span) -> Finding:
    row, part = row_at(manuscript, span.start)
    what = manuscript.source.slice(span)
    is_are = "are" if what.endswith("s") and not what.endswith("ss") else "is"
    return Finding(
        "materials",
        Severity.WARNING if notion.bought else Severity.ADVICE,
        span,
        f'"{what}" {is_are} used here, but the materials list no {notion.name}.',
        "List it, with its size and how many are needed.",
        row=row.label.text if row and row.label else None,
        part=part or None,
    )
