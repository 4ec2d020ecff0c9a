"""Which foundation chain is named before the first row begins?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import number_from

_NO_TOTAL = frozenset("next last first every over in left of into each plus than".split())
_CHAINS = frozenset({"chain", "chains"})
_LEAST = 3


def foundation_stated(
    words: Sequence[Word], stated: Sequence[Stated], until: float
) -> Stated | None:
    """The first chain that is named: "chain 182", "182 chains", "the chain is 182"."""
    texts = [word.text for word in words if word.time < until]
    told = [
        one
        for one in stated
        if one.time < until and one.what == "chain" and one.number is not None
    ]
    told += [one for at in range(len(texts)) if (one := _total(words, texts, at))]
    told.sort(key=lambda one: one.first)
    return next((one for one in told if (one.number or 0) >= _LEAST), None)


def _total(words: Sequence[Word], texts: list[str], at: int) -> Stated | None:
    found = number_from(texts, at)
    if found is None:
        return None
    end = at + found[1]
    before = texts[max(0, at - 2) : at]
    is_total = texts[end : end + 1] == ["chains"] and not _NO_TOTAL & set(before)
    is_told = before[-1:] == ["is"] and before[0] in _CHAINS
    if not is_total and not is_told:
        return None
    stop = end + 1 if is_total else end
    heard = " ".join(texts[at:stop])
    return Stated("chain", found[0], words[at].time, heard, 100.0, at, stop)
