"""How large is a throw, a hat for a child, a blanket for a queen-size bed?

Usual finished sizes as they were published; there is no standard, and each says how far its
sources lie apart. A name may be told with its kind ("hat child", "child hat") or alone; one
that two kinds share is taken for the kind the pattern is of. The name of a kind ("hats")
stands for all of its sizes, and one that several share ("child sock") for all of these.
Source: data/sizes.toml, with the source of every row.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from hookwright.design.lengths import MM
from hookwright.notation.spelling import one_slip
from hookwright.regex import regex

_TABLE = Path(__file__).parent / "data" / "sizes.toml"
_CAUTIONS = Path(__file__).parent / "data" / "cautions.toml"
_WORD = regex(r"[a-z0-9]+(?:-\d+)?")
_NEAR = 0.75


class Usual(Struct, frozen=True):
    """A size by its name, lengths in millimetres.

    Attributes:
        kind: "blanket", "bed", "hat", "body" and so on.
        name: Its name within the kind.
        also: Other names.
        width: Of a piece that lies flat.
        length: The same the other way.
        around: Of a piece worked round a body, after its ease.
        height: How high or long that piece is.
        fits: The body's own measure, from and to: head, foot, hand.
        chest: The chest or bust, from and to.
        mattress: The top of the mattress of a bed, width and length.
        baby: Whether it is for a baby under a year.
        remark: What is to be said of it.
    """

    kind: str
    name: str
    also: tuple[str, ...] = ()
    width: Fraction | None = None
    length: Fraction | None = None
    around: Fraction | None = None
    height: Fraction | None = None
    fits: tuple[Fraction, Fraction] | None = None
    chest: tuple[Fraction, Fraction] | None = None
    mattress: tuple[Fraction, Fraction] | None = None
    baby: bool = False
    remark: str = ""

    @property
    def title(self) -> str:
        """How a table names it: "Throw", "Child hat"."""
        with_kind = self.kind in _TOLD_WITH_KIND
        words = f"{self.name} {self.kind}" if with_kind else self.name
        return words[0].upper() + words[1:]


_TOLD_WITH_KIND = frozenset("hat sock mitten bed scarf".split())


class Ease(Struct, frozen=True):
    """A fit, and how much wider than the body it is, in millimetres."""

    fit: str
    least: Fraction
    most: Fraction


@cache
def usual_sizes() -> tuple[Usual, ...]:
    """All of the table, in its order."""
    return tuple(map(_usual, _table()["size"]))


@cache
def eases() -> tuple[Ease, ...]:
    """The fits, from very close to oversized."""
    return tuple(Ease(row["fit"], *_pair(row["inches"])) for row in _table()["ease"])


@cache
def hat_rule() -> tuple[Fraction, Fraction, Fraction]:
    """How much less around than the head a hat is, from and to, and its height in heads."""
    rule = _table()["hat"]
    least, most = _pair(rule["less"])
    return least, most, Fraction(rule["high"])


def caution(name: str) -> str:
    """What is said where a size is a baby's. Source: data/cautions.toml."""
    told = tomllib.loads(_CAUTIONS.read_text("utf-8"))
    return str(told[name]["say"])


@cache
def _table() -> Mapping[str, Any]:
    return tomllib.loads(_TABLE.read_text("utf-8"))


def _usual(row: Mapping[str, Any]) -> Usual:
    width, length, around, height = (
        Fraction(row[key]) * MM["in"] if key in row else None
        for key in ("width", "length", "around", "height")
    )
    fits, chest, mattress = (
        _pair(row[key]) if key in row else None for key in ("fits", "chest", "mattress")
    )
    return Usual(
        row["kind"],
        row["name"],
        tuple(row.get("also", ())),
        width,
        length,
        around,
        height,
        fits,
        chest,
        mattress,
        baby=row.get("baby", False),
        remark="; ".join(_remarks(row)),
    )


def _pair(inches: Sequence[str]) -> tuple[Fraction, Fraction]:
    return Fraction(inches[0]) * MM["in"], Fraction(inches[1]) * MM["in"]


def _remarks(row: Mapping[str, Any]) -> Iterator[str]:
    if "seen" in row:
        yield f"usual, not standard: pages give {row['seen']}"
    if "note" in row:
        yield row["note"]
    if row["confidence"] == "memory":
        yield "remembered, not checked against a published table"


def kinds() -> tuple[str, ...]:
    """The kinds of sizes there are."""
    return tuple(dict.fromkeys(size.kind for size in usual_sizes()))


def sizes_named(words: str, likely: Sequence[str] = ()) -> tuple[Usual, ...]:
    """The sizes that a name stands for; none for a name that is not known.

    Args:
        words: A name, a kind, or both.
        likely: The kinds that the pattern may be of, likeliest first.
    """
    asked = _key(words)
    if not asked:
        return ()
    of_kind = [size for size in usual_sizes() if asked == _key(size.kind)]
    alone = [size for size in usual_sizes() if asked in map(_key, (size.name, *size.also))]
    if alone:
        order = {kind: number for number, kind in enumerate((*likely, *kinds()))}
        kind = min(
            (size.kind for size in alone),
            key=lambda kind: (_first(likely, kind), order[kind]),
        )
        return tuple(size for size in alone if size.kind == kind)
    if of_kind:
        return tuple(of_kind)
    return tuple(size for size in usual_sizes() if asked in _with_kind(size))


def _first(likely: Sequence[str], kind: str) -> int:
    return likely.index(kind) if kind in likely else len(likely)


def also_of(words: str, taken: Usual) -> tuple[Usual, ...]:
    """The sizes of other kinds that have the name as well."""
    asked = _key(words)
    return tuple(
        size
        for size in usual_sizes()
        if size.kind != taken.kind and asked in map(_key, (size.name, *size.also))
    )


def _with_kind(size: Usual) -> frozenset[frozenset[str]]:
    return frozenset(_key(f"{size.kind} {name}") for name in (size.name, *size.also))


def _key(words: str) -> frozenset[str]:
    """The words of a name, in no order: a hat for a child is a child hat."""
    found = _WORD.findall(words.lower().replace("_", " ").replace("'", ""))
    return frozenset(_singular(word) for word in found if word not in _EMPTY)


_EMPTY = frozenset("a an the for size sized of".split())
_SAME = {"mittens": "mitten", "mitts": "mitten", "mitt": "mitten", "gloves": "mitten",
         "beanie": "hat", "beanies": "hat", "cap": "hat", "caps": "hat", "beds": "bed",
         "womens": "woman", "ladies": "woman", "mens": "man", "childs": "child",
         "kids": "child", "children": "child", "babies": "baby", "bodies": "body",
         "months": "month", "years": "year"}  # fmt: skip


def _singular(word: str) -> str:
    if word in _SAME:
        return _SAME[word]
    return word[:-1] if len(word) > 3 and word.endswith("s") else word


def likeliest(words: str, own: Sequence[str] = ()) -> str:
    """The name most likely meant by one that is not known; "" where none is near."""
    asked = " ".join(words.lower().split())
    names = [*own, *kinds(), *_all_names()]
    by_lower = {name.lower(): name for name in reversed(names)}
    slips = [name for name in by_lower if one_slip(asked, name)]
    near = get_close_matches(asked, slips or by_lower, 1, 0 if slips else _NEAR)
    return by_lower[near[0]] if near else ""


def _all_names() -> Iterator[str]:
    for size in usual_sizes():
        yield from (size.name, *size.also)
        yield f"{size.kind} {size.name}"
        yield f"{size.name} {size.kind}"
