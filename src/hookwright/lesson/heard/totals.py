"""How often, and how many in all, is it said to be?

"That six times", "3 more times"; "you should have 181 stitches", "that's 48". Numbers of an
aside ("he jumps on the table four times a day", "20 minutes") are none of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import is_counted_aloud, number_from
from hookwright.lesson.heard.sentences import opens

_COUNTS = frozenset("have has count counts total makes left altogether all be".split())
_COME_TO = frozenset(
    "with up gives give get gets got thats is now still its makes have comes".split()
)
_CORRECTS = frozenset("no wait sorry mean oops".split())
_BARE = _COME_TO | {"count"}
_NEXT = frozenset({"next", "last", "first", "every", "over"})
_LEAST_COME_TO = 10
"""So small a number of stitches may be one to leave, or to work over."""
_WORKED = frozenset(
    "repeat repeated do work worked this that thats it again same all so whole".split()
)
_ROUGHLY = frozenset("like about around or maybe almost nearly counted tried".split())
_OF_SOMETHING = frozenset("a an per every in-all each".split())
_MORE = (["more", "times"], ["times", "more"])
_BY_WORD = {"once": 1, "twice": 2, "thrice": 3}
_IN_ALL = frozenset("all around round altogether total now across along at ,".split())
_LOOK_BACK = 6


def times_told(
    words: Sequence[Word], texts: list[str], at_terms: frozenset[int] | None
) -> Iterator[Stated]:
    """ "7 more times", "3 times", "4 times more", where a repeat is spoken of.

    Args:
        words: What was heard.
        texts: The same without the times.
        at_terms: Where a stitch is named; None where every number of times is of a repeat.
    """
    for at in range(len(texts)):
        told = _times_at(texts, at)
        if told is None:
            continue
        if (
            at_terms is not None
            and told[0] == "times"
            and not _is_of_repeat(texts, at, told[2], at_terms)
        ):
            continue
        what, number, stop = told
        heard = " ".join(texts[at:stop])
        yield Stated(what, number, words[at].time, heard, 100.0, at, stop)


def _times_at(texts: list[str], at: int) -> tuple[str, int, int] | None:
    """ "Times" or "more times", how often, and where the words end."""
    if texts[at] in _BY_WORD and texts[at + 1 : at + 2] == ["more"]:
        return "more times", _BY_WORD[texts[at]], at + 2
    found = number_from(texts, at)
    if found is None:
        return None
    end = at + found[1]
    more = texts[end : end + 2] in _MORE
    if not more and texts[end : end + 1] != ["times"]:
        return None
    return ("more times", found[0], end + 2) if more else ("times", found[0], end + 1)


def _is_of_repeat(texts: list[str], at: int, stop: int, at_terms: frozenset[int]) -> bool:
    before = texts[max(0, at - _LOOK_BACK) : at]
    if _ROUGHLY & set(before[-2:]) or texts[stop : stop + 1] in (["a"], ["per"]):
        return False
    near = range(max(0, at - _LOOK_BACK), at)
    return (
        bool(_WORKED & set(before))
        or any(place in at_terms for place in near)
        or (not before or before[-1] in {".", ","})
    )


def counts_told(words: Sequence[Word], texts: list[str]) -> Iterator[Stated]:
    """ "You should have 181 stitches", "that's 48."."""
    for at in range(len(texts)):
        found = number_from(texts, at)
        if found is None:
            continue
        stop = at + found[1]
        of_stitches = texts[stop : stop + 1] in (["stitches"], ["sts"])
        stop += of_stitches
        if _is_count(words, texts, at, stop, found[0], of_stitches=of_stitches):
            heard = " ".join(texts[at:stop])
            yield Stated("count", found[0], words[at].time, heard, 100.0, at, stop)


def _is_count(
    words: Sequence[Word],
    texts: list[str],
    at: int,
    stop: int,
    number: int,
    *,
    of_stitches: bool,
) -> bool:
    before = texts[max(0, at - 3) : at]
    large = number >= _LEAST_COME_TO
    if large and _in_all(texts, stop):
        return True
    if _NEXT & set(before) or is_counted_aloud(texts, at):
        return False
    ends = _ends(words, texts, stop)
    if not of_stitches:
        told = _alone(words, at) or bool(_BARE & set(before[-2:]))
        return large and ends and told
    if _COUNTS & set(before) or (large and _COME_TO & set(before)):
        return True
    closes = ends or texts[stop] in _IN_ALL
    return large and closes and opens(words, at)


def _in_all(texts: list[str], end: int) -> bool:
    """ "Sixty six in all", "64 altogether"."""
    return texts[end : end + 2] == ["in", "all"] or texts[end : end + 1] in (
        ["altogether"],
        ["total"],
    )


def _alone(words: Sequence[Word], at: int) -> bool:
    """Whether a number is said by itself: "three and an increase, 24."."""
    if not at or words[at - 1].cue != words[at].cue:
        return True
    corrects = at > 1 and words[at - 2].text in _CORRECTS
    return words[at - 1].text in {",", "."} and not corrects


def _ends(words: Sequence[Word], texts: list[str], end: int) -> bool:
    """Whether nothing more of the sentence follows that the number could be of."""
    return (
        end >= len(texts)
        or texts[end] in {".", "!", "?"}
        or (words[end].cue != words[end - 1].cue)
    )
