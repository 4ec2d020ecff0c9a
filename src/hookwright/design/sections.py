"""Which sections does a draft have beside its rows, and what does each hold?

A section begins at a heading on a line of its own, "Materials", or is one labelled line,
"Hook: 5 mm". It ends at the next heading, and where the rows begin.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.design.facts import Holds, SectionFound
from hookwright.notation.tree import Pattern
from hookwright.source import Source, Span

_HEADINGS: dict[Holds, str] = {
    Holds.LEVEL: "skill level, level, difficulty, skill, experience, project level, "
    "difficulty level",
    Holds.SIZES: "size, sizes, sizing, to fit, sizes available",
    Holds.FINISHED: "finished size, finished sizes, finished measurements, measurements, "
    "dimensions, finished dimensions, approximate size, measures",
    Holds.MATERIALS: "materials, you will need, what you need, what you will need, "
    "what you'll need, supplies, yarn, yarns, hook, hooks, crochet hook, notions, colours, "
    "colors, equipment, tools, materials needed, tools and materials, other materials, "
    "shopping list, thread",
    Holds.GAUGE: "gauge, tension, gauge swatch, gauge and tension, tension square",
    Holds.TERMS: "terms, terminology, us terms, uk terms",
    Holds.ABBREVIATIONS: "abbreviations, abbreviations used, stitches used, "
    "stitches and abbreviations, abbreviations and stitches, stitch abbreviations, "
    "uk terms used, us terms used, terms used, abbreviations uk, abbreviations us, "
    "abbreviation list, glossary, stitches and terms, key to abbreviations",
    Holds.SPECIAL_STITCHES: "special stitches, special stitch, special terms, "
    "stitch guide, special abbreviations, stitch glossary, stitch definitions, "
    "special techniques, "
    "pattern stitch, pattern stitches, special stitch instructions",
    Holds.NOTES: "notes, note, pattern notes, tips, tip, hints, good to know, "
    "before you start, a few notes, notes on the pattern, construction, "
    "construction notes, design notes",
    Holds.INSTRUCTIONS: "instructions, directions, pattern, method, the pattern, "
    "working instructions, main pattern, written instructions, pattern instructions",
    Holds.FINISHING: "finishing, to finish, making up, assembly, blocking, to make up, "
    "sewing up, finishing touches, assembly and finishing, finish",
    Holds.CHARTS: "chart, charts, schematic, stitch chart, symbol chart, diagram, "
    "stitch key, chart key, schematics",
    Holds.CARE: "care, safety, care instructions, washing, care and safety",
    Holds.RIGHTS: "copyright, rights, contact, support, pattern support, terms of use, "
    "copyright and use, help, questions, license, licence",
}
_KNOWN = {name: holds for holds, names in _HEADINGS.items() for name in names.split(", ")}
_LONGEST = 60
_HEADING = re.compile(r"[ \t]*(?:#{1,6}[ \t]*)?[*_]{0,3}(?P<name>[A-Za-z][A-Za-z' &/-]*)")
_ORNAMENT = re.compile(r"[ \t]*[*_]{0,3}[ \t]*")
_LABEL = re.compile(r"[*_]{0,3}[ \t]*[:–—-][ \t]*[*_]{0,3}[ \t]*")


def sections_of(source: Source, pattern: Pattern) -> tuple[SectionFound, ...]:
    """The sections in reading order; a labelled line lies within the section around it."""
    starts = sorted(row.span.start for part in pattern.parts for row in part.rows)
    rows = [Span(starts[0], starts[0])] if starts else []
    edges = sorted({part.span.start for part in pattern.parts} | {r.start for r in rows})
    found = list(_headings(source))
    heads = [at for at, (_, _, alone) in enumerate(found) if alone]
    ends = [found[at][1].start for at in heads] + edges + [len(source.text)]
    result = []
    for holds, heading, alone in found:
        line = source.line_span(source.line_of(heading.start))
        stop = min(end for end in ends if end > heading.start) if alone else line.end
        result.append(
            SectionFound(holds, heading, Span(heading.end, max(heading.end, stop)))
        )
    return tuple(result)


def _headings(source: Source) -> Iterator[tuple[Holds, Span, bool]]:
    """What each heading or label says it holds, and whether it stands alone on its line."""
    for at, start in enumerate(source.line_starts):
        found = _HEADING.match(source.text, start, start + _LONGEST)
        if found is None:
            continue
        end = source.line_span(at + 1).end
        name = found["name"].rstrip(" -&/")
        holds = _KNOWN.get(re.sub(r"\s+", " ", name.lower().replace("&", "and")))
        if holds is None:
            continue
        behind = found.start("name") + len(name)
        label = _LABEL.match(source.text, behind, end)
        ornament = _ORNAMENT.match(source.text, behind, end)
        after = max(found.end() for found in (label, ornament) if found is not None)
        if after >= end:
            yield holds, Span(found.start("name"), after), True
        elif label is not None:
            yield holds, Span(found.start("name"), after), False
