"""How each stitch of a pattern is worked: how many places it uses and what it leaves."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.bodies import is_begun_cluster
from hookwright.notation.tree import (
    Chain,
    Definition,
    InOnePlace,
    Make,
    Node,
    Repeat,
    Role,
    Tail,
    Target,
)
from hookwright.notation.vocabulary import (
    StitchWord,
    compound,
    height_of,
    standard_words,
)


class Facts(Struct, frozen=True):
    """What a stitch uses and makes.

    Attributes:
        family: "plain", "slip", "together", "increase", "group", "picot", "foundation",
            "cluster" or "unit".
        passes: Places used.
        heads: Tops left.
        body: What a group is made of.
        known: False where a stitch stands for itself because nothing defines it.
        place: The space a group is always worked in, if its definition says so.
    """

    family: str
    passes: int = 1
    heads: int = 1
    body: tuple[Node, ...] = ()
    known: bool = True
    place: Target | None = None


@cache
def _standard() -> Mapping[str, StitchWord]:
    rows = (stitch for found in standard_words().values() for _, stitch in found)
    return {stitch.id: stitch for stitch in rows}


def facts_of(stitch: str, legs: int, own: Mapping[str, Definition]) -> Facts:
    """The facts of a stitch as the pattern names it."""
    definition = own.get(stitch)
    if stitch in ("open mesh", "solid mesh"):
        return Facts("mesh")
    if definition is not None:
        return _defined(definition)
    return _usual_facts(stitch, legs)


@lru_cache(maxsize=1024)
def _usual_facts(stitch: str, legs: int) -> Facts:
    if legs > 1:
        return Facts("together", legs, 1)
    word = _standard().get(stitch)
    if word is None:
        return Facts("plain", known=not stitch.startswith("?"))
    if word.family == "group":
        return Facts("group", 1, 1, (), known=False)
    return Facts(word.family, word.passes, word.heads)


def _defined(definition: Definition) -> Facts:
    if definition.body and definition.passes is None:
        return Facts("unit", 1, definition.heads, definition.body)
    if definition.body and definition.passes == 1:
        body = _with_leg(definition.body)
        return Facts("group", 1, definition.heads, body, place=definition.place)
    passes = definition.passes if definition.passes is not None else 1
    if passes > 1 and definition.heads == 1:
        return Facts("together", passes, 1)
    return Facts("cluster", passes, definition.heads)


def _with_leg(body: tuple[Node, ...]) -> tuple[Node, ...]:
    """ "3 ch, tr2tog" as one stitch: its chain is a leg, and no stitch of its own."""
    chain = body[0]
    unsaid = isinstance(chain, Chain) and chain.role is Role.UNSAID
    if not unsaid or not is_begun_cluster(body):
        return body
    return (replace(chain, role=Role.COUNTS_NOT), *body[1:])


_POSTS = ("fp", "bp")


@lru_cache(maxsize=1024)
def base_of(stitch: str) -> str:
    """The plain stitch a name goes back to: "fpdc", "dc3tog" and "dc" are all dc."""
    name = re.sub(r"\d+tog$", "", stitch)
    return re.sub(r"^[fb]p", "", name)


def same_kind(noun: str, stitch: str) -> bool:
    """Whether a stitch may be called by a noun: "next dc" may be a post dc or a dc3tog."""
    if noun == stitch or stitch.endswith(f" {noun}"):  # a "spike sc" is an sc
        return True
    if noun[:2] in _POSTS and stitch[:2] in _POSTS and noun[:2] != stitch[:2]:
        return False
    return base_of(noun) == base_of(stitch)


def height(stitch: str, terms: str) -> int:
    """The usual turning chain of a stitch; 1 where custom says nothing."""
    return height_of(stitch, terms) or 1


def may_be_called(noun: str, stitch: str) -> bool:
    """Whether a noun may name a stitch: a "cluster" may be any stitch drawn together."""
    if noun == "cluster":
        return stitch == noun or "tog" in stitch or _is_cluster(stitch)
    return same_kind(noun, stitch)


def _is_cluster(stitch: str) -> bool:
    """Whether a name is of a cluster: "bobble", and "cl" or "beg cl" of a text's own."""
    last = stitch.rpartition(" ")[2]
    spelled = (word for words, word in standard_words().get(last, ()) if words == (last,))
    named = next(spelled, None)
    return _family(stitch) == "cluster" or (named is not None and named.family == "cluster")


def _family(stitch: str) -> str:
    word = _standard().get(stitch)
    return word.family if word is not None else ""


def is_called(group: str, noun: str) -> bool:
    """Whether a group may be called by a noun: an "edge tile" is a tile, no half one is."""
    if group == noun or not noun or is_stitch_name(noun):
        return group == noun
    return group.endswith(f" {noun}") and not group.startswith("half ")


def is_group_word(word: str) -> bool:
    """Whether a word is the trade's name for a group: "shell", "v-st"."""
    return _family(word) == "group"


def is_counted_alone(word: str) -> bool:
    """Whether a word is a stitch of the trade that leaves a top to be counted."""
    return is_stitch_name(word) and _family(word) not in ("group", "picot")


def is_plain(stitch: str) -> bool:
    """Whether a stitch is one of the everyday ones, which nobody calls by another name."""
    return _family(stitch) == "plain"


def is_stitch_name(word: str) -> bool:
    """Whether a word is a stitch of the trade, or one put together from it."""
    return word in ("st", "sp", "ch") or word in _standard() or compound(word) is not None


def without_circles(own: Mapping[str, Definition]) -> dict[str, Definition]:
    """The stitches a pattern defines, without those that are made of themselves."""
    made_of = {name: _named_in(definition.body) for name, definition in own.items()}

    def reaches(name: str) -> bool:
        seen: set[str] = set()
        ahead = set(made_of[name])
        while ahead:
            if name in ahead:
                return True
            seen |= ahead
            ahead = {n for one in ahead for n in made_of.get(one, ())} - seen
        return False

    return {name: definition for name, definition in own.items() if not reaches(name)}


def _named_in(nodes: Iterable[Node]) -> set[str]:
    names: set[str] = set()
    for node in nodes:
        if isinstance(node, Make):
            names.add(node.stitch)
        elif isinstance(node, (InOnePlace, Repeat, Tail)):
            names |= _named_in(node.body)
    return names
