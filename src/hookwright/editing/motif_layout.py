"""Do the motifs, laid out as the making up says, come to their number and to the size?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Along, Measure
from hookwright.design.lengths import MM
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.prose import beside_rows
from hookwright.editing.told_lengths import in_unit, telling
from hookwright.finding import Finding, Related, Severity
from hookwright.regex import regex
from hookwright.source import Span

_SPELLED = dict(
    zip("two three four five six seven eight nine ten".split(), range(2, 11), strict=True)
)
_NUMBER = rf"\d{{1,2}}|{'|'.join(_SPELLED)}"
_MOTIF = r"(?:squares?|motifs?|blocks?|hexagons?|octagons?)"
_LAID_OUT = regex(
    rf"\b(?P<rows>{_NUMBER}) rows of (?P<each>{_NUMBER})(?: {_MOTIF}| each)?"
    r"(?=[.,;:)\n]| and | as | to | in | with |$)|"
    rf"\b(?P<across>{_NUMBER}) (?:{_MOTIF} )?(?:across|wide)(?: and|,| by| x)? "
    rf"(?P<down>{_NUMBER}) (?:{_MOTIF} )?(?:down|deep|long|high|tall)\b",
    re.IGNORECASE,
)
_EDGE = regex(
    r"\b(?:each|one|every|1)[ \t](?:[a-z]+[ \t])?square\b(?P<between>[^\n.;=:]{0,30}?)"
    r"(?:=|:|\bmeasures?\b|\bis\b)[ \t]?(?:about |approx\.? |approximately |roughly )?"
    r"(?P<number>\d{1,3}(?:\.\d)?)[ \t]?(?P<unit>cm|inch(?:es)?|in\b|[\"”″])",
    re.IGNORECASE,
)
""" "Each square: 15 cm", "One square of 5 rounds = 15 cm"."""
_MORE = regex(
    r"\b(?:half(?! (?:double|treble))|halves|spare|extra|triangles?|random|your own|any)\b",
    re.IGNORECASE,
)
"""What leaves it open how many motifs there are in all."""
_OF_EACH = regex(r"\b(?:each|per|more|and)\b|[+&]", re.IGNORECASE)
_BORDERED = regex(
    r"\b(?:borders?|edgings?|edges?|edged|trim|fringe|frill|"
    r"(?:rounds?|rnds?) of|around the (?:whole|outside|entire))\b",
    re.IGNORECASE,
)
_PUT_TOGETHER = regex(
    rf"\b(?:{_MOTIF}|lay|laid|layout|arrange\w*|join\w*|sewn?|panels?)\b", re.IGNORECASE
)
_SEWN_ON = regex(r"\b(?:buttons?|beads?|eyes|studs?|snaps?|sequins?)\b", re.IGNORECASE)
_NAMED = regex(rf"\b{_MOTIF}\b", re.IGNORECASE)
_OFF = Fraction(8, 100)
"""By how much of it a size may differ: what blocking and seams may make."""
_WIDEST_BORDER = Fraction(150)
"""Millimetres on both sides together. Common practice, no source."""


class _Layout(Struct, frozen=True):
    """So many rows of so many motifs, and the words that say it."""

    rows: int
    each: int
    span: Span


def motif_layout(manuscript: Manuscript) -> Iterator[Finding]:
    """The number of motifs made, then the finished size, against the layout told."""
    text = beside_rows(manuscript)
    layouts = list(_layouts(text))
    if not layouts or len({(one.rows, one.each) for one in layouts}) != 1:
        return
    yield from _number(manuscript, layouts[-1], text)
    yield from _size(manuscript, layouts[-1], text)


def _layouts(text: str) -> Iterator[_Layout]:
    for found in _LAID_OUT.finditer(text):
        start, end = text.rfind("\n", 0, found.start()) + 1, text.find("\n", found.end())
        line = text[start : end if end >= 0 else len(text)]
        if not _PUT_TOGETHER.search(line) or _SEWN_ON.search(line):
            continue
        across = found["across"] is not None
        rows = _value(found["down"] if across else found["rows"])
        each = _value(found["across"] if across else found["each"])
        yield _Layout(rows, each, Span(*found.span()))


def _value(word: str) -> int:
    return int(word) if word.isdigit() else _SPELLED[word.lower()]


def _number(manuscript: Manuscript, layout: _Layout, text: str) -> Iterator[Finding]:
    """The motifs made: as many as are laid out, or twice as many for two sides.

    "First square" and "All other squares (make 79)" are 80.
    """
    made = [part for part in manuscript.pattern.parts if part.make > 1]
    motifs = [part for part in made if _NAMED.search(part.name)]
    needed = layout.rows * layout.each
    if len(motifs) != 1 or len(made) != 1 or _MORE.search(text):
        return
    source = manuscript.source
    heading = source.slice(source.line_span(source.line_of(motifs[0].span.start)))
    number = motifs[0].make
    with_single = number + _made_once(manuscript)
    if not {number, with_single}.isdisjoint((needed, 2 * needed)):
        return
    if _OF_EACH.search(heading):
        return
    twice = f", or {2 * needed} for two sides," if number > needed else ""
    yield Finding(
        "measure",
        Severity.WARNING,
        layout.span,
        f"{layout.rows} rows of {layout.each} are {needed} motifs{twice} "
        f"but {number} are made.",
        "Look at the number to make, or at how they are laid out.",
        related=(Related(motifs[0].span, "how many are made"),),
    )


def _made_once(manuscript: Manuscript) -> int:
    """How many motifs have instructions of their own, and are made once."""
    parts = manuscript.pattern.parts
    return sum(part.make <= 1 and bool(_NAMED.search(part.name)) for part in parts)


def _size(manuscript: Manuscript, layout: _Layout, text: str) -> Iterator[Finding]:
    """The finished size: the edge of a square by so many, and perhaps a border."""
    edges = [(_mm(found), Span(*found.span())) for found in _EDGE.finditer(text)]
    sides = _sides(manuscript, [span for _, span in edges])
    if len({mm for mm, _ in edges}) != 1 or sides is None:
        return
    edge, told = edges[0]
    border = _WIDEST_BORDER if _BORDERED.search(text) else Fraction(0)
    printed = [measure.mm[0] or Fraction(0) for measure in sides]
    ways = [(layout.each, layout.rows), (layout.rows, layout.each)]
    if any(_fits(way, edge, printed, border) for way in ways):
        return
    way = min(ways, key=lambda one: abs(one[0] * edge - printed[0]))
    at = 0 if _misses(way[0] * edge, printed[0], border) else 1
    unit = sides[at].unit
    yield Finding(
        "measure",
        Severity.WARNING,
        sides[at].span,
        f"{way[at]} squares of {in_unit(edge, unit)} are {in_unit(way[at] * edge, unit)}, "
        f"but {telling(sides[at], 0)} is printed.",
        "Look at the size, the size of a square, and how the squares are laid out.",
        related=(
            Related(told, "the square"),
            Related(layout.span, "how they are laid out"),
        ),
    )


def _mm(found: re.Match[str]) -> Fraction:
    unit = "cm" if found["unit"].lower() == "cm" else "in"
    return Fraction(found["number"]) * MM[unit]


def _sides(manuscript: Manuscript, apart: list[Span]) -> list[Measure] | None:
    """The finished width and length; None where they are not told once each."""
    source = manuscript.source
    lines = {source.line_of(span.start) for span in apart}
    sides = []
    for along in (Along.WIDTH, Along.LENGTH):
        found = [
            one.measure
            for one in manuscript.design.finished
            if one.along is along
            and not one.to_fit
            and source.line_of(one.span.start) not in lines
        ]
        if (
            len(found) != 1
            or found[0].ranged
            or len(found[0].mm) != 1
            or not found[0].mm[0]
        ):
            return None
        sides.append(found[0])
    return sides


def _fits(
    way: tuple[int, int], edge: Fraction, printed: list[Fraction], border: Fraction
) -> bool:
    pairs = zip(way, printed, strict=True)
    return not any(_misses(number * edge, side, border) for number, side in pairs)


def _misses(laid: Fraction, printed: Fraction, border: Fraction) -> bool:
    return not laid * (1 - _OFF) <= printed <= laid * (1 + _OFF) + border
