"""Which chart symbol is drawn for a stitch, as the pattern names it?

The symbols are the published international ones; they stand in `symbols.toml` with their
sources. A compound is drawn from its parts, as it is read: "FPdc3tog" is three dc around
posts, drawn together. A stitch that the pattern defines is drawn by what it is made of.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Definition
from hookwright.regex import regex
from hookwright.working.outcome import WorkedPattern
from hookwright.working.stitches import base_of

CROSSED = " crossed"
"""What the id of stitches ends with that cross one another."""


class Symbol(Struct, frozen=True):
    """What is drawn for a stitch, whatever it is worked into.

    Attributes:
        id: What it is known by.
        name: What the stitch is called in full, in the terms of the pattern.
        stands: What goes from its foot to its top, see `symbols.toml`.
        slashes: Short strokes across its stem.
        bar: Whether a bar lies on top.
        legs: Stems of a bud, puff or popcorn; places drawn together, or crossed.
        more: A further sign, see `symbols.toml`.
        post: "front" or "back" where it goes around a post, as the pattern says it.
        together: Whether it draws several places together.
    """

    id: str
    name: str
    stands: str = ""
    slashes: int = 0
    bar: bool = False
    legs: int = 1
    more: str = ""
    post: str = ""
    together: bool = False


class Symbols(Struct, frozen=True):
    """The symbols of a pattern.

    Attributes:
        terms: "US" or "UK".
        own: The stitches that it defines, by name.
    """

    terms: str
    own: Mapping[str, Definition]

    def of(self, kind: str, top: str = "", main: str = "") -> Symbol:
        """The symbol of a stitch.

        Args:
            kind: What it is called in the row.
            top: The stitch whose top it leaves, which an "inc" takes from the row.
            main: The usual stitch of the row, which a "dec" draws together.
        """
        definition = self.own.get(kind)
        if definition is not None and not _says_nothing(definition):
            return self._defined(kind, definition, main)
        if kind == "inc":
            return self.of(top, main=main) if top not in ("", kind) else self._base(main)
        if kind == "dec":
            return self._together(self._base(main), "")
        return self._compound(kind) or self._unknown(kind)

    def _base(self, kind: str) -> Symbol:
        """A plain stitch by its name; single crochet where the name tells none."""
        table = _table(self.terms)
        return table.get(base_of(kind)) or table["dc" if self.terms == "UK" else "sc"]

    def _compound(self, kind: str) -> Symbol | None:
        table = _table(self.terms)
        if kind in table:
            return table[kind]
        base = table.get(base_of(kind))
        if base is None:
            return None
        post = {"fp": "front", "bp": "back"}.get(kind[:2], "")
        if post:
            base = replace(base, name=f"{post} post {base.name}", post=post)
        return self._together(base, kind) if kind.endswith("tog") else base

    def _together(self, base: Symbol, kind: str) -> Symbol:
        number = _LEGS.search(kind)
        legs = int(number[1]) if number else 2
        name = f"{legs} {base.name} together"
        return replace(base, id=f"{base.id} together", name=name, legs=legs, together=True)

    def _unknown(self, kind: str) -> Symbol:
        return replace(_table(self.terms)[_OWN], name=kind.removeprefix("?"))

    def _defined(self, kind: str, definition: Definition, main: str) -> Symbol:
        """A stitch that the pattern defines, from what its words come to."""
        passes = 1 if definition.passes is None else definition.passes
        if definition.is_alias:
            return self._compound(definition.stitch) or self._unknown(kind)
        if passes > 1 and definition.heads == 1:
            base = self._made_of(definition) or self._base(main)
            plain = kind == "dec" or kind not in _table(self.terms)
            found = self._together(base, f"{passes}tog")
            return found if plain else replace(found, name=kind)
        stem = self._made_of(definition)
        if passes == definition.heads and passes > 1:
            crossed = stem or self._unknown(kind)
            return replace(crossed, id=f"{crossed.id}{CROSSED}", name=kind, legs=passes)
        return self._bud(kind, definition, stem)

    def _made_of(self, definition: Definition) -> Symbol | None:
        """The stitch that a definition goes back to."""
        found = self._compound(definition.stitch)
        if found is not None and found.stands in ("cross", "stem"):
            return found
        words = definition.words.lower()
        named = [
            (match.start(), -len(name), symbol)
            for name, symbol in _names(self.terms).items()
            if (match := re.search(rf"\b{re.escape(name)}\b", words))
        ]
        return min(named, key=lambda entry: entry[:2])[2] if named else None

    def _bud(self, kind: str, definition: Definition, base: Symbol | None) -> Symbol:
        """Stems that begin in one place and end in one top."""
        table = _table(self.terms)
        words = f"{' '.join(definition.names)} {definition.words}".lower()
        usual = self._usual(words, base)
        if base is None and not _TIMES.search(words) and usual.id == "cluster":
            return table.get(kind) or self._unknown(kind)
        told = _TIMES.search(definition.words) or _STEMS.search(definition.words)
        legs = _number(told) if told else usual.legs
        slashes = max(1, base.slashes) if base is not None else usual.slashes
        return replace(
            usual,
            name=_called(kind, usual),
            legs=min(max(legs, 2), _MOST_LEGS),
            slashes=slashes if usual.slashes else 0,
        )

    def _usual(self, words: str, base: Symbol | None) -> Symbol:
        """Which of the kinds of bud the words tell."""
        table = _table(self.terms)
        if _HOOK_OUT.search(words):
            return table["popcorn"]
        if "puff" in words or "bean" in words or (base is not None and base.id == "hdc"):
            return table["puff"]
        return table["bobble" if "bobble" in words else "cluster"]


def _says_nothing(definition: Definition) -> bool:
    """Whether it only gives another name to what is no stitch by itself."""
    return definition.is_alias and definition.stitch in _NO_STITCH


_NO_STITCH = ("inc", "dec", "together", "increase")


def _called(kind: str, usual: Symbol) -> str:
    """What a bud is called: by the designer's name for it, if that is a word."""
    return kind if len(kind) > _SHORT else f"{usual.name} ({kind})"


_SHORT = 3
_TABLE = Path(__file__).with_name("symbols.toml")
_OWN = "own"
_MOST_LEGS = 9
_LEGS = regex(r"(\d+)tog$")
_NUMBERS = {"twice": 2, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
_TIMES = regex(r"(?i)\b(\d+|two|three|four|five|six|seven)[ ]times\b|\b(twice)\b")
_STEMS = regex(
    r"(?i)\b(\d+|two|three|four|five|six|seven)[ ](?:unfinished[ ]|incomplete[ ])?"
    r"(?:h?dc|d?tr|htr|sc|treble|double)s?\b"
)
_HOOK_OUT = regex(
    r"popcorn|drop(?:ped)? (?:the )?loop|hook out|(?:remove|take|slip)\b[^.]{0,20}\bhook"
)


def _number(told: re.Match[str]) -> int:
    word = next(group for group in told.groups() if group).lower()
    return _NUMBERS.get(word) or int(word)


def symbols_of(worked: WorkedPattern) -> Symbols:
    """The symbols of a pattern as worked."""
    own = {name: d for d in worked.pattern.definitions for name in d.names}
    return Symbols(worked.terms, own)


@cache
def _table(terms: str) -> Mapping[str, Symbol]:
    """The symbols by the names of their stitches."""
    rows = tomllib.loads(_TABLE.read_text("utf-8"))["symbol"]
    return {name: _symbol(row, terms) for row in rows for name in row[terms.lower()]}


@cache
def _names(terms: str) -> Mapping[str, Symbol]:
    """Plain stitches by abbreviation and full name, as a definition may tell them."""
    found = {k: s for k, s in _table(terms).items() if s.stands in ("cross", "stem")}
    return found | {symbol.name: symbol for symbol in found.values()}


def _symbol(row: Mapping[str, Any], terms: str) -> Symbol:
    name = row.get("uk_name", row["name"]) if terms == "UK" else row["name"]
    return Symbol(
        row["id"],
        name,
        row.get("stands", ""),
        row.get("slashes", 0),
        row.get("bar", False),
        row.get("legs", 1),
        row.get("more", ""),
    )
