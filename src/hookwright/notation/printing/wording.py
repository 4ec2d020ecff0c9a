"""The few words beside the stitches that US and UK writers differ in."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.printing.terms import plain_words
from hookwright.source import Span


class Style(Struct, frozen=True):
    """How instructions are set.

    Attributes:
        spoken: To be heard: without stars, brackets and other signs.
        brackets: Repeats in brackets, "[...] 4 times", where they can stand so.
        dash: A count behind a dash, "- 20 sts", not in brackets.
        behind: A number behind a bare stitch: "dc 5", not "5 dc".
        one_a_line: Each action on a line of its own, those of a repeat set in.
        remarks: All words beside the instructions too, not only those that tell the work.
        listed: Whether numbers are lists with one a size.
    """

    spoken: bool = False
    brackets: bool = False
    dash: bool = False
    behind: bool = False
    one_a_line: bool = False
    remarks: bool = False
    listed: bool = False


class Wording(Struct, frozen=True):
    """How a pattern is worded.

    Attributes:
        terms: "US" or "UK": skip or miss, center or centre.
        in_rounds: Whether the row at hand is a round, which one goes around, not across.
        own_words: Names of the stitches the pattern defines: nouns like any other.
        style: How instructions are set.
        own_phrases: Instructions that stand in their own words, by their spans.
    """

    terms: str = "US"
    in_rounds: bool = False
    own_words: frozenset[str] = frozenset()
    style: Style = Style()
    own_phrases: Mapping[Span, str] = field(default_factory=dict)

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
