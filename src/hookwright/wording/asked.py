"""Which wording of a pattern is wanted?"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Form(StrEnum):
    """How the words of a pattern are set.

    SHORT has the abbreviations of the trade, LONG every word in full, and SPOKEN is for a
    screen reader: in full, without signs and bare brackets, its counts said.
    """

    SHORT = "short"
    LONG = "long"
    SPOKEN = "spoken"


class HouseStyle(Struct, frozen=True):
    """How a designer writes, as her worksheet says; "" where it does not say.

    Attributes:
        repeats: "stars" for "*...; rep from *", "brackets" for "[...] 4 times".
        counts: "brackets" for "(20 sts)", "dash" for "- 20 sts".
        numbers: "before" for "5 dc", "behind" for "dc 5".
        fractions: How a half is written: "1/2", "½", "0.5" or "0,5".
    """

    repeats: str = ""
    counts: str = ""
    numbers: str = ""
    fractions: str = ""

    @property
    def sets_rows(self) -> bool:
        """Whether it says anything of rows, so that these are set anew in it."""
        return bool(self.repeats or self.counts or self.numbers)


class Asked(Struct, frozen=True):
    """What was asked for. All of it may be asked for at once.

    Attributes:
        terms: "US", "UK", or None for the pattern's own.
        form: How its words are set.
        size: The number of the only size wanted, from 0; None for all of them.
        left_handed: Whether it is for a maker who holds the hook in the left hand.
        one_a_line: Whether each action of a row stands on a line of its own.
        style: How she writes.
    """

    terms: str | None = None
    form: Form = Form.SHORT
    size: int | None = None
    left_handed: bool = False
    one_a_line: bool = False
    style: HouseStyle = HouseStyle()

    @property
    def sets_rows(self) -> bool:
        """Whether rows are set anew from the tree, not in the words they are written in."""
        return self.form is Form.SPOKEN or self.one_a_line or self.style.sets_rows
