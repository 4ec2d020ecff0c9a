"""Which numbers of a row are written out, and the row with one of them changed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Make,
    Node,
    Repeat,
    Skip,
    Tail,
)
from hookwright.regex import regex
from hookwright.source import Span

LONGEST_PHRASE = 36
_TIMES = ("once", "twice", "thrice")
_OF_ONE = regex(r"(?<=\b1 )((?:more )?(?:st|sp|ch|lp|time))s\b", re.IGNORECASE)
_ONE_NUMBER = regex(r"\d+|[-–—](?!\d)")


class WrittenNumber(Struct, frozen=True):
    """A number that a row is told with.

    Attributes:
        amount: The number, or a list with one a size.
        phrase: The words it belongs to: "dc in next 4 sts", "5 times".
        is_skip: Whether so many places are skipped.
    """

    amount: Amount
    phrase: Span
    is_skip: bool = False


def written_in(nodes: Sequence[Node]) -> Iterator[WrittenNumber]:
    """The numbers of stitches, places and repeats in a row; chains stand for themselves."""
    for node in nodes:
        if isinstance(node, Make):
            yield from _of((node.amount,), node.span)
        if isinstance(node, Repeat):
            yield from written_in(node.body)
            yield from _of((node.times.amount,), node.times.span)
        if isinstance(node, (InOnePlace, Tail)):
            yield from written_in(node.body)
        target = node.target if isinstance(node, (Make, Skip)) else None
        if target is not None:
            until = target.until.amount if target.until is not None else None
            yield from _of(
                (target.amount, until), node.span, is_skip=isinstance(node, Skip)
            )


def _of(
    amounts: Sequence[Amount | None], phrase: Span, *, is_skip: bool = False
) -> Iterator[WrittenNumber]:
    for amount in amounts:
        if amount is not None and amount.span in phrase:
            yield WrittenNumber(amount, phrase, is_skip)


def first_chain(nodes: Sequence[Node]) -> WrittenNumber | None:
    """The chain that a row begins with, as a number to be changed."""
    chain = next((node for node in nodes if isinstance(node, Chain)), None)
    return None if chain is None else WrittenNumber(chain.amount, chain.span)


def with_number(
    nodes: tuple[Node, ...], amount: Amount, value: int, size: int
) -> tuple[Node, ...]:
    """A row with another number in one place, in all sizes or the one it is written for."""
    at = size if len(amount.values) > 1 else 0
    values = (*amount.values[:at], value, *amount.values[at + 1 :])
    other = replace(amount, values=values)
    return rebuilt(nodes, lambda part: other if part == amount else part)


def said_with(words: str, amount: Amount, value: int, size: int) -> str | None:
    """The words of a number with another value; None where they are no plain number."""
    if len(amount.values) == 1:
        plain = words.isdigit() or words.lower() in NUMBER_WORDS
        if words.lower() in _TIMES:
            return _TIMES[value - 1] if value <= 2 else f"{value} times"
        return f"{value}" if plain else None
    numbers = list(_ONE_NUMBER.finditer(words))
    if len(numbers) != len(amount.values) or size >= len(numbers):
        return None
    own = numbers[size]
    return f"{words[: own.start()]}{value}{words[own.end() :]}"


def in_the_singular(words: str) -> str:
    """Words in which a number has become one: "sc in next 1 sts" says "1 st"."""
    return _OF_ONE.sub(r"\1", words)


def phrase_around(text: str, number: WrittenNumber, at: int) -> Span:
    """The words to show a number in, in the text: its phrase, where that is short enough.

    Args:
        text: The whole text.
        number: The number, counted from where its row begins.
        at: Where that is.
    """
    phrase, own = number.phrase, number.amount.span
    words = text[at + phrase.start : at + phrase.end]
    span = phrase if len(words) <= LONGEST_PHRASE and "\n" not in words else own
    return Span(at + span.start, at + span.end)
