"""How is an entry of a list of abbreviations written, and what does it say?

With a sign of equality, a dash, a colon, a stop or a comma between word and meaning, in
columns, in brackets, or side by side; one a line or several; the word first or its meaning
first. A line that may be read in several ways holds as many entries as it can.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import (
    abbreviates,
    elements,
    plain_form,
    trade_word,
)
from hookwright.regex import regex
from hookwright.source import Span

_LONGEST_LINE = 4000
_FEWEST = 2
"""Fewer pieces are no entries side by side."""

_Stretch = tuple[int, int]


def entries_in(text: str, start: int, end: int) -> list[Abbreviation]:
    """The entries of a line: several parted by marks, or one."""
    start, end = _trimmed(text, start, min(end, start + _LONGEST_LINE))
    if start >= end or not _LETTER.search(text, start, end):
        return []
    best = _entry(text, start, end, alone=True)
    for mark in _PARTING:
        cuts = _cut(text, start, end, mark)
        if len(cuts) < _FEWEST:
            continue
        found = _several(text, cuts)
        if len(found) < _FEWEST and mark in "|\t":
            return _in_columns(text, cuts)
        best = max(best, found, key=len)
    return best


_LETTER = regex(r"[A-Za-z]")
_PARTING = ("|", "\t", ";", "•", "   ", ",", " / ", ". ")


def _trimmed(text: str, start: int, end: int) -> _Stretch:
    """A stretch without the marks of a list or a table around it."""
    while start < end and text[start] in " \t\n*_#>•·-–—|":
        start += 1
    while end > start and text[end - 1] in " \t\n*_|":
        end -= 1
    return start, end


def _cut(text: str, start: int, end: int, mark: str) -> list[_Stretch]:
    """A stretch cut at a mark, outside of brackets."""
    if text.find(mark, start, end) < 0:
        return []
    cuts: list[_Stretch] = []
    depth, first = 0, start
    for at in range(start, end):
        letter = text[at]
        if letter in "([":
            depth += 1
        elif letter in ")]":
            depth = max(0, depth - 1)
        elif depth == 0 and text.startswith(mark, at) and at >= first:
            cuts.append((first, at))
            first = at + len(mark)
    cuts.append((first, end))
    return [cut for cut in cuts if text[slice(*cut)].strip(" *_\t.")]


def _several(text: str, cuts: Sequence[_Stretch]) -> list[Abbreviation]:
    """Entries side by side; none unless the first piece is one, and most others are."""
    cuts = [_trimmed(text, *cut) for cut in cuts]
    marked = _MARKED.match(text, *_near(cuts[0])) is not None
    found: list[list[Abbreviation]] = []
    others = 0
    for start, end in cuts:
        begins = not marked or _MARKED.match(text, *_near((start, end))) is not None
        entries = _entry(text, start, end, alone=False) if begins else []
        if entries:
            found.append(entries)
        elif not found:
            return []
        else:
            others += 1
            found[-1] = [_longer(entry, text, end) for entry in found[-1]]
    if others > (len(found) if marked else 0):
        return []
    return [entry for entries in found for entry in entries]


def _longer(entry: Abbreviation, text: str, end: int) -> Abbreviation:
    """An entry whose meaning goes on behind a comma, up to the end of its sentence."""
    stop = _sentence_end(text, entry.span.end, end)
    more = text[entry.span.end : stop]
    return Abbreviation(
        entry.word,
        " ".join((entry.meaning + more).split()),
        entry.word_span,
        Span(entry.span.start, stop),
    )


def _in_columns(text: str, cuts: Sequence[_Stretch]) -> list[Abbreviation]:
    """ "ch | chain", or two such pairs beside each other."""
    cells = [_trimmed(text, *cut) for cut in cuts]
    if len(cells) % 2:
        cells = [cells[0], (cells[1][0], cells[-1][1])]
    found: list[Abbreviation] = []
    for word, meaning in zip(cells[::2], cells[1::2], strict=True):
        found += _made(text, word, meaning)
    return found


_WORD = (
    r"[A-Za-z][A-Za-z0-9.'’()\[\]&+/-]*(?:[ ][A-Za-z0-9&(/][A-Za-z0-9.'’()\[\]&+/-]*){0,5}?"
)
_MARKED = regex(
    rf"(?P<word>{_WORD})[*_]*[ ]*(?P<mark>=|:|[ ][-–—]+[ ]|[–—]|-[ ]|\t+[-–—=:]?"
    r"|[ ]{2,}|\.{3,}|…)"
    r"[*_= \t]*(?P<meaning>\S)"
)
_STOPPED = regex(
    r"(?P<word>[A-Za-z](?:[A-Za-z0-9]|\.(?=\S)){0,7}(?:\(s\))?(?:\.? [A-Za-z]{1,3})?)"
    r"(?:\.,?|,)[ ]+(?P<meaning>\S)"
)
_BRACKET = regex(
    r"(?P<word>[^()\n]{1,40}?)[ ]*\((?P<meaning>(?:[^()\n]|\([^()\n]*\)){1,60})\)[*_. ]*"
)
_BARE = regex(r"[A-Za-z][\w.()-]*(?:[ -][\w()-]+)?")


def _entry(text: str, start: int, end: int, *, alone: bool) -> list[Abbreviation]:
    """The entry that a stretch is, once for each spelling; none for other words."""
    if start >= end:
        return []
    _, near = _near((start, end))
    found = _MARKED.match(text, start, near)
    if found is not None:
        stop = end if alone else _sentence_end(text, found.start("meaning"), end)
        return _made(text, found.span("word"), (found.start("meaning"), stop))
    found = _STOPPED.match(text, start, near)
    if found is not None and is_abbreviation(
        found["word"], text[found.start("meaning") : end]
    ):
        stop = _sentence_end(text, found.start("meaning"), end)
        return _made(text, found.span("word"), (found.start("meaning"), stop))
    found = _BRACKET.fullmatch(text, start, near) if near == end else None
    if found is not None and not _is_plural(found["meaning"]):
        return _in_brackets(text, found)
    side_by_side = _side_by_side(text, start, end)
    if side_by_side is not None:
        word, meaning = side_by_side
        return _made(text, word, (meaning[0], _sentence_end(text, meaning[0], end)))
    words = text[start : _sentence_end(text, start, end)]
    if not alone and _BARE.fullmatch(words) and trade_word(plain_form(words)) is not None:
        span = Span(start, start + len(words))
        return [Abbreviation(words, "", span, span)]
    return []


_NEAR = 160


def _near(stretch: _Stretch) -> _Stretch:
    """The beginning of a stretch, which holds the word and the mark of an entry."""
    return stretch[0], min(stretch[1], stretch[0] + _NEAR)


def _in_brackets(text: str, found: re.Match[str]) -> list[Abbreviation]:
    """ "sk (skip)" and "skip (sk)"."""
    word, meaning = found["word"], found["meaning"]
    if is_abbreviation(word, meaning) or is_abbreviation(meaning, word):
        return _made(text, found.span("word"), found.span("meaning"))
    return []


def _is_plural(words: str) -> bool:
    return words.lower() in ("s", "es", "'s")


def _side_by_side(text: str, start: int, end: int) -> tuple[_Stretch, _Stretch] | None:
    """ "ch chain", "sl st slip stitch": a word and then its meaning."""
    gaps = [found.start() for found in _GAP.finditer(text, start, min(end, start + 30))]
    for gap in reversed(gaps[:3]):
        word, meaning = text[start:gap], text[gap + 1 : end]
        if is_abbreviation(word, meaning) and trade_word(plain_form(word)) is not None:
            known = trade_word(plain_form(meaning))
            if known is None:
                return (start, gap), (gap + 1, end)
    return None


_GAP = regex(r" (?=\S)")


def is_abbreviation(word: str, meaning: str) -> bool:
    """Whether a word is an abbreviation, of the trade or of the words beside it."""
    plain = plain_form(word)
    if len(plain) > _LONGEST_WORD:
        return False
    return abbreviates(plain, meaning) or _told_otherwise(plain, meaning)


_LONGEST_WORD = 16


def _told_otherwise(plain: str, meaning: str) -> bool:
    """Whether a word of the trade is told in words that its letters are not taken from."""
    known = trade_word(plain)
    if known is None:
        return False
    return bool(elements(plain)) or known.meaning.split()[0][:3] in meaning.lower()


_SENTENCE_END = regex(r"\.(?=\s|$)|\n\s*\n")


def _sentence_end(text: str, start: int, end: int) -> int:
    found = _SENTENCE_END.search(text, start, end)
    stop = found.start() if found else end
    while stop > start and text[stop - 1] in " \t*_|;,":
        stop -= 1
    return stop


_NO_ENTRY = frozenset(
    "note, notes, please note, tip, tips, good to know, abbreviation, abbreviations, "
    "term, terms, meaning, stitch, stitches, name, us, uk, hook, yarn, gauge, tension, "
    "materials, size, sizes, skill level, level, pattern, us terms, uk terms, us term, "
    "uk term, special stitches, special stitch, stitches used, terms used, symbol".split(
        ", "
    )
)
_NUMBERED = regex(r"(?:row|rnd|round|r) ?\d.*|[a-z]+ \d+")
_SPELLINGS = regex(r"\s*(?:/(?!\w\b)|,|\bor\b)\s*")
"""Marks between two spellings; "f/o" is one."""


def _made(text: str, word: _Stretch, meaning: _Stretch) -> list[Abbreviation]:
    """The entry of a word and its meaning, which may stand the other way about."""
    word, meaning = _trimmed(text, *word), _trimmed(text, *meaning)
    written, told = text[slice(*word)], text[slice(*meaning)]
    whole = Span(min(word[0], meaning[0]), max(word[1], meaning[1]))
    if text[whole.end : whole.end + 1] == ")" and text.count(
        "(", *_bounds(whole)
    ) > text.count(")", *_bounds(whole)):
        whole = Span(whole.start, whole.end + 1)
    if _is_reversed(written, told):
        word, written, told = meaning, told, written
    opened = written.find("(")
    if opened > 0 and not _PLURAL_AT_END.search(written):
        inside = written[opened + 1 :].rstrip(") ")
        if _is_reversed(written[:opened], inside):
            word = (word[0] + opened + 1, word[0] + opened + 1 + len(inside))
            written = inside
        else:
            written = written[:opened].rstrip()
            word = (word[0], word[0] + len(written))
    plain = plain_form(written)
    if not plain or plain in _NO_ENTRY or len(plain) > _LONGEST or _NUMBERED.match(plain):
        return []
    told = " ".join(told.split())
    if _IN_BRACKETS.fullmatch(told):
        told = told[1:-1]
    if not told:
        return []
    return [
        Abbreviation(text[a:b], told, Span(a, b), whole)
        for a, b in _spellings(text, word)
        if plain_form(text[a:b])
    ]


_LONGEST = 40
_IN_BRACKETS = regex(r"\((?:[^()]|\([^()]*\))*\)")
_PLURAL_AT_END = regex(r"\((?:e?s)\)$", re.IGNORECASE)


def _bounds(span: Span) -> _Stretch:
    return span.start, span.end


def _is_reversed(written: str, told: str) -> bool:
    """Whether the meaning stands first: "Single Crochet = sc"."""
    short = plain_form(told)
    if not short or len(short) > 8 or len(short) >= len(written):
        return False
    if trade_word(plain_form(written)) is not None:
        return False
    if trade_word(short) is not None:
        return True
    return " " in written.strip() and " " not in short and abbreviates(short, written)


def _spellings(text: str, word: _Stretch) -> Iterator[_Stretch]:
    """The spellings of a word: "sl st / ss" has two."""
    at = word[0]
    for mark in _SPELLINGS.finditer(text, *word):
        yield _bare(text, at, mark.start())
        at = mark.end()
    yield _bare(text, at, word[1])


def _bare(text: str, start: int, end: int) -> _Stretch:
    """A word without the stop behind it: "ch.", but not "s.s."."""
    stopped = text[start:end].count(".") == 1 and text[end - 1 : end] == "."
    return start, end - stopped
