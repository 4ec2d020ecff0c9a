"""What an answer to a maker is, as values."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from hookwright.answers.slips import Where

Figure = int | float | str | None


class Reply(Struct, frozen=True):
    """One question answered.

    Attributes:
        question: What was asked, in a few words.
        answer: The answer in sentences, to be pasted.
        working: How each number in it came about, in sentences.
        cautions: What has to be said beside it.
        figures: Its numbers by name, for programs; lengths are in millimetres.
        answered: Whether it could be answered; where not, `answer` says why.
    """

    question: str
    answer: tuple[str, ...]
    working: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()
    answered: bool = True


class Told(Struct, frozen=True):
    """A count that a maker tells.

    Attributes:
        at: The number of the row among all that are worked, from 0.
        name: What it is called: "Row 12".
        part: The part that it is in; "" for a pattern in one.
        counted: What she counts.
        right: What the pattern makes.
        words: What she wrote.
    """

    at: int
    name: str
    part: str
    counted: int
    right: int
    words: str

    @property
    def off(self) -> int:
        """By how much her count is off: above 0 for too many."""
        return self.counted - self.right


class Scope(StrEnum):
    """How often a slip was made."""

    ONCE = "once"
    EACH_ROW = "again in each row"
    EVERY_PLACE = "at every such place of the row"
    EARLIER = "in a row before"


class Suspect(Struct, frozen=True):
    """What may have happened: classes of slips that leave the very same numbers.

    Attributes:
        scope: How often.
        where: The classes, the likeliest first.
        what: What was done, for each class.
    """

    scope: Scope
    where: tuple[Where, ...]
    what: tuple[str, ...]


class Diagnosis(Struct, frozen=True):
    """Why a count is off.

    Attributes:
        told: The counts, in working order.
        at: The first of them that is off; None where all are right.
        suspects: What may have happened, the likeliest first.
        before_known: Whether the row before is known to be right.
    """

    told: tuple[Told, ...]
    at: Told | None = None
    suspects: tuple[Suspect, ...] = ()
    before_known: bool = False
