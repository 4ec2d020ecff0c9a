"""Does one abbreviation stand for two things?

The list may tell it twice ("tr = turn" and "tr = treble"), tell it otherwise than the
stitch is explained ("sh = 5 dc", and then "Shell (sh): 7 dc"), or give it the name of
another stitch. A name of the other terms, "dc = single crochet", is told by mixed-terms.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import (
    abbreviates,
    plain_form,
    stitch_by_name,
    trade_word,
)
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.mixed_terms import IN_OTHER_TERMS
from hookwright.editing.word_use import outside, rows_of, words_in
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.tree import Definition
from hookwright.regex import regex
from hookwright.source import Span

_OF_BOTH_TERMS = regex(r"\b(?:us|uk|u\.s|u\.k|american|british)\b", re.IGNORECASE)
_SMALL = frozenset(
    "a an the of in into st sts stitch stitches crochet work only next same".split()
)


def two_meanings(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each entry that another one, a definition or the terms deny."""
    listed = manuscript.design.abbreviations
    if not listed:
        return
    yield from _told_twice(manuscript, listed)
    yield from _made_otherwise(manuscript, listed)
    yield from _of_other_stitch(listed)


def _told_twice(
    manuscript: Manuscript, listed: Sequence[Abbreviation]
) -> Iterator[Finding]:
    """The same word with meanings that have no word in common."""
    text = manuscript.source.text
    used = words_in(text, rows_of(manuscript))
    first: dict[str, Abbreviation] = {}
    for entry in listed:
        word = _as_written(entry)
        before = first.setdefault(word, entry)
        if before is entry or not _are_two(before, entry):
            continue
        surely = entry.word == before.word and plain_form(word) in used
        severity = Severity.ERROR if surely else Severity.WARNING
        yield Finding(
            "one-word-two-stitches",
            severity,
            entry.word_span,
            f'"{entry.word}" stands for two things: {before.meaning}, and {entry.meaning}.',
            "Give one of them another abbreviation.",
            related=(Related(before.word_span, "it is listed here first"),),
        )


def _as_written(entry: Abbreviation) -> str:
    """A word whose capitals are kept where they alone tell it from others: "P" and "p"."""
    plain = plain_form(entry.word)
    return entry.word if len(plain) == 1 else plain


def _are_two(one: Abbreviation, other: Abbreviation) -> bool:
    """Whether two meanings are names of two things.

    Not where one only tells how the other is made ("inc = increase", "inc = 2 sc in 1 st"),
    or both are one stitch in two terms.
    """
    meanings = (one.meaning, other.meaning)
    if any(_OF_BOTH_TERMS.search(m) or len(m.split()) > _LONGEST_NAME for m in meanings):
        return False
    if not all(abbreviates(plain_form(one.word), meaning) for meaning in meanings):
        return False
    words, others = map(_telling, meanings)
    return bool(words and others) and not words & others


_LONGEST_NAME = 4


def _telling(meaning: str) -> set[str]:
    """The beginnings of the words that tell what is meant."""
    words = re.findall(r"[a-z]+", meaning.lower())
    return {word[:4] for word in words if word not in _SMALL}


_MADE_OF = regex(
    r"(?:\b(?P<before>\d{1,3})\s*)?(?<![a-z])(?P<stitch>sc|hdc|dc|htr|tr|dtr|trtr|ch|chain)s?"
    r"(?:[ -]?(?P<behind>\d{1,3}))?\b",
    re.IGNORECASE,
)
_PLACE = regex(r"\b(?:in|into|over|across|around|through)\b|[;.]", re.IGNORECASE)
_UNSURE = regex(
    r"\b(?:or|times|tog|together|twice|last|first|except)\b|\btog", re.IGNORECASE
)


def _made_otherwise(
    manuscript: Manuscript, listed: Sequence[Abbreviation]
) -> Iterator[Finding]:
    """An entry that makes a stitch of other numbers than its explanation does."""
    told = [(entry, made) for entry in listed if (made := _made_of(entry.meaning))]
    if not told:
        return
    defined = {
        plain_form(name): definition
        for definition in manuscript.pattern.definitions
        for name in definition.names
    }
    explained = _explained(manuscript, listed)
    for entry, made in told:
        found = (explained.get(name) for name in sorted(_names(entry, defined)))
        other = next((words for words in found if words is not None), None)
        words = manuscript.source.slice(other) if other is not None else ""
        if other is not None and _made_of(words) not in (Counter(), made):
            yield _contradiction(entry, words, other)


def _explained(manuscript: Manuscript, listed: Sequence[Abbreviation]) -> dict[str, Span]:
    """The stitches that lines outside the list explain by numbers, and the words."""
    source = manuscript.source
    taken = [*(entry.span for entry in listed), *rows_of(manuscript)]
    explained: dict[str, Span] = {}
    for stretch in outside(source.text, taken):
        for found in _EXPLAINS.finditer(source.text, stretch.start, stretch.end):
            if _made_of(found["made"]):
                words = Span(
                    found.start("made"), found.start("made") + len(found["made"].rstrip())
                )
                for name in (found["name"], found["short"] or found["name"]):
                    explained.setdefault(plain_form(name), words)
    return explained


_EXPLAINS = regex(
    r"^[ \t*_#•-]*(?P<name>[A-Za-z][A-Za-z -]{0,30}?)[ ]*"
    r"(?:\((?P<short>[A-Za-z-]{1,12})\))?"
    r"[*_]*[ ]*[:=][*_]*[ ]*(?P<made>[^\n.]{3,200})",
    re.MULTILINE,
)


def _names(entry: Abbreviation, defined: dict[str, Definition]) -> set[str]:
    """What an entry's stitch is called: its word, the trade's name, the draft's names."""
    plain = plain_form(entry.word)
    word = trade_word(plain)
    definition = defined.get(plain)
    names = {plain} | (set(map(plain_form, definition.names)) if definition else set())
    return names | ({word.meaning} if word is not None else set())


def _made_of(words: str) -> Counter[str]:
    """How many of each stitch some words make in their place; none where unsure."""
    made: Counter[str] = Counter()
    if _UNSURE.search(words):
        return made
    place = _PLACE.search(words)
    for found in _MADE_OF.finditer(words[: place.start()] if place else words):
        number = found["behind"] or found["before"] or "1"
        made[found["stitch"].lower().replace("chain", "ch")] += int(number)
    return made


def _contradiction(entry: Abbreviation, words: str, place: Span) -> Finding:
    return Finding(
        "one-word-two-stitches",
        Severity.ERROR,
        entry.span,
        f'"{entry.word}" is listed as {entry.meaning}, but explained as {words}.',
        "Let both say the same.",
        related=(Related(place, "it is explained here"),),
    )


_PLAIN = frozenset("sc hdc dc htr tr dtr".split())


def _of_other_stitch(listed: Sequence[Abbreviation]) -> Iterator[Finding]:
    """The first entry that gives a stitch the name of another one, in any terms."""
    for entry in listed:
        plain, named = plain_form(entry.word), stitch_by_name(entry.meaning)
        explains = {names.get(plain) for names in IN_OTHER_TERMS.values()}
        if not {plain, named} <= _PLAIN or named in {plain, *explains}:
            continue
        yield Finding(
            "one-word-two-stitches",
            Severity.ERROR,
            entry.span,
            f'"{entry.word}" is listed as {entry.meaning}, which is "{named}".',
            "Correct the abbreviation or its meaning.",
        )
        return
