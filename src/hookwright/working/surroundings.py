"""What lies around a row: a ring, a round, an earlier part."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Amount,
    Chain,
    Change,
    Evenly,
    InOnePlace,
    Join,
    Loops,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Skip,
    Statement,
    Target,
    Topic,
    Turn,
    Which,
    Yarn,
)
from hookwright.notation.work import is_work
from hookwright.regex import regex
from hookwright.working.fabric import Edge, PlaceKind
from hookwright.working.reading_state import State
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import Run
from hookwright.working.sides import placed_in, slipped_in
from hookwright.working.steps import Step


def only_evenly(nodes: Sequence[Node]) -> Amount | None:
    """The number of a row that is only told as so many along some edge; else None."""
    work = [node for node in nodes if is_work(node)]
    only = work[0] if len(work) == 1 else None
    told = isinstance(only, Evenly) and only.change is Change.TOTAL and bool(only.stitch)
    return only.amount if told and isinstance(only, Evenly) else None


def lies_flat(state: State, step: Step, nodes: Sequence[Node]) -> bool:
    """Whether a round goes "evenly around" a piece in rows: its number is the maker's."""
    if state.in_rounds or not state.sides.rows:
        return False
    if not any(isinstance(n, Make) and n.target and n.target.evenly for n in nodes):
        return False
    return step.is_round or any(isinstance(node, Join) for node in nodes)


_ONE_EDGE = ("underside", "sp", "ch", "ring")


def names_edges_at_once(state: State, nodes: Sequence[Node]) -> bool:
    """Whether a border tells all edges of a flat piece in one phrase.

    "Sc in each st and in each row end, 3 sc in each corner, join": the stitches above and
    below, the ends of both sides; what a corner takes of them nobody says.
    """
    if state.in_rounds or not state.sides.rows:
        return False
    closes = any(
        isinstance(node, Join) or (isinstance(node, Make) and node.stitch == "sl st")
        for node in nodes[-3:]
    )
    if not closes:
        return False
    targets = [t for n in nested(nodes) if (t := getattr(n, "target", None)) is not None]
    ends = [t for t in targets if t.noun == "row end"]
    stitches = [t for t in targets if _is_each_stitch(t)]
    if any(_are_both(target) for target in targets) or (stitches and _adds_ends(nodes)):
        return True
    once = len(ends) == len(stitches) == 1 and ends[0].which is Which.EACH
    return once and not any(t.noun in _ONE_EDGE for t in targets)


_OF_GARMENT = regex(
    r"\b(?:fronts?|neck(?:line|edge)?|armholes?|shoulders?|button ?band)\b",
    re.IGNORECASE,
)


def goes_round_garment(nodes: Sequence[Node]) -> bool:
    """Whether a part begins with a band along edges of a garment: "up right front, ...".

    They belong to several pieces, or to one that has divided; how many rows lie between
    hem and neck is not what the last piece tells.
    """
    ends = any(t.noun == "row end" for t in placed_in(nodes))
    return ends and any(
        isinstance(n, Remark) and _OF_GARMENT.search(n.words) for n in nodes
    )


def goes_on_unknown(state: State, step: Step) -> bool:
    """Whether nothing of a part is known so far: its first row tells no number, and so on.

    "Sc evenly up the front", and row 2 over that: what it comes to is the maker's.
    """
    untold = (
        outcome.is_open and not outcome.step.claims
        for outcome in reversed(state.outcomes)  # the last one mostly tells
        if outcome.step.part == step.part
    )
    return next(untold, False) and all(untold)


def was_open_before(state: State, step: Step) -> bool:
    """Whether a row works one again that could not be worked: "As Rnd 1 of One"."""
    if step.recalled is None:
        return False
    return any(o.is_open and o.step.nodes == step.nodes for o in state.outcomes)


def is_round_unknown_corners(state: State, nodes: Sequence[Node]) -> bool:
    """Whether a row goes by the corners of a row that could not be worked."""
    if not state.outcomes or not state.outcomes[-1].is_open:
        return False
    return any(
        "corner" in (told.noun for told in (target, target.of, target.until) if told)
        for target in placed_in(nodes)
    )


def _is_each_stitch(target: Target) -> bool:
    """Whether a target is "each st", to no corner and of no number."""
    elsewhere = target.noun in ("row end", "corner", *_ONE_EDGE)
    every = target.which is Which.EACH and target.amount is None
    return every and not elsewhere and target.until is None


def _are_both(target: Target) -> bool:
    """Whether one phrase takes stitches and row ends: "in each st and each row end"."""
    several = (target, *target.also)
    ends = any(own.noun == "row end" for own in several)
    return ends and any(map(_is_each_stitch, several))


_ROW_ENDS = regex(
    r"\brow[ -]?ends?\b|\bends? of (?:each |every |the )?rows?\b", re.IGNORECASE
)


def _adds_ends(nodes: Sequence[Node]) -> bool:
    """Whether words that were passed over name row ends: "each st and row end around"."""
    return any(isinstance(n, Remark) and _ROW_ENDS.search(n.words) for n in nodes)


def begins_part(state: State, step: Step) -> bool:
    """Whether a row is the first of its part, so that what was worked before is another."""
    before = state.outcomes[-1].step if state.outcomes else None
    return before is None or (before.part != step.part and step.number in (0, 1))


def is_chain_ring(edge: Edge) -> bool:
    """Whether an edge is a chain joined into a ring."""
    return edge.closed and all(
        isinstance(piece, Run) and piece.item.kind is PlaceKind.CHAIN for piece in edge.line
    )


def works_in_space(nodes: Sequence[Node]) -> bool:
    """Whether the first place named is a "loop" or "space": here, the ring."""
    for node in nodes:
        target = getattr(node, "target", None)
        if target is not None and not (isinstance(node, Make) and node.stitch == "sl st"):
            return bool(target.noun == "sp")
    return False


def only_bare(nodes: Sequence[Node]) -> bool:
    """Whether a round names no place at all: "9 hdc" with nothing below it is in a ring."""
    makes = [node for node in nodes if isinstance(node, Make) and node.stitch != "sl st"]
    return bool(makes) and all(node.target is None for node in makes)


def is_bare_lace(nodes: Sequence[Node]) -> bool:
    """ "*Tr, ch 1; rep from * 7 times": spokes with chains between, and no place named."""
    repeats = [node for node in nodes if isinstance(node, Repeat)]
    if not repeats or any(r.times.often is Often.ACROSS for r in repeats):
        return False
    bodies = [list(nested(repeat.body)) for repeat in repeats]
    inside = [node for body in bodies for node in body]
    makes = [node for node in (*nodes, *inside) if isinstance(node, Make)]
    bare = all(m.target is None or m.stitch == "sl st" for m in makes)
    placed = any(isinstance(node, (InOnePlace, Skip)) for node in (*nodes, *inside))
    return bare and not placed and any(isinstance(node, Chain) for node in inside)


def is_one_in_each(nodes: Sequence[Node]) -> bool:
    """Whether a row is one stitch in each and nothing else, so it makes what it uses."""
    work = [n for n in nodes if isinstance(n, (Make, InOnePlace, Repeat, Skip))]
    made = [n for n in work if not (isinstance(n, Make) and n.stitch == "sl st")]
    only = made[0] if len(made) == 1 else None
    return (
        isinstance(only, Make)
        and only.target is not None
        and only.target.which is Which.EACH
        and (only.amount is None or only.amount.values == (1,))
    )


def row_named(nodes: Sequence[Node]) -> int:
    """The row that all of a row is worked into ("behind the petals"); 0 where none is."""
    rows = {target.row for target in placed_in(nodes) or slipped_in(nodes)}
    if rows == {0}:
        return _row_said(nodes)
    return rows.pop() if len(rows) == 1 else 0


_BEHIND = (
    r"\b(?:behind|working|into)\b.*\b(?:of|from|in|into) (?:the )?(?:rnd|round|row) (\d+)"
)


def _row_said(nodes: Sequence[Node]) -> int:
    """ "Working behind the petals in the sts of Rnd 2, ...": told once for the row."""
    for node in nodes:
        if isinstance(node, Loops) and node.row:
            return node.row
        if not isinstance(node, (Remark, Yarn)):
            return 0
        words = node.words if isinstance(node, Remark) else ""
        found = re.search(_BEHIND, words, re.IGNORECASE)
        if found is not None:
            return int(found[1])
    return 0


def edges_of_row(state: State, number: int) -> list[Edge]:
    """The edge that an earlier row of the part left; none where it is the last row's.

    Where numbers run on from part to part, the row may be one of a part before.
    """
    worked = [o for o in state.outcomes if o.worked is not None]
    own = [o for o in worked if o.step.part == state.part]
    begun = min((o.step.number for o in own if o.step.number), default=number + 1)
    found = [
        o.worked.edge
        for o in (worked if number < begun else own)[:-1]
        if o.step.number == number and o.worked
    ]
    return found[-1:]


def in_ring(nodes: Sequence[Node]) -> bool:
    """Whether a round with nothing below it names no place, or only "it": the ring."""
    makes = [node for node in nodes if isinstance(node, Make) and node.stitch != "sl st"]
    target = makes[0].target if makes else None
    return only_bare(nodes) or (target is not None and target.noun == "here")


def goes_back(nodes: Sequence[Node], state: State, step: Step) -> bool:
    """Whether a row may go into stitches left earlier, the yarn cut before it.

    Between two parts nobody need say that it is.
    """
    if not state.rests or not (state.finished or begins_part(state, step)):
        return False
    return any(
        isinstance(node, (Yarn, Join, Skip))
        or (isinstance(node, Make) and node.stitch == "sl st")
        for node in nodes[:4]
    )


def joins_to_unknown(nodes: Sequence[Node]) -> bool:
    """ "Join lilac in any corner sp" of a piece that the text does not make."""
    first = next((node for node in nodes if type(node) is not Remark), None)
    return isinstance(first, Yarn) and first.target is not None


def has_nothing_below(state: State, step: Step, nodes: Sequence[Node]) -> bool:
    """Whether a first row is worked on what no row makes: a hem, or a stitch pattern."""
    if state.has_chain or state.outcomes or (step.claims and step.number is None):
        return False
    places = placed_in(nodes)
    first = places[0] if places else None
    if first is None or first.from_hook or first.noun in ("ring", "sp", "ch", "here"):
        return False
    return first.which in (Which.FIRST, Which.EACH) and not only_bare(nodes)


def from_its_end(nodes: tuple[Node, ...], state: State) -> tuple[Node, ...]:
    """ "Join in last st of Row 28": once the piece is turned that is the first of its edge.

    So it is where the work then goes on along the stitches, and not down the side.
    """
    at = next((i for i, node in enumerate(nodes) if type(node) is not Remark), 0)
    joins = nodes[at] if nodes else None
    if state.in_rounds or state.edge.closed or not isinstance(joins, (Yarn, Join)):
        return nodes
    place = joins.target
    if place is None or place.which is not Which.LAST or not place.row or place.amount:
        return nodes
    onward = (target for target in placed_in(nodes) if target.which is not Which.SAME)
    along = next(onward, None)
    if along is None or along.noun in ("row end", "underside", "ch"):
        return nodes
    first = replace(joins, target=replace(place, which=Which.FIRST))
    return (*nodes[:at], first, *nodes[at + 1 :])


def joins_at_beginning(nodes: Sequence[Node]) -> bool:
    """Whether new yarn is joined where the row below began: in its beginning chain."""
    first = next((n for n in nodes if getattr(n, "target", None) is not None), None)
    joins = isinstance(first, (Yarn, Join)) or (
        isinstance(first, Make) and first.stitch == "sl st"
    )
    target = getattr(first, "target", None)
    return joins and target is not None and target.noun == "tch"


def is_turned_back(nodes: Sequence[Node]) -> bool:
    """Whether a row is turned without being joined: what is called a round is none then."""
    last = next((n for n in reversed(nodes) if not isinstance(n, (Remark, Yarn))), None)
    turned = isinstance(last, Turn) and last.turned
    return turned and not any(isinstance(node, Join) for node in nodes)


def turns_rows(statement: Statement) -> bool:
    """Whether a sentence says that every row is turned: "Turn after every row."."""
    return statement.topic is Topic.TURN and statement.word == "row"


def stays_round(
    state: State,
    step: Step,
    worked: WorkedRow,
    *,
    in_ring: bool,
    spiral: bool,
    rows: bool,
) -> bool:
    """Whether the row is a round, so that the next one goes on in the same direction.

    One of `rows` is none: the text says that each is turned, or it is called a row and
    leaves the rest of a round on purpose.
    """
    joined = worked.closed
    if (worked.turned or rows) and not joined:
        return False
    if step.is_round or joined or in_ring:
        return True
    return spiral or state.in_rounds
