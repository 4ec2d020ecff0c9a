"""What is not meant: taken back ("six, no wait, five"), denied, or said of other work?"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import number_at
from hookwright.regex import regex

_NO = frozenset(
    "not don't dont never instead than like isn't isnt without unlike before said says "
    "forgot".split()
)
_OTHER_WORK = frozenset(
    "would wouldnt could couldnt terms usually normally otherwise version someone "
    "somebody yesterday".split()
)
_IF_YOU = regex(r"\bif you(?:re| were| want| like| prefer| have| make| are| wanted)\b")
_LOOK_BACK = 4
_PHRASES = (
    ("no", "wait"), ("wait", "no"), ("no", "sorry"), ("oh", "sorry"), ("i", "mean"),
    ("i", "meant"), ("scratch", "that"), ("make", "that"), ("no", "no"), ("wait",),
    ("sorry",), ("oops",), ("whoops",), ("correction",), ("rather",), ("actually",),
)  # fmt: skip
_CERTAIN = _PHRASES[:8]
_NEAR = 3
_FAR = 10
_NEW_NEAR = 6
_PUNCTUATION = frozenset(".,!?;:")


def is_no_statement(words: Sequence[Word], texts: Sequence[str], at: int) -> bool:
    """Whether what is said at a word is denied, or is said of other work."""
    before = words[max(0, at - _LOOK_BACK) : at]
    if _NO & {word.text for word in before if word.cue == words[at].cue}:
        return True
    start = max(0, at - 2 * _LOOK_BACK)
    near = list(texts[start : at + 2 * _LOOK_BACK])
    sentence = _same_sentence(near, at - start)
    other = _OTHER_WORK & set(sentence) or _IF_YOU.search(" ".join(sentence))
    return bool(other)


def _same_sentence(near: Sequence[str], at: int) -> Sequence[str]:
    start = max((i + 1 for i in range(at) if near[i] in ".!?"), default=0)
    end = min((i for i in range(at, len(near)) if near[i] in ".!?"), default=len(near))
    return near[start:end]


def taken_back(
    one: Stated, words: Sequence[Word], texts: list[str], at_terms: frozenset[int]
) -> Stated | None:
    """A statement as it is meant; None where it is taken back and nothing put for it."""
    behind = _behind_correction(texts, one.stop)
    if behind is None or at_terms & set(range(one.stop, behind)):
        return one  # what is corrected is said behind it
    if one.number is None:
        return None
    for at in range(behind, min(len(texts), behind + _NEW_NEAR)):
        if at in at_terms:
            return None
        found = number_at(texts, at)
        if found is not None:
            stop = at + found[1]
            if stop in at_terms:
                return None
            heard = " ".join(texts[one.first : stop])
            return replace(
                one, number=found[0], time=words[at].time, words=heard, stop=stop
            )
    return None


def _behind_correction(texts: list[str], stop: int) -> int | None:
    """Where the words behind a correction begin; None where none follows."""
    near = [
        at for at in range(stop, min(len(texts), stop + 2 * _FAR))
        if texts[at] not in _PUNCTUATION
    ][: _FAR]  # fmt: skip
    for number, at in enumerate(near):
        for phrase in _PHRASES if number < _NEAR else _CERTAIN:
            own = [text for text in texts[at : at + 4] if text not in _PUNCTUATION]
            if tuple(own[: len(phrase)]) == phrase:
                return at + len(phrase)
        if number >= _NEAR:
            continue
        if texts[at] == "no" and _number_follows(texts, at + 1):
            return at + 1
    return None


def _number_follows(texts: list[str], at: int) -> bool:
    if texts[at : at + 1] == [","]:
        at += 1
    return number_at(texts, at) is not None
