"""Which words of the rows does a list of abbreviations leave out?

Only a draft that has a list is asked. A list of stitches owes the stitches; one that tells
"rep" and "st" as well owes such words too. A stitch that is made in many ways, a cluster or
a shell, and that nothing outside the rows tells of, cannot be worked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import (
    TradeWord,
    abbreviates,
    elements,
    plain_form,
    trade_word,
)
from hookwright.editing.list_entry import new_entry
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import (
    Use,
    listed_forms,
    outside,
    row_at,
    rows_of,
    with_parts,
    words_in,
    words_used,
)
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import makes_in
from hookwright.notation.tree import RowText
from hookwright.notation.vocabulary import compound, singular, standard_words
from hookwright.source import Span

_MADE_IN_MANY_WAYS = ("cluster", "group", "picot")
_FEWEST_WORDS = 2
"""How many words that are no stitches make a list of more than stitches."""


def undefined_abbreviations(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each word that the list leaves out, at its first use in a row."""
    listed = listed_forms(manuscript.design.abbreviations)
    if not listed:
        return
    if "ch" in listed:
        yield from _made_in_many_ways(manuscript)
    yield from _left_out(manuscript, listed)


def _made_in_many_ways(manuscript: Manuscript) -> Iterator[Finding]:
    """Stitches whose making nothing tells."""
    pattern, text = manuscript.pattern, manuscript.source.text
    own = {name for definition in pattern.definitions for name in definition.names}
    open_stitches = {
        stitch: words for stitch, words in _spellings().items() if stitch not in own
    }
    makes = [
        (make, row, part.name)
        for part in pattern.parts
        for row in part.rows
        for make in makes_in(row.body)
        if make.stitch in open_stitches
    ]
    if not makes:
        return
    told = with_parts(words_in(text, outside(text, rows_of(manuscript))))
    for make, row, part in makes:
        words = open_stitches.pop(make.stitch, None)
        if words and not words & told and not _is_named(text, words):
            span = _word_in(manuscript, row.place(make.span), words)
            word = manuscript.source.slice(span)
            yield _finding(
                span,
                row,
                part,
                Severity.WARNING,
                f'"{word}" is not among the abbreviations, and it is made in many ways.',
                "Say how it is worked, with the other stitches.",
            )


_COUNTED = r"(?:ch|chain)[ -]?\d|\d[ -]?(?:ch|chain|sc|hdc|htr|dc|tr|st|double|treble)s?"


def _is_named(text: str, words: set[str]) -> bool:
    """Whether a row tells what it names.

    "5 dc in next st: shell made", "picot (ch 3, sl st in 3rd ch from hook)", "ch-3 picot".
    """
    word = rf"(?:{'|'.join(sorted(words))})[\w-]*(?: st\w*)?"
    before = r"\b(?:this is|called|makes) (?:an? |the )?"
    behind = r"\W+(?:made|done|completed|formed)\b"
    told = rf"\b{word}[ \t]?[(\[:=–—][ \t]?(?:\*?\d|ch\b|chain\b|yo\b|work\b|make\b)"
    counted = rf"\b(?:{_COUNTED})[ -]?{word}\b"
    named = rf"\b{word}{behind}|{before}{word}\b|{told}|{counted}"
    return re.search(named, text, re.IGNORECASE) is not None


def _spellings() -> dict[str, set[str]]:
    """The stitches that are made in many ways, with the words each may begin with."""
    found: dict[str, set[str]] = {}
    for first, phrases in standard_words().items():
        for _, stitch in phrases:
            if stitch.family in _MADE_IN_MANY_WAYS:
                found.setdefault(stitch.id, set()).add(first)
    return found


def _word_in(manuscript: Manuscript, span: Span, words: set[str]) -> Span:
    """Where a stitch is named within the words of an instruction."""
    named = re.search(
        rf"\b(?:{'|'.join(sorted(words))})[\w-]*",
        manuscript.source.slice(span),
        re.IGNORECASE,
    )
    if named is None:
        return span
    return Span(span.start + named.start(), span.start + named.end())


def _left_out(
    manuscript: Manuscript, listed: Mapping[str, Abbreviation]
) -> Iterator[Finding]:
    """Words of the trade that are used and not listed."""
    known = with_parts(listed) | _last_words(listed)
    own = _own_words(manuscript)
    kinds = _kinds_owed(listed)
    groups = {word.same for form in listed if (word := trade_word(form)) and word.same}
    text, rows = manuscript.source.text, rows_of(manuscript)
    seen: set[str] = set()
    for plain, use in words_used(text, rows).items():
        word = trade_word(plain)
        if word is None or word.kind not in kinds or word.same in groups:
            continue
        if _is_of_others(plain, manuscript.terms):
            continue
        forms = set(singular(plain))
        spelled = plain_form(word.word)
        parts = elements(spelled)
        if forms & known or forms & own or (parts and set(parts) <= known):
            continue
        if spelled in seen or spelled in _told_by_itself() or _is_told(text, word, use):
            continue
        seen.add(spelled)
        yield _unlisted(manuscript, word, use)


def _kinds_owed(listed: Mapping[str, Abbreviation]) -> set[str]:
    """Which kinds of words a list sets out to tell."""
    plain = [form for form in listed if not elements(form)]
    kinds = [word.kind for form in plain if (word := trade_word(form)) is not None]
    owed = {"stitch"} if "stitch" in kinds else set()
    return owed | ({"word"} if kinds.count("word") >= _FEWEST_WORDS else set())


def _last_words(listed: Iterable[str]) -> set[str]:
    """The "sp" of a "ch sp" that is listed."""
    phrases = (form.split() for form in listed if form.startswith("ch "))
    return {words[-1] for words in phrases}


def _is_of_others(plain: str, terms: str | None) -> bool:
    """Whether a word exists in the other terms only, which is told by itself."""
    stitch = compound(plain)
    return stitch is not None and stitch.terms not in {"", terms}


def _own_words(manuscript: Manuscript) -> set[str]:
    """The names of the stitches that the draft defines, and each word of them."""
    names = {
        name for definition in manuscript.pattern.definitions for name in definition.names
    }
    return names | {word for name in names for word in name.split()}


def _told_by_itself() -> set[str]:
    """Words of stitches that are made in many ways, which are asked after by themselves."""
    return {word for words in _spellings().values() for word in words}


_NEAR = 40


def _is_told(text: str, word: TradeWord, use: Use) -> bool:
    """Whether the draft says elsewhere what a word stands for: "right side (RS)"."""
    written = re.escape(text[use.first.start : use.first.end])
    for found in re.finditer(rf"[(\[]\s*{written}\s*[)\]]", text):
        before = text[max(0, found.start() - _NEAR) : found.start()].split()
        if any(abbreviates(word.word, " ".join(before[-n:])) for n in (1, 2, 3, 4)):
            return True
        if word.us and before:  # a colour beside its yarn: "Slate (MC)"
            return True
    explained = rf"(?<!\w){written}\s*(?:=|\((?=[a-z]{{4}}))|^\W*{written}\s*[:–—-]\s"
    return re.search(explained, text, re.MULTILINE) is not None


def _unlisted(manuscript: Manuscript, word: TradeWord, use: Use) -> Finding:
    row, part = row_at(manuscript, use.first.start)
    written = manuscript.source.slice(use.first)
    if written[1:] != written[1:].lower():  # "BLO" is listed as it is used
        word = replace(word, word=written)
    entry = new_entry(
        manuscript.source, manuscript.design.abbreviations, word, manuscript.terms
    )
    meaning = word.meaning_in(manuscript.terms)
    finding = _finding(
        use.first,
        row,
        part,
        Severity.ADVICE,
        f'"{word.word}" is used, but it is not among the abbreviations.',
        f'List it: "{word.word} = {meaning}".',
    )
    return replace(finding, edit=entry)


def _finding(
    span: Span, row: RowText | None, part: str, severity: Severity, message: str, why: str
) -> Finding:
    label = row.label if row else None
    return Finding(
        "undefined-abbreviation",
        severity,
        span,
        message,
        why,
        row=label.text if label else None,
        part=part or None,
        numbers=(label.numbers[0], label.numbers[-1]) if label and label.numbers else None,
    )
