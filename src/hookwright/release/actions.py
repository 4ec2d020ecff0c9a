"""A row with one thing to do a line, as large print sets it.

The row's own words are broken where one action ends, at a mark that stands outside of
brackets; nothing is left out and nothing put in. What is repeated stands further in, below
the words that say so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.release.facts import Run

_OPENS, _CLOSES, _ENDS = "([{", ")]}", ",;.:"

Action = tuple[int, str]
"""How far in it stands, and its words."""


def actions_of(runs: Sequence[Run]) -> tuple[Action, ...]:
    """The actions of a row."""
    found: list[Action] = []
    words, depth = "", 0
    for letter, kind in _letters(runs):
        if not words.strip():
            depth = int(kind == "repeat")
        words += letter
        if letter == " " and _is_at_end(words):
            said = words.strip()
            found.append((0 if said.endswith(":") else depth, said))
            words = ""
    if words.strip():
        found.append((depth, words.strip()))
    return tuple(_with_marks(found))


def _letters(runs: Sequence[Run]) -> Iterator[tuple[str, str]]:
    for run in runs:
        for letter in run.words:
            yield letter, run.kind


def _is_at_end(words: str) -> bool:
    """Whether an action ends here: at a mark behind a word, all brackets closed."""
    said = words.rstrip(" ")
    level = sum(said.count(mark) for mark in _OPENS) - sum(map(said.count, _CLOSES))
    return said[-1:] in _ENDS and level <= 0 and any(map(str.isalnum, said))


def _with_marks(found: Sequence[Action]) -> Iterator[Action]:
    """Actions whose marks alone ("; ") have come to the action before."""
    waiting: Action | None = None
    for depth, words in found:
        if waiting is not None and not any(map(str.isalnum, words)):
            waiting = (waiting[0], f"{waiting[1]}{words}")
            continue
        if waiting is not None:
            yield waiting
        waiting = (depth, words)
    if waiting is not None:
        yield waiting
