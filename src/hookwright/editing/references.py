"""Is there what the text sends a maker to: "see Special Stitches", "as for Back"?

What a section is about may stand under any heading or none, a picture has no words, and a
part may go by another name. So a reference is told only where the thing is named nowhere
else in the draft.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from hookwright.design.facts import Holds
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.prose import beside_rows
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import Recall, RowText
from hookwright.regex import regex
from hookwright.source import Span

_SECTIONS: dict[str, tuple[Holds, ...]] = {
    "special stitch": (Holds.SPECIAL_STITCHES, Holds.ABBREVIATIONS),
    "stitch guide": (Holds.SPECIAL_STITCHES, Holds.ABBREVIATIONS),
    "stitch glossary": (Holds.SPECIAL_STITCHES, Holds.ABBREVIATIONS),
    "special technique": (Holds.SPECIAL_STITCHES,),
    "abbreviations": (Holds.ABBREVIATIONS, Holds.SPECIAL_STITCHES),
    "pattern note": (Holds.NOTES,),
    "notes": (Holds.NOTES,),
    "gauge": (Holds.GAUGE,),
    "finishing": (Holds.FINISHING,),
    "materials": (Holds.MATERIALS,),
}
_SEE = regex(
    r"\b(?:see|refer to|as (?:told|explained|described|given) (?:in|under))\s+(?:the\s+)?"
    r"[\"'“‘]?(?P<name>special stitch(?:es)?|stitch guide|stitch glossary|"
    r"special techniques?|abbreviations|pattern notes?|notes|gauge|finishing|materials)"
    r"\b(?! (?:on|at|in) (?:the|our|my|this) )",
    re.IGNORECASE,
)
_NUMBERED = regex(
    r"\b(?:see|in|from|follow|following|work|working|per|with|of|to|as|by|on|and|or|also)"
    r"\s+(?:the\s)?(?P<kind>(?i:Chart|Diagram)|Table|Schematic)\s(?P<which>[A-H1-9])\b"
    r"(?!\.\d)",
)
_LIKE_PART = regex(
    r"\b(?i:work|ma[dk]e|same|begin|start|cont|crochet|rep|complete|finish|shap|exactly)"
    r"[^.\n]{0,40}?\bas (?:given |told |described |set |written )?for (?:the )?"
    r"(?:(?:first|second|other|left|right)\s)?(?P<name>[A-Z][a-z]{2,})(?![a-z\d])"
    r"(?!\s(?:row|rnd|round|\d))",
)
_NO_PART = frozenset(
    "row rows rnd rnds round rounds size sizes the this these last first next previous "
    "main small medium large color colour yarn stitch pattern each all special "
    "chart".split()
)
_LEAST = 3
_SENDS = (
    "see ",
    "see\n",
    "refer to",
    "told in",
    "told under",
    "explained in",
    "described in",
    "given in",
    "explained under",
    "described under",
    "given under",
)
"""Of these one stands wherever a maker is sent to a section."""


def missing_references(manuscript: Manuscript) -> Iterator[Finding]:
    """References to sections, charts and parts that are nowhere in the draft."""
    text = manuscript.source.text
    told: set[str] = set()
    references = (
        *_to_sections(manuscript),
        *_to_charts(text, only_words=manuscript.only_words),
        *_to_parts(manuscript),
        *_to_headings(manuscript),
    )
    for span, name, message, why in references:
        if name.lower() not in told:
            told.add(name.lower())
            row, part = _row_at(manuscript, span)
            yield Finding(
                "missing-target",
                Severity.WARNING,
                span,
                message,
                why,
                row=row.label.text if row and row.label else None,
                part=part or None,
            )


_Told = tuple[Span, str, str, str]


def _to_sections(manuscript: Manuscript) -> Iterator[_Told]:
    text = manuscript.source.text
    lower = text.lower()
    if not any(lead in lower for lead in _SENDS):
        return
    first: dict[str, re.Match[str]] = {}
    own: set[int] = set()
    for found in _SEE.finditer(text):
        name = found["name"].lower()
        first.setdefault(next(key for key in _SECTIONS if name.startswith(key)), found)
        own.add(found.start("name"))
    for key, found in first.items():
        there = any(manuscript.design.section(holds) for holds in _SECTIONS[key])
        special = Holds.SPECIAL_STITCHES in _SECTIONS[key]
        if there or (special and manuscript.pattern.definitions):
            continue
        stem = "note" if "note" in key else key
        named = re.finditer(rf"\b(?:pattern )?{stem}", text, re.IGNORECASE)
        if all(one.start() in own for one in named):
            yield (
                Span(*found.span("name")),
                key,
                f'There is no section "{found["name"]}" to look in.',
                "Put the section in, or tell here what it would say.",
            )


def _to_charts(text: str, *, only_words: bool) -> Iterator[_Told]:
    """ "see Chart C" where there are only Charts A and B, or no pictures and no charts."""
    lower = text.lower()
    if not any(kind in lower for kind in _DRAWN):
        return
    first: dict[tuple[str, str], Span] = {}
    for found in _NUMBERED.finditer(text):
        span = Span(found.start("kind"), found.end())
        first.setdefault((found["kind"].title(), found["which"].upper()), span)
    for (kind, which), span in first.items():
        headed = rf"^[\W_]{{0,9}}{kind}\s(?P<which>[A-H1-9])\b"
        heads = re.finditer(headed, text, re.IGNORECASE | re.MULTILINE)
        others = {one["which"].upper() for one in heads}
        if (
            only_words
            and not others
            and not _ANY_DRAWING.search(_ANY_NUMBERED.sub(" ", text))
        ):
            yield (
                span,
                f"{kind} {which}",
                f"There is no {kind} {which} in the draft.",
                f"Put the {kind.lower()} in, or tell what it would show.",
            )
        if others and which not in others and others <= set(_ABCS[which.isdigit()]):
            yield (
                span,
                f"{kind} {which}",
                f"There is no {kind} {which}, only {kind} {' and '.join(sorted(others))}.",
                f"Name the {kind.lower()} that is meant, or put it in.",
            )


_DRAWN = ("chart ", "diagram ", "table ", "schematic ")
_ANY_NUMBERED = regex(r"\b(?:Chart|Diagram|Table|Schematic)\s[A-H1-9]\b", re.IGNORECASE)
_ANY_DRAWING = regex(
    r"(?<!size )\bcharts?\b|\btables?\b(?! mat| run)|\billustrat|\bfig\.|<img|!\[|"
    r"^[ \t]*\||\b(?:diagram|schematic|figure|drawing|picture|photo|image)s?\b|"
    r"\.(?:png|jpe?g|svg|gif)\b",
    re.IGNORECASE | re.MULTILINE,
)
_ABCS = {True: "123456789", False: "ABCDEFGH"}


def _to_parts(manuscript: Manuscript) -> Iterator[_Told]:
    """ "as for Sleeve" where nothing in the draft is called so."""
    text = manuscript.source.text
    lower = text.lower()
    headed = any(part.name for part in manuscript.pattern.parts)
    if not headed or not any(lead in lower for lead in _LIKE):
        return
    first: dict[str, Span] = {}
    own: set[int] = set()
    for found in _LIKE_PART.finditer(text):
        first.setdefault(found["name"], Span(*found.span("name")))
        own.add(found.start("name"))
    if not first:
        return
    beside = beside_rows(manuscript)
    rows = (row for part in manuscript.pattern.parts for row in part.rows)
    labels = " ".join(row.label.text for row in rows if row.label is not None)
    for name, place in islice(first.items(), _MOST_NAMES):
        stem = name.lower().rstrip("s")
        if stem in _NO_PART or name.lower() in _NO_PART or len(stem) < _LEAST:
            continue
        if re.search(rf"\b{stem}", labels, re.IGNORECASE):
            continue
        named = re.finditer(rf"\b{stem}", beside, re.IGNORECASE)
        if all(one.start() in own for one in named) and _is_recalled(manuscript, place):
            yield (
                place,
                name,
                f'There is no part called "{name}" that this could be worked as.',
                "Name the part as it is headed.",
            )


_SEE_NAME = regex(
    r"\b(?:[Ss]ee|[Rr]efer to|[Tt]urn to)\s(?:the\s)?[\"“‘]?"
    r"(?P<name>[A-Z][a-z]{2,}(?:\s[A-Z][a-z]{2,}){0,2})[\"”’]?"
    r"(?=\s*(?:[).;,]|$)|\s(?:below|above|section|for\b))",
    re.MULTILINE,
)
_ELSEWHERE = frozenset(
    "page pages photo photos picture pictures figure video videos tutorial link website "
    "site shop blog step row rnd round size chart charts diagram note notes book leaflet "
    "pattern table schematic key below above here next special".split()
)
_OFTEN_HEADED = frozenset(
    "pocket pockets strap straps handle handles collar cuff cuffs sleeve sleeves border "
    "edging hood brim ears flap flower leaf leaves lining joining assembly blocking "
    "construction measurements stripes fringe tassel tassels pompom neckband waistband "
    "yoke thumb heel toe base gusset".split()
)
_TO_NAMES = ("see", "refer to", "turn to")
_HEADINGS = 3
_LONGEST_HEADING = 60


def _to_headings(manuscript: Manuscript) -> Iterator[_Told]:
    """ "(see Pockets)" where no heading, label or entry is called so.

    The name is one of the draft's own things, as a word in small letters shows, or what
    such a section is often called: else it may be a shop, a person or a book.
    """
    text = manuscript.source.text
    parts = [part for part in manuscript.pattern.parts if part.name]
    if len(parts) + len(manuscript.design.sections) < _HEADINGS:
        return
    lower = text.lower()
    if not any(lead in lower for lead in _TO_NAMES):
        return
    seen = list(_SEE_NAME.finditer(text))
    found = {one["name"]: one for one in reversed(seen)}
    own = {one.start("name") for one in seen}
    for name, one in islice(found.items(), _MOST_NAMES):
        words = name.lower().split()
        stem = words[-1].rstrip("s")
        if _ELSEWHERE & set(words) or len(stem) < _LEAST or _SEE.match(text, one.start()):
            continue
        common = re.search(rf"\b{stem}", text) or words[-1] in _OFTEN_HEADED
        places = (at.start() for at in re.finditer(rf"\b{stem}", text, re.IGNORECASE))
        into = len(name) - len(words[-1])
        others = (at for at in places if at - into not in own)
        if common and not any(_is_heading(text, at) for at in others):
            yield (
                Span(*one.span("name")),
                name,
                f'There is no section or part called "{name}".',
                "Put it in, or name the section that is meant.",
            )


def _is_heading(text: str, at: int) -> bool:
    """Whether a word may be a name: in a short line, in a label, or with a capital."""
    start = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    line = text[start : end if end >= 0 else len(text)].strip()
    before = re.findall(r"\w+", text[start:at])
    labelled = len(before) <= 3 and re.match(r"[\w ()*\d]{1,30}[:–—=-]", text[at : at + 32])
    sentence = line.rstrip("*_ ").endswith((".", ",", ";", ")")) and len(before) > 1
    short = len(line) <= _LONGEST_HEADING and not sentence
    capital = text[at].isupper() and bool(before)
    return short or bool(labelled) or capital


_LIKE = (
    "as for",
    *(f"as {word} for" for word in "given told described set written".split()),
)
_MOST_NAMES = 20
"""Nobody sends a maker to more parts than that."""


def _is_recalled(manuscript: Manuscript, place: Span) -> bool:
    """Whether the words stand beside the rows, or were read as rows to work again."""
    row, _ = _row_at(manuscript, place)
    return row is None or any(isinstance(node, Recall) for node in nested(row.body))


def _row_at(manuscript: Manuscript, span: Span) -> tuple[RowText | None, str]:
    for part in manuscript.pattern.parts:
        for row in part.rows:
            if span in row.span:
                return row, part.name
    return None, ""
