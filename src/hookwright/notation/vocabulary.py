"""Which words are stitches, and how each stitch is worked.

The table stands in `vocabulary.json`: every check reads it, and JSON is read in a twentieth
of the time of TOML. A pattern adds its own stitches by defining them. A compound is read
from its parts: "FPdc" is a dc around the front post, "scblo" an sc in the back loop,
"dc3tog" three dc drawn together.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from msgspec import Struct, json
from msgspec.structs import replace

from hookwright.regex import regex


class StitchWord(Struct, frozen=True):
    """A stitch as a pattern names it.

    Attributes:
        id: The name kept in the tree.
        family: How it is worked: "plain", "slip", "increase", "together", "cluster",
            "group", "picot", "foundation".
        passes: Places used.
        heads: Tops left.
        terms: "US" or "UK" where the name exists in one of them only.
        height: The usual turning chain, read as US.
        uk_height: The same, read as UK.
        uk_means: The US stitch the name stands for in UK terms.
        loop: The loop named with it: "front", "back", "third".
        post: The post named with it: "front", "back".
        legs: Places drawn together.
    """

    id: str
    family: str
    passes: int = 1
    heads: int = 1
    terms: str = ""
    height: int = 0
    uk_height: int = 0
    uk_means: str = ""
    loop: str = ""
    post: str = ""
    legs: int = 1


Phrases = Mapping[str, tuple[tuple[tuple[str, ...], StitchWord], ...]]

_COMPOUND = regex(
    r"""(?P<post>fp|bp|rf|rb)?
        (?P<loop>blo?(?=[hds])|flo?(?=[hds]))?
        (?P<base>sc|hdc|dc|htr|trtr|dtr|tr|esc|edc|st)
        (?P<legs>\d+tog|tog)?
        (?P<after>blo?|flo?|fp|bp|blonly|flonly)?$""",
    re.VERBOSE,
)
_RAISED = regex(r"r(?P<base>htr|dtr|tr|dc)(?P<side>[fb])$")
_LOOP = {"bl": "back", "blo": "back", "fl": "front", "flo": "front"}
_POST = {"fp": "front", "rf": "front", "bp": "back", "rb": "back"}


_TABLE = Path(__file__).with_name("vocabulary.json")


@cache
def standard_words() -> Phrases:
    """The stitches everybody may use, by the first word of each spelling, longest first."""
    table = json.decode(_TABLE.read_bytes())
    return phrases(
        (words.split(), _stitch(row)) for row in table["stitch"] for words in row["words"]
    )


def _stitch(row: Mapping[str, Any]) -> StitchWord:
    return StitchWord(
        row["id"],
        row["family"],
        row.get("passes", 1),
        row.get("heads", 1),
        row.get("terms", ""),
        row.get("height", 0),
        row.get("uk_height", row.get("height", 0)),
        row.get("uk", ""),
        legs=row.get("passes", 1) if row["family"] == "together" else 1,
    )


def phrases(rows: Iterable[tuple[list[str], StitchWord]]) -> Phrases:
    """An index of spellings by their first word."""
    index: dict[str, list[tuple[tuple[str, ...], StitchWord]]] = {}
    for words, stitch in rows:
        index.setdefault(words[0], []).append((tuple(words), stitch))
    return {
        first: tuple(sorted(found, key=lambda row: -len(row[0])))
        for first, found in index.items()
    }


def families_of(name: str, own: Phrases) -> set[str]:
    """The families of the stitches kept in the tree under a name, the pattern's own too."""
    first = name.split(maxsplit=1)[0] if name else ""
    kept = {stitch.family for _, stitch in own.get(first, ()) if stitch.id == name}
    return kept | _standard_families().get(name, set())


def is_increase(name: str) -> bool:
    """Whether a stitch is kept under a name that is only an increase: "inc"."""
    return "increase" in _standard_families().get(name, set())


@cache
def _standard_families() -> Mapping[str, set[str]]:
    """The families of everybody's stitches by the name each is kept under: "v-st"."""
    families: dict[str, set[str]] = {}
    for spelled in standard_words().values():
        for _, stitch in spelled:
            families.setdefault(stitch.id, set()).add(stitch.family)
    return families


@lru_cache(maxsize=4096)  # a pattern uses few words, over and over
def singular(word: str) -> tuple[str, ...]:
    """A word and what it may be the plural of."""
    forms = [word]
    if word.endswith("'s"):
        forms.append(word[:-2])
    if word.endswith("es") and len(word) > 4:
        forms.append(word[:-2])
    if word.endswith("s") and len(word) > 2:
        forms.append(word[:-1])
    return tuple(forms)


@cache
def compound(word: str) -> StitchWord | None:
    """A stitch put together from a post, a base, a number of legs and a loop."""
    for form in singular(word):
        raised = _RAISED.match(form)  # "rtrf", a raised treble at the front
        form = f"r{raised['side']}{raised['base']}" if raised else form  # noqa: PLW2901
        match = _COMPOUND.match(form)
        if match is None or form in ("st", "sttog"):
            continue
        base = base_stitch(match["base"])
        after = match["after"] or ""
        post = _POST.get(match["post"] or "", _POST.get(after, ""))
        legs = _legs(match["legs"])
        if base is None or (match["base"] == "st" and legs == 1):
            continue
        name = _name(base.id, post, legs)
        family = "together" if legs > 1 else "plain"
        return replace(
            base,
            id=name,
            family=family,
            passes=legs,
            legs=legs,
            post=post,
            loop=_LOOP.get(match["loop"] or after[:3], ""),
        )
    return None


def _name(base: str, post: str, legs: int) -> str:
    prefix = {"front": "fp", "back": "bp", "": ""}[post]
    return f"{prefix}{base}{f'{legs}tog' if legs > 1 else ''}"


def _legs(written: str | None) -> int:
    if not written:
        return 1
    digits = written[:-3]
    return max(1, min(int(digits), 999)) if digits else 2


def base_stitch(name: str) -> StitchWord | None:
    """A stitch of the table by its shortest spelling."""
    if name == "st":
        return StitchWord("st", "plain", height=1, uk_height=1)
    found = standard_words().get(name, ())
    return next((stitch for words, stitch in found if len(words) == 1), None)


@lru_cache(maxsize=1024)
def height_of(stitch_id: str, terms: str | None) -> int:
    """The usual turning chain of a stitch; 0 where custom says nothing."""
    name = stitch_id.removeprefix("fp").removeprefix("bp")
    name = re.sub(r"\d+tog$", "", name)
    for found in standard_words().values():
        for _, stitch in found:
            if stitch.id == name:
                return stitch.uk_height if terms == "UK" else stitch.height
    return 0
