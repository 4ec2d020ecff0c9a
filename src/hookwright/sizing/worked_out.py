"""What does a chain come to that the text works out: "12 x 4 + 1 + 2 = 51 chains"?

Each number of such a sum says one thing of the multiple: how many repeats there are, what
they come to, the whole chain, or what one repeat or an edge takes. The first three change
with the size and the others stay. Where a number could be either, or is neither, the sum is
left alone, and the designer is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.regex import regex
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.slots import Slot, Values, is_number_word
from hookwright.source import Span

_NUMBER = regex(r"[A-Za-z]+|\d+")
_SENTENCE_END = regex(r"[.!?;:]\s|\n")


def in_a_sum(
    text: str, whole: Slot, parts: Sequence[PartMultiple], repeats: Sequence[int]
) -> tuple[Slot, ...]:
    """The numbers of the sum that a chain is told in; none where it is no sum.

    Args:
        text: The text.
        whole: The chain, with the words that it stands in.
        parts: The piece as written, in the size that each of the sizes wanted is made from.
        repeats: How many repeats each of the sizes wanted has.
    """
    words = text[whole.span.start : whole.span.end]
    if words.isdigit() or is_number_word(words):
        return ()
    moving = _moving(whole, parts, repeats)
    fixed = _fixed(parts)
    found: list[Slot] = []
    for span, value in _numbers(text, _sentence(text, whole.span)):
        now = moving.get(value)
        if (now is None) == (value not in fixed):
            return ()  # it says nothing that is known of the multiple, or one of two things
        if now is not None:
            found.append(Slot(span, (value,), now, whole.what))
    told = {one.was for one in found}
    return tuple(found) if whole.was in told and len(told) > 1 else ()


def _moving(
    whole: Slot, parts: Sequence[PartMultiple], repeats: Sequence[int]
) -> Mapping[int, Values]:
    """What each number of the sum becomes that changes with the size."""
    first = parts[0]
    if first.chains is None or first.stitches is None or len(whole.was) > 1:
        return {}
    chains, stitches = first.chains, first.stitches
    told = {
        first.repeats: repeats,
        chains.each * first.repeats: [chains.each * number for number in repeats],
        stitches.at(first.repeats): [stitches.at(number) for number in repeats],
        whole.was[0]: whole.now,
    }
    return {was: _one_or_all(now) for was, now in told.items() if was is not None}


def _one_or_all(values: Sequence[int | None]) -> Values:
    return tuple(values[:1] if len(set(values)) == 1 else values)


def _fixed(parts: Sequence[PartMultiple]) -> set[int]:
    """What one repeat and the edges take."""
    chains = parts[0].chains
    return set() if chains is None else {chains.each, *range(1, chains.extra + 1)}


def _sentence(text: str, span: Span) -> Span:
    """The sentence that some words stand in, from its beginning to where they end."""
    before = list(_SENTENCE_END.finditer(text, 0, span.start))
    return Span(before[-1].end() if before else 0, span.end)


def _numbers(text: str, span: Span) -> Iterator[tuple[Span, int]]:
    """The numbers in some words, in figures or letters; "fives" is 5."""
    for found in _NUMBER.finditer(text, span.start, span.end):
        word = found[0].lower()
        value = int(word) if word.isdigit() else _value_of(word)
        if value is not None:
            yield Span(found.start(), found.end()), value


def _value_of(word: str) -> int | None:
    one = re.sub(r"(?:e(?=s$))?s$", "", word)
    return NUMBER_WORDS.get(word, NUMBER_WORDS.get(one, NUMBER_WORDS.get(f"{one}e")))
