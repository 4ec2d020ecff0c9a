"""Which words of a text are lists of sizes, and what is each for one size alone?

A list is a number and, in brackets behind it, as many as there are further sizes:
"60 (68, 76) ch", "36 1/2 (40, 44) cm", "Rnds 8-14 (9-16, 10-18)".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.regex import regex
from hookwright.release.facts import Run

_N = r"(?:\d[\d.]*(?:[ \u00a0]?(?:\d+/\d+|[¼½¾⅛⅜⅝⅞]))?(?:[–-]\d+)?|[–—-])"
_GAP = r"[ \u00a0]"
_LIST = regex(rf"(?P<first>{_N}){_GAP}?[(\[](?P<others>{_N}(?:,{_GAP}?{_N})+|{_N})[)\]]")
_NUMBER = regex(_N)
_RANGE = regex(r"\d+[–-](?P<end>\d+)")


def by_size(runs: Sequence[Run], sizes: int) -> tuple[Run, ...]:
    """Runs with every list of sizes in a run of its own."""
    if sizes < 2:
        return tuple(runs)
    return tuple(part for run in runs for part in _parts(run, sizes))


def _parts(run: Run, sizes: int) -> Iterator[Run]:
    at = 0
    for start, end, values in lists_in(run.words, sizes):
        if start > at:
            yield replace(run, words=run.words[at:start])
        yield replace(run, words=run.words[start:end], sizes=values)
        at = end
    if at < len(run.words):
        yield replace(run, words=run.words[at:])


def lists_in(words: str, sizes: int) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """Where each list begins and ends, and its word for each size."""
    for found in _LIST.finditer(words):
        others = _NUMBER.findall(found["others"])
        start, first = found.start(), found["first"]
        ranged = _RANGE.fullmatch(first)
        if ranged is not None and not any(map(_RANGE.fullmatch, others)):
            start, first = start + ranged.start("end"), ranged["end"]  # "3-13 (14, 15)"
        if len(others) + 1 == sizes:
            yield start, found.end(), (first, *others)
