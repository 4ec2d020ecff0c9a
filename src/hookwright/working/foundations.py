"""A chain that begins a piece, told apart from the row worked into it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import (
    Amount,
    Chain,
    Given,
    InOnePlace,
    Join,
    Make,
    Means,
    Node,
    Role,
    Skip,
    Target,
    Which,
)
from hookwright.working.ahead import holds
from hookwright.working.fabric import Edge, PlaceKind, foundation, top
from hookwright.working.first_chain import into_first_chain, is_first_chain
from hookwright.working.nodes import QUIET
from hookwright.working.outcome import Outcome
from hookwright.working.picots import begins_with_cord, slips_back
from hookwright.working.reading_state import NOTHING, State, yarn_after
from hookwright.working.sequence import Run
from hookwright.working.sides import Sides
from hookwright.working.steps import Step
from hookwright.working.tally import tally_of


def has_work(nodes: Sequence[Node]) -> bool:
    """Whether a row has anything that is worked."""
    return any(type(node) not in QUIET for node in nodes)


def split_foundation(
    step: Step, state: State, size: int
) -> tuple[_Foundation | None, Sequence[Node]]:
    """A chain that begins a piece, told apart from the row worked into it."""
    nodes = step.nodes
    at = next((i for i, node in enumerate(nodes) if type(node) not in QUIET), None)
    if at is None or not isinstance(nodes[at], Chain):
        return None, nodes
    chain = nodes[at]
    assert isinstance(chain, Chain)
    rest = nodes[at + 1 :]
    length = chain.amount.at(size) or 0
    if length == 1 and has_work(rest) and not _new_piece(step, state):
        return None, nodes  # as most rows begin
    if state.edge is not NOTHING and begins_with_cord(nodes[at:], size):
        return None, nodes
    join = _ring_join(rest, length, size) if length != 1 else None
    if join is not None:
        after = [*nodes[:at], *rest[join + 1 :]]
        return _Foundation(chain, ring=True), after
    if not has_work(rest):
        if state.edge is NOTHING or length > 3 or step.number is None:
            fresh = state.edge is NOTHING or state.part != -1
            return (_Foundation(chain, ring=False), rest) if fresh else (None, nodes)
        return None, nodes
    if not _new_piece(step, state):
        return None, nodes
    rest = _counted_from_hook(rest, length)
    first = into_first_chain(rest, length, size)
    along = state.edge is NOTHING and _goes_along_chain(rest)
    if first is not None or next_is_from_hook(rest) or along:
        begun = _Foundation(chain, ring=False, inside=True)
        return begun, [*nodes[:at], *_meaning(chain), *(first or rest)]
    return None, nodes


def _meaning(chain: Chain) -> list[Node]:
    """What the chain is said to stand for, as said of its chains skipped at the hook."""
    if chain.role is Role.UNSAID:
        return []
    return [Means(chain.span, chain.role, chain.stands, chain.stands_chains)]


class _Foundation(Struct, frozen=True):
    chain: Chain
    ring: bool
    inside: bool = False


def _new_piece(step: Step, state: State) -> bool:
    return state.edge is NOTHING or step.label == "" or step.number in (0, 1, None)


def next_is_from_hook(nodes: Sequence[Node]) -> bool:
    """Whether the first thing worked goes into a chain counted from the hook."""
    first = next((node for node in nodes if type(node) not in QUIET), None)
    if isinstance(first, (Make, Skip, InOnePlace)) and first.target is not None:
        return first.target.from_hook
    return False


def off_the_chain(step: Step, state: State, nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A first row that is worked again later: in stitches, for there are no chains.

    "Hdc in 3rd ch from hook and in each ch across" is then a chain of 2 at the beginning,
    and a hdc in each st.
    """
    again = step.recalled is not None and state.edge is not NOTHING
    if not again or state.pending is not None or not next_is_from_hook(nodes):
        return nodes
    if holds(state.edge.line, lambda place: place.kind is PlaceKind.CHAIN):
        return nodes
    at = next(i for i, node in enumerate(nodes) if type(node) not in QUIET)
    first = nodes[at]
    if not isinstance(first, Make) or first.target is None or not first.target.ordinal:
        return nodes
    skipped = Amount((first.target.ordinal - 1,), first.span)
    means = next((node for node in nodes[:at] if isinstance(node, Means)), None)
    chain = Chain(skipped, first.span, Role.UNSAID if means is None else means.role)
    first = replace(first, target=Target("st", Which.NEXT, first.target.span))
    return (*nodes[:at], chain, first, *rebuilt(nodes[at + 1 :], _in_stitches))


def in_lone_chain(nodes: tuple[Node, ...], state: State, size: int) -> tuple[Node, ...]:
    """ "Ch 4." on a line of its own, and "11 dc in first ch": counted from the hook."""
    chains = state.edge.line[0] if len(state.edge.line) == 1 else None
    if not isinstance(chains, Run) or chains.item.kind is not PlaceKind.CHAIN:
        return nodes
    times = chains.times if isinstance(chains.times, int) else 0
    first = None if state.edge.closed else into_first_chain(nodes, times, size)
    return nodes if first is None else tuple(first)


def _in_stitches(value: object) -> object:
    chains = isinstance(value, Target) and value.noun == "ch"
    return replace(value, noun="st") if isinstance(value, Target) and chains else value


def _counted_from_hook(nodes: tuple[Node, ...], length: int) -> tuple[Node, ...]:
    """ "9 ch; 1 dc in 2nd ch", "in the 2nd st of the chain": counted from the hook."""
    at = next((i for i, node in enumerate(nodes) if type(node) not in QUIET), len(nodes))
    first = nodes[at] if at < len(nodes) else None
    if not isinstance(first, (Make, InOnePlace)) or first.target is None:
        return nodes
    target = first.target
    slips = isinstance(first, Make) and first.stitch == "sl st"
    if slips or target.noun not in ("ch", "tch") or target.amount is not None:
        return nodes
    if target.which is not Which.NTH or not 1 < (target.ordinal or 0) <= length:
        return nodes
    counted = replace(first, target=replace(target, noun="ch", from_hook=True))
    return (*nodes[:at], counted, *nodes[at + 1 :])


def _goes_along_chain(nodes: Sequence[Node]) -> bool:
    """Whether the first thing worked goes into the first chain: "sc in first ch"."""
    first = next((node for node in nodes if type(node) not in QUIET), None)
    target = first.target if isinstance(first, Make) else None
    return target is not None and is_first_chain(target)


def begins_on_chain(nodes: Sequence[Node]) -> bool:
    """Whether the first thing worked goes into a chain of the foundation."""
    first = next((node for node in nodes if type(node) not in QUIET), None)
    if isinstance(first, (Make, Skip, InOnePlace)) and first.target is not None:
        return first.target.noun == "ch"
    return False


def _ring_join(nodes: Sequence[Node], length: int, size: int) -> int | None:
    """Where a chain is joined into a ring, if that is the next thing done."""
    for i, node in enumerate(nodes):
        if isinstance(node, Join) and (
            node.to_ring or _to_first(node.target) or node.target is None
        ):
            return i
        if isinstance(node, Make) and node.stitch == "sl st" and _to_first(node.target):
            if node.target is not None and node.target.ordinal == _BESIDE_HOOK < length:
                return None  # a cord is begun
            further = nodes[i + 1] if i + 1 < len(nodes) else node
            told = isinstance(further, Join)  # "to close the ring"
            return None if slips_back(node, further, length, size) else i + told
        if type(node) not in QUIET:
            return None
    return None


_BESIDE_HOOK = 2
"""The first chain that a slip stitch can go back into."""


def _to_first(target: Target | None) -> bool:
    """Whether a slip stitch goes into the first chain; "4 ch, ss." says no more of it."""
    if target is None:
        return True
    if target.amount is not None:
        return False
    if target.which is Which.FIRST or target.from_hook or target.noun == "ring":
        return True
    return target.noun in ("tch", "ch") and target.which in (Which.NTH, Which.NEXT)


def founded(state: State, chain: _Foundation, size: int) -> State:
    """The state with a new foundation chain on the hook."""
    number = chain.chain.amount.at(size) or 0
    edge = foundation(number)
    return replace(
        state,
        edge=edge.round() if chain.ring else edge,
        pending=None,
        in_rounds=chain.ring,
        has_chain=True,
        finished=False,
        sides=Sides(number),
    )


def on_given(state: State, given: Given, size: int) -> State:
    """The state on a piece that is only described: its last row, and its sides."""
    number = given.stitches.at(size) or 0
    rows = given.rows.at(size) if given.rows is not None else None
    edge = Edge((Run(top(given.stitch), number),), closed=rows is None)
    sides = Sides(number, 0, rows) if rows else state.sides
    return replace(
        state, edge=edge, has_chain=True, in_rounds=rows is None, finished=True, sides=sides
    )


def with_foundation(state: State, step: Step, chain: _Foundation, size: int) -> State:
    """The state after a foundation chain: what stands below the first row."""
    number = chain.chain.amount.at(size) or 0
    outcome = Outcome(step, None, tally_of(NOTHING), (), 0, meant=True, foundation=number)
    return replace(
        state, outcomes=(*state.outcomes, outcome), yarn=yarn_after(step.nodes, state)
    )
