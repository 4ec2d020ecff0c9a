"""How large is the finished piece said to be, and whom do its sizes fit?

"About 104 cm wide and 142 cm long (41 x 56 in)", "36 x 48 in", "Finished chest: 31 (33, 36)
in / 78 (84, 93) cm", "approx 20 cm square", "6 in across", "to fit a head of 15 (17) in".
A list is kept as it stands, also where it has not one number a size.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.design.facts import Along, Finished, Holds, Measure, SectionFound
from hookwright.design.lengths import Told, lengths_in, unit_system
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_HOLDING = (Holds.SIZES, Holds.FINISHED)
_LONGEST = 2_000
_TELLS = regex(
    r"\b(?:finished|measures|measuring|measurements?|approx(?:imate)? size|dimensions|"
    r"to fit|fits|size|sizes|width|length|circumference|diameter|wingspan)\b|"
    r"^\W{0,4}(?:about |approx[a-z.]{0,8} )?\d[^\n]{0,16}?[x×][ \t]?\d",
    re.IGNORECASE | re.MULTILINE,
)
_NO_RESULT = regex(
    r"\b(?:gauge|tension|hooks?|needles?|yarns?|balls?|skeins?|buttons?|eyes|until|"
    r"row|rows|rnd|rnds|zipper|elastic|cushion pad|swatch|label|rep|repeat|"
    r"for (?:every|each)|different size|if you)\b",
    re.IGNORECASE,
)
"""What the lengths of a line belong to where they are none of the finished piece."""
_SENTENCE = regex(r"[;\n]|\.(?=[ \t]{1,4}[A-Z])|\.[ \t]{0,4}$", re.MULTILINE)
_SAYS_FINISHED = regex(
    r"\b(?:finished|actual|garment|measures|measuring|measurements?)\b", re.IGNORECASE
)
_OF_BODIES = frozenset("chest bust waist hip hips head neck wrist ankle calf".split())
_EASE = regex(r"\bease\b", re.IGNORECASE)
_TO_FIT = regex(r"\b(?:to fit|fits|fit)\b", re.IGNORECASE)
_SQUARE = regex(r"[ \t]{0,4}-?[ \t]{0,4}(?:square|sq)\b", re.IGNORECASE)
_WAYS = {
    Along.WIDTH: "wide|width|w",
    Along.LENGTH: "long|length|tall|high|height|deep|depth|l|h",
    Along.AROUND: "around|circumference|circ|round",
    Along.ACROSS: "across|diameter|point to point|from side to side",
}
_WAY = regex(
    r"\b(?:"
    + "|".join(f"(?P<{way.name}>{words})" for way, words in _WAYS.items())
    + r")\b",
    re.IGNORECASE,
)
_BEHIND = regex(
    r"[ \t]{0,4}(?:,[ \t]{0,4}|\([ \t]{0,4})?"
    r"(?:(?:in|total|finished|the|at its widest)[ \t]{1,4}){0,2}"
    r"(?P<word>[a-z]+(?: to point| side to side)?)\b(?![ \t]{0,4}[:=]|[ \t]{1,4}\d)",
    re.IGNORECASE,
)
_BODY = regex(
    r"\b(?P<round>chest|bust|waist|hips?|head|neck|wrist|ankle|calf|brim|"
    r"foot circumference)\b|"
    r"\b(?P<long>sleeves?|armhole|foot|body|back|underarm|yoke|shoulders?|leg|cuff|hand|palm|"
    r"strap|handles?|border|edging|edge|fringe)\b",
    re.IGNORECASE,
)
_LEAD = frozenset(
    "about approx approximately roughly around circa ca c finished size sizes measurement "
    "measurements measures measuring dimensions the a an is are of and by with in at to "
    "for piece it each all finish approximate width length wide long tall high height "
    "depth circumference diameter will be one total or so fit fits after blocking blocked "
    "w l h "
    "when laid flat shown as made done bit just over under little slightly more less "
    "unstretched stretched relaxed sample your my this x".split()
)
_WORD = regex(r"[^\W\d_][\w'’-]*")
_LABEL = regex(
    r"^\W*(?:size[ \t]{1,4})?(?P<name>[\w/.+ -]{1,24}?)[ \t]{0,4}"
    r"(?:[:=]|[ \t][–-])[ \t]{0,4}"
)


def finished_in(
    source: Source, pattern: Pattern, sections: Sequence[SectionFound]
) -> tuple[Finished, ...]:
    """Finished measurements and to-fit lines, in reading order."""
    found: list[Finished] = []
    named: dict[str, list[Finished]] = {}
    for stretch, holds in _stretches(source, pattern, sections):
        sure, of_finished = holds is not None, holds is Holds.FINISHED
        for sentence in _sentences(source.text, stretch):
            words = source.text[sentence.start : sentence.end]
            if _NO_RESULT.search(words) or not (sure or _TELLS.search(words)):
                continue
            if _only_names(words, pattern.sizes):
                continue
            size, label = _size_named(words, pattern.sizes)
            own = list(
                _of_sentence(source.text, Span(sentence.start + label, sentence.end))
            )
            own = _in_cells(words, own, len(pattern.sizes))
            if not (of_finished or _SAYS_FINISHED.search(words)):
                own = [replace(f, to_fit=f.to_fit or f.of in _OF_BODIES) for f in own]
            if size:
                named.setdefault(size, []).extend(own)
            else:
                found.extend(own)
    found.extend(_by_size(named, pattern.sizes))
    found.sort(key=lambda finished: finished.span)
    return tuple(found)


def _stretches(
    source: Source, pattern: Pattern, sections: Sequence[SectionFound]
) -> Iterator[tuple[Span, Holds | None]]:
    """Sections that tell the size, and lines before the rows that may tell it."""
    rows = sorted(row.span for part in pattern.parts for row in part.rows)
    first = rows[0].start if rows else len(source.text)
    ends = {s.heading.start for s in sections}
    own = [s for s in sections if s.holds in _HOLDING]
    bodies = [(_first_lines(s, ends), s.holds) for s in own]
    others = sorted(
        s.body for s in sections if s.holds not in _HOLDING and s.holds in _APART
    )
    for body, holds in bodies:
        if not _within(rows, body.start):
            yield body, holds
    told = [s.heading.to(body) for s, body in zip(own, (b for b, _ in bodies), strict=True)]
    taken = sorted([*others, *told])
    done = 0
    for found in _TELLS.finditer(source.text, 0, first):
        line = source.line_span(source.line_of(found.start()))
        if found.start() < done:
            continue
        done = line.end
        if not _within(taken, found.start()):
            yield Span(line.start, min(line.end, line.start + _LONGEST)), None


def _within(spans: Sequence[Span], at: int) -> bool:
    """Whether a place lies in the last of some sorted spans that begins before it."""
    before = bisect_right(spans, Span(at, _FAR)) - 1
    return before >= 0 and at < spans[before].end


_FAR = 1 << 62
_APART = (Holds.GAUGE, Holds.MATERIALS, Holds.ABBREVIATIONS, Holds.SPECIAL_STITCHES)


def _first_lines(section: SectionFound, starts: set[int]) -> Span:
    """What stands under a heading, up to the next label or heading."""
    body = section.body
    end = min([body.end, body.start + _LONGEST, *(s for s in starts if s >= body.start)])
    return Span(body.start, max(body.start, end))


def _sentences(text: str, stretch: Span) -> Iterator[Span]:
    at = stretch.start
    for mark in _SENTENCE.finditer(text, stretch.start, stretch.end):
        if mark.start() > at:
            yield Span(at, mark.start())
        at = mark.end()
    if stretch.end > at:
        yield Span(at, stretch.end)


def _only_names(words: str, sizes: Sequence[str]) -> bool:
    """Whether a line lists the names of the sizes, "Sizes: 30 x 40 in (40 x 50 in)."."""
    told = _BETWEEN_NAMES.sub(" ", words.strip().lower()).split()
    names = _BETWEEN_NAMES.sub(" ", " ".join(sizes).lower()).split()
    return len(sizes) > 1 and told in (names, ["sizes", *names])


_BETWEEN_NAMES = regex(r"[^\w.]+|\.$")


def _size_named(words: str, sizes: Sequence[str]) -> tuple[str, int]:
    """The size that a line is about, "Baby: 30 x 36 in", and the length of its label."""
    label = _LABEL.match(words)
    name = label["name"].strip().lower() if label is not None else ""
    size = next((size for size in sizes if size.lower() == name), "")
    return size, label.end() if label is not None and size else 0


def _in_cells(words: str, own: list[Finished], sizes: int) -> list[Finished]:
    """ "| Chest | 26" | 28" | 30" |": the cells of a row have one length for each size."""
    lengths = [finished.measure for finished in own]
    alike = {(one.unit, len(one.mm), one.also is None) for one in lengths}
    if not 1 < sizes == len(own) <= words.count("|") or len(alike) != 1:
        return own
    if len(lengths[0].mm) != 1:
        return own
    span = lengths[0].span.to(lengths[-1].span)
    also = lengths[0].also
    others = tuple(one.also.mm[0] for one in lengths if one.also is not None)
    measure = replace(
        lengths[0],
        mm=tuple(one.mm[0] for one in lengths),
        span=span,
        also=replace(also, mm=others, span=span) if also is not None else None,
    )
    return [replace(own[0], measure=measure, span=span)]


def _by_size(named: dict[str, list[Finished]], sizes: Sequence[str]) -> Iterator[Finished]:
    """Lines with the measurements of a size each, as lists; none if they are not alike."""
    lists = [named.get(size, []) for size in sizes]
    if len({len(found) for found in lists}) != 1:
        return
    for several in zip(*lists, strict=True):
        first = several[0]
        if any(
            (f.along, f.of, f.to_fit) != (first.along, first.of, first.to_fit)
            for f in several
        ):
            continue
        values = tuple(f.measure.mm[0] for f in several)
        also = first.measure.also
        others = [f.measure.also.mm[0] for f in several if f.measure.also is not None]
        twice = also is not None and len(others) == len(several)
        measure = replace(
            first.measure,
            mm=values,
            also=replace(also, mm=tuple(others)) if twice and also is not None else None,
        )
        yield replace(first, measure=measure)


def _of_sentence(text: str, sentence: Span) -> Iterator[Finished]:
    """Every length of a sentence with the way it is taken."""
    found: list[Finished] = []
    to_fit = _TO_FIT.search(text, sentence.start, sentence.end)
    told = _lengths(text, sentence)
    of_before = ""
    for at, one in enumerate(told):
        start = told[at - 1].span.end if at else sentence.start
        end = told[at + 1].span.start if at + 1 < len(told) else sentence.end
        before = text[start : one.span.start]
        behind = text[one.span.end : min(end + 1, sentence.end)]  # and the next digit
        if _is_same_again(found, one, before):
            found = _with_other_units(found, one)
            continue
        if _EASE.search(behind if at + 1 == len(told) else behind.split(",")[0]):
            continue
        square = _SQUARE.match(behind) is not None
        of, along = _of_what(before, behind, later=at > 0)
        of_before = of or (of_before if at and not before.strip(" ,x×") else "")
        fits = to_fit is not None and to_fit.start() < one.span.start
        own = list(_several(one, along, of or of_before, to_fit=fits, square=square))
        found = _crossed(found, own) if _CROSS.fullmatch(before) else [*found, *own]
    yield from found


_CROSS = regex(r"[ \t]{0,4}(?:x|×|X|by)[ \t]{0,4}")


def _crossed(found: list[Finished], own: list[Finished]) -> list[Finished]:
    """ "9 in (23 cm) x 60 in (152 cm)": both ways of a piece, of which none is named."""
    before = found[-1] if found else None
    if before is None or len(own) != 1 or {before.along, own[0].along} != {Along.UNSAID}:
        return [*found, *own]
    across = replace(before, along=Along.WIDTH, by_custom=True)
    up = replace(own[0], along=Along.LENGTH, of=own[0].of or before.of, by_custom=True)
    return [*found[:-1], across, up]


def _lengths(text: str, sentence: Span) -> list[Told]:
    """Its lengths; a few metres without a word of what are months: "3-6 m"."""
    found = []
    for told in lengths_in(text, sentence.start, sentence.end):
        measure = told.measures[0]
        behind = _way_behind(text[told.span.end : told.span.end + 40])
        if measure.unit in ("m", "yd", "mm") and behind is None and len(told.measures) == 1:
            continue
        found.append(told)
    return found


def _is_same_again(found: Sequence[Finished], told: Told, before: str) -> bool:
    """ "104 cm wide and 142 cm long (41 x 56 in)": both once more in other units."""
    last = found[-len(told.measures) :]
    return (
        before.rstrip().endswith(("(", "[", "/"))
        and len(last) == len(told.measures)
        and all(f.measure.also is None for f in last)
        and all(
            unit_system(f.measure.unit) != unit_system(told.measures[0].unit) for f in last
        )
    )


def _with_other_units(found: list[Finished], told: Told) -> list[Finished]:
    count = len(told.measures)
    twice = [
        replace(f, measure=replace(f.measure, also=measure))
        for f, measure in zip(found[-count:], told.measures, strict=True)
    ]
    return [*found[:-count], *twice]


def _way_behind(words: str) -> Along | None:
    """The way told right behind a length: "142 cm long", "20 cm in diameter"."""
    behind = _BEHIND.match(words)
    way = _WAY.fullmatch(behind["word"]) if behind is not None else None
    return Along[way.lastgroup] if way is not None and way.lastgroup else None


_NEXT = regex(r"[,)×]|\b(?:and|x|by|X)\b")
_WITH_EDGING = regex(
    r"\b(?:with|without|including|incl|excluding|before|after|plus|not counting)\b\.?"
    r"(?:[ \t]{1,4}(?:its|the|a|adding))*[ \t]{1,4}"
    r"(?:edging|edge|border|trim|fringe|blocking)s?",
    re.IGNORECASE,
)


def _of_what(before: str, behind: str, *, later: bool) -> tuple[str, Along]:
    """What a length is of, and which way: told behind it, or else before it."""
    way = _way_behind(behind)
    own = before
    if later:  # what stands behind the length before this one is of that one
        own = _NEXT.split(before)[-1]
    own = _WITH_EDGING.sub(" ", own)
    beside = _WITH_EDGING.sub(" ", behind.split(",", maxsplit=1)[0])
    body = _BODY.search(own) or (_BODY.search(beside) if way is None else None)
    if way is None:
        ways = list(_WAY.finditer(_without_about(own)))
        way = Along[str(ways[-1].lastgroup)] if ways else None
    if body is not None:
        around = Along.AROUND if body["round"] else Along.UNSAID
        return body[0].lower(), way or around
    words = [word.lower() for word in _WORD.findall(own)]
    others = [word for word in words if word not in _LEAD and not _WAY.fullmatch(word)]
    return " ".join(others[-3:]), way or Along.UNSAID


def _without_about(words: str) -> str:
    """ "Around 20 cm" means about."""
    return re.sub(r"\b(?:a?round)[ \t]{0,4}$", "", words, flags=re.IGNORECASE)


def _several(
    told: Told, along: Along, of: str, *, to_fit: bool, square: bool
) -> Iterator[Finished]:
    """The measurements of one length, or of one for each way of the piece."""
    measures: tuple[Measure, ...] = told.measures
    span = told.span
    if len(measures) == 2 or (len(measures) == 1 and square):
        for way, measure in zip((Along.WIDTH, Along.LENGTH), measures * 2, strict=False):
            yield Finished(way, measure, span, of, to_fit, by_custom=len(measures) == 2)
        return
    if len(measures) > 2:
        along = Along.UNSAID
    for measure in measures:
        yield Finished(along, measure, span, of, to_fit)
