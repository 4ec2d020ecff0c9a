"""One reading of the rows so far, with what it has cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Chain, Node, Yarn
from hookwright.working import evidence
from hookwright.working.conventions import PLAIN_READING, Choice, Readings
from hookwright.working.count import Count
from hookwright.working.counted_units import HABITS, Habit
from hookwright.working.fabric import Edge
from hookwright.working.openings import Opening
from hookwright.working.outcome import Outcome
from hookwright.working.sides import NO_SIDES, Sides
from hookwright.working.stated import Agreement
from hookwright.working.steps import Step

NOTHING = Edge(())


class State(Struct):
    """One reading of the rows so far.

    `settled` is how rows whose counts are proven were read, by part and number, where that
    is not the plain way: a row that is one of them again is read as it was.
    """

    edge: Edge = NOTHING
    pending: Chain | None = None
    yarn: str | None = None
    main: str = "sc"
    in_rounds: bool = False
    finished: bool = False
    part: int = -1
    rests: tuple[Edge, ...] = ()
    cost: int = 0
    denied: tuple[int, int, int] = (0, 0, 0)
    outcomes: tuple[Outcome, ...] = ()
    resized: bool = False
    has_chain: bool = False
    sides: Sides = NO_SIDES
    in_loop: bool = False
    openings: tuple[Opening, ...] = ()
    settled: Mapping[tuple[int, int], Readings] = {}

    def total(self) -> int:
        """The cost with the counts denied in the best habit."""
        return self.cost + _least(self.denied)

    @property
    def habit(self) -> Habit:
        """How the counts so far are likeliest meant."""
        costs = _counting(self.denied)
        return Habit(costs.index(min(costs)))

    def habits_before(self) -> tuple[Habit, ...]:
        """How the counts before the last row may be meant: two denied are one too many."""
        agrees = self.outcomes[-1].agrees
        denied = [
            number - sum(not agreed[habit] for agreed in agrees)
            for habit, number in enumerate(self.denied)
        ]
        most = min(denied) + 1
        return tuple(habit for habit in HABITS if denied[habit] <= most)


@lru_cache(maxsize=64)  # most rows deny nothing, and each is asked several times
def _least(denied: tuple[int, int, int]) -> int:
    """What so many counts denied cost in the best habit."""
    return min(_counting(denied))


def _counting(denied: tuple[int, int, int]) -> tuple[int, ...]:
    """What so many counts denied cost in each habit."""
    pairs = zip(denied, evidence.UNUSUAL, strict=True)
    return tuple(evidence.DENIED * number + unusual for number, unusual in pairs)


def denied_with(state: State, step: Step, agrees: Agreement) -> tuple[int, int, int]:
    """How many counts are denied in each habit, with those of a further row.

    A count told once for all odd rows is denied once, however many rows it is told for.
    """
    if all(map(all, agrees)):
        return state.denied
    label = step.text.label
    every = label is not None and bool(label.every)
    before = [o.agrees for o in state.outcomes if every and o.step.text is step.text]
    denied = list(state.denied)
    for number, agreed in enumerate(agrees):
        for habit in HABITS:
            told = any(len(a) > number and not a[number][habit] for a in before)
            denied[habit] += not (agreed[habit] or told)
    return denied[0], denied[1], denied[2]


def with_settled(state: State, step: Step, readings: Readings) -> State:
    """Keeps how a row of the text was read, for the rows that are this one again."""
    kept = readings and readings - {Choice.AS_MANY_AS_FIT}
    if not kept or step.recalled is not None or step.number is None:
        return state
    if not is_proven(state):
        return state
    settled = {**state.settled, (step.part, step.number): kept}
    return replace(state, settled=settled)


def settled_before(state: State, step: Step) -> Readings:
    """How the row was read that is worked again."""
    return state.settled.get((step.part, step.recalled or 0), PLAIN_READING)


def is_proven(state: State) -> bool:
    """Whether the counts printed with the last row agree, and there are some."""
    agrees = state.outcomes[-1].agrees
    return bool(agrees) and all(any(agreed) for agreed in agrees)


def is_closed(state: State) -> bool:
    """Whether the last row is proven, and leaves nothing that it should have used."""
    last = state.outcomes[-1]
    worked = last.worked
    left = worked is not None and (worked.left or worked.missing) and not last.meant
    return is_proven(state) and not left


def with_taken_up(state: State, rest: Edge) -> State:
    """Keeps that what an earlier row left has been worked by now, so it was meant.

    "Hdc in next 10 sts, turn": the first shoulder, where the second one goes on behind it.
    """
    last = state.outcomes[-1].worked
    if last is None or last.left or last.missing or not is_proven(state):
        return state
    left = [o for o in state.outcomes[:-1] if not o.meant and _leaves(o, rest)]
    if not left:
        return state
    outcomes = tuple(replace(o, meant=True) if o in left else o for o in state.outcomes)
    cost = state.cost
    for worked in (outcome.worked for outcome in left):
        assert worked is not None
        cost -= evidence.unclosed(worked, meant=False)
        cost += evidence.unclosed(worked, meant=True)
    return replace(state, outcomes=outcomes, cost=cost)


def _leaves(outcome: Outcome, rest: Edge) -> bool:
    """Whether a row is proven, and left just these stitches."""
    worked = outcome.worked
    proven = bool(outcome.agrees) and all(map(any, outcome.agrees))
    return proven and worked is not None and bool(worked.left) and worked.rest == rest


def with_literal(state: State, missing: Count) -> State:
    """Keeps how many places the words would have wanted."""
    last = replace(state.outcomes[-1], literal_missing=missing)
    return replace(state, outcomes=(*state.outcomes[:-1], last))


def enter(state: State, step: Step) -> State:
    """The state in the part of a row: what the part before left stays at hand."""
    return state if state.part == step.part else replace(state, part=step.part)


def yarn_after(nodes: Sequence[Node], state: State) -> str | None:
    """The yarn on the hook after a row."""
    names = [node.name for node in nodes if isinstance(node, Yarn) and node.name]
    return names[-1] if names else state.yarn
