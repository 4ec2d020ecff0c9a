"""A pattern in the other terms: what is a dc in the US is a tr in the UK.

The tree names every stitch as the pattern does, so a translation is a change of names by a
table (`terms.toml`), and the way back is the same table read the other way. A word that is
none of the pattern's own terms, a slip such as "htr" among US names, is left as it is.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import (
    Chain,
    Definition,
    Evenly,
    Figure,
    Given,
    InOnePlace,
    Join,
    Make,
    Means,
    Pattern,
    Remark,
    RowText,
    Statement,
    Target,
    Times,
    Yarn,
)
from hookwright.regex import regex

Names = Mapping[str, str]
_Rename = Callable[[Any], Any]

NAMED_IN: Mapping[type, str] = {
    Make: "stitch",
    Target: "noun",
    Times: "noun",
    Chain: "stands",
    Means: "stands",
    Join: "stitch",
    Yarn: "standing",
    InOnePlace: "name",
    Figure: "unit",
    Statement: "word",
    Evenly: "stitch",
    Given: "stitch",
}
_COMPOUND = regex(r"(?P<post>fp|bp|)(?P<base>[a-z]+?)(?P<legs>\d+tog|)")


def translate(pattern: Pattern, terms: str) -> Pattern:
    """A pattern in "US" or "UK" terms; the same one where it is in these terms already.

    A pattern whose terms nothing tells has no word that differs, and stays as it is.
    """
    if pattern.terms in (None, terms):
        return pattern
    return replace(rebuilt(pattern, _renaming(terms)), terms=terms)


def translate_row(row: RowText, terms: str) -> RowText:
    """A row in "US" or "UK" terms, out of the others."""
    return rebuilt(row, _renaming(terms))


def translate_words(words: str, terms: str) -> str:
    """Sentences in "US" or "UK" terms, out of the others: their stitches and plain words.

    A number, a mark and every other word stay as they are.
    """
    return _with_plain_words(_worded(words, terms), terms)


def name_in(terms: str, name: str) -> str:
    """A stitch of the tree in "US" or "UK" terms, out of the others."""
    return _name(name, stitch_names(terms))


def _renaming(terms: str) -> _Rename:
    """What renames a node that names a stitch, and leaves every other value alone."""
    names = stitch_names(terms)

    def renamed(value: object) -> object:
        if isinstance(value, Definition):
            return _redefined(value, terms)
        if isinstance(value, Remark):
            return replace(value, words=_worded(value.words, terms))
        field = NAMED_IN.get(type(value))
        change: dict[str, Any] = (
            {field: _name(getattr(value, field), names)} if field else {}
        )
        return replace(value, **change) if change else value  # type: ignore[type-var]

    return renamed


def _redefined(definition: Definition, terms: str) -> Definition:
    """A definition renamed."""
    names = stitch_names(terms)
    stitch, words = definition.stitch, _worded(definition.words, terms)
    return replace(
        definition,
        names=tuple(_name(name, names) for name in definition.names),
        stitch=_name(stitch, names),
        words=words,
    )


def _worded(words: str, terms: str) -> str:
    """A sentence with the stitches in it renamed, those in full before the short ones."""
    names = {**spelled_names(terms), **stitch_names(terms)}

    def renamed(match: re.Match[str]) -> str:
        post, base, legs = (match[part] or "" for part in ("post", "base", "legs"))
        name = names.get(base.lower())
        return match.group() if name is None else post + _cased(name, base) + legs

    spelled = "|".join(spelled_names(terms))
    stitch = rf"\b(?P<post>fp|bp|)(?P<base>{spelled}|[a-z]+?)(?P<legs>\d*tog|s|)\b"
    return re.sub(stitch, renamed, words, flags=re.IGNORECASE)


def _with_plain_words(words: str, terms: str) -> str:
    names = {row[_other(terms)]: row[terms.lower()] for row in _table()["word"]}
    return re.sub(
        rf"\b(?:{'|'.join(names)})(?=s?\b)",
        lambda found: _cased(names[found[0].lower()], found[0]),
        words,
        flags=re.IGNORECASE,
    )


def _cased(name: str, like: str) -> str:
    """A name in the letters, large or small, of the one it stands for."""
    if like.isupper():
        return name.upper()
    if like.istitle():
        return name.title()
    return name[:1].upper() + name[1:] if like[:1].isupper() else name


def _name(name: str, names: Names) -> str:
    """A name, whole ("spike sc") or word by word ("beginning dc")."""
    if name in names:
        return names[name]
    return " ".join(_word(word, names) for word in name.split(" "))


def _word(word: str, names: Names) -> str:
    """One word: "dc", or a stitch around a post or drawn together, "fpdc", "dc3tog"."""
    if word in names:
        return names[word]
    match = _COMPOUND.fullmatch(word)
    if match is None or match["base"] not in names or not (match["post"] or match["legs"]):
        return word
    return f"{match['post']}{names[match['base']]}{match['legs']}"


@cache
def stitch_names(terms: str) -> Names:
    """From each name in the other terms to that in these."""
    return {row[_other(terms)]: row[terms.lower()] for row in _table()["stitch"]}


@cache
def spelled_names(terms: str) -> Names:
    """The same for names in full, the longest first: "half double crochet"."""
    rows = _table()["spelled"]
    named = {row[_other(terms)]: row[terms.lower()] for row in rows}
    return {name: named[name] for name in sorted(named, key=len, reverse=True)}


@cache
def plain_words(terms: str) -> Names:
    """From each US word beside the stitches to that in these terms: "sk" to "miss"."""
    return {row["us"]: row[terms.lower()] for row in _table()["word"]}


def _other(terms: str) -> str:
    return "us" if terms == "UK" else "uk"


@cache
def _table() -> Mapping[str, list[dict[str, str]]]:
    return tomllib.loads(Path(__file__).with_name("terms.toml").read_text("utf-8"))
