"""Which gauges does a text state?

"16 sts and 12 rows = 4 in / 10 cm in hdc", "4 inches = 14 sts x 9 rows", "18 tr to 10 cm",
"one wave of 20 sts is 11.5 cm wide", "first 4 rnds = 3 in". What is counted and the length
it takes up may stand in either order, and stitches and rows may have a length each. A gauge
that "is not critical" and names no numbers is none.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec.structs import replace

from hookwright.design.facts import Gauge, Holds, Measure, SectionFound, State
from hookwright.design.gauge_counts import (
    PATTERN,
    PIECES,
    ROWS,
    Counted,
    counts_in,
    piece_in,
    rounds_in,
    stitch_named,
)
from hookwright.design.lengths import MM, Told, lengths_in
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_NAMED = regex(r"\b(?:gauge|tension)\b", re.IGNORECASE)
_LONGEST = 1_500
"""Characters of a paragraph about the gauge."""
_SENTENCE = regex(r"[;\n]|\.(?=[ \t]{1,4}[A-Z])")
_PARAGRAPH = regex(r"\n[ \t]{0,4}\n")

_HOOK = regex(r"\bhooks?\b", re.IGNORECASE)
_THICKEST_HOOK_MM = 30
_PER_ONE = regex(
    r"(?:\b(?:per|to (?:the|an|one|each)|an|each|every)[ \t]{1,4}|(?<=[a-z])[ \t]?/[ \t]?)"
    r"(?P<unit>inch|cm|centimet(?:re|er))\b",
    re.IGNORECASE,
)
_WORKED_IN = regex(
    r"\b(?:in|over|of|using)[ \t]{1,4}(?:the[ \t]{1,4}|a[ \t]{1,4})?"
    r"(?P<what>[^\W\d_][\w'’-]*(?:[ \t]{1,4}[^\W\d_][\w'’-]*){0,5})",
    re.IGNORECASE,
)
_AS_WORKED = regex(
    r"\b(?:as worked|as made|unblocked|not blocked|unwashed|(?:before|without) "
    r"(?:wet[ -]?)?(?:blocking|washing|you block)|(?:straight )?off the hook)\b",
    re.IGNORECASE,
)
_BLOCKED = regex(
    r"\b(?:wet-)?(?:blocked|washed)\b|"
    r"\b(?:after|when|once|following)\b[^.;\n]{0,30}\b(?:block|wash|wet|laund)",
    re.IGNORECASE,
)
_OF_ALL = regex(
    r"\b(?:measurements?|measured|sizes?|gauge|tension)\b[^.;\n]{0,60}", re.IGNORECASE
)
_LOOSE = regex(
    r"\b(?:not|isn['’]?t|no|n['’]t)\b[^.;\n]{0,30}\b(?:crucial|critical|important|essential|vital|"
    r"matter|big deal|fret|worry)\b|\b(?:unimportant|roughly|approximate|give or take)\b",
    re.IGNORECASE,
)


def gauges_in(
    source: Source, pattern: Pattern, sections: Sequence[SectionFound]
) -> tuple[Gauge, ...]:
    """Every gauge, in reading order, each with its state where that is said anywhere."""
    found = [
        gauge
        for stretch in _stretches(source, pattern, sections)
        for gauge in _in_paragraph(source.text, stretch)
    ]
    if any(gauge.state is State.UNSAID for gauge in found):
        said = _state_of_all(source.text)
        found = [g if g.state else replace(g, state=said) for g in found]
    return tuple(found)


def _stretches(
    source: Source, pattern: Pattern, sections: Sequence[SectionFound]
) -> Iterator[Span]:
    """Paragraphs that speak of the gauge: sections of it, and lines that name it."""
    rows = sorted(
        row.span for part in pattern.parts for row in part.rows if row.label is not None
    )
    done = 0
    bodies = sorted((s.heading.start, s.body) for s in sections if s.holds is Holds.GAUGE)
    for found in _NAMED.finditer(source.text):
        at = found.start()
        before = bisect_right(rows, Span(at, len(source.text))) - 1
        if at < done or (before >= 0 and at < rows[before].end):
            continue
        nearest = bisect_right(bodies, (at, Span(len(source.text), 0))) - 1
        body = bodies[nearest][1] if nearest >= 0 else None
        if body is None or at >= body.start:
            line = source.line_span(source.line_of(at))
            body = Span(found.end(), line.end)
        body = Span(body.start, min(body.end, body.start + _LONGEST))
        yield body
        done = body.end


def _in_paragraph(text: str, stretch: Span) -> list[Gauge]:
    """The gauges of the first paragraph that has any."""
    at = stretch.start
    while at < stretch.end:
        parted = _PARAGRAPH.search(text, at, stretch.end)
        end = parted.start() if parted else stretch.end
        found = _of_sentences(text, list(_sentences(text, at, end)))
        if found:
            return found
        at = parted.end() if parted else stretch.end
    return []


def _sentences(text: str, start: int, end: int) -> Iterator[Span]:
    at = start
    for mark in _SENTENCE.finditer(text, start, end):
        yield Span(at, mark.start())
        at = mark.end()
    yield Span(at, end)


def _of_sentences(text: str, sentences: Sequence[Span]) -> list[Gauge]:
    """The gauges of a paragraph; what a sentence says of no other holds for all of them."""
    found: list[Gauge] = []
    beside = Gauge(Span(0, 0))
    for sentence in sentences:
        own = _of_sentence(text, sentence)
        if not own:
            beside = _filled(beside, _said_beside(text, sentence))
        for gauge in own:
            if found and _complete_each_other(found[-1], gauge):
                found[-1] = _together(found[-1], gauge)
            else:
                found.append(gauge)
    if any(gauge.of not in PIECES for gauge in found):  # "Finished square about 8½"
        found = [gauge for gauge in found if gauge.of not in PIECES]
    found = [
        g for at, g in enumerate(found) if not any(_is_again(h, g) for h in found[:at])
    ]
    loose = any(_LOOSE.search(text, s.start, s.end) for s in sentences)
    return [replace(_filled(gauge, beside), loose=loose) for gauge in found]


_SAME = Fraction(3, 100)


def _is_again(before: Gauge, gauge: Gauge) -> bool:
    """Whether a gauge only says one before it once more: "that is 3.5 sts per inch"."""
    if not before.stitches or not gauge.stitches or before.of != gauge.of:
        return False
    widths = [g.width.mm[0] if g.width is not None else None for g in (before, gauge)]
    if not widths[0] or not widths[1] or gauge.state not in ("", before.state):
        return False
    own, other = before.stitches / widths[0], gauge.stitches / widths[1]
    return abs(own - other) <= _SAME * own


def _said_beside(text: str, sentence: Span) -> Gauge:
    """State, stitch and hook of a sentence without a gauge: "Measured after blocking."."""
    words, lengths, hook = _lengths(text, sentence)
    state = _state(text, sentence) if not lengths else State.UNSAID
    return Gauge(sentence, stitch=_worked_in(words), state=state, hook_mm=hook)


def _filled(gauge: Gauge, beside: Gauge) -> Gauge:
    """A gauge with what is said elsewhere and not by itself."""
    return replace(
        gauge,
        stitch=gauge.stitch or beside.stitch,
        state=gauge.state or beside.state,
        hook_mm=gauge.hook_mm or beside.hook_mm,
    )


def _complete_each_other(one: Gauge, other: Gauge) -> bool:
    """Whether one tells the stitches and the other the rows of the same gauge."""
    halves = (one.stitches is None) != (other.stitches is None)
    rows = (one.rows is None) != (other.rows is None)
    stitches = [stitch_named(g.stitch) for g in (one, other) if g.stitch]
    alike = len(set(stitches)) < 2 or not all(stitches)
    states = {one.state, other.state} - {State.UNSAID}
    return halves and rows and alike and len(states) < 2


def _together(one: Gauge, other: Gauge) -> Gauge:
    across, up = (one, other) if one.rows is None else (other, one)
    merged = replace(across, span=one.span.to(other.span), rows=up.rows, height=up.height)
    return _filled(merged, up)


def _of_sentence(text: str, sentence: Span) -> list[Gauge]:
    words, lengths, hook = _lengths(text, sentence)
    if not lengths:
        return []
    rounds = rounds_in(words, sentence.start)
    counts = [*rounds, *counts_in(words, sentence.start, rounds)]
    if not counts:
        piece = piece_in(words, sentence.start, lengths)
        counts = [piece] if piece is not None else []
    found = _bound(counts, lengths)
    worked_in = _worked_in(words)
    result = []
    for at, gauge in enumerate(found):
        end = found[at + 1].span.start if at + 1 < len(found) else sentence.end
        start = sentence.start if at == 0 else gauge.span.start
        state = _state(text, Span(start, end))
        stitch = gauge.stitch or worked_in
        result.append(replace(gauge, state=state, stitch=stitch, hook_mm=hook))
    return result


def _lengths(text: str, sentence: Span) -> tuple[str, list[Told], Fraction | None]:
    """A sentence without its lengths, the lengths, and the hook it names."""
    told = list(lengths_in(text, sentence.start, sentence.end))
    words = text[sentence.start : sentence.end]
    has_hook = _HOOK.search(words) is not None
    hook: Fraction | None = None
    lengths: list[Told] = []
    for one in told:
        words = _blanked(words, one.span, sentence.start)
        size = one.measures[0].mm[0]
        of_hook = has_hook and one.measures[0].unit == "mm"
        if of_hook and size is not None and size < _THICKEST_HOOK_MM:
            hook = hook or size
        else:
            lengths.append(one)
    for per in _PER_ONE.finditer(words):
        unit = "in" if per["unit"].lower() == "inch" else "cm"
        span = Span(sentence.start + per.start(), sentence.start + per.end())
        lengths.append(Told((Measure((MM[unit],), unit, span),), span))
    return words, lengths, hook


def _blanked(words: str, span: Span, start: int) -> str:
    a, b = span.start - start, span.end - start
    return f"{words[:a]}{'.' * (b - a)}{words[b:]}"


def _bound(counts: Sequence[Counted], lengths: Sequence[Told]) -> list[Gauge]:
    """Counts with the length behind them, or before them where none is behind."""
    items: list[Counted | Told] = [*counts, *lengths]
    items.sort(key=lambda item: item.span.start)
    found: list[Gauge] = []
    waiting: list[Counted] = []
    before: Told | None = None
    for item in items:
        if isinstance(item, Counted) and before is None:
            waiting.append(item)
        elif isinstance(item, Counted):
            assert before is not None
            _add(found, item, before)
        elif waiting:
            for count in waiting:
                _add(found, count, item)
            waiting, before = [], None
        else:
            before = item
    return found


def _add(found: list[Gauge], count: Counted, told: Told) -> None:
    """Put a count into the last gauge, or into a new one where that has its like."""
    width, height = told.measures[0], told.measures[min(1, len(told.measures) - 1)]
    span = count.span.to(told.span)
    last = found[-1] if found else None
    if count.kind == "row":
        if last is None or last.rows is not None:
            found.append(Gauge(span, rows=count.number, height=height, stitch=count.stitch))
            return
        stitch = last.stitch or count.stitch
        whole = last.span.to(span)
        found[-1] = replace(
            last, span=whole, rows=count.number, height=height, stitch=stitch
        )
        return
    across = Gauge(
        span, count.number, None, width, None, count.kind, count.in_one, count.stitch
    )
    if last is not None and last.stitches is None:
        found[-1] = replace(
            across, span=last.span.to(span), rows=last.rows, height=last.height,
            stitch=across.stitch or last.stitch,
        )  # fmt: skip
        return
    found.append(across)


def _worked_in(words: str) -> str:
    """The stitch or pattern that a sentence says the gauge is worked in."""
    for found in _WORKED_IN.finditer(words):
        split = found["what"].split()
        plain = [word.lower() for word in split]
        stop = next((i for i, word in enumerate(plain) if word in _ENDS), len(split))
        own = " ".join(split[:stop])
        if not own or plain[0] in ROWS:
            continue
        if stitch_named(own) or PATTERN & set(plain[:stop]):
            return own
    return ""


_ENDS = frozenset(
    "with using and or after before on at is are = measure measures to blocked unblocked "
    "as when over in from".split()
)


def _state(text: str, span: Span) -> State:
    if _AS_WORKED.search(text, span.start, span.end):
        return State.AS_WORKED
    if _BLOCKED.search(text, span.start, span.end):
        return State.BLOCKED
    return State.UNSAID


def _state_of_all(text: str) -> State:
    """ "All measurements are taken after blocking": said once for everything."""
    for found in _OF_ALL.finditer(text):
        state = _state(text, Span(*found.span()))
        if state:
            return state
    return State.UNSAID
