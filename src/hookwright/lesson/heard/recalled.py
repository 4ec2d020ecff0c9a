"""How often are rows worked again, and is that what is said?

"Rows 2 to 7 over and over, six more times" is of the rows it names, not of the one shown.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.lesson.heard.facts import Stated, Word
from hookwright.lesson.heard.numbers import number_at, number_from
from hookwright.lesson.heard.sentences import sentence_around
from hookwright.notation.tree import Often, Recall

_UP_TO = frozenset("to through till until and thru".split())
_TIMES = frozenset({"times", "more times"})

Range = tuple[int, int]


def recalls_of(checked: Checked, size: int) -> dict[Range, frozenset[tuple[str, int]]]:
    """How often each range of rows is worked again: as times more and as times in all."""
    found: dict[Range, set[tuple[str, int]]] = {}
    for outcome in checked.worked.sizes[size].outcomes:
        for node in outcome.step.text.body:
            if isinstance(node, Recall) and node.rows:
                own = found.setdefault((node.rows[0], node.rows[-1]), set())
                own.update(_told(node, size))
    return {rows: frozenset(told) for rows, told in found.items()}


def _told(node: Recall, size: int) -> Iterator[tuple[str, int]]:
    times = node.times
    amount = times.amount.at(size) if times is not None and times.amount else None
    if times is None or amount is None:
        return
    yield "more times", amount
    yield "times", amount
    yield "times", amount + 1
    if times.often is not Often.MORE:
        yield "more times", amount - 1


def rows_named_with(one: Stated, words: Sequence[Word]) -> tuple[Range, ...]:
    """The ranges of rows in the sentence that tells how often."""
    if one.what not in _TIMES:
        return ()
    start, end = sentence_around(words, one.first)
    texts = [word.text for word in words[start:end]]
    return tuple(_ranges(texts))


def _ranges(texts: list[str]) -> Iterator[Range]:
    for at in range(len(texts)):
        first = number_from(texts, at)
        if first is None:
            continue
        end = at + first[1]
        if end + 1 < len(texts) and texts[end] in _UP_TO:
            last = number_at(texts, end + 1)
            if last is not None and last[0] > first[0]:
                yield first[0], last[0]
