"""What is known of a lesson, as values. Times are in seconds from its beginning."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Close(StrEnum):
    """How close the camera is."""

    WHOLE = "the whole piece"
    HANDS = "both hands and the row"
    STITCH = "so close that one stitch fills a third of the picture"


class Move(Struct, frozen=True):
    """Something that a hand must learn.

    Attributes:
        key: What tells it from others: two rows with the same key ask for the same move.
        words: What it is called, as in "a decrease over 3 stitches".
        show: What is to be seen of it.
    """

    key: str
    words: str
    show: str = ""


class RowMoves(Struct, frozen=True):
    """The moves of one row.

    Attributes:
        at: Its place among all rows that are worked, from 0.
        name: What it is called.
        part: The name of its part.
        moves: All its moves, in working order.
        new: Those that no row before it asks for.
    """

    at: int
    name: str
    part: str
    moves: tuple[Move, ...]
    new: tuple[Move, ...]


class TeachingSwatch(Struct, frozen=True):
    """The smallest piece that shows every move.

    Attributes:
        repeats: Its repeats; None for a piece that has none.
        chain: Its foundation chain; None where it begins without one.
        rows: The rows to work, as places among those of `at_repeats`.
        names: What these rows are called, with their parts.
        of: How many rows the pattern has.
        stitches: Stitches in all.
        metres: How much yarn it takes, about; None where that is not known.
        minutes: How long it takes to work.
        said: How it was found.
    """

    repeats: int | None
    chain: int | None
    rows: tuple[int, ...]
    names: tuple[str, ...]
    of: int
    stitches: int
    metres: float | None
    minutes: int
    said: tuple[str, ...] = ()


class Scene(Struct, frozen=True):
    """One scene.

    Attributes:
        number: Its number, from 1.
        title: What it is called, as a chapter.
        row: What the row is called; "" for a scene that is of no row.
        start: When it begins.
        end: When it ends.
        show: What is to be seen, in sentences.
        close: How close.
        ready: The piece to have in hand when it begins; "" where none is.
        say: What is said, in sentences.
        at: The place of its row among all; None for a scene that is of no row.
    """

    number: int
    title: str
    row: str
    start: int
    end: int
    show: tuple[str, ...]
    close: Close
    ready: str
    say: tuple[str, ...]
    at: int | None = None


class Cue(Struct, frozen=True):
    """One caption: what stands on the screen, in one or two lines, and when."""

    start: float
    end: float
    lines: tuple[str, ...]


class RowTime(Struct, frozen=True):
    """Where a row is shown: its label, and the time; `like` names the row it is as."""

    part: str
    row: str
    start: int
    like: str = ""


class Lesson(Struct, frozen=True):
    """A lesson.

    Attributes:
        title: What the design is called.
        terms: "US" or "UK".
        moves: All rows with their moves.
        swatch: The teaching swatch; None where no row could be worked.
        scenes: Its scenes.
        cues: Its captions.
        rows: The row-to-time table.
        pieces: The pieces to have ready before the camera runs.
        cautions: What is said where work can hurt.
        finishing: What is to be learnt behind the last row.
    """

    title: str
    terms: str
    moves: tuple[RowMoves, ...]
    swatch: TeachingSwatch | None
    scenes: tuple[Scene, ...]
    cues: tuple[Cue, ...]
    rows: tuple[RowTime, ...]
    pieces: tuple[str, ...]
    cautions: tuple[str, ...]
    finishing: tuple[Move, ...] = ()
