"""One movement of an edging's row after the other, and what the row comes to."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto

from msgspec import Struct


class Form(Enum):
    """How a movement takes its places."""

    PLAIN = auto()
    SEVERAL = auto()
    TOGETHER = auto()
    SKIP = auto()
    FREE = auto()


class Move(Struct, frozen=True):
    """What one movement takes and makes.

    Attributes:
        form: How it takes its places.
        stitch: The stitch, by its US name; for FREE the words, with US names in braces.
        takes: Places of the edge it uses up.
        makes: Stitches it leaves.
        noun: What a place is called: "st", "ch", "row end", "ch-2 sp".
    """

    form: Form
    stitch: str
    takes: int = 1
    makes: int = 1
    noun: str = "st"


Moves = tuple[Move, ...]


def plain(stitch: str, noun: str = "st") -> Move:
    """One stitch in a place of its own."""
    return Move(Form.PLAIN, stitch, noun=noun)


def several(number: int, stitch: str, noun: str = "st") -> Move:
    """Some stitches in one place; one is a plain one."""
    return Move(Form.SEVERAL if number > 1 else Form.PLAIN, stitch, 1, number, noun)


def together(legs: int, stitch: str, noun: str = "st") -> Move:
    """One stitch over several places."""
    return Move(Form.TOGETHER, stitch, legs, 1, noun)


def skip(number: int = 1, noun: str = "st") -> Move:
    """Places passed over."""
    return Move(Form.SKIP, "", number, 0, noun)


def free(words: str, *, makes: int = 0) -> Move:
    """What uses no place: chains, picots."""
    return Move(Form.FREE, words, 0, makes)


CORNER = free("")
"""Where a side of a round ends: it is not told, and no repeat of one side runs past it."""


def taken(moves: Iterable[Move]) -> int:
    """How many places some movements use up."""
    return sum(move.takes for move in moves)


def made(moves: Iterable[Move]) -> int:
    """How many stitches some movements leave."""
    return sum(move.makes for move in moves)
