"""Which rows are shown, and when does each begin?

A row is announced by its name; a name that is only mentioned ("like row 2", "the end of row
1") announces none. Of all announcements those are taken that name the most rows in the
order they are worked in, so that one misheard number does not upset the others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.lesson.facts import RowMoves
from hookwright.lesson.heard.facts import Chapter, Word
from hookwright.lesson.heard.numbers import number_at, sounds_like
from hookwright.lesson.heard.sounds import likeness, sound

_ROW = frozenset("row roe rho raw roll grow rows round rounds rnd ground around".split())
_ONLY_MENTIONED = frozenset(
    "of as like repeat than from in into over until till before after below under that "
    "than did finished since under".split()
)
_NO_ROW = frozenset({"Foundation chain", "Beginning"})
_BEGINS = frozenset("for now to begin start make work next do".split())
_ROUND = sound("round")
_LIKE_ROUND = 88.0
_NEAR_START = 6
"""An announcement among the first words of a cue is taken to begin with the cue."""


def rows_shown(words: Sequence[Word], rows: Sequence[RowMoves]) -> tuple[Chapter, ...]:
    """The rows that are announced, in the order they are worked.

    Where a part is announced by its name, its first row begins.
    """
    numbers = [_number_of(row.name) for row in rows]
    places: dict[int, list[int]] = {}
    for at, number in enumerate(numbers):
        if number is not None:
            places.setdefault(number, []).append(at)
    announced = [(time, places.get(number, [])) for time, number in _announced(words)]
    announced += _parts_announced(words, rows)
    chain = _longest(sorted(announced, key=lambda one: one[0]))
    return tuple(Chapter(time, rows[at].part, rows[at].name, at) for time, at in chain)


def _number_of(name: str) -> int | None:
    last = name.rpartition(" ")[2]
    return int(last) if last.isdigit() else None


def _announced(words: Sequence[Word]) -> Iterator[tuple[float, int]]:
    """Times and numbers of rows that are announced."""
    texts = [word.text for word in words]
    for at, text in enumerate(texts):
        if not names_row(text):
            continue
        if _is_only_mentioned(words, at):
            continue
        found = number_at(texts, at + 1)
        number = found[0] if found is not None else None
        if number is None and at + 1 < len(texts):
            number = sounds_like(texts[at + 1])
        if number is not None:
            yield _time(words, at), number


def _is_only_mentioned(words: Sequence[Word], at: int) -> bool:
    """Whether a row is led to by "of" or "like"; "in row 3" at a beginning announces it."""
    before = [word.text for word in words[max(0, at - 2) : at]]
    if before[-1:] == ["in"]:
        first = at - 1
        starts = first == 0 or words[first - 1].cue != words[first].cue
        return not (starts or not words[first - 1].text.isalnum())
    return bool(set(before) & _ONLY_MENTIONED)


def names_row(word: str) -> bool:
    """Whether a word is "row" or "round", or may be that misheard."""
    return word in _ROW or likeness(sound(word), _ROUND) >= _LIKE_ROUND


def _time(words: Sequence[Word], at: int) -> float:
    own = words[at]
    first = at
    while first > 0 and words[first - 1].cue == own.cue:
        first -= 1
    return own.cue if at - first < _NEAR_START else own.time


def _parts_announced(
    words: Sequence[Word], rows: Sequence[RowMoves]
) -> Iterator[tuple[float, list[int]]]:
    """Times at which a part other than the first is begun: "now the ribbing"."""
    first: dict[str, int] = {}
    for at, row in enumerate(rows):
        if row.part and row.name not in _NO_ROW:
            first.setdefault(row.part, at)
    texts = [word.text for word in words]
    for part, at in list(first.items())[1:]:
        name = part.lower().split()
        for place in range(2, len(texts) - len(name) + 1):
            led = texts[place - 1] == "the" and texts[place - 2] in _BEGINS
            if led and texts[place : place + len(name)] == name:
                yield _time(words, place), [at]


def _longest(announced: Sequence[tuple[float, list[int]]]) -> list[tuple[float, int]]:
    """The most announcements that name rows in working order, the nearest rows of these.

    `best[n]` is, for chains of n rows, the one that ends at the earliest row.
    """
    best: list[list[tuple[float, int]]] = [[]]
    for time, places in announced:
        for length in range(len(best) - 1, -1, -1):
            chain = best[length]
            last = chain[-1][1] if chain else -1
            at = next((one for one in places if one > last), None)
            if at is None:
                continue
            longer = [*chain, (time, at)]
            if length + 1 == len(best):
                best.append(longer)
            elif longer[-1][1] < best[length + 1][-1][1]:
                best[length + 1] = longer
    return best[-1]
