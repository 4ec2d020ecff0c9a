"""How many loops of yarn stay in a stitch?

One for each time the yarn is wound, drawn up or drawn through: sc 2, hdc 3, dc 4, tr 6. Of
stitches drawn together each unfinished leg has one less, and the last draw is shared. What
a pattern tells in motions of the hook is counted there; a group is what it is made of.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from msgspec import Struct

from hookwright.notation.hook_motions import read_motions
from hookwright.notation.tree import Definition
from hookwright.notation.vocabulary import height_of, standard_words
from hookwright.regex import regex
from hookwright.working.fabric import Stitch

_TABLE = Path(__file__).parent / "data" / "loops.toml"
_TOGETHER = regex(r"(?P<base>.+?)(?P<legs>\d+)tog")
_POST = regex(r"[fb]p(?=[a-z])")
_NOTHING = frozenset("skip pass place".split())
OF_ROW = ("inc", "st", "dec")
"""Names that say nothing of the stitch: it is the one that the row is in."""


class Looped(Struct, frozen=True):
    """A stitch by what it is called, its loops, and whether these are known."""

    kind: str
    loops: int
    known: bool = True


@cache
def table() -> Mapping[str, int]:
    """Loops by the US name of the stitch."""
    rows = tomllib.loads(_TABLE.read_text("utf-8"))["stitch"]
    return {name: row["loops"] for row in rows for name in row["names"]}


@cache
def usual() -> frozenset[str]:
    """Names that stand for several stitches where a pattern does not define them."""
    rows = tomllib.loads(_TABLE.read_text("utf-8"))["stitch"]
    return frozenset(n for row in rows if row["source"] == "usual" for n in row["names"])


def looped(
    stitch: Stitch, terms: str, own: Mapping[str, Definition], main: str
) -> Looped | None:
    """A stitch of a row with its loops; None for what takes no yarn of its own.

    Args:
        stitch: The stitch.
        terms: "US" or "UK".
        own: The stitches that the pattern defines.
        main: The stitch that the row is mainly made of, for one that is only "inc".
    """
    if stitch.kind in _NOTHING:
        return None
    if stitch.kind in {"tch", "ch"}:
        return _chains(stitch)
    if stitch.kind in OF_ROW:
        top = next((head.stitch for head in stitch.heads if head.stitch), "")
        base = main if top in {*OF_ROW, ""} else top
        legs = max(2, len(stitch.feet)) if stitch.kind == "dec" else 1
        name = f"{base}{legs}tog" if legs > 1 and base else base
        return named(name, terms, own)
    return named(stitch.kind, terms, own)


def _chains(stitch: Stitch) -> Looped | None:
    """Chains of their own; those skipped at a foundation are part of it."""
    if stitch.kind == "tch" and not stitch.feet and stitch.passes:
        return None
    many = sum(head.chains for head in stitch.heads) or 1
    return Looped("turning ch" if stitch.kind == "tch" else "ch", many)


def named(name: str, terms: str, own: Mapping[str, Definition]) -> Looped:
    """A stitch by what it is called."""
    definition = own.get(name)
    if definition is not None and definition.in_motions:
        loops = _in_motions(definition.words, terms)
        if loops:
            return Looped(name, loops)
    if definition is not None and definition.stitch and definition.stitch != name:
        under = named(definition.stitch, terms, {})
        return Looped(name, under.loops, under.known and definition.is_alias)
    together = _TOGETHER.fullmatch(name)
    if together is not None:
        leg, legs = named(together["base"], terms, own), min(99, int(together["legs"]))
        return Looped(name, (leg.loops - 1) * legs + 1, leg.known)
    plain = _POST.sub("", name, count=1)
    us = _in_us(plain) if terms == "UK" else plain
    found = table().get(us)
    if found is not None:
        return Looped(name, found, us not in usual())
    return Looped(name, _by_height(plain, terms), known=False)


@cache
def _in_motions(words: str, terms: str) -> int:
    """The loops that motions of the hook leave; 0 where they cannot be run."""
    motions = read_motions(words, terms=terms)
    return motions.loops if motions is not None else 0


@cache
def _meanings() -> Mapping[str, str]:
    """The US name of each stitch that has another one in UK terms."""
    rows = (stitch for found in standard_words().values() for _, stitch in found)
    told = {stitch.id: stitch.uk_means for stitch in rows if stitch.uk_means}
    return {**_UK, **told}


_UK = {"qtr": "trtr", "edc": "esc", "etr": "edc", "edtr": "etr", "ldc": "sc", "ltr": "ldc",
       "ehtr": "ehdc", "ftr": "fdc", "fdtr": "ftr", "fdc": "fsc", "fhtr": "fhdc",
       "spike dc": "spike sc", "spike tr": "spike dc", "linked tr": "linked dc",
       "linked dtr": "linked tr", "herringbone htr": "hhdc"}  # fmt: skip
"""Names one step shorter in UK terms that the vocabulary does not tell the meaning of."""


def _in_us(name: str) -> str:
    return _meanings().get(name, name)


def _by_height(name: str, terms: str) -> int:
    """The loops of a plain stitch as tall; of one nobody knows, those of an sc."""
    return max(2, 2 * height_of(re.sub(r"\s", "", name), terms) - 2)
