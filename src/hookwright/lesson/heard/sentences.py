"""Where does a sentence begin and end in what was heard?

Few recognisers write full stops; where there is none, a caption is taken for a sentence.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.lesson.heard.facts import Word

STOPS = frozenset(".!?")
_FILLERS = frozenset(
    "ok okay so and then now alright right well next for on in at the our here comes is "
    "we start begin with make do work onto to moving go going i im were lets this time "
    "finally last end , : ;".split()
)
_MOST_FILLERS = 7


def opens(words: Sequence[Word], at: int) -> bool:
    """Whether a word opens a sentence or a caption, but for words that only lead to it."""
    first = max(0, at - _MOST_FILLERS)
    for place in range(at, first - 1, -1):
        before = words[place - 1] if place else None
        if before is None or before.cue != words[place].cue or before.text in STOPS:
            return True
        if before.text not in _FILLERS:
            return False
    return False


def sentence_around(words: Sequence[Word], at: int) -> tuple[int, int]:
    """The first word of the sentence that a word stands in, and the one behind it."""
    start = end = at
    cue = words[at].cue
    while start and words[start - 1].cue == cue and words[start - 1].text not in STOPS:
        start -= 1
    while end < len(words) and words[end].cue == cue and words[end].text not in STOPS:
        end += 1
    return start, end
