"""A row of one version: what it is called, its words, its printed count."""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.rebuilding import bare
from hookwright.source import Source
from hookwright.versions.facts import Change, Kind
from hookwright.working.outcome import Outcome
from hookwright.working.printed_lines import stated_number

_MOST_WORDS = 220


class VersionedRow(Struct, frozen=True):
    """A row of one version in one size.

    Attributes:
        at: Its place among all rows that are worked, from 0.
        outcome: It as worked.
        part: The name of its part.
        source: The text it stands in.
        size: Which size, from 0.
    """

    at: int
    outcome: Outcome
    part: str
    source: Source
    size: int

    @property
    def name(self) -> str:
        """What it is called: "Row 7", or its label where it has no number."""
        step = self.outcome.step
        if step.number is None:
            return step.label or "Foundation"
        return f"{'Round' if step.is_round else 'Row'} {step.number}"

    @property
    def words(self) -> str:
        """The words it is told in, in one line."""
        told = " ".join(self.source.slice(self.outcome.step.text.span).split())
        return told if len(told) <= _MOST_WORDS else f"{told[: _MOST_WORDS - 4]} ..."

    @property
    def stated(self) -> int | None:
        """The count that is printed for it."""
        step = self.outcome.step
        return stated_number(step.claims, self.size, self.outcome.tally)

    @property
    def body(self) -> object:
        """What its words say, without their places."""
        return bare(self.outcome.step.text.body)

    def added(self) -> Change:
        """The change that it is new."""
        return Change(Kind.ADDED, self.part, self.name, "", self.words, first=self.at)

    def removed(self) -> Change:
        """The change that it is left out."""
        return Change(Kind.REMOVED, self.part, self.name, self.words, "", first=self.at)
