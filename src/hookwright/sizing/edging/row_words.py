"""The movements of a row in the trade's words: runs, and what is done over and over.

"Ch 1, sc in first 5 sts, *2 sc in next st, sc in next 4 sts; rep from * 6 more times, sc in
last st."
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Sequence
from itertools import groupby

from msgspec import Struct

from hookwright.sizing.edging.moves import CORNER, Form, Move

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

    What is repeated stands behind a star, and what is repeated within that in brackets.

    Args:
        moves: The movements.
        words: How the pattern spells.
        begun: Whether a chain stands on the first place already.
        around: Whether it is a round: then no place is the last one.
    """
    runs = [run for move, group in groupby(moves) for run in _runs(move, len(list(group)))]
    sides = [tuple(side) for is_end, side in groupby(runs, _is_corner) if not is_end]
    if len(sides) > 1:
        pieces, last = _round_told(sides, words)
    else:
        pieces, last = _row_told(sides[0], words)
    if not begun:
        pieces[0] = _as_first(pieces[0])
    if last and len(pieces) > 1 and not around:
        pieces[-1] = _as_last(pieces[-1])
    return ", ".join(pieces)


def _is_corner(run: _Run) -> bool:
    return run.move == CORNER


def _row_told(runs: Sequence[_Run], words: Words) -> tuple[list[str], bool]:
    """A row with one star, and whether it ends with a movement of its own."""
    start, size, times = _repeat_in(runs)
    end = start + size * times
    if times == 1 or _has_repeat(runs[:start]) or _has_repeat(runs[end:]):
        return _listed(runs, words), not _ends_in_repeat(runs)
    body = ", ".join(_listed(runs[start : start + size], words))
    starred = f"*{body}; rep from * {_more(times - 1)}"
    before, behind = _listed(runs[:start], words), _listed(runs[end:], words)
    return [*before, starred, *behind], bool(behind) and not _ends_in_repeat(runs[end:])


def _round_told(sides: Sequence[tuple[_Run, ...]], words: Words) -> tuple[list[str], bool]:
    """A round of sides and corners: whole sides stand behind a star, no half ones."""
    told = [", ".join(_listed(side, words)) for side in sides]
    start, size, times = _repeat_in(sides)
    if times == 1:
        return told, False
    end = start + size * times
    body = ", ".join(told[start : start + size])
    return [*told[:start], f"*{body}; rep from * {_more(times - 1)}", *told[end:]], False


def _listed(runs: Sequence[_Run], words: Words) -> list[str]:
    """Runs one by one, with what is repeated among them in brackets."""
    if not runs:
        return []
    start, size, times = _repeat_in(runs)
    if times == 1:
        return [_run_told(run, words) for run in runs]
    end = start + size * times
    body = ", ".join(_listed(runs[start : start + size], words))
    again = "twice" if times == _TWICE else f"{times} times"
    return [*_listed(runs[:start], words), f"[{body}] {again}", *_listed(runs[end:], words)]


_TWICE = 2


def _has_repeat(runs: Sequence[_Run]) -> bool:
    return _repeat_in(runs)[2] > 1


def _ends_in_repeat(runs: Sequence[_Run]) -> bool:
    """Whether a list as it is told ends with a bracket."""
    start, size, times = _repeat_in(runs)
    end = start + size * times
    if times > 1 and end < len(runs):
        return _ends_in_repeat(runs[end:])
    return times > 1


def _runs(move: Move, times: int) -> list[_Run]:
    """Like movements as one run; what is told one by one stays so."""
    if move.form in (Form.PLAIN, Form.SEVERAL, Form.SKIP):
        return [_Run(move, times)]
    return [_Run(move, 1)] * times


def _run_told(run: _Run, words: Words) -> str:
    move, times, which = run.move, run.times, "next"
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
        number = f"{move.makes} " if move.makes > 1 else ""
        return f"{number}{stitch} in {which} {move.noun}"
    return f"{move.makes} {stitch} in each of {which} {_places(move, times)}"


def _places(move: Move, number: int) -> str:
    return move.noun if number == 1 else f"{number} {plural(move.noun)}"


def plural(noun: str) -> str:
    """More than one place of a kind; chains have no plural in a row."""
    return noun if noun.endswith("ch") else f"{noun}s"


def _as_first(words: str) -> str:
    """The words of the movement that begins a row: "sc in first 5 sts".

    What begins a repeat is told as it is worked again: "*sc in next 5 sts".
    """
    if words[:1] in "*[":
        return words
    before = r"\b(in|over|in each of|sk|skip|miss) next\b"
    return re.sub(before, r"\1 first", words, count=1)


def _as_last(words: str) -> str:
    """The words of the movement that ends a row: "sc in last 5 sts"."""
    return re.sub(r"\b(in|over|in each of) (?:next|first)\b", r"\1 last", words, count=1)


def _more(times: int) -> str:
    return "once more" if times == 1 else f"{times} more times"


def _repeat_in(runs: Sequence[Hashable]) -> tuple[int, int, int]:
    """Where the best repeat begins, how many runs it holds and how often it is worked.

    The one that saves most words; of those, the shortest and the first.
    """
    numbered: dict[Hashable, int] = {}
    told = [numbered.setdefault(run, len(numbered)) for run in runs]
    best = (0, 0, 1)
    saved = 0
    for size in range(1, len(told) // 2 + 1):
        if len(told) - size - 2 <= saved:
            break  # no longer repeat can save more
        start = 0
        for at in range(len(told) - size + 1):
            if at + size < len(told) and told[at] == told[at + size]:
                continue
            times = (at - start) // size + 1
            gain = (times - 1) * size - 2
            if times > 1 and gain > saved:
                best, saved = (start, size, times), gain
            start = at + 1
    return best
