"""The best readings of all rows under one set of conventions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.nested import nested
from hookwright.notation.tree import Chain, Claim, Definition, Make, Node, Pattern, Topic
from hookwright.working import evidence
from hookwright.working.blocks import only_spaces_of
from hookwright.working.conventions import PLAIN_READING, Choice, Conventions, Readings
from hookwright.working.count import Count
from hookwright.working.counted_units import SQUARES
from hookwright.working.fabric import Edge, foundation, ring, row_ends, top
from hookwright.working.foundations import (
    begins_on_chain,
    founded,
    has_work,
    in_lone_chain,
    next_is_from_hook,
    off_the_chain,
    on_given,
    split_foundation,
    with_foundation,
)
from hookwright.working.half_loops import (
    begun_in_loop,
    from_loop,
    with_loop_closed,
)
from hookwright.working.hook import Effort
from hookwright.working.in_all import with_sums
from hookwright.working.leaving import (
    Counted,
    is_begun_beside,
    is_divided,
    left_on_purpose,
)
from hookwright.working.legs import (
    around_legs,
    joins_legs,
    legs_at_hand,
    without_legs,
)
from hookwright.working.lists_by_size import in_size, is_by_size
from hookwright.working.markers import past_markers
from hookwright.working.multiple import over_multiple
from hookwright.working.nodes import (
    QUIET,
    Setting,
    main_stitch,
    trailing_chain,
    works_in_ring,
)
from hookwright.working.openings import (
    Opening,
    begun_behind,
    is_as_wide,
    names_spaces,
    openings_in,
    openings_meant,
    round_opening,
    with_openings,
)
from hookwright.working.outcome import Outcome
from hookwright.working.reading_state import (
    NOTHING,
    State,
    denied_with,
    enter,
    is_closed,
    is_proven,
    settled_before,
    with_literal,
    with_settled,
    with_taken_up,
)
from hookwright.working.resizing import printed_stitches, regrouped, resized
from hookwright.working.row import WorkedRow, work_row
from hookwright.working.same_again import made_before
from hookwright.working.sequence import Run
from hookwright.working.sides import (
    NO_SIDES,
    ROW_END,
    Sides,
    is_along_underside,
    passed_at_start,
    placed_in,
)
from hookwright.working.stated import Agreement, agreement
from hookwright.working.steps import Step, is_called_row
from hookwright.working.stitches import without_circles
from hookwright.working.surroundings import (
    begins_part,
    edges_of_row,
    from_its_end,
    goes_back,
    goes_on_unknown,
    goes_round_garment,
    has_nothing_below,
    in_ring,
    is_bare_lace,
    is_chain_ring,
    is_one_in_each,
    is_round_unknown_corners,
    lies_flat,
    names_edges_at_once,
    only_bare,
    only_evenly,
    stays_round,
    turns_rows,
    was_open_before,
)
from hookwright.working.tally import Tally, tally_of
from hookwright.working.told import Told, told_by
from hookwright.working.told_by_number import told_by_number
from hookwright.working.worked_before import WorkedBefore

_ROWS_TO_TELL = 12
"""Rows that tell which of two ways is the better one, where not all can be tried."""


class _Tried(Struct):
    """A row worked in one reading, with what follows from that alone.

    Attributes:
        worked: The row.
        tally: Everything of it that may be counted.
        below: How many stitches the edge below had.
        pending: The chain at its end that belongs to the next row.
        main: The stitch the pattern mostly works, after the row.
        passed: Chains passed before its first stitch.
        in_loop: The edge it leaves, from inside the loop that it closes with a stitch.
        openings: What it skips under a chain.
        agrees: For counts asked for so far in a size, whether each agrees in each habit.
        behind: The edge it leaves, as it lies after turning, once that is asked for.
    """

    worked: WorkedRow
    tally: Tally
    below: Count
    pending: Chain | None
    main: str
    passed: int
    in_loop: Edge | None
    openings: tuple[Opening, ...]
    agrees: dict[tuple[int, tuple[Claim, ...]], Agreement] = field(default_factory=dict)
    behind: Edge | None = None

    def turned(self) -> Edge:
        """The edge it leaves, as it lies after turning."""
        if self.behind is None:
            self.behind = self.worked.edge.turned()
        return self.behind


_WORKED: WorkedBefore[_Tried] = WorkedBefore(6_000)
"""Rows of this text and of earlier ones."""


class Search(Struct):
    """Works the rows of a plan under one set of conventions, keeping the best readings.

    `costs` is what the best reading costs after each row worked so far, `following` the row
    behind the one that is worked.
    """

    pattern: Pattern
    size: int
    terms: str
    conventions: Conventions
    effort: Effort = field(default_factory=Effort)
    own: Mapping[str, Definition] = field(default_factory=dict)
    always: Readings = PLAIN_READING
    turning: bool | None = None
    in_rows: bool = False
    spiral: bool = False
    rounds_told: bool = False
    memo: dict[object, _Tried] = field(default_factory=dict)
    costs: list[int] = field(default_factory=list)
    custom: int = 0
    own_by_size: bool = False
    following: Step | None = None

    def __post_init__(self) -> None:
        self.own = without_circles(
            {
                name: d
                for d in self.pattern.definitions
                for name in d.names
                if not d.is_alias
            }
        )
        topics = {s.topic for s in self.pattern.statements}
        self.custom = _WORKED.custom(self.own, self.conventions, self.terms)
        self.own_by_size = is_by_size(tuple(self.own.values()))
        self.turning = False if Topic.NO_TURN in topics else None
        self.in_rows = any(map(turns_rows, self.pattern.statements))
        self.spiral = Topic.SPIRAL in topics

    def run(
        self, steps: Sequence[Step], limit: int | None, rival: Sequence[int] = ()
    ) -> State | None:
        """The best reading of all rows; None where it costs more than `limit`.

        `rival` is what other conventions cost after each row: where little may be tried, it
        is no use to go on once these are no worse.
        """
        states = [State()]
        self.costs = []
        self.rounds_told = any(step.is_round for step in steps)
        for at, step in enumerate(steps):
            self.following = steps[at + 1] if at + 1 < len(steps) else None
            states = self.after(states, step)
            cost = min(map(State.total, states))
            self.costs.append(cost)
            if limit is not None and cost > limit + 10:
                return None
            told = at >= _ROWS_TO_TELL and self.effort.is_short()
            if told and rival and cost >= rival[at]:
                return None
        return min(states, key=State.total)

    def after(self, states: list[State], step: Step) -> list[State]:
        """The best readings of one more row, the likeliest first."""
        nexts: dict[object, State] = {}
        for state in states:
            for new in self._readings_or_open(enter(state, step), step):
                key = (new.edge, new.pending, new.in_rounds, new.rests)
                old = nexts.get(key)
                if old is None or new.total() < old.total():
                    nexts[key] = new
        if len(nexts) == 1:
            return [*nexts.values()]
        most = 1 if self.effort.is_short() else evidence.MOST_STATES
        return sorted(nexts.values(), key=State.total)[:most]

    def _readings_or_open(self, state: State, step: Step) -> list[State]:
        """The readings of a row; with more open repeats than can be tried, it is open."""
        try:
            return self._readings(state, step)
        except RecursionError:
            return [self._open(state, step)]

    def _readings(self, state: State, step: Step) -> list[State]:
        chain, rest = split_foundation(step, state, self.size)
        if chain is not None:
            state = founded(state, chain, self.size)
            if not has_work(rest):
                return [with_foundation(state, step, chain, self.size)]
        told = told_by(tuple(rest))
        if told.to_markers:
            past = None if state.edge.spaces else past_markers(rest)
            if past is None:
                return [self._open(state, step)]
            told = told_by(tuple(past))
        bare = self._without_edge(state, step, told, begins=chain is not None)
        if bare:
            return bare
        nodes = from_its_end(off_the_chain(step, state, told.nodes), state)
        told = told_by(in_lone_chain(nodes, state, self.size))
        told = self._with_loops(state, step, told)
        state = self._with_hint(state, step, told.nodes)
        if state.edge is NOTHING and (
            told.joins_to_unknown or has_nothing_below(state, step, told.nodes)
        ):
            return [self._open(state, step)]
        results = self._over_multiple(state, step, told)
        results = results or self._round_openings(state, step, told)
        if results:
            return results
        if told.of_leg:
            legs = joins_legs(told.nodes)
            results = self._round_legs(state, step, told.nodes) if legs else []
            told = told_by(tuple(without_legs(told.nodes)))
        others = [
            with_taken_up(reading, edge) if edge in state.rests else reading
            for edge in self._edges(state, step, told)
            for reading in self._row_readings(state, step, told, edge)
        ]
        read = [*results, *(r for r in others if not results or is_proven(r))]
        own = (
            chain
            or told.in_ring
            or told.round_opening
            or not self._is_on_several(state, step)
        )
        if any(map(is_closed, read)):
            return read
        opened = not own and not _is_layered(told.nodes)
        return [self._open(state, step)] if opened else read

    def _without_edge(
        self, state: State, step: Step, told: Told, *, begins: bool
    ) -> list[State]:
        """The readings of a row along edges that nothing at hand tells; else none."""
        untold = self._is_untold(state, step, told.nodes)
        if untold or (not begins and goes_on_unknown(state, step)):
            return [self._open(state, step)]
        elsewhere = not begins and self._goes_round_unknown(state, step, told)
        if elsewhere or told.of_piece:
            return self._by_number(state, step, told)
        return []

    @staticmethod
    def _is_untold(state: State, step: Step, nodes: Sequence[Node]) -> bool:
        """Whether a row tells too little of its edge, whichever that is."""
        return (
            told_by(step.nodes).is_open(step)
            or names_edges_at_once(state, nodes)
            or is_round_unknown_corners(state, nodes)
            or (begins_part(state, step) and goes_round_garment(nodes))
            or was_open_before(state, step)
            or lies_flat(state, step, nodes)
        )

    def _over_multiple(self, state: State, step: Step, told: Told) -> list[State]:
        """The readings of a first row over a chain that only its multiple tells."""
        if state.edge is not NOTHING or not told.from_hook:
            return []
        begun = over_multiple(state, self.pattern.multiples)
        return [
            new for one in begun for new in self._row_readings(one, step, told, one.edge)
        ]

    def _is_on_several(self, state: State, step: Step) -> bool:
        """Whether a part is begun on pieces put together, whose edge no row tells.

        So does each later part that is not begun on a chain or ring of its own.
        """
        parts = self.pattern.parts[: step.part + 1]
        before = state.outcomes[-1].step.part if state.outcomes else -1
        if parts and parts[-1].on_several and before != step.part:
            return True  # by whatever name its first row goes
        if parts and parts[-1].on_several and step.number == 1 and state.finished:
            return True  # a further edging, below the same heading
        return begins_part(state, step) and any(part.on_several for part in parts)

    def _round_openings(self, state: State, step: Step, told: Told) -> list[State]:
        """The readings of a sleeve, worked round an opening that an earlier round left."""
        if not state.openings or not (state.finished or begins_part(state, step)):
            return []
        nodes = told.nodes
        return [
            reading
            for opening in state.openings
            if told.through_opening or is_as_wide(nodes, opening, self.size)
            for edge in opening.edges(
                with_spaces=names_spaces(nodes),
                begun=begun_behind(nodes, opening, self.size),
            )
            for reading in self._row_readings(
                state, step, told_by(tuple(round_opening(nodes, opening))), edge
            )
        ]

    def _by_number(self, state: State, step: Step, told: Told) -> list[State]:
        """The readings of a row along edges that are only told, each with its number."""
        found = told_by_number(told.nodes, self.size)
        if found is None:
            return [self._open(state, step)]
        edge = Edge((Run(top(state.main or "st"), found.places),), closed=step.is_round)
        return self._row_readings(state, step, told_by(found.nodes), edge)

    @staticmethod
    def _goes_round_unknown(state: State, step: Step, told: Told) -> bool:
        """Whether a part goes round an opening that no row at hand has left."""
        begins = begins_part(state, step) and not state.openings
        return begins and state.edge is not NOTHING and told.through_opening

    def _round_legs(self, state: State, step: Step, nodes: Sequence[Node]) -> list[State]:
        """The readings of a round that joins two legs, the last of which is on the hook."""
        legs = legs_at_hand(state.outcomes, [part.name for part in self.pattern.parts])
        joined = legs and around_legs(nodes, legs, state.main, self.size)
        if not joined:
            return []
        nodes, edge = joined
        return self._row_readings(state, step, told_by(tuple(nodes)), edge)

    def _with_loops(self, state: State, step: Step, told: Told) -> Told:
        """A round that begins in a loop closed by a stitch, or ends with one."""
        row = told.turned and not step.is_round
        round_ = told.in_ring or _in_rounds(state, step, told)
        closes = told.may_close_loop and round_ and not row
        if not closes and not state.in_loop:
            return told
        nodes: Sequence[Node] = told.nodes
        if closes:
            nodes = with_loop_closed(nodes, self.size, self.terms)
        return told_by(tuple(from_loop(nodes) if state.in_loop else nodes))

    def _open(self, state: State, step: Step) -> State:
        """A row that cannot be worked: what it leaves is what is printed, or as before."""
        tally = tally_of(state.edge)
        outcome = Outcome(
            step, None, tally, (), state.edge.stitches, meant=True, is_open=True
        )
        number = printed_stitches(outcome, step, self.size)
        edge = resized(state.edge, number) if number else None
        if number and state.edge is NOTHING:
            edge = Edge((Run(top(state.main or "st"), number),), closed=step.is_round)
        edge = (edge or state.edge).turned()
        return replace(state, edge=edge, outcomes=(*state.outcomes, outcome), pending=None)

    def _from_count(self, step: Step, nodes: Sequence[Node]) -> int | None:
        """The chain that the count of a plain first row makes it: nobody says it."""
        work = [node for node in nodes if type(node) not in QUIET]
        first = work[0] if work else None
        plain = all(isinstance(node, Make) and node.target is not None for node in work)
        target = getattr(first, "target", None)
        if not plain or len(work) != 2 or target is None or not step.claims:
            return None
        printed = step.claims[0].figures[0].amount.at(self.size)
        skipped = (target.ordinal or 2) - 1
        stands = 1 if skipped in self.conventions.counting_chains else 0
        return None if printed is None else printed + skipped - stands

    def _with_hint(self, state: State, step: Step, nodes: Sequence[Node]) -> State:
        """A text that only tells in passing how many chains, or what piece, it takes."""
        if state.edge is not NOTHING or state.has_chain:
            return state
        given = self.pattern.given
        if given is not None and not works_in_ring(nodes) and not next_is_from_hook(nodes):
            return on_given(state, given, self.size)
        if not next_is_from_hook(nodes) and not begins_on_chain(nodes):
            return self._on_its_count(state, step, nodes)
        hint = self.pattern.foundation_hint
        number = hint.at(self.size) if hint is not None else self._from_count(step, nodes)
        if not number:
            return state
        return replace(state, edge=foundation(number), has_chain=True, sides=Sides(number))

    def _on_its_count(self, state: State, step: Step, nodes: Sequence[Node]) -> State:
        """A first row of one in each st, over a piece that the text does not speak of."""
        printed = step.claims[0].figures[0].amount.at(self.size) if step.claims else None
        evenly = only_evenly(nodes) if state.edge is NOTHING else None
        if evenly is not None:  # "work 61 sc evenly across the hemmed edge"
            printed = evenly.at(self.size)
        if not printed or not (evenly is not None or is_one_in_each(nodes)):
            return state
        return replace(state, edge=Edge((Run(top(state.main), printed),)), finished=True)

    def _edges(self, state: State, step: Step, told: Told) -> list[Edge]:
        """The edges a row may be worked into: the last one, or one left earlier."""
        nodes = told.nodes
        if told.in_ring or (told.in_space and is_chain_ring(state.edge)):
            return [ring()]
        if told.in_space and begins_part(state, step) and not state.edge.spaces:
            return [ring()]  # "make a magic loop", and then "6 dc into the loop"
        if state.edge is NOTHING and not told.from_hook and in_ring(nodes):
            return [ring()]
        if is_chain_ring(state.edge) and (only_bare(nodes) or is_bare_lace(nodes)):
            return [state.edge, ring()]
        ends = state.sides.rows if told.along_row_ends else 0
        if told.round_opening or ends:
            return [row_ends(ends) if told.by_row_ends else NOTHING]
        if goes_back(nodes, state, step) and not told.under:
            return [*reversed(state.rests[-3:]), state.edge]
        if told.row:
            return [*edges_of_row(state, told.row), state.edge]
        if told.at_beginning and state.finished and not state.in_rounds:
            return [state.edge.turned()]
        if is_along_underside(told.only_chains, state.edge):
            return [*state.sides.undersides(), state.edge]
        return [state.edge]

    def _row_readings(
        self, state: State, step: Step, told: Told, edge: Edge
    ) -> list[State]:
        results = []
        settled = settled_before(state, step)
        if settled:
            again = settled | self.always
            tried = self._worked(state, step, told, edge, again)
            results.append(self._next(state, step, told, tried, again, settled))
            if results[0].total() <= state.total() + 2:
                return self._with_printed(results, step)
        plain = self._worked(state, step, told, edge, self.always)
        if plain.worked.lacks:
            return [self._open(state, step)]
        first = self._as_before(state, step, told, edge, plain) or self._next(
            state, step, told, plain, self.always
        )
        results.append(first)
        if first.total() <= state.total() + 2 or self.effort.is_short():
            return self._with_printed(results, step)
        missing = plain.worked.missing
        for number, others in enumerate(evidence.readings_to_try(plain.worked.asked)):
            if number >= evidence.MOST_READINGS or self.effort.is_short():
                break
            readings = others | self.always
            tried = self._worked(state, step, told, edge, readings)
            new = self._next(state, step, told, tried, readings)
            if Choice.AS_MANY_AS_FIT in readings:
                if not missing:
                    continue
                new = with_literal(new, missing)
            results.append(new)
            if new.total() <= state.total() + evidence.departing(others, proven=True):
                break
        return self._with_printed(results, step)

    def _as_before(
        self, state: State, step: Step, told: Told, edge: Edge, plain: _Tried
    ) -> State | None:
        """A recalled row with its nouns taken loosely, where it makes what it made then."""
        loose = _LOOSE & plain.worked.asked
        if not loose:
            return None
        before = made_before(state, step)
        if before is None or before.tally.stitches == plain.tally.stitches:
            return None
        readings = self.always | loose
        tried = self._worked(state, step, told, edge, readings)
        if tried.tally.stitches != before.tally.stitches:
            return None
        new = self._next(state, step, told, tried, readings, settled=readings)
        return new if new.total() <= state.total() else None

    def _worked(
        self, state: State, step: Step, told: Told, edge: Edge, readings: Readings
    ) -> _Tried:
        if told.by_size:
            told = told_by(in_size(told.nodes, self.size))
        nodes = told.nodes
        edges = told.edges if state.sides.rows else told.edges - {ROW_END}
        sides = state.sides if edges and not told.by_row_ends else NO_SIDES
        rounds = _in_rounds(state, step, told)
        key = (
            nodes,
            edge,
            state.pending,
            rounds,
            readings,
            state.yarn,
            state.main,
            sides,
            self.size if told.by_size or self.own_by_size else None,
        )
        found = self.memo.get(key)
        if found is None:
            found = self.memo[key] = _WORKED.get(
                self.custom, key, self.effort, nodes
            ) or self._worked_anew(
                key,
                told,
                edge,
                readings,
                state,
                sides,
                rounds=rounds,
                along_sides=bool(edges),
            )
        return found

    def _worked_anew(
        self,
        key: object,
        told: Told,
        edge: Edge,
        readings: Readings,
        state: State,
        sides: Sides,
        *,
        rounds: bool,
        along_sides: bool,
    ) -> _Tried:
        """A row worked now, and kept where nothing cut it short."""
        nodes = told.nodes
        effort = self.effort
        left = effort.left
        setting = Setting(
            self.own,
            self.conventions,
            self.terms,
            self.size,
            rounds or told.both_sides,
            state.pending,
            state.yarn,
            state.main,
            sides,
            effort,
        )
        worked = work_row(nodes, edge, setting, readings)
        tried = _Tried(
            worked,
            self._tally(worked),
            worked.row.uses + worked.left if along_sides else edge.stitches,
            trailing_chain(nodes, self.size, is_round=rounds),
            main_stitch(nodes, self.own) or state.main,
            passed_at_start(worked.row),
            begun_in_loop(worked.edge) if told.closes_loop else None,
            openings_in(worked.row, edge, state.main),
        )
        if not effort.is_out():
            _WORKED.keep(self.custom, key, tried, left - effort.left)
        return tried

    def _tally(self, worked: WorkedRow) -> Tally:
        """What a row leaves; each space of a piece of blocks is the side of one."""
        tally = tally_of(worked.edge, worked.row)
        sides = self.conventions.loops_at_hook
        if not sides or any(SQUARES & {*name.split()} for name in tally.groups):
            return tally  # blocks with a name are counted by it
        blocks = only_spaces_of(worked.edge.line, sides)
        groups = {**tally.groups, **dict.fromkeys(SQUARES, tally.spaces)}
        return replace(tally, groups=groups) if blocks else tally

    def _next(
        self,
        state: State,
        step: Step,
        told: Told,
        tried: _Tried,
        readings: Readings,
        settled: Readings = PLAIN_READING,
    ) -> State:
        worked = tried.worked
        agrees = self._agrees(step.claims, tried)
        if any(claim.in_all for claim in step.claims):
            agrees = self._summed(agrees, step, state, tried)
        meant = bool(worked.left or worked.leapt) and left_on_purpose(
            told.nodes,
            self.size,
            worked,
            Counted(step.claims, tried.tally, agrees),
            divided=is_divided(state, step),
            beside=is_begun_beside(step, self.following),
        )
        denied = denied_with(state, step, agrees)
        proven = bool(agrees) and all(any(agreed) for agreed in agrees)
        cost = state.cost + evidence.unclosed(worked, meant=meant)
        own = readings - self.always - settled
        below = state.outcomes[-1].agrees if state.outcomes else ()
        again = (
            Choice.START_WORKED_LAST in own
            and all(map(any, below))
            and told.fills_its_start
        )
        cost += evidence.departing(own, proven=proven, again=again)
        cost += evidence.stretched(own, worked)
        called_row = self.rounds_told and is_called_row(step)
        divides = called_row and meant and bool(worked.left)
        rounds = stays_round(
            state,
            step,
            worked,
            in_ring=told.in_ring,
            spiral=self.spiral and not called_row,
            rows=divides or (self.in_rows and not step.is_round),
        )
        turned = self._turns(worked, rounds=rounds)
        outcome = Outcome(
            step,
            worked,
            tried.tally,
            agrees,
            tried.below,
            meant,
            None,
            state.resized,
            readings,
            turned=turned,
        )
        in_loop = None if turned else tried.in_loop
        after = State(
            edge=tried.turned() if turned else in_loop or worked.edge,
            pending=tried.pending,
            yarn=told.yarn or state.yarn,
            main=tried.main,
            in_rounds=rounds,
            finished=worked.finished,
            part=step.part,
            rests=(*state.rests, worked.rest) if worked.left else state.rests,
            cost=cost,
            denied=denied,
            outcomes=(*state.outcomes, outcome),
            has_chain=state.has_chain,
            sides=state.sides.after(
                tried.passed, is_round=rounds, along_side=told.along_row_ends
            ),
            in_loop=in_loop is not None,
            openings=with_openings(state.openings, tried.openings),
            settled=state.settled,
        )
        return with_settled(after, step, readings - self.always)

    def _agrees(self, claims: tuple[Claim, ...], tried: _Tried) -> Agreement:
        """For each count of a row's stitches, whether it agrees in each habit."""
        found = tried.agrees.get((self.size, claims))
        if found is None:
            found = tried.agrees[self.size, claims] = tuple(
                agreement(claim, tried.tally, self.size)
                for claim in claims
                if not claim.of_rows
            )
        return found

    def _summed(
        self, agrees: Agreement, step: Step, state: State, tried: _Tried
    ) -> Agreement:
        """The agreement, where a count may tell what all rows of the part have made."""
        before = (o.tally for o in state.outcomes if o.step.part == step.part and o.worked)
        claims = [claim for claim in step.claims if not claim.of_rows]
        return with_sums(agrees, claims, (*before, tried.tally), self.size)

    def _turns(self, worked: WorkedRow, *, rounds: bool) -> bool:
        if worked.turned is not None:
            return worked.turned
        if rounds:
            return False
        return self.turning is not False

    def _with_printed(self, states: list[State], step: Step) -> list[State]:
        """Where a count is denied, the next row is tried over the printed one as well."""
        result = list(states)
        for state in states:
            outcome = state.outcomes[-1]
            if outcome.worked is None or any(all(agreed) for agreed in outcome.agrees):
                continue
            printed = printed_stitches(outcome, step, self.size, state.habits_before())
            if printed is None:
                edge = regrouped(state.edge, outcome, step, self.size)
            else:
                edge = resized(state.edge, printed)
            if edge is not None:
                openings = state.openings
                more = state.edge.stitches - edge.stitches
                if openings and isinstance(more, int):
                    openings = openings_meant(openings, more)
                new = replace(state, edge=edge, cost=state.cost + 1, resized=True)
                result.append(replace(new, openings=openings))
        return result


_LOOSE = frozenset({Choice.LOOSE_NOUNS, Choice.OTHERS_AMONG})


def _is_layered(nodes: Sequence[Node]) -> bool:
    """Whether pieces are joined by working through both of them, not in their corners."""
    layered = any(getattr(node, "loop", "") == "layers" for node in nested(nodes))
    return layered and all(target.noun != "corner" for target in placed_in(nodes))


def _in_rounds(state: State, step: Step, told: Told) -> bool:
    """Whether a row is worked as a round, by its label or as the rows before it."""
    return state.in_rounds or (step.is_round and not told.turned_back)
