"""Where does the hook go in: a fresh place, the same one, a bar, its own chain?"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from msgspec import Struct

from hookwright.notation.motions.words import Word, Words


class Where(StrEnum):
    """What kind of place the hook goes into."""

    NEXT = "so many fresh places of the working edge"
    HERE = "the place in use, or the first one if none is"
    NTH = "a place counted from the first one of the definition"
    USED = "a place used before: a skipped stitch, the same st as the last leg"
    OWN = "a stitch or chain of the definition's own making"
    LAST = "the last stitch: the one just made or, after a skip, the one ahead"
    LINK = "the bar or side of a stitch beside it"
    CLOTH = "the fabric, away from any edge"


class Place(Struct, frozen=True):
    """Where the hook goes in.

    Attributes:
        where: What kind of place.
        count: How many places, or which one for NTH.
        legs: How often the hook goes in, if the words are a list ("1st and 2nd st").
        each: Whether the words say "each".
        chain: Whether it is a chain.
        from_hook: Whether it is counted from the hook.
    """

    where: Where = Where.HERE
    count: int = 1
    legs: int = 1
    each: bool = False
    chain: bool = False
    from_hook: bool = False

    @property
    def is_next(self) -> bool:
        """Whether it uses up fresh places by its words."""
        return self.where is Where.NEXT


EDGE = frozenset(
    {"noun", "stitch", "chain", "loop", "own", "link", "cloth", "post", "named"}
)
LAST_STEP = frozenset({"yo", "yarn", "step", "pull", "through", "loop", "up"})

_TARGET = EDGE | {"next", "same", "dropped"}
_PLACE = _TARGET | {
    "where", "through", "article", "each", "whole", "last", "number", "ordinal", "face",
    "skipped", "made", "row", "way", "hook", "as", "strand", "size",
}  # fmt: skip
_LONGEST = 20  # words of a place, so that a run of "in in in" is not read again and again
_SPACE = frozenset({"sp", "sps", "space", "spaces"})


def read_place(words: Words) -> Place | None:
    """Take the words of a place, if they stand here: "in the next 2 sts"."""
    start = words.at
    if words.kind() not in {"where", "next", "through"} and not is_next_ahead(words):
        return None
    taken = _place_words(words)
    if any(word.kind in _TARGET for word in taken):
        return _classified(taken)
    words.at = start
    return None


def pass_place(words: Words) -> None:
    """Pass over stitches named, not worked: "of the 5 dc"."""
    _place_words(words)


def is_next_ahead(words: Words) -> bool:
    """Whether "next st" or "the following st" stands here."""
    return "next" in {words.kind(), words.kind(1)} and words.kind() in {"next", "article"}


def is_last_step_ahead(words: Words, ahead: int = 0) -> bool:
    """Whether "last yo", "the last step", "the point of the last pull" stands so far on."""
    for at in range(ahead, ahead + 5):
        if words.kind(at) == "last":
            return words.kind(at + 1) in LAST_STEP
        if words.kind(at) not in {"article", "other"}:
            return False
    return False


def _place_words(words: Words) -> list[Word]:
    taken: list[Word] = []
    while words.kind() in _PLACE and not _ends(words, taken):
        taken.append(words.take())
        if taken[-1].kind == "ordinal":
            _pass_mark_of_list(words)
    return taken


def _ends(words: Words, taken: Sequence[Word]) -> bool:
    """Whether the next word begins something else: "in next st | 2 dc"."""
    kind = words.kind()
    if words.text() == "to" and is_last_step_ahead(words, 1):
        return True
    if len(taken) > _LONGEST or (kind == "number" and words.counts_other(_PLACE)):
        return True
    if not _names_place(taken) or kind not in {"number", "stitch", "chain", "through"}:
        return False
    goes_on = (
        taken[-1].kind == "chain" or words.kind(1) == "row"
    )  # "ch 3", "st 2 rows below"
    return not (kind == "number" and goes_on)


def _names_place(taken: Sequence[Word]) -> bool:
    """Whether a place is named since the last "of" or "in", so that no other may follow."""
    for word in reversed(taken):
        if word.kind in {"where", "through", "as"} or word.text == "of":
            return False
        if word.kind in EDGE:
            return True
    return False


def _pass_mark_of_list(words: Words) -> None:
    """Pass the mark inside "2nd, 3rd and 4th ch"."""
    for marks in (1, 2):
        between = {words.kind(ahead) for ahead in range(marks)}
        if between <= {"comma", "and"} and words.kind(marks) == "ordinal":
            words.at += marks


def _classified(taken: Sequence[Word]) -> Place:
    """What kind of place some words name; the first test that fits decides."""
    kinds = {word.kind for word in taken}
    texts = {word.text for word in taken}
    count, ordinals = (
        _places_counted(taken),
        [w.number for w in taken if w.kind == "ordinal"],
    )
    fresh = "next" in kinds or "each" in kinds or count > 1
    chain = "chain" in kinds and not texts & _SPACE
    own = kinds & {"own", "made", "dropped"} or (chain and ordinals)
    tests = (
        ("cloth" in kinds, Place(Where.CLOTH)),
        ("skipped" in kinds or ("same" in kinds and "as" in texts),
         Place(Where.USED, count, each="each" in kinds)),
        (fresh, Place(Where.NEXT, count, each="each" in kinds)),
        ("link" in kinds, Place(Where.LINK)),
        ("between" in texts and "loop" in kinds, Place(Where.OWN)),
        (chain and "hook" in kinds,
         Place(Where.OWN, legs=max(len(ordinals), 1), chain=True, from_hook=True)),
        (own, Place(Where.OWN, chain=chain)),
        ("last" in kinds, Place(Where.LAST)),
        (ordinals and "loop" not in kinds,
         Place(Where.NTH, max(ordinals, default=1), legs=len(ordinals))),
    )  # fmt: skip
    return next((place for fits, place in tests if fits), Place(chain=chain))


def _places_counted(taken: Sequence[Word]) -> int:
    """How many places: of "next 2 sts 1 row below" it is 2, of "both loops" 1."""
    for index, word in enumerate(taken):
        after = taken[index + 1].kind if index + 1 < len(taken) else ""
        before = taken[index - 1].kind if index else ""
        if word.kind == "number" and after not in {"row", "loop"} and before != "chain":
            return word.number
    return 1
