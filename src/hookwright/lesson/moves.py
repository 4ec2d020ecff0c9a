"""Which moves does each row ask of a hand, and which of them are new?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.design.stripes import stripe_plans
from hookwright.lesson.facts import Move, RowMoves
from hookwright.lesson.ways_in import ways_in
from hookwright.lesson.words_of import stitch_words
from hookwright.notation.printing.wording import Wording
from hookwright.notation.tree import FinishOff, Node
from hookwright.working.fabric import Place, PlaceKind, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.row_yarns import row_yarns
from hookwright.working.sequence import Group, Line, Repeat, Run

_NO_STITCH = frozenset({"skip", "pass", "place", "tch", "ch", "sl st"})
_ON = {
    PlaceKind.CHAIN: ("into the foundation chain", "Under which strands of the chain."),
    PlaceKind.UNDERSIDE: (
        "along the underside of the foundation",
        "The loops that are left on the other side of the chain.",
    ),
    PlaceKind.ROW_END: ("along the ends of the rows", "Where the hook goes in at a side."),
    PlaceKind.RING: ("into a ring", "The ring before it is drawn closed."),
}


def moves_of(checked: Checked, size: int) -> tuple[RowMoves, ...]:
    """The moves of all rows of a size, in working order."""
    outcomes = checked.worked.sizes[size].outcomes
    names = [part.name for part in checked.reading.pattern.parts]
    yarns = row_yarns(checked.reading.pattern, outcomes)
    changes = None if yarns else _first_stripe(checked)
    seen: set[str] = set()
    result = []
    before: str | None = None
    for at, outcome in enumerate(outcomes):
        yarn = yarns.get(at) or _first_yarn(outcome)
        if changes is not None and outcome.step.number == changes + 1:
            yarn, changes = "the next stripe", None
        moves = tuple(_once(_moves(checked, outcome, yarn, before)))
        before = yarn or before
        new = tuple(move for move in moves if move.key not in seen)
        seen |= {move.key for move in moves}
        part = names[outcome.step.part]
        result.append(RowMoves(at, row_called(outcome), part, moves, new))
    return tuple(result)


def _first_stripe(checked: Checked) -> int | None:
    """How many rows the first stripe has, where stripes are told in words only."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    own = next((plan for plan in plans if len(plan.stripes) > 1), None)
    return own.stripes[0].rows if own is not None else None


def row_called(outcome: Outcome) -> str:
    """What a row is called: "Row 7", "Foundation chain"."""
    step = outcome.step
    if step.number is not None:
        return f"{'Round' if step.is_round else 'Row'} {step.number}"
    return step.label or ("Foundation chain" if outcome.foundation else "Beginning")


def _once(moves: Iterator[Move]) -> Iterator[Move]:
    seen: set[str] = set()
    for move in moves:
        if move.key not in seen:
            seen.add(move.key)
            yield move


def _first_yarn(outcome: Outcome) -> str | None:
    yarns = outcome.worked.row.yarns() if outcome.worked is not None else ()
    return next((name for name, _ in yarns if name), None)


def _moves(
    checked: Checked, outcome: Outcome, yarn: str | None, before: str | None
) -> Iterator[Move]:
    if yarn and before and yarn != before:
        colour = Wording(checked.terms or "US").colour
        show = f"The last pull of the old {colour}, with the new."
        yield Move("colour", f"a new {colour}", show)
    worked = outcome.worked
    if worked is None:
        if outcome.foundation:
            yield Move("chain", "the foundation chain", "The slip knot and a few chains.")
    else:
        yield from _of_row(checked, worked)
        if outcome.turned:
            yield Move("turn", "turning the work", "Which way the work is turned.")
        if worked.closed:
            yield Move(
                "join", "joining the round", "The stitch that the round is joined to."
            )
    if _cuts(outcome.step.nodes):
        yield Move("fasten off", "fastening off", "The tail pulled through.")


def _cuts(nodes: Sequence[Node]) -> bool:
    return any(isinstance(node, FinishOff) for node in nodes)


def _of_row(checked: Checked, worked: WorkedRow) -> Iterator[Move]:
    on = next((place for place in _places(worked.over.line)), None)
    if on is not None and on.kind in _ON:
        words, show = _ON[on.kind]
        yield Move(f"on {on.kind}", words, show)
    yield from _beginning(worked.row.line)
    yield from _along(checked, worked.row.line)
    yield from _end(worked)


def _places(line: Line[Place]) -> Iterator[Place]:
    for piece in line:
        if isinstance(piece, Run):
            yield piece.item
        else:
            yield from _places(piece.body)


def _beginning(line: Line[Stitch]) -> Iterator[Move]:
    """The chain that a row begins with: how many, and whether it is a stitch."""
    first = next(_stitches(line), None)
    if first is None or first.kind != "tch" or not first.heads:
        return
    chain = first.heads[0]
    one = chain.chains == 1
    number = "a chain" if one else f"{chain.chains} chains"
    verb, no = ("counts", "is no stitch") if one else ("count", "are no stitch")
    is_stitch = f"{verb} as a stitch" if chain.counts else no
    key = f"begin {chain.chains} {chain.counts} {chain.kind is PlaceKind.TURNING_CHAIN}"
    yield Move(
        key,
        f"beginning with {number} that {is_stitch}",
        "The chain, and the place that the first stitch goes into.",
    )


def _stitches(line: Line[Stitch]) -> Iterator[Stitch]:
    for piece in line:
        if isinstance(piece, Run):
            yield piece.item
        else:
            yield from _stitches(piece.body)


def _along(checked: Checked, line: Line[Stitch]) -> Iterator[Move]:
    for piece in line:
        if isinstance(piece, Run):
            yield from _of_stitch(checked, piece.item)
        elif isinstance(piece, Repeat):
            yield from _along(checked, piece.body)
        else:
            yield from _of_group(checked, piece)


def _of_stitch(checked: Checked, stitch: Stitch) -> Iterator[Move]:
    if stitch.kind == "skip":
        yield Move("skip", "skipping stitches", "Which places are passed over.")
    elif stitch.kind == "ch":
        yield Move("space", "a chain space", "The chains, and the hole they leave.")
    elif stitch.kind not in _NO_STITCH:
        words = stitch_words(checked, stitch.kind)
        yield Move(
            f"stitch {stitch.kind}", words, "Every loop on the hook, one after another."
        )
    yield from ways_in(stitch)


def _of_group(checked: Checked, group: Group[Stitch]) -> Iterator[Move]:
    """Several stitches in one place, by the name that the pattern gives them."""
    if group.name:
        words = stitch_words(checked, group.name)
        yield Move(f"group {group.name}", words, "All its stitches in the one place.")
    else:
        made = sum(1 for stitch in _stitches(group.body) if stitch.heads)
        if made > 1 or any(not stitch.passes for stitch in _stitches(group.body)):
            yield Move("several", "several stitches in one place", "How close they stand.")
    yield from _along(checked, group.body)


def _end(worked: WorkedRow) -> Iterator[Move]:
    """Where the last stitch goes: a turning chain is a place that is easily missed."""
    last = None
    for place in _places(worked.over.line):
        last = place
    into_chain = (
        last is not None
        and last.kind is PlaceKind.TURNING_CHAIN
        and last.counts > 0
        and not worked.left
    )
    if into_chain and not worked.closed:
        yield Move(
            "end in chain",
            "the last stitch, in the top of the turning chain",
            "The chain at the end, and where the hook goes in.",
        )
