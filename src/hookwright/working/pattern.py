"""A whole pattern worked: every row over the edge before it, in the best supported reading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from hookwright.notation.tree import (
    Chain,
    Definition,
    FinishOff,
    InOnePlace,
    Join,
    Make,
    Node,
    Pattern,
    Remark,
    Repeat,
    Role,
    Skip,
    Target,
    Topic,
    Turn,
    Which,
    Yarn,
)
from hookwright.source import Source
from hookwright.working import evidence
from hookwright.working.conventions import PLAIN_READING, Choice, Conventions, Readings
from hookwright.working.count import Count
from hookwright.working.evidence import Assumption
from hookwright.working.fabric import Edge, PlaceKind, foundation, ring
from hookwright.working.plan import Plan, Step, plan_of
from hookwright.working.row import QUIET, Setting, WorkedRow, trailing_chain, work_row
from hookwright.working.sequence import Group, Line, Piece, Run
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stated import Habit, Tally, agreement, tally_of

NOTHING = Edge(())


@dataclass(frozen=True, slots=True)
class Outcome:
    """One row of the plan as worked.

    Attributes:
        step: What was worked.
        worked: The row; None where the line only makes a foundation.
        tally: What it leaves, by everything that may be counted.
        agrees: For each printed count, whether it agrees in each habit.
        below: How many stitches the edge below had.
        meant: Whether places were left unworked on purpose.
        foundation: Chains of a foundation made by this line.
        resized: Whether the row was worked over the count printed before it.
    """

    step: Step
    worked: WorkedRow | None
    tally: Tally
    agrees: tuple[tuple[bool, bool, bool], ...]
    below: Count
    meant: bool
    foundation: int | None = None
    resized: bool = False
    readings: Readings = PLAIN_READING
    literal_missing: Count = 0


@dataclass(frozen=True, slots=True)
class Working:
    """A pattern worked in one size.

    Attributes:
        outcomes: Its rows in working order.
        habit: How the pattern counts.
        assumption: What was taken for granted.
        cost: What the reading costs in all; 0 for a text that leaves nothing open.
        rivals: Other ways that cost the same.
        plan: The rows planned.
    """

    outcomes: tuple[Outcome, ...]
    habit: Habit
    assumption: Assumption
    cost: int
    rivals: tuple[Assumption, ...]
    plan: Plan


@dataclass(frozen=True, slots=True)
class WorkedPattern:
    """A pattern worked in all its sizes.

    Attributes:
        pattern: The tree.
        sizes: One working a size, in the order of the pattern's sizes.
    """

    pattern: Pattern
    sizes: tuple[Working, ...]


@dataclass(slots=True)
class _State:
    """One reading of the rows so far."""

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

    def total(self) -> int:
        """The cost with the counts denied in the best habit."""
        return self.cost + evidence.DENIED * min(self.denied) + _habit_cost(self.denied)


def _habit_cost(denied: tuple[int, int, int]) -> int:
    return (0, 3, 4)[denied.index(min(denied))]


def work_pattern(pattern: Pattern, source: Source, terms: str | None = None) -> WorkedPattern:
    """Works every row of a pattern, in every size."""
    used = terms or pattern.terms or "US"
    sizes = tuple(
        _work_size(pattern, source, size, used) for size in range(max(1, len(pattern.sizes)))
    )
    return WorkedPattern(pattern, sizes)


def _work_size(pattern: Pattern, source: Source, size: int, terms: str) -> Working:
    plan = plan_of(pattern.parts, size, pattern.sizes)
    ways = evidence.assumptions(pattern, plan.steps, terms)
    best: tuple[int, _State, Assumption] | None = None
    rivals: list[Assumption] = []
    for way in ways:
        worker = _Search(pattern, source, size, terms, way.conventions)
        state = worker.run(plan.steps, best[0] - way.cost if best else None)
        if state is None:
            continue
        cost = state.total() + way.cost
        if best is None or cost < best[0]:
            best, rivals = (cost, state, way), []
        elif cost == best[0]:
            rivals.append(way)
    assert best is not None
    cost, state, way = best
    habit = Habit(state.denied.index(min(state.denied)))
    return Working(state.outcomes, habit, way, cost, tuple(rivals), plan)


@dataclass(slots=True)
class _Search:
    """Works the rows of a plan under one set of conventions, keeping the best readings."""

    pattern: Pattern
    source: Source
    size: int
    terms: str
    conventions: Conventions
    own: Mapping[str, Definition] = field(default_factory=dict)
    turning: bool | None = None
    spiral: bool = False
    memo: dict[object, WorkedRow] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.own = {
            name: d for d in self.pattern.definitions for name in d.names if not d.is_alias
        }
        topics = {s.topic for s in self.pattern.statements}
        self.turning = False if Topic.NO_TURN in topics else None
        self.spiral = Topic.SPIRAL in topics

    def run(self, steps: Sequence[Step], limit: int | None) -> _State | None:
        """The best reading of all rows; None where it costs more than `limit`."""
        states = [_State()]
        for i, step in enumerate(steps):
            following = steps[i + 1] if i + 1 < len(steps) else None
            states = self._after(states, step, following)
            if limit is not None and min(state.total() for state in states) > limit + 10:
                return None
        return min(states, key=_State.total)

    def _after(self, states: list[_State], step: Step, following: Step | None) -> list[_State]:
        nexts: dict[object, _State] = {}
        for state in states:
            for new in self._readings(_enter(state, step), step, following):
                key = (new.edge, new.pending, new.in_rounds, new.rests)
                old = nexts.get(key)
                if old is None or new.total() < old.total():
                    nexts[key] = new
        return sorted(nexts.values(), key=_State.total)[: evidence.MOST_STATES]

    def _readings(
        self, state: _State, step: Step, following: Step | None
    ) -> list[_State]:
        chain, rest = _split_foundation(step, state, self.size, following)
        if chain is not None:
            state = _founded(state, chain, self.size)
            if not _has_work(rest):
                return [_with_foundation(state, step, chain, self.size)]
        state = self._with_hint(state, step, rest)
        results = []
        for edge in self._edges(state, rest):
            results.extend(self._row_readings(state, step, rest, edge))
        return results

    def _from_count(self, step: Step, nodes: Sequence[Node]) -> int | None:
        """The chain that the count of a plain first row makes it: nobody says it."""
        work = [node for node in nodes if not isinstance(node, QUIET)]
        first = work[0] if work else None
        plain = all(isinstance(node, Make) and node.target is not None for node in work)
        target = getattr(first, "target", None)
        if not plain or len(work) != 2 or target is None or not step.claims:
            return None
        printed = step.claims[0].figures[0].amount.at(self.size)
        skipped = (target.ordinal or 2) - 1
        stands = 1 if skipped in self.conventions.counting_chains else 0
        return None if printed is None else printed + skipped - stands

    def _with_hint(self, state: _State, step: Step, nodes: Sequence[Node]) -> _State:
        """A text that only tells in passing how many chains it takes."""
        if state.edge is not NOTHING or state.has_chain:
            return state
        if not _next_is_from_hook(nodes) and not _begins_on_chain(nodes):
            return state
        hint = self.pattern.foundation_hint
        number = hint.at(self.size) if hint is not None else self._from_count(step, nodes)
        if not number:
            return state
        return replace(state, edge=foundation(number), has_chain=True)

    def _edges(self, state: _State, nodes: Sequence[Node]) -> list[Edge]:
        """The edges a row may be worked into: the last one, or one left earlier."""
        if _works_in_ring(nodes) or (_is_chain_ring(state.edge) and _works_in_space(nodes)):
            return [ring()]
        if state.edge is NOTHING and not _next_is_from_hook(nodes) and _only_bare(nodes):
            return [ring()]
        if _goes_back(nodes, state) and state.rests:
            return [*reversed(state.rests[-3:]), state.edge]
        return [state.edge]

    def _row_readings(
        self, state: _State, step: Step, nodes: Sequence[Node], edge: Edge
    ) -> list[_State]:
        plain = self._worked(state, step, nodes, edge, PLAIN_READING)
        first = self._next(state, step, nodes, edge, plain, PLAIN_READING)
        results = [first]
        if first.total() <= state.total() + 2:
            return self._with_printed(results, step)
        for number, readings in enumerate(evidence.readings_to_try(plain.asked)):
            if number >= evidence.MOST_READINGS:
                break
            worked = self._worked(state, step, nodes, edge, readings)
            new = self._next(state, step, nodes, edge, worked, readings)
            if Choice.AS_MANY_AS_FIT in readings:
                if not plain.missing:
                    continue
                new = _with_literal(new, plain.missing)
            results.append(new)
            if new.total() <= state.total() + evidence.departing(readings, proven=True):
                break
        return self._with_printed(results, step)

    def _worked(
        self, state: _State, step: Step, nodes: Sequence[Node], edge: Edge, readings: Readings
    ) -> WorkedRow:
        key = (id(step.text), tuple(map(id, nodes)), edge, state.pending, state.in_rounds, readings,
               state.yarn, state.main)
        found = self.memo.get(key)
        if found is None:
            rounds = step.is_round or state.in_rounds
            setting = Setting(
                self.own, self.conventions, self.terms, self.size, rounds, state.pending,
                state.yarn, state.main,
            )  # fmt: skip
            found = work_row(nodes, edge, setting, readings)
            self.memo[key] = found
        return found

    def _next(
        self, state: _State, step: Step, nodes: Sequence[Node], edge: Edge, worked: WorkedRow,
        readings: Readings,
    ) -> _State:  # fmt: skip
        tally = tally_of(worked.edge)
        agrees = tuple(
            agreement(claim, tally, self.size) for claim in step.claims if not claim.of_rows
        )
        meant = _left_on_purpose(nodes, self.source, worked, agrees)
        denied = tuple(
            state.denied[h] + sum(not agreed[h] for agreed in agrees) for h in Habit
        )
        proven = bool(agrees) and all(any(agreed) for agreed in agrees)
        cost = state.cost + evidence.unclosed(worked, meant=meant)
        cost += evidence.departing(readings, proven=proven)
        outcome = Outcome(
            step, worked, tally, agrees, edge.stitches, meant, None, state.resized, readings
        )
        rounds = _stays_round(state, step, nodes, worked, self.spiral)
        out = worked.edge
        open_rests = state.rests
        if worked.left:
            open_rests = (*open_rests, worked.rest)
        turned = self._turns(state, step, nodes, worked, rounds)
        return _State(
            out.turned() if turned else out, self._pending(state, nodes, step), _yarn_after(nodes, state),
            _main_after(nodes, state, self.own), rounds, worked.finished, step.part, open_rests, cost,
            (denied[0], denied[1], denied[2]), (*state.outcomes, outcome), False,
        )  # fmt: skip

    def _pending(self, state: _State, nodes: Sequence[Node], step: Step) -> Chain | None:
        rounds = step.is_round or state.in_rounds
        setting = Setting(self.own, self.conventions, self.terms, self.size, rounds)
        return trailing_chain(nodes, setting)

    def _turns(
        self, state: _State, step: Step, nodes: Sequence[Node], worked: WorkedRow, rounds: bool
    ) -> bool:
        if worked.turned is not None:
            return worked.turned
        if rounds:
            return False
        return self.turning is not False

    def _with_printed(self, states: list[_State], step: Step) -> list[_State]:
        """Where a count is denied, the next row is tried over the printed one as well."""
        result = list(states)
        for state in states:
            outcome = state.outcomes[-1]
            printed = _printed_stitches(outcome, step, self.size)
            if printed is None or outcome.worked is None:
                continue
            edge = resized(state.edge, printed)
            if edge is not None:
                result.append(replace(state, edge=edge, cost=state.cost + 1, resized=True))
        return result


def _with_literal(state: _State, missing: Count) -> _State:
    """Keeps how many places the words would have wanted."""
    last = replace(state.outcomes[-1], literal_missing=missing)
    return replace(state, outcomes=(*state.outcomes[:-1], last))


def _enter(state: _State, step: Step) -> _State:
    """A new part begins with nothing on the hook, unless it goes on from the one before."""
    if state.part in (-1, step.part):
        return replace(state, part=step.part)
    return replace(state, part=step.part, rests=state.rests)


def _printed_stitches(outcome: Outcome, step: Step, size: int) -> int | None:
    """The printed count of stitches, where it is a plain number that the row denies."""
    claims = [claim for claim in step.claims if not claim.of_rows]
    worked = outcome.worked
    if not claims and worked is not None and not outcome.meant:
        meant = worked.row.makes + worked.left - worked.missing
        return meant if isinstance(meant, int) and meant != worked.row.makes else None
    if not claims or any(any(agreed) for agreed in outcome.agrees):
        return None
    figures = [f for f in claims[0].figures if f.unit not in ("sp", "ch", "group")]
    numbers = [f.amount.at(size) for f in figures]
    if not numbers or any(n is None for n in numbers):
        return None
    return sum(n for n in numbers if n is not None)


def resized(edge: Edge, number: int) -> Edge | None:
    """The same edge with another number of stitches, changed in its longest plain run."""
    if not isinstance(edge.stitches, int) or number <= 0:
        return None
    change = number - edge.stitches
    runs = [(i, p) for i, p in enumerate(edge.line) if isinstance(p, Run) and p.item.counts]
    if not runs:
        return _resized_deep(edge, change)
    at, run = max(runs, key=lambda found: found[1].times)
    times = run.times + change
    if not times > 0:
        return _resized_deep(edge, change)
    line: Line = (*edge.line[:at], replace(run, times=times), *edge.line[at + 1 :])  # type: ignore[type-arg]
    return Edge(line, edge.closed)


def _resized_deep(edge: Edge, change: int) -> Edge | None:
    if change <= 0 or not edge.line:
        return None
    last = _any_place(edge.line)
    return None if last is None else Edge((*edge.line, Run(last, change)), edge.closed)


def _any_place(line):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.counts:
                return piece.item
        else:
            found = _any_place(piece.body)
            if found is not None:
                return found
    return None


def _has_work(nodes: Sequence[Node]) -> bool:
    return any(not isinstance(node, QUIET) for node in nodes)


def _split_foundation(
    step: Step, state: _State, size: int, following: Step | None
) -> tuple[_Foundation | None, Sequence[Node]]:
    """A chain that begins a piece, told apart from the row worked into it."""
    nodes = step.nodes
    at = next((i for i, node in enumerate(nodes) if not isinstance(node, QUIET)), None)
    if at is None or not isinstance(nodes[at], Chain):
        return None, nodes
    chain = nodes[at]
    assert isinstance(chain, Chain)
    rest = nodes[at + 1 :]
    join = _ring_join(rest)
    if join is not None:
        after = [*nodes[:at], *rest[join + 1 :]]
        return _Foundation(chain, ring=True), after
    if not _has_work(rest):
        if state.edge is NOTHING or (chain.amount.at(size) or 0) > 3 or step.number is None:
            fresh = state.edge is NOTHING or state.part != -1
            return (_Foundation(chain, ring=False), rest) if fresh else (None, nodes)
        return None, nodes
    if _new_piece(step, state) and _next_is_from_hook(rest):
        return _Foundation(chain, ring=False, inside=True), [*nodes[:at], *rest]
    return None, nodes


@dataclass(frozen=True, slots=True)
class _Foundation:
    chain: Chain
    ring: bool
    inside: bool = False


def _new_piece(step: Step, state: _State) -> bool:
    return state.edge is NOTHING or step.label == "" or step.number in (0, 1, None)


def _next_is_from_hook(nodes: Sequence[Node]) -> bool:
    first = next((node for node in nodes if not isinstance(node, QUIET)), None)
    if isinstance(first, (Make, Skip, InOnePlace)) and first.target is not None:
        return first.target.from_hook
    return False


def _begins_on_chain(nodes: Sequence[Node]) -> bool:
    first = next((node for node in nodes if not isinstance(node, QUIET)), None)
    if isinstance(first, (Make, Skip, InOnePlace)) and first.target is not None:
        return first.target.noun == "ch"
    return False


def _ring_join(nodes: Sequence[Node]) -> int | None:
    """Where the chain is joined into a ring, if that is the next thing done."""
    for i, node in enumerate(nodes):
        if isinstance(node, Join) and (node.to_ring or _to_first(node.target) or node.target is None):
            return i
        if isinstance(node, Make) and node.stitch == "sl st" and _to_first(node.target):
            return i
        if not isinstance(node, QUIET):
            return None
    return None


def _to_first(target: Target | None) -> bool:
    if target is None:
        return False
    return (
        target.which is Which.FIRST or target.from_hook or target.noun == "ring"
        or (target.noun in ("tch", "ch") and target.which in (Which.FIRST, Which.NTH, Which.NEXT))
    )  # fmt: skip


def _founded(state: _State, chain: _Foundation, size: int) -> _State:
    """The state with a new foundation chain on the hook."""
    number = chain.chain.amount.at(size) or 0
    edge = foundation(number)
    return replace(
        state, edge=edge.round() if chain.ring else edge, pending=None, in_rounds=chain.ring,
        has_chain=True, finished=False,
    )  # fmt: skip


def _with_foundation(state: _State, step: Step, chain: _Foundation, size: int) -> _State:
    number = chain.chain.amount.at(size) or 0
    outcome = Outcome(step, None, tally_of(NOTHING), (), 0, meant=True, foundation=number)
    return replace(state, outcomes=(*state.outcomes, outcome), yarn=_yarn_after(step.nodes, state))


def _works_in_ring(nodes: Sequence[Node]) -> bool:
    """Whether the first thing worked goes into a ring."""
    for node in nodes:
        if isinstance(node, (Make, InOnePlace)) and node.target is not None:
            return node.target.noun == "ring"
        if isinstance(node, (Repeat,)):
            return _works_in_ring(node.body)
        if isinstance(node, (Make, Skip)):
            return False
    return False


def _is_chain_ring(edge: Edge) -> bool:
    """Whether an edge is a chain joined into a ring."""
    return edge.closed and all(
        isinstance(piece, Run) and piece.item.kind is PlaceKind.CHAIN for piece in edge.line
    )


def _works_in_space(nodes: Sequence[Node]) -> bool:
    """Whether the first place named is a "loop" or "space": the ring, where nothing else is."""
    for node in nodes:
        target = getattr(node, "target", None)
        if target is not None and not (isinstance(node, Make) and node.stitch == "sl st"):
            return bool(target.noun == "sp")
    return False


def _only_bare(nodes: Sequence[Node]) -> bool:
    """Whether a round names no place at all: "9 hdc" with nothing below it is in a ring."""
    makes = [node for node in nodes if isinstance(node, Make) and node.stitch != "sl st"]
    return bool(makes) and all(node.target is None for node in makes)


def _goes_back(nodes: Sequence[Node], state: _State) -> bool:
    """Whether a row may be worked into stitches left earlier: the yarn was cut before it."""
    if not state.finished or not state.rests:
        return False
    return any(
        isinstance(node, (Yarn, Join, Skip)) or (isinstance(node, Make) and node.stitch == "sl st")
        for node in nodes[:4]
    )


_PURPOSE = frozenset(
    "unworked wait later leave leaving remaining rest unused free left others other".split()
)


def _left_on_purpose(
    nodes: Sequence[Node], source: Source, worked: WorkedRow,
    agrees: tuple[tuple[bool, bool, bool], ...],
) -> bool:  # fmt: skip
    """Whether the text says that places are left, or plainly works only the first few."""
    if not worked.left and not worked.leapt:
        return False
    for node in nodes:
        if isinstance(node, Remark):
            words = set(source.slice(node.span).lower().replace(",", " ").split())
            if words & _PURPOSE:
                return True
        if isinstance(node, Skip) and node.target.which is Which.EACH:
            return True
    first = next((n for n in nodes if isinstance(n, Make) and n.target is not None), None)
    only_first = first is not None and first.target is not None and (
        first.target.which is Which.FIRST and first.target.amount is not None
    )
    return bool(only_first and agrees and all(any(a) for a in agrees))


def _stays_round(
    state: _State, step: Step, nodes: Sequence[Node], worked: WorkedRow, spiral: bool
) -> bool:
    """Whether the row is a round, so that the next one goes on in the same direction."""
    joined = worked.closed
    if worked.turned and not joined:
        return False
    if step.is_round or joined:
        return True
    if _works_in_ring(nodes):
        return True
    if spiral:
        return True
    return state.in_rounds


def _yarn_after(nodes: Sequence[Node], state: _State) -> str | None:
    names = [node.name for node in nodes if isinstance(node, Yarn) and node.name]
    return names[-1] if names else state.yarn


def _main_after(nodes: Sequence[Node], state: _State, own: Mapping[str, Definition]) -> str:
    from hookwright.working.row import main_stitch  # noqa: PLC0415

    return main_stitch(nodes, own) or state.main


