"""The few words beside the stitches that US and UK writers differ in."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.printing.terms import plain_words


class Wording(Struct, frozen=True):
    """How a pattern is worded.

    Attributes:
        terms: "US" or "UK": skip or miss, center or centre.
        in_rounds: Whether the row at hand is a round, which one goes around, not across.
        own_words: Names of the stitches the pattern defines: nouns like any other.
    """

    terms: str = "US"
    in_rounds: bool = False
    own_words: frozenset[str] = frozenset()

    @property
    def skip(self) -> str:
        """To pass over a place."""
        return plain_words(self.terms)["sk"]

    @property
    def centre(self) -> str:
        """The middle one."""
        return plain_words(self.terms)["center"]

    @property
    def colour(self) -> str:
        """What a yarn is told by."""
        return plain_words(self.terms)["color"]

    @property
    def to_the_end(self) -> str:
        """Until the places run out."""
        return "around" if self.in_rounds else "across"

    @property
    def row(self) -> str:
        """What a labelled line of instructions is called."""
        return "Rnd" if self.in_rounds else "Row"

    def for_rounds(self, *, in_rounds: bool) -> Wording:
        """The same wording for a row, or for a round."""
        return replace(self, in_rounds=in_rounds)
