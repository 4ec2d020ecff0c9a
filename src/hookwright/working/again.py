"""A pattern worked again, with something otherwise from some row on.

What lies before that row is kept, and rows that stay as they were are not worked anew. One
effort is for all that is tried on a text, so that one with many mistakes, or many numbers,
takes no longer for it.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.tree import RowText
from hookwright.working.hook import Effort
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.plan import Plan, plan_of
from hookwright.working.problems import problems_of
from hookwright.working.reading_state import State
from hookwright.working.search import Search
from hookwright.working.steps import Step

_MOST_EFFORT = 30_000
_EACH_STATE = 2
"""What a row costs that need not be worked anew, for each of its readings."""
_EACH_WORD = 4
"""How often all rows may be worked through in a text of many words."""


class Again(Struct):
    """One size of a pattern, ready to be worked with something otherwise.

    Attributes:
        working: How it came out as it is written.
        search: Works its rows under the same conventions.
    """

    working: Working
    search: Search
    known: dict[int, list[State]] = field(default_factory=dict)

    @property
    def steps(self) -> tuple[Step, ...]:
        """The rows as they are written."""
        return self.working.plan.steps

    @property
    def effort(self) -> Effort:
        """What may still be tried on the text."""
        return self.search.effort

    def before(self, at: int) -> list[State]:
        """The readings of all rows before one, as they are written."""
        start = max((n for n in self.known if n <= at), default=0)
        states = self.known.get(start, [State()])
        for step in self.steps[start:at]:
            states = self.search.after(states, step)
        self.known[at] = states
        return states

    def through(self, first: int, steps: Sequence[Step]) -> list[State]:
        """The readings with other rows from one on; none where no more may be worked."""
        states = self.before(first)
        for step in steps:
            if self.effort.left < 0:
                return []
            states = self.search.after(states, step)
            self.effort.allow(-_EACH_STATE * len(states))
        return states

    def amiss(self, outcomes: Sequence[Outcome]) -> int:
        """How many of some rows do not come out."""
        return sum(bool(problems_of(self.working, outcome)) for outcome in outcomes)


def planned_with(worked: WorkedPattern, row: RowText, other: RowText, size: int) -> Plan:
    """The rows to be worked where one row of the text is another."""
    pattern = worked.pattern
    parts = [
        replace(part, rows=tuple(other if own is row else own for own in part.rows))
        for part in pattern.parts
    ]
    return plan_of(parts, size, pattern.sizes, worked.sizes[size].plan.reached)


def effort_on(worked: WorkedPattern) -> Effort:
    """What may be tried on a text, in all its sizes together."""
    words = sum(len(s.nodes) for size in worked.sizes for s in size.plan.steps)
    return Effort(_MOST_EFFORT + _EACH_WORD * words)


def again(worked: WorkedPattern, size: int, effort: Effort) -> Again:
    """A size of a pattern, under the conventions that it was read in."""
    working = worked.sizes[size]
    conventions = working.assumption.conventions
    return Again(working, Search(worked.pattern, size, worked.terms, conventions, effort))
