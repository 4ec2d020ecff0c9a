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
    """

    what: str
    number: int | None
    time: float
    words: str
    sure: float = 100.0


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
        refused: Why nothing could be read of it; "" where something could.
    """

    chapters: tuple[Chapter, ...] = ()
    slips: tuple[Slip, ...] = ()
    not_shown: tuple[str, ...] = ()
    refused: str = ""
