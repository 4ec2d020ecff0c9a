"""What was heard in a filmed lesson, as values. Times are in seconds."""

from __future__ import annotations

from msgspec import Struct


class Cue(Struct, frozen=True):
    """What was said in a stretch of the film."""

    start: float
    end: float
    words: str


class Word(Struct, frozen=True):
    """One word, with the time it is taken to be said at, and that of its cue."""

    text: str
    time: float
    cue: float


class Stated(Struct, frozen=True):
    """Something said that the pattern tells as well: a stitch, or so many of it.

    Attributes:
        what: What it is of: a stitch by its name, "chain", "skip", "times", "count".
        number: How many; None where none is said, or it is not certain which.
        time: When.
        words: The words as they were heard.
        sure: How alike the words are to what they are taken for, up to 100.
        first: The first of its words among all that were heard.
        stop: The word behind its last one.
        of_next: Whether it is told in how many places: "in the next 8".
        placed: Whether it is told where they go, so that it is no total: "in the ring".
    """

    what: str
    number: int | None
    time: float
    words: str
    sure: float = 100.0
    first: int = 0
    stop: int = 0
    of_next: bool = False
    placed: bool = False


class Announced(Struct, frozen=True):
    """A row that may be announced.

    Attributes:
        time: When that begins.
        places: The rows it may be.
        until: The number up to which rows are announced together; 0 for one row.
        weight: How sure that is.
        in_turn: Whether it is one only if it is the next row.
        with_part: Whether its part is named with it.
    """

    time: float
    places: tuple[int, ...]
    until: int = 0
    weight: float = 1.0
    in_turn: bool = False
    with_part: bool = False
    word: int = 0


class Mentioned(Struct, frozen=True):
    """A row that is only looked back or ahead to, by the word its name begins with."""

    word: int
    places: tuple[int, ...]


class Chapter(Struct, frozen=True):
    """A row that is shown, and when that begins."""

    time: float
    part: str
    row: str
    at: int


class Slip(Struct, frozen=True):
    """Something said that the pattern tells otherwise.

    Attributes:
        time: When.
        row: The row it is said of.
        heard: What was said.
        text: What the pattern says.
        message: The same in a sentence.
    """

    time: float
    row: str
    heard: str
    text: str
    message: str


class Heard(Struct, frozen=True):
    """A filmed lesson held against its pattern.

    Attributes:
        chapters: The rows shown.
        slips: What is said otherwise.
        not_shown: Moves that no row shown asks for and that are never named.
        left_out: Rows between those shown that are worked otherwise than any of them.
        size: The size that is worked, by its number.
        refused: Why nothing could be read of it; "" where something could.
    """

    chapters: tuple[Chapter, ...] = ()
    slips: tuple[Slip, ...] = ()
    not_shown: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    size: int = 0
    refused: str = ""
