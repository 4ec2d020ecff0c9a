"""Which fabric is meant by a name, and what is a fabric called?

A fabric answers to its name, its title and the further names of the trade, in US or in UK
terms: "sc-wave" is "dc-wave" in the UK.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from msgspec import Struct

from hookwright.notation.spelling import one_slip
from hookwright.shelf.facts import Fabric
from hookwright.shelf.starter import in_terms

_APART = re.compile(r"[\W_]+")


class Meant(Struct, frozen=True):
    """Which fabrics a name can mean.

    Attributes:
        fabrics: None, one or several.
        exactly: Whether the name is that of the one fabric.
    """

    fabrics: tuple[Fabric, ...]
    exactly: bool = False


def name_in(fabric: Fabric, terms: str) -> str:
    """What a fabric is called for by in "US" or "UK" terms."""
    return in_terms(fabric.name, terms)


def fabrics_meant(asked: str, among: Sequence[Fabric], terms: str) -> Meant:
    """The fabric of a name; else those whose names hold it, or are spelled nearly so."""
    plain = _plain(asked)
    by_name = {name: one for one in among for name in names_of(one, terms)}
    if plain in by_name:
        return Meant((by_name[plain],), exactly=True)
    words = set(plain.split())
    holding = [name for name in by_name if words and words <= set(name.split())]
    return Meant(_each_once(by_name[name] for name in holding or _near(plain, by_name)))


def names_of(fabric: Fabric, terms: str) -> list[str]:
    """All that a fabric answers to, in plain words."""
    names = (fabric.name, fabric.title, *fabric.also)
    return [_plain(in_terms(name, terms)) for name in names]


def _plain(name: str) -> str:
    """Words without capitals, hyphens and the plural; "stitch" tells nothing more."""
    words = _APART.sub(" ", name.lower()).split()
    kept = [word for word in words if word not in ("stitch", "st", "the", "of")]
    return " ".join(word.removesuffix("s") for word in kept)


def _near(plain: str, names: Iterable[str]) -> list[str]:
    known = list(names)
    return [name for name in known if one_slip(plain, name)] or get_close_matches(
        plain, known, 3, 0.6
    )


def _each_once(fabrics: Iterable[Fabric]) -> tuple[Fabric, ...]:
    return tuple({fabric.name: fabric for fabric in fabrics}.values())
