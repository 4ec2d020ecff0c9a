"""A pattern worked on a longer or shorter chain, its numbers found row by row.

The foundation and the repeats are unknown, and each row's closing is an equation. What a
row has to take up is known when the row before it has been worked; one more of its repeats
takes up as much as a trial shows, so the number of them follows. Where that is no whole
number, the chain has to grow by a multiple: the least one on which all rows come out is the
multiple of the pattern.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.notation.tree import Amount, Skip
from hookwright.sizing.along_edges import EdgeOf, Rate, length_of, told_along
from hookwright.sizing.closing_alike import closes_alike, off
from hookwright.sizing.facts import Grown, Root, Stuck
from hookwright.sizing.open_numbers import (
    SHORTEST_RUN,
    amounts_of_runs,
    has_repeat_across,
    open_numbers,
)
from hookwright.sizing.slots import amounts_in
from hookwright.sizing.worked_again import with_changes, worked_after
from hookwright.working.foundations import split_foundation
from hookwright.working.hook import Effort
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.reading_state import State
from hookwright.working.search import Search
from hookwright.working.steps import Step

_FEW = (1, 2, 3)
_MOST_WALKS = 120
"""So many chains are tried: with groups of two lengths the least multiple may be long."""


class Taking(Struct, frozen=True):
    """Numbers of a row that take up what is more.

    Attributes:
        amounts: The numbers, which change alike.
        each: How many places one more of each takes up.
    """

    amounts: tuple[Amount, ...]
    each: int

    def covers(self, size: int) -> int:
        """How many places they take up as written."""
        return self.each * max(amount.at(size) or 0 for amount in self.amounts)


class Growing(Struct):
    """One size of a pattern, ready to be worked on other chains.

    Attributes:
        worked: The pattern as written.
        size: Which size.
        steps: Its rows.
        base: Its rows as written, worked without looking at their counts.
        roots: The chains it stands on.
        along: Numbers that are told along an edge, by their identity.
    """

    worked: WorkedPattern
    size: int
    search: Search
    steps: tuple[Step, ...]
    base: tuple[Outcome, ...] = ()
    before: tuple[State, ...] = ()
    roots: tuple[Root, ...] = ()
    along: Mapping[int, EdgeOf] = {}
    _taking: dict[int, Taking | None] = field(default_factory=dict)
    _amounts: dict[tuple[int, ...], tuple[Amount, ...]] = field(default_factory=dict)

    def amounts_of(self, step: Step) -> tuple[Amount, ...]:
        """The numbers of a row; rows that recall one another have the same ones."""
        key = tuple(map(id, step.nodes))  # all steps are kept as long as this
        if key not in self._amounts:
            self._amounts[key] = tuple(amounts_in(step.nodes))
        return self._amounts[key]

    def multiple(self, root: Root) -> Grown | Stuck:
        """The pattern on the next longer chain on which every row comes out.

        Where a row of a later part comes out on none, or a row divides the stitches, the
        rows before it are worked alone.
        """
        found = self._least(root, len(self.steps))
        if isinstance(found, Grown):
            return found
        if self.steps[found.at].part == self.steps[root.at].part and not found.divides:
            return found
        before = self._least(root, found.at)
        return before if isinstance(before, Stuck) else replace(before, stops=found.at)

    def _least(self, root: Root, until: int) -> Grown | Stuck:
        """The next longer chain on which the rows up to one come out."""
        by = least = 1
        furthest = -1
        stuck = Stuck(root.at)
        for _ in range(_MOST_WALKS):
            found = self.on(root, by, until)
            if isinstance(found, Grown):
                return self._again(root, found, until)
            stuck = found
            if found.for_good:
                break
            if found.factor > 1:
                by = least = by * found.factor
            elif found.at > furthest >= 0:
                least = by
                by += least
            else:
                by += least
            furthest = max(furthest, found.at)
        return stuck

    def _again(self, root: Root, found: Grown, until: int) -> Grown | Stuck:
        """What was found, if every number may grow by as much again; else where it may not.

        A row that closes on one other chain by chance is no repeat.
        """
        search = self._search(root, 2 * found.by)
        twice = {number: 2 * more for number, more in found.changes.items()}
        walk = _Walk(self, search, twice, [root.amount])
        again = walk.through(2 * found.by, until)
        if isinstance(again, Stuck):
            return again
        return found if len(walk.amounts) == 1 else Stuck(root.at)

    def divides(self, at: int) -> bool:
        """Whether a row leaves stitches of the last one, and does not say how many.

        Nothing tells then whether the row or what it leaves takes up what is more.
        """
        base, before = self.base[at].worked, self.before[at].outcomes
        if base is None or not base.left or not self.base[at].meant:
            return False
        if not before or before[-1].worked is None:
            return False  # on the chain itself, whose other side is worked later
        return not any(
            isinstance(node, Skip) and node.left and node.target.amount is not None
            for node in self.steps[at].nodes
        )

    def taking(self, at: int) -> Taking | None:
        """Which numbers of a row take up what is more; None where it has none.

        Of several the ones that take up most of the row as it is written. What one of them
        takes up is what is left over without it.
        """
        if at not in self._taking:
            lengths = self._along(at)
            groups = [
                Taking(group, each)
                for group in open_numbers(self.steps[at].nodes, self.size, lengths)
                if (each := self._left_without(at, group)) > 0
            ]
            self._taking[at] = max(
                groups, key=lambda one: one.covers(self.size), default=None
            )
        return self._taking[at]

    def _along(self, at: int) -> set[int]:
        """How long the edges are that a row may be worked along; none on its own chain."""
        if any(root.at == at for root in self.roots):
            return set()
        state = self.before[at]
        sides = {state.edge.stitches, state.sides.chains} - {0}
        return {length for length in sides if isinstance(length, int)}

    def _left_without(self, at: int, group: Sequence[Amount]) -> int:
        """What one less of each number leaves over; or else what one more of each wants."""
        return -self._off_by(at, group, -1) or self._off_by(at, group, 1)

    def _off_by(self, at: int, group: Sequence[Amount], by: int) -> int:
        """How far a row is off with something added to some of its numbers."""
        changes = dict.fromkeys(map(id, group), by)
        nodes = with_changes(self.steps[at].nodes, changes, self.size)
        step, base = replace(self.steps[at], nodes=nodes), self.base[at]
        after = worked_after(self.search, self.before[at], step, base.readings)
        return off(after.outcomes[-1], base) or 0

    def on(self, root: Root, by: int, until: int) -> Grown | Stuck:
        """The rows up to one on so many chains more, or the first that is stuck."""
        search = self._search(root, by)
        return _Walk(self, search, {id(root.amount): by}, [root.amount]).through(by, until)

    def _search(self, root: Root, by: int) -> Search:
        """The search of a pattern on so many chains more."""
        if not root.in_passing:
            return self.search
        values = tuple(value and value + by for value in root.amount.values)
        hint = replace(root.amount, values=values)
        return replace(
            self.search, pattern=replace(self.search.pattern, foundation_hint=hint)
        )


class _Walk(Struct):
    """The rows worked one after the other with other numbers."""

    growing: Growing
    search: Search
    changes: dict[int, int]
    amounts: list[Amount]
    shared: list[int] = field(default_factory=list)
    rates: dict[int, Rate] = field(default_factory=dict)
    floors: dict[int, int] = field(default_factory=dict)

    def through(self, by: int, until: int) -> Grown | Stuck:
        """The rows up to one, or the first that cannot be made to come out."""
        growing = self.growing
        state = State()
        for at, step in enumerate(growing.steps[:until]):
            base = growing.base[at]
            leap = self._go_along(state, at)
            after = self._after(state, step, base)
            if not closes_alike(after.outcomes[-1], base, leap):
                solved = self._solved(state, at, after.outcomes[-1])
                if isinstance(solved, Stuck):
                    return solved
                after = solved
            state = after
        shared, amounts = tuple(self.shared), tuple(self.amounts)
        rates = tuple(self.rates.values())
        return Grown(by, self.changes, state.outcomes, shared, amounts, self.floors, rates)

    def _go_along(self, state: State, at: int) -> int:
        """Lets what a row tells along an edge grow with that edge.

        Returns:
            How many places those edges have more: nothing is said to go into any of them.
        """
        growing, step = self.growing, self.growing.steps[at]
        longer = 0
        if not growing.along:
            return longer
        for amount in growing.amounts_of(step):
            edge = growing.along.get(id(amount))
            if edge is None:
                continue
            was = length_of(edge, growing.before[at], step)
            now = length_of(edge, state, step)
            if was is None or now is None or was == now:
                continue
            longer += now - was
            if id(amount) in self.changes:
                continue
            rate = Rate(amount, was, now)
            number, more = amount.at(growing.size), rate.at(1, growing.size)
            if number is None or more is None:
                continue
            if rate.is_exact(growing.size):
                self.changes[id(amount)] = more - number
                self.amounts.append(amount)
            else:
                self.rates[id(amount)] = rate
        return longer

    def _after(self, state: State, step: Step, base: Outcome) -> State:
        return worked_after(self.search, state, self._changed(step), base.readings)

    def _changed(self, step: Step) -> Step:
        """A row with its numbers changed as far as that is known."""
        if not any(id(amount) in self.changes for amount in self.growing.amounts_of(step)):
            return step
        return replace(
            step, nodes=with_changes(step.nodes, self.changes, self.growing.size)
        )

    def _solved(self, state: State, at: int, now: Outcome) -> State | Stuck:
        """The row with the number that takes up what is more; or why there is none."""
        step, base = self.growing.steps[at], self.growing.base[at]
        if self.growing.divides(at):
            return Stuck(at, for_good=True, divides=True)
        over = off(now, base)
        taking = self.growing.taking(at)
        if not over or taking is None:
            fixed = now.is_open or not has_repeat_across(step.nodes)
            return self._tried(state, at) or Stuck(at, for_good=fixed)
        if any(id(amount) in self.changes for amount in taking.amounts):
            return Stuck(at)  # another row has settled them
        more = Fraction(-over, taking.each)
        if more.denominator != 1:
            return Stuck(at, more.denominator)
        return self._with(state, at, taking.amounts, int(more)) or Stuck(at)

    def _tried(self, state: State, at: int) -> State | None:
        """The row with a few more of what is told once: nothing shows what one takes up."""
        step = self.growing.steps[at]
        for group in open_numbers(step.nodes, self.growing.size):
            once = all(amount.at(self.growing.size) == 1 for amount in group)
            if not once or any(id(amount) in self.changes for amount in group):
                continue
            for more in _FEW:
                after = self._with(state, at, group, more)
                if after is not None:
                    return after
        return None

    def _with(
        self, state: State, at: int, amounts: tuple[Amount, ...], more: int
    ) -> State | None:
        """The row with something added to some of its numbers, if it comes out."""
        step, base = self.growing.steps[at], self.growing.base[at]
        known = dict(self.changes)
        self.changes.update(dict.fromkeys(map(id, amounts), more))
        after = self._after(state, step, base)
        if not closes_alike(after.outcomes[-1], base):
            self.changes = known
            return None
        self.amounts.extend(amounts)
        runs = set(map(id, amounts_of_runs(step.nodes)))
        self.floors.update({id(one): SHORTEST_RUN for one in amounts if id(one) in runs})
        if len(amounts) > 1:
            self.shared.append(at)
        return after


def growing_of(checked: Checked, size: int) -> Growing:
    """A size of a pattern, under the conventions that it was read in."""
    worked = checked.worked
    working = worked.sizes[size]
    search = Search(
        worked.pattern, size, worked.terms, working.assumption.conventions, Effort()
    )
    search.rounds_told = any(step.is_round for step in working.plan.steps)
    growing = Growing(worked, size, search, working.plan.steps)
    state = State()
    roots: list[Root] = []
    before: list[State] = []
    for at, (step, outcome) in enumerate(zip(growing.steps, working.outcomes, strict=True)):
        before.append(state)
        chain, _ = split_foundation(step, state, size)
        if chain is not None and chain.chain.amount.at(size):
            roots.append(Root(at, chain.chain.amount, chain.ring))
        stood = state.has_chain
        state = worked_after(search, state, step, outcome.readings)
        hint = worked.pattern.foundation_hint
        if state.has_chain and not stood and chain is None and hint is not None:
            roots.append(Root(at, hint, in_passing=True))
    growing.base, growing.roots = state.outcomes, tuple(roots)
    growing.before = tuple(before)
    growing.along = told_along(checked)
    return growing
