"""What of all that is stated does the pattern tell otherwise?

A statement is held against the row that is shown, and against those that are spoken of in
the same sentence or lie unannounced between that row and the next one shown.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.lesson.chapters import clock
from hookwright.lesson.heard.expected import (
    Expectations,
    RowSays,
    Thing,
    without_number,
)
from hookwright.lesson.heard.facts import Chapter, Slip, Stated, Word
from hookwright.lesson.heard.recalled import Range, rows_named_with
from hookwright.lesson.heard.rows_shown import Shown
from hookwright.lesson.heard.sentences import sentence_around
from hookwright.lesson.words_of import said

_SURE = 84.0
"""A stitch that is not in the row at all has to be heard so surely to be told."""
_NO_STITCH = frozenset({"chain", "skip", "times", "more times", "count"})
_NEAR_TURN = 3
_SIDE_BY_SIDE = 6
_LEAST_TOTAL = 10
_BEFORE_SENTENCE = 2
"""Words back from a sentence, past its full stop, stands the one before."""
_NEXT_ROW = (("next", "row"), ("next", "round"), ("following", "row"))
_ROW_BEFORE = (("last", "row"), ("previous", "row"), ("row", "before"), ("row", "below"))


class Stretch(Struct, frozen=True):
    """What is stated while a row is shown.

    Attributes:
        chapter: The row.
        beside: Rows without a chapter of their own that may be meant as well.
        stated: What is stated, in order.
    """

    chapter: Chapter
    beside: tuple[int, ...]
    stated: tuple[Stated, ...]


def stretches(
    shown: Shown, stated: Sequence[Stated], expected: Expectations
) -> Iterator[Stretch]:
    """What is stated of each row that is shown."""
    if not shown.chapters:
        return
    ends = [chapter.time for chapter in shown.chapters[1:]]
    following = [chapter.at for chapter in shown.chapters[1:]]
    for chapter, end, after in zip(
        shown.chapters, [*ends, float("inf")], [*following, 0],
        strict=True,
    ):  # fmt: skip
        own = tuple(one for one in stated if chapter.time <= one.time < end)
        same_part = expected.outcomes[chapter.at].step.part
        between = tuple(
            at
            for at in range(chapter.at + 1, after)
            if expected.has_own_words(at) and expected.outcomes[at].step.part == same_part
        )
        yield Stretch(chapter, between, own)


def slips_in(
    checked: Checked,
    stretch: Stretch,
    words: Sequence[Word],
    shown: Shown,
    expected: Expectations,
) -> Iterator[Slip]:
    """What is stated of a row and told otherwise in the pattern, each thing once."""
    seen: set[tuple[str, int | None]] = set()
    for place, one in enumerate(stretch.stated):
        rows = (stretch.chapter.at, *stretch.beside)
        rows += tuple(_spoken_of(one, stretch.chapter.at, words, shown))
        ranges = rows_named_with(one, words)
        if ranges:
            told = _of_recall(one, ranges, expected)
        else:
            before = stretch.stated[place - 1] if place else None
            told = _contradicted(one, before, rows, expected) or _beside_others(
                stretch.stated, place, rows, expected
            )
        if told and (one.what, one.number) not in seen:
            seen.add((one.what, one.number))
            yield slip_of(checked, stretch.chapter, one, told)


def _spoken_of(one: Stated, at: int, words: Sequence[Word], shown: Shown) -> Iterator[int]:
    """Rows that are looked back or ahead to in the same sentence or the one before."""
    start, end = sentence_around(words, one.first)
    since = sentence_around(words, max(0, start - _BEFORE_SENTENCE))[0]
    for mention in shown.mentioned:
        if since <= mention.word < end:
            yield from mention.places
    texts = [word.text for word in words[start:end]]
    pairs = set(pairwise(texts))
    near = {word.text for word in words[max(0, one.first - _NEAR_TURN) : one.first]}
    near |= {word.text for word in words[one.stop : one.stop + _NEAR_TURN]}
    if pairs & set(_NEXT_ROW) or (one.what == "chain" and near & {"turn", "turning"}):
        yield at + 1
    if pairs & set(_ROW_BEFORE) and at:
        yield at - 1


def _contradicted(
    one: Stated, before: Stated | None, rows: Sequence[int], expected: Expectations
) -> tuple[str, ...]:
    """What the row has instead; nothing where what is said is no contradiction."""
    says = [expected.of(at) for at in rows if at < len(expected.outcomes)]
    own = [numbers for row in says if (numbers := _numbers_of(one, row, before))]
    if own:
        allowed = frozenset[int | None]().union(*own)
        allowed |= {
            number
            for told in expected.recalls.values()
            for what, number in told
            if what == one.what
        }
        if one.number is None or one.number in allowed or allowed == {None}:
            return ()
        first = own[0] - {None} or allowed
        return tuple(str(number) for number in sorted(n for n in first if n is not None))
    if one.what in {"times", "more times", "count"} or one.sure < _SURE:
        return ()
    if one.what in {"chain", "skip"}:
        return (f"no {one.what}",)
    return tuple(what for what in says[0].numbers if what not in _NO_STITCH)


def _numbers_of(one: Stated, row: RowSays, before: Stated | None) -> frozenset[int | None]:
    """The numbers that a row has of what is stated; none where it has none of it."""
    every = row.numbers.get(one.what, frozenset())
    if one.placed:
        return row.placed.get(one.what, every)
    in_next = row.in_next.get(one.what)
    if not one.of_next or in_next is None:
        return every
    if before is not None and before.what == one.what:
        # The first of two was said by itself, so this number is not of both.
        return in_next & every | {None}
    return in_next


def _of_recall(
    one: Stated, ranges: Sequence[Range], expected: Expectations
) -> tuple[str, ...]:
    """How often rows are worked again, where that is said otherwise."""
    told = [expected.recalls[rows] for rows in ranges if rows in expected.recalls]
    if not told or any((one.what, one.number) in own for own in told):
        return ()
    numbers = {number for own in told for what, number in own if what == one.what}
    return tuple(str(number) for number in sorted(numbers))


def _beside_others(
    stated: Sequence[Stated], place: int, rows: Sequence[int], expected: Expectations
) -> tuple[str, ...]:
    """What a row has beside two other things where another number of it is said.

    Told only where the number nowhere stands beside either of its neighbours.
    """
    if (stated[place].number or 0) >= _LEAST_TOTAL:
        return ()  # all that the row has of it
    says = [expected.of(at) for at in rows if at < len(expected.outcomes)]
    for start in (place - 1, place - 2, place):
        three = stated[start : start + 3] if start >= 0 else ()
        if len(three) < 3 or not all(map(_side_by_side, three, three[1:])):
            continue
        things = [(one.what, one.number) for one in three]
        own = place - start
        if None in {number for _, number in things} or _stands(things, own, says):
            continue
        key = without_number(things, own)
        numbers = frozenset[int | None]().union(*(one.threes.get(key, ()) for one in says))
        told = sorted(n for n in numbers if n is not None)
        if told:
            return tuple(map(str, told))
    return ()


def _stands(things: Sequence[Thing], own: int, says: Sequence[RowSays]) -> bool:
    """Whether one of three things stands beside one of the others in a row."""
    near = [pair for at, pair in enumerate(pairwise(things)) if own in (at, at + 1)]
    return any(pair in one.pairs for one in says for pair in near)


def _side_by_side(one: Stated, other: Stated) -> bool:
    return 0 <= other.first - one.stop <= _SIDE_BY_SIDE


def slip_of(checked: Checked, chapter: Chapter, one: Stated, told: Sequence[str]) -> Slip:
    """A slip with its sentence."""
    named = {
        "times": "times", "more times": "more times", "count": "stitches",
        "chain": "chain", "skip": "skip",
    }  # fmt: skip
    what = named.get(one.what) or said(checked, one.what)
    if one.what.endswith("tog") and one.of_next:
        what += " over"
    numbers = [word for word in told if word.isdigit()]
    text = (
        f"{what} {' or '.join(numbers)}"
        if numbers
        else " or ".join(said(checked, word) for word in told)
    )
    row = f"{chapter.part}, {chapter.row}" if chapter.part else chapter.row
    message = (
        f'At {clock(one.time)}, {row}: "{one.words}" is said, and the text has {text}.'
    )
    return Slip(one.time, row, one.words, text, message)
