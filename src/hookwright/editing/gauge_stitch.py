"""Is the gauge told in a stitch that the pattern works?

A maker swatches what the gauge names. Told in a stitch that no row works, it fits nothing
she makes. Only a stitch of the trade named by itself is asked after: a named pattern may be
of anything, and a word that the draft uses anywhere else may be worked there.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from hookwright.design.facts import Abbreviation, Gauge, Holds
from hookwright.design.gauge_counts import stitch_named
from hookwright.design.trade_words import plain_form
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import outside
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import Make, Node, Unread
from hookwright.notation.vocabulary import StitchWord, base_stitch, standard_words
from hookwright.regex import regex
from hookwright.source import Span

_FEWEST_ROWS = 3
"""With fewer worked, the draft is no whole pattern."""
_BESIDE = frozenset("st sts stitch stitches crochet fabric rows rounds rnds flat".split())
_CHART = regex(r"\bcharts?\b", re.IGNORECASE)


def gauge_stitch(manuscript: Manuscript) -> Iterator[Finding]:
    """A warning for the gauge in a stitch that is neither worked nor named elsewhere."""
    gauges = [gauge for gauge in manuscript.design.gauges if not gauge.loose]
    found = [(gauge, _plainly_named(gauge.stitch)) for gauge in gauges]
    named = {gauge: stitch for gauge, stitch in found if stitch is not None}
    if not named or len(named) < len(manuscript.design.gauges):
        return
    worked = _worked(manuscript)
    if not worked or any(
        _means(stitch, manuscript) in worked or _is_named(manuscript, stitch)
        for stitch in named.values()
    ):
        return
    gauge, stitch = next(iter(named.items()))
    if stitch.terms in {"", manuscript.terms}:
        yield _told(manuscript, gauge)


def _plainly_named(words: str) -> StitchWord | None:
    """The stitch that some words name, with nothing beside it that may be a pattern."""
    own = re.split(r"[^\w'’]+", words.lower())
    while own and _spelling(own) is None and own[-1] in _BESIDE:
        own.pop()
    return _spelling(own) if stitch_named(words) else None


def _spelling(own: list[str]) -> StitchWord | None:
    """The stitch of the table whose spelling some words are, whole."""
    for spelling, stitch in standard_words().get(own[0] if own else "", ()):
        if list(spelling) == own and stitch.family == "plain":
            return stitch
    return None


def _worked(manuscript: Manuscript) -> set[str]:
    """What every stitch of the rows comes to; nothing where they may hold others too."""
    pattern = manuscript.pattern
    rows = [row for part in pattern.parts for row in part.rows]
    several = manuscript.worked.sizes
    done = sum(o.worked is not None for o in several[0].outcomes) if several else 0
    if done < _FEWEST_ROWS or _CHART.search(manuscript.source.text):
        return set()
    nodes: list[Node] = [node for row in rows for node in nested(row.body)]
    nodes += [node for told in pattern.definitions for node in nested(told.body)]
    if any(isinstance(node, Unread) and not node.likely for node in nodes):
        return set()
    made = Counter(node.stitch for node in nodes if isinstance(node, Make))
    made.update(told.stitch for told in pattern.definitions if told.stitch)
    if "st" in made:
        return set()
    slips = {
        name
        for name, often in made.items()
        if often == 1 and _is_of_others(name, manuscript)
    }
    return {_bare(name, manuscript) for name in made if name not in slips}


def _is_of_others(name: str, manuscript: Manuscript) -> bool:
    """Whether a stitch has its name in the other terms only: that is a slip by itself."""
    stitch = base_stitch(name)
    return stitch is not None and stitch.terms not in {"", manuscript.terms}


def _bare(name: str, manuscript: Manuscript) -> str:
    """A stitch without its post and its legs, and in one kind of terms."""
    plain = re.sub(r"\d*tog$", "", re.sub(r"^[fb]p(?=.)", "", name))
    stitch = base_stitch(plain)
    return plain if stitch is None else _means(stitch, manuscript)


def _means(stitch: StitchWord, manuscript: Manuscript) -> str:
    return (stitch.uk_means if manuscript.terms == "UK" else "") or stitch.id


def _is_named(manuscript: Manuscript, stitch: StitchWord) -> bool:
    """Whether some other line of the draft names a stitch, by any of its spellings."""
    text, design = manuscript.source.text, manuscript.design
    lines = [manuscript.source.line_span(n) for n in _lines_of_gauge(manuscript)]
    listed = [entry.span for entry in design.abbreviations if _lists(entry, stitch)]
    spellings = [
        " ".join(spelling)
        for several in standard_words().values()
        for spelling, other in several
        if other.id == stitch.id
    ]
    words = "|".join(
        re.escape(word).replace(r"\ ", r"[ -]") for word in sorted(spellings, key=len)[::-1]
    )
    named = re.compile(
        r"(?<![^\W\d_])(?<!half )(?<!half-)(?<!double )(?<!triple )"
        rf"(?:f|ex?|fp|bp|rf|rb|w|x|l)?(?:{words})(?:\d*tog|blo?|flo?|e?s)?(?![^\W\d_])",
        re.IGNORECASE,
    )
    return any(
        named.search(text, span.start, span.end) for span in outside(text, lines + listed)
    )


def _lines_of_gauge(manuscript: Manuscript) -> set[int]:
    source = manuscript.source
    found: set[int] = set()
    for gauge in manuscript.design.gauges:
        first, last = source.line_of(gauge.span.start), source.line_of(gauge.span.end)
        found.update(range(first, last + 1))
    for section in manuscript.design.sections:
        if section.holds is Holds.GAUGE:
            first, last = (
                source.line_of(section.body.start),
                source.line_of(section.body.end),
            )
            found.update(range(first, min(last, first + _MOST_LINES) + 1))
    return found


_MOST_LINES = 40


def _lists(entry: Abbreviation, stitch: StitchWord) -> bool:
    """Whether an entry of the list of abbreviations is that of a stitch."""
    own = _spelling(plain_form(entry.word).split())
    meant = _spelling(entry.meaning.lower().split())
    return any(one is not None and one.id == stitch.id for one in (own, meant))


def _told(manuscript: Manuscript, gauge: Gauge) -> Finding:
    line = manuscript.source.line_span(manuscript.source.line_of(gauge.span.end))
    at = manuscript.source.text.find(gauge.stitch, gauge.span.start, line.end)
    span = Span(at, at + len(gauge.stitch)) if at >= 0 else gauge.span
    return Finding(
        "gauge-state",
        Severity.WARNING,
        span,
        f"The gauge is told in {gauge.stitch}, but no {gauge.stitch} is worked.",
        "Tell it in the stitch of the piece.",
    )
