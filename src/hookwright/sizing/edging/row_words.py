"""The movements of a row in the trade's words: runs, and what is done over and over.

"Ch 1, sc in first 5 sts, *2 sc in next st, sc in next 4 sts; rep from * 6 more times, sc in
last st."
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import groupby

from msgspec import Struct

from hookwright.sizing.edging.moves import Form, Move

_SHORTEST_REPEAT = 2
"""A repeat is written where it is worked so often at least, and saves words."""

Speller = Callable[[str], str]


class Words(Struct, frozen=True):
    """How the pattern at hand spells things.

    Attributes:
        stitch: From a US name to the pattern's own spelling.
        skip: "sk", "skip" or "miss".
    """

    stitch: Speller
    skip: str = "sk"


class _Run(Struct, frozen=True):
    move: Move
    times: int


def told(moves: Sequence[Move], words: Words, *, begun: bool, around: bool = False) -> str:
    """The movements of a row in words, without what it begins and ends with.

    Args:
        moves: The movements.
        words: How the pattern spells.
        begun: Whether a chain stands on the first place already.
        around: Whether it is a round: then no place is the last one.
    """
    runs = [
        run
        for move, group in groupby(moves)
        for run in _runs(move, len(list(group)))
    ]
    start, size, times = _repeat_in(runs)
    pieces = [_run_told(run, words, _which(n, begun)) for n, run in enumerate(runs)]
    if times < _SHORTEST_REPEAT:
        listed = pieces
    else:
        end = start + size * times
        body = ", ".join(_run_told(run, words, "next") for run in runs[start : start + size])
        again = f"*{body}; rep from * {_more(times - 1)}"
        listed = [*pieces[:start], again, *pieces[end:]]
        if end == len(runs):
            return ", ".join(listed)
    if len(listed) > 1 and not around:
        listed[-1] = _as_last(listed[-1])
    return ", ".join(listed)


def _runs(move: Move, times: int) -> list[_Run]:
    """Like movements as one run; what is told one by one stays so."""
    if move.form in (Form.PLAIN, Form.SEVERAL, Form.SKIP):
        return [_Run(move, times)]
    return [_Run(move, 1)] * times


def _which(number: int, begun: bool) -> str:
    return "next" if number or begun else "first"


def _run_told(run: _Run, words: Words, which: str) -> str:
    move, times = run.move, run.times
    if move.form is Form.FREE:
        return re.sub(r"\{([^}]*)\}", lambda found: words.stitch(found[1]), move.stitch)
    stitch = words.stitch(move.stitch) if move.stitch else ""
    if move.form is Form.TOGETHER:
        legs = move.takes
        return f"{stitch}{legs}tog over {which} {_places(move, legs)}"
    if move.form is Form.SKIP:
        return f"{words.skip} {which} {_places(move, move.takes * times)}"
    if move.form is Form.PLAIN:
        return f"{stitch} in {which} {_places(move, times)}"
    if times == 1:
        return f"{move.makes} {stitch} in {which} {move.noun}"
    return f"{move.makes} {stitch} in each of {which} {_places(move, times)}"


def _places(move: Move, number: int) -> str:
    return move.noun if number == 1 else f"{number} {plural(move.noun)}"


def plural(noun: str) -> str:
    """More than one place of a kind; chains have no plural in a row."""
    return noun if noun.endswith("ch") else f"{noun}s"


def _as_last(words: str) -> str:
    """The words of the movement that ends a row: "sc in last 5 sts"."""
    return re.sub(r"\b(in|over|in each of) (?:next|first)\b", r"\1 last", words, count=1)


def _more(times: int) -> str:
    return "once more" if times == 1 else f"{times} more times"


def _repeat_in(runs: Sequence[_Run]) -> tuple[int, int, int]:
    """Where the best repeat begins, how many runs it holds and how often it is worked.

    The one that saves most words; of those, the shortest and the first.
    """
    best = (0, 0, 1)
    saved = 0
    for size in range(1, len(runs) // 2 + 1):
        start = 0
        for at in range(len(runs) - size + 1):
            same = at + size < len(runs) and runs[at] == runs[at + size]
            if same:
                continue
            times = (at - start) // size + 1
            gain = (times - 1) * size - 2
            if times > 1 and gain > saved:
                best, saved = (start, size, times), gain
            start = at + 1
    return best
