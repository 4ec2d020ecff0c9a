"""Which sections does a draft have beside its rows, and what does each hold?

A section begins at a heading on a line of its own, "Materials", or is one labelled line,
"Hook: 5 mm". It ends at the next heading, and where the rows begin. A heading may be set in
any dress: with number signs, stars, a bullet, a number or a picture before it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator

from hookwright.design.facts import Holds, SectionFound
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_HEADINGS: dict[Holds, str] = {
    Holds.LEVEL: "skill level, level, difficulty, skill, experience, project level, "
    "difficulty level, level of difficulty, skill level required, skills, skill rating, "
    "experience level",
    Holds.SIZES: "size, sizes, sizing, to fit, sizes available, sizes included, fits, "
    "size range, size chart, sizing chart, to fit sizes",
    Holds.FINISHED: "finished size, finished sizes, finished measurements, measurements, "
    "dimensions, finished dimensions, approximate size, measures, finished measurement, "
    "completed size, final size, final measurements, approximate measurements, "
    "size when finished, actual size, actual measurements, finished piece, "
    "finished item measures, garment measurements, approx size, approx finished size",
    Holds.MATERIALS: "materials, material, you will need, what you need, need, you need, "
    "what you will need, what you'll need, you'll need, youll need, "
    "supplies, yarn, yarns, hook, hooks, crochet hook, crochet hooks, notions, colours, "
    "colors, equipment, tools, other materials, shopping list, thread, hook size, "
    "hook sizes, yarn weight, yarn amounts, yarn requirements, "
    "yarn colours, yarn colors, things you need, things you'll need, requirements, "
    "yarn quantities, yardage, gather, extras, other supplies",
    Holds.GAUGE: "gauge, tension, gauge swatch, tension square, tension swatch, swatch",
    Holds.TERMS: "terms, terminology, us terms, uk terms, crochet terms, us terminology, "
    "uk terminology, american terms, british terms, us crochet terms, uk crochet terms",
    Holds.ABBREVIATIONS: "abbreviations, stitches used, stitch abbreviations, "
    "uk terms used, us terms used, terms used, abbreviations uk, abbreviations us, "
    "abbreviation list, glossary, key to abbreviations, stitches, abbreviation, abbr, "
    "abbrevs, standard abbreviations, abbreviation key, stitch list, stitches needed, "
    "stitches you need, stitches you will need, stitch key, abbreviations in us terms, "
    "abbreviations in uk terms, general abbreviations, common abbreviations",
    Holds.SPECIAL_STITCHES: "special stitches, special stitch, special terms, special, "
    "specials, special sts, special st, "
    "stitch guide, special abbreviations, stitch glossary, stitch definitions, "
    "special techniques, pattern stitch, pattern stitches, special stitch instructions, "
    "special instructions, special stitches used, stitch instructions, stitch patterns, "
    "stitch pattern, techniques, special technique, stitch explanations",
    Holds.NOTES: "notes, note, pattern notes, tips, tip, hints, good to know, "
    "before you start, before you begin, a few notes, notes on the pattern, construction, "
    "construction notes, design notes, special notes, please note, important notes, "
    "general notes, things to know, read first, important, pattern note",
    Holds.INSTRUCTIONS: "instructions, directions, pattern, method, the pattern, "
    "working instructions, main pattern, written instructions, pattern instructions, "
    "written pattern, pattern begins, how to make it, how to",
    Holds.FINISHING: "finishing, to finish, making up, assembly, blocking, to make up, "
    "sewing up, finishing touches, finish, finishing off, to assemble, putting together, "
    "joining, seaming, final assembly, finishing instructions",
    Holds.CHARTS: "chart, charts, schematic, stitch chart, symbol chart, diagram, "
    "chart key, schematics, diagrams, stitch diagram, symbols, symbol key",
    Holds.CARE: "care, safety, care instructions, washing, safety note, safety notes",
    Holds.RIGHTS: "copyright, rights, contact, support, pattern support, terms of use, "
    "help, questions, license, licence, disclaimer, credits",
}
_KNOWN = {name: holds for holds, names in _HEADINGS.items() for name in names.split(", ")}
_BESIDE = regex(
    r"^(?:the|a few|some|list of|general|important|main|your|my|other|approx|"
    r"approximate)\s|"
    r"\s(?:used in (?:this|the) pattern|used|needed|required|list|section|overview|info|"
    r"information|guide|details|for this pattern)$"
)
"""Words around the name of a section that tell nothing more of it."""

_FIRST = frozenset(name.partition(" ")[0] for name in _KNOWN) | frozenset(
    "the a few some list of general important main your my other approx".split()
)
_WORD = regex(r"[a-z']+")
_LONGEST = 60
_DRESS = regex(r"[^\w\n]{0,16}(?:\d{1,2}[.)][^\w\n]{1,8})?(?=[A-Za-z])")
_MARK = regex(
    r"[:–—=|.\n-]|\*\*|__|\((?!s\))|\t|$| (?=\d|(?:X*S|M|X*L|[2-6]X|Small|One size)\b)"
)
_BRACKET = regex(r"\([^()\d\n]*\)")
_BEHIND = regex(r"[\W_]*")
_LABEL = regex(r"[ \t*_]*[:–—=|.-]?[ \t*_:|–—-]*")


def sections_of(source: Source, pattern: Pattern) -> tuple[SectionFound, ...]:
    """The sections in reading order; a labelled line lies within the section around it."""
    starts = [row.span.start for part in pattern.parts for row in part.rows]
    edges = [part.span.start for part in pattern.parts]
    found = list(_headings(source))
    heads = [heading.start for _, heading, alone in found if alone]
    signs = [at for at in source.line_starts if source.text.startswith("#", at)]
    ends = sorted({*heads, *edges, *starts, *signs, len(source.text)})
    result = []
    for holds, heading, alone in found:
        line = source.line_span(source.line_of(heading.start))
        after = bisect_right(ends, line.end - 1) if alone else len(ends)
        stop = ends[after] if after < len(ends) else line.end
        result.append(
            SectionFound(holds, heading, Span(heading.end, max(heading.end, stop)))
        )
    return tuple(result)


def _headings(source: Source) -> Iterator[tuple[Holds, Span, bool]]:
    """What each heading or label says it holds, and whether it stands alone on its line."""
    text = source.text
    for at, start in enumerate(source.line_starts):
        dress = _DRESS.match(text, start)
        if dress is None:
            continue
        first = _WORD.match(text[dress.end() : dress.end() + _LONGEST].lower())
        if first is None or first[0] not in _FIRST:
            continue
        line = source.line_span(at + 1)
        for mark in _MARK.finditer(
            text, dress.end(), min(line.end, dress.end() + _LONGEST)
        ):
            holds = _holds(text[dress.end() : mark.start()])
            if not holds:
                continue
            after, alone = _after(text, mark.start(), line.end)
            heading = Span(dress.end(), after)
            yield from ((held, heading, alone) for held in holds)
            break


def _after(text: str, at: int, end: int) -> tuple[int, bool]:
    """Where the words behind a heading begin, and whether there are none on its line."""
    bracket = _BRACKET.match(text, at, end)
    behind = _BEHIND.match(text, bracket.end() if bracket else at, end)
    if behind is not None and behind.end() >= end:
        return end, True
    mark = _LABEL.match(text, at, end)
    return (mark.end() if mark else at), False


def _holds(words: str) -> tuple[Holds, ...]:
    """What a heading of these words heads; of two, where it names two."""
    key = re.sub(r"[&+/]", " and ", words.lower().replace("’", "'").replace("(s)", "s"))
    key = re.sub(r"\s+", " ", re.sub(r"[^a-z' ]+", " ", key)).strip()
    own = _known(key)
    if own is not None:
        return (own,)
    both = [_known(name) for name in re.split(r" and |, ", key)]
    known = [holds for holds in both if holds is not None]
    return tuple(dict.fromkeys(known)) if len(known) == len(both) else ()


def _known(name: str) -> Holds | None:
    return _KNOWN.get(name) or _KNOWN.get(_BESIDE.sub("", name))
