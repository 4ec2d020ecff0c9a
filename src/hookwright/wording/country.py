"""Which words of a text are called otherwise in the other terms?

The text is taken token by token as the lexer gives it. A word is renamed where the
vocabulary knows it as a stitch, in short or in full, alone or put together ("FPdc",
"dc2tog"), and a few words beside the stitches with the words around them: "gauge", "skip"
before places, the name of the terms themselves. Every other word stays.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path

from msgspec import Struct

from hookwright.finding import Edit
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.printing.terms import spelled_names, stitch_names
from hookwright.regex import regex
from hookwright.source import Span

_TABLE = Path(__file__).with_name("words.toml")
_COMPOUND = regex(
    r"(?P<post>[fb]p|r[fb])?(?P<base>[a-z]+?)(?P<legs>\d*tog)?(?P<after>blo?|flo?|fp|bp)?"
)
_MARKS_OF_A_NAME = (Kind.DASH, Kind.LINE)
_JOINED = regex(r"[ \t\n-]*")


class _Country(Struct, frozen=True):
    """The words of a text that change on the way into some terms.

    Attributes:
        short: Abbreviations, by those of the other terms.
        full: Names in words, likewise, the longest first, by their first word.
        plain: Words that are no stitches.
        phrases: Several words that are no stitch, as the names in full are kept.
    """

    short: Mapping[str, str]
    full: Mapping[str, tuple[tuple[tuple[str, ...], str], ...]]
    plain: Mapping[str, str]
    phrases: Mapping[str, tuple[tuple[tuple[str, ...], str], ...]]


@cache
def _into(terms: str) -> _Country:
    here, there = terms.lower(), "us" if terms == "UK" else "uk"

    def pairs(kind: str) -> dict[str, str]:
        rows = _table()[kind]
        given = [row for row in rows if row.get("only", terms) != terms]
        return {row[there]: row[here] for row in rows if "only" not in row} | {
            row[there]: row[here] for row in given
        }

    short = {**pairs("short"), **stitch_names(terms)}
    full = {**pairs("name"), **spelled_names(terms)}
    return _Country(
        {word: name for word, name in short.items() if " " not in word},
        _by_first_word(full),
        pairs("word"),
        _by_first_word(pairs("phrase")),
    )


def _by_first_word(
    full: Mapping[str, str],
) -> Mapping[str, tuple[tuple[tuple[str, ...], str], ...]]:
    index: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for name, other in full.items():
        words = tuple(name.split())
        index.setdefault(words[0], []).append((words, other))
    return {
        first: tuple(sorted(found, key=lambda row: -len(row[0])))
        for first, found in index.items()
    }


@cache
def _table() -> Mapping[str, list[dict[str, str]]]:
    return tomllib.loads(_TABLE.read_text("utf-8"))


def in_terms(text: str, tokens: Sequence[Token], terms: str) -> Iterator[Edit]:
    """The changes that put some tokens of a text into "US" or "UK" terms."""
    country = _into(terms)
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if token.kind is not Kind.WORD:
            at += 1
            continue
        taken = _name_at(tokens, at, country) or _phrase_at(tokens, at, country)
        if taken is not None:
            length, word, name = taken
            several = tokens[at + length - 1].text != word
            span = Span(token.start, tokens[at + length - 1].end)
            yield _renamed(text, span, name + "s" * several)
            at += length
            continue
        new = _short(text, token, country) or _beside(text, tokens, at, terms, country)
        if new is not None:
            yield Edit(token.span, new)
        at += 1


def _name_at(
    tokens: Sequence[Token], at: int, country: _Country
) -> tuple[int, str, str] | None:
    """A stitch named in full here: its number of tokens, its last word, its other name."""
    for first in (tokens[at].text, tokens[at].text.removesuffix("s")):
        for words, name in country.full.get(first, ()):
            length = _length(tokens, at, words)
            if length:
                return length, words[-1], name
    return None


def _phrase_at(
    tokens: Sequence[Token], at: int, country: _Country
) -> tuple[int, str, str] | None:
    """Words of the trade here that are no stitch, as a name would be told."""
    for words, name in country.phrases.get(tokens[at].text, ()):
        length = _length(tokens, at, words)
        if length and tokens[at + length - 1].text == words[-1]:
            return length, words[-1], name
    return None


def _length(tokens: Sequence[Token], at: int, words: tuple[str, ...]) -> int:
    i = at
    for number, word in enumerate(words):
        while number and i < len(tokens) and tokens[i].kind in _MARKS_OF_A_NAME:
            i += 1
        last = number == len(words) - 1
        if i >= len(tokens) or tokens[i].text not in (
            (word, f"{word}s") if last else (word,)
        ):
            return 0
        i += 1
    return i - at


def _renamed(text: str, span: Span, name: str) -> Edit:
    """A name in full put in place of another, with the capitals and the gaps of the old."""
    written = text[span.start : span.end]
    new = like(name, written)
    return Edit(span, new.replace(" ", "-") if "-" in written else new)


def like(name: str, written: str) -> str:
    """A name in the letters, large or small, of the words it stands for."""
    letters = [word[0] for word in written.replace("-", " ").split() if word[0].isalpha()]
    if len(written) > 1 and written.isupper():
        return name.upper()
    if len(letters) > 1 and all(letter.isupper() for letter in letters):
        return name.title()
    return name[:1].upper() + name[1:] if written[:1].isupper() else name


def _short(text: str, token: Token, country: _Country) -> str | None:
    """An abbreviation of a stitch renamed; None where the word is none."""
    written = text[token.start : token.end]
    for plain, several in ((token.text, ""), (token.text.removesuffix("s"), "s")):
        found = _COMPOUND.fullmatch(plain)
        if found is None or (several and plain == token.text):
            continue
        whole = country.short.get(plain)
        base = whole or country.short.get(found["base"])
        if base is None:
            continue
        if not written.isalnum():  # "d.c.", "s c"
            return base + several
        start, end = (0, len(plain)) if whole else found.span("base")
        return f"{written[:start]}{like(base, written[start:end])}{written[end:]}"
    return None


_SKIPS = {
    "US": {"miss": "skip", "misses": "skips", "missed": "skipped", "missing": "skipping"},
    "UK": {
        "sk": "miss", "skip": "miss", "skips": "misses", "skipped": "missed",
        "skipping": "missing",
    },
}  # fmt: skip
_PLACES = frozenset(
    "st sts stitch stitches ch chs chain chains sp sps space spaces sc hdc dc tr htr dtr "
    "next first last each every the one row rows rnd rnds round rounds loop loops shell "
    "cluster group tr double single treble half a beg turning".split()
)
_LANDS = {
    "US": {"uk": "US", "british": "American", "english": "American"},
    "UK": {"us": "UK", "usa": "UK", "american": "British", "u.s": "UK"},
}
_TERMS = frozenset("terms term terminology crochet abbreviations notation english".split())
_OF_THE_YARN = frozenset(
    "even loose tight same consistent your own an firm good keep yarn".split()
)


def _beside(
    text: str, tokens: Sequence[Token], at: int, terms: str, country: _Country
) -> str | None:
    """A word that is no stitch, renamed; None where it stays."""
    token = tokens[at]
    written = text[token.start : token.end]
    plain = country.plain.get(token.text)
    if plain is not None:
        return like(plain, written)
    before = tokens[at - 1] if at else None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    skip = _SKIPS[terms].get(token.text)
    if skip is not None and _passes_places(before, after):
        short = skip == "skip" and not _is_in_full(tokens[at + 1 : at + 5])
        return like("sk" if short else skip, written)
    land = _LANDS[terms].get(token.text)
    if land is not None and after is not None and after.text in _TERMS:
        return land
    if terms == "UK" and token.text == "gauge":
        return like("tension", written)
    if terms == "US" and token.text == "tension":
        of_the_yarn = before is not None and before.text in _OF_THE_YARN
        return None if of_the_yarn else like("gauge", written)
    return None


_FULL = regex(r"stitch|chain|space|crochet|treble|loop|row|round|repeat|ones?$")


def _is_in_full(behind: Sequence[Token]) -> bool:
    """Whether what is skipped is named in full: "the next stitch", not "2 sts"."""
    for token in behind:
        if token.kind not in (Kind.WORD, Kind.NUMBER, Kind.ORDINAL):
            return False
        if token.kind is Kind.WORD and _FULL.match(token.text):
            return True
    return False


def _passes_places(before: Token | None, after: Token | None) -> bool:
    """Whether a word between these skips places: "skip next 2", "the chains skipped"."""
    numbers = (Kind.NUMBER, Kind.ORDINAL)
    ahead = after is not None and (after.kind in numbers or after.text in _PLACES)
    behind = before is not None and before.text in _PLACES
    return ahead or behind


_BOTH = regex(r"\bU\.?S\b.*\bU\.?K\b|\bU\.?K\b.*\bU\.?S\b", re.IGNORECASE | re.DOTALL)


def tells_of_both(line: str) -> bool:
    """Whether a line speaks of both countries, so that nothing in it can be renamed."""
    return "US" in line and "UK" in line and _BOTH.search(line) is not None
