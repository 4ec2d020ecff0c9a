"""The rows of a pattern laid one on the other, piece by piece.

A piece begins where a foundation chain or a ring is made, and goes on as long as rows are
worked into edges of its own: its last row, one that was left earlier, the underside of its
foundation, the ends of its rows. A round that stands on none of these, as one round two
legs, begins a piece of its own; a row that does is not laid, nor is what follows it, and
that is said.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

import numpy as np
from msgspec import Struct

from hookwright.notation.tree import Definition, Pattern
from hookwright.progress import Progress, tell
from hookwright.shape.bases import (
    Begins,
    Growing,
    LaidEdge,
    base_of_row,
    goes_round_others,
    is_spread,
)
from hookwright.shape.columns import (
    Columns,
    TooLarge,
    one_each,
)
from hookwright.shape.feet import Base
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.mesh import Mesh
from hookwright.shape.own_chains import with_own_chains
from hookwright.shape.places import places_of
from hookwright.shape.post_rib import drawn_in
from hookwright.shape.row_words import RowWords
from hookwright.sizing.guessing import usual_heights
from hookwright.working.fabric import Edge, PlaceKind, extent
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import total
from hookwright.working.steps import row_name
from hookwright.working.stitches import base_of, height


class Heights(Struct, frozen=True):
    """How high stitches stand, in widths of a stitch.

    Attributes:
        of: By the names that the pattern uses.
        usual: Of a name that says nothing of its height: that of the main stitch.
    """

    of: Mapping[str, float]
    usual: float


class Piece(Struct, frozen=True, eq=False):
    """A piece as a graph.

    Attributes:
        part: The number of the part of its first row.
        graph: Its stitches.
        outcomes: The rows laid, in working order.
        reason: Why its later rows were not laid; "" where all were.
        described: Whether it goes round a piece that the text only describes.
        begins: The name of the row it begins with, where its part has an earlier piece.
    """

    part: int
    graph: FabricGraph
    outcomes: tuple[Outcome, ...]
    reason: str = ""
    described: bool = False
    begins: str = ""

    def named(self, pattern: Pattern) -> str:
        """What it is called: its part, and the row it begins with if that says more."""
        part = pattern.parts[self.part].name
        if not self.begins:
            return part
        return f"{part}, from {self.begins} on" if part else f"From {self.begins} on"


def heights_in(worked: WorkedPattern, size: int, scale: float = 1.0) -> Heights:
    """The heights of all stitches of a pattern.

    Args:
        worked: The pattern.
        size: Which of its sizes.
        scale: By what the usual heights are taken higher, where a gauge tells it.
    """
    own = {name: d for d in worked.pattern.definitions for name in d.names}
    kinds: dict[str, int] = {}
    for outcome in worked.sizes[size].outcomes:
        found = outcome.worked.row.kinds() if outcome.worked is not None else {}
        for name, number in found.items():
            kinds[name] = kinds.get(name, 0) + (number if isinstance(number, int) else 0)
    known = {name: h for name in kinds if (h := _height(name, own, worked.terms))}
    main = max(known, key=lambda name: kinds[name], default="")
    usual = known.get(main, float(usual_heights()[1]))
    return Heights({name: scale * high for name, high in known.items()}, scale * usual)


def _height(name: str, own: Mapping[str, Definition], terms: str) -> float:
    """The usual height of a stitch; 0 where its name tells none."""
    usual = usual_heights()
    if base_of(name).startswith("sl st"):
        return float(usual[0])
    definition = own.get(name)
    if definition is not None and definition.stitch:
        name = definition.stitch
    chains = _turning_chain(name, terms)
    return float(usual.get(chains, 0)) if chains else 0.0


@cache
def _turning_chain(name: str, terms: str) -> int:
    return height(base_of(name), terms) if base_of(name) in _PLAIN else 0


_PLAIN = frozenset("sc hdc dc tr dtr trtr htr esc edc".split())
"""Stitches whose turning chain tells their height; "shell" or "st" tell none."""


def pieces_laid(
    outcomes: Sequence[Outcome], heights: Heights, progress: Progress | None = None
) -> Iterator[Piece]:
    """The pieces of a pattern in one size, each as a graph.

    Raises:
        Cancelled: When `progress`, told before each row, answers False.
    """
    growing: Growing | None = None
    words = RowWords()
    after = _rows_after(outcomes)
    for number, outcome in enumerate(outcomes):
        tell(progress, number / len(outcomes))
        if outcome.worked is None:
            if growing is not None and outcome.is_open:
                growing.reason = growing.reason or _not_told(outcome)
            continue
        begins = _beginning(outcome, outcome.worked, growing)
        if begins is not None:
            again = growing is not None and growing.part == outcome.step.part
            if growing is not None:
                yield _piece(growing)
            growing = Growing(Mesh(), outcome.step.part, np.zeros(0, dtype=np.int64))
            growing.begins = row_name(outcome.step) if again else ""
        if growing is not None and not growing.reason:
            closed = _is_closed(outcome.worked, after[number])
            _lay(
                growing,
                outcome,
                outcome.worked,
                heights,
                words,
                begins=begins,
                closed=closed,
            )
    if growing is not None:
        yield _piece(growing)


def _piece(growing: Growing) -> Piece:
    """A piece as far as it was laid."""
    return Piece(
        growing.part,
        drawn_in(growing.mesh.graph()),
        tuple(growing.outcomes),
        growing.reason,
        growing.described,
        growing.begins,
    )


def _rows_after(outcomes: Sequence[Outcome]) -> list[WorkedRow | None]:
    """For each row the next one that is worked."""
    found: list[WorkedRow | None] = []
    after: WorkedRow | None = None
    for outcome in reversed(outcomes):
        found.append(after)
        after = outcome.worked or after
    return found[::-1]


def _is_closed(worked: WorkedRow, after: WorkedRow | None) -> bool:
    """Whether the end of a row meets its beginning.

    In a ring nothing may say so of the first round of a spiral but the next round, which
    goes round on all of it.
    """
    if worked.edge.closed or after is None or not after.edge.closed:
        return worked.edge.closed
    if PlaceKind.RING not in _kinds(worked.over):
        return False
    return _places(worked.edge) == _places(after.over)


def _places(edge: Edge) -> int:
    """How many places an edge has."""
    number = total(edge.line, extent)
    return number if isinstance(number, int) else -1


def _not_told(outcome: Outcome) -> str:
    return f"{row_name(outcome.step)} is not told stitch by stitch."


def _beginning(
    outcome: Outcome, worked: WorkedRow, growing: Growing | None
) -> Begins | None:
    """How a row begins a piece; None for one that goes on with what there is."""
    if growing is None:
        return Begins.NEW
    kinds = _kinds(worked.over)
    if PlaceKind.RING in kinds:
        return Begins.NEW
    if kinds == {PlaceKind.CHAIN}:
        found = any(found.edge == worked.over for found in growing.edges)
        return None if found else Begins.NEW
    # What stands on nothing, in a part of its own, does not go on from a piece given up.
    before = growing.outcomes[-1].step.part if growing.outcomes else growing.part
    if not kinds:
        begins = bool(growing.reason) and outcome.step.part != before
        return Begins.NEW if begins else None
    return Begins.ON_OTHERS if goes_round_others(growing, outcome, worked) else None


def _kinds(edge: Edge) -> set[PlaceKind]:
    try:
        return set(places_of(edge).kinds)
    except TooLarge:
        return set()


def _lay(
    growing: Growing,
    outcome: Outcome,
    worked: WorkedRow,
    heights: Heights,
    words: RowWords,
    *,
    begins: Begins | None,
    closed: bool,
) -> None:
    """Lays a row, or says why it cannot be."""
    begun = begins is not None
    try:
        columns, span = words.columns(outcome, worked)
        found = base_of_row(growing, worked, columns, begins)
        if found is None:
            growing.reason = f"{row_name(outcome.step)} stands on no edge that was laid."
            return
        base, direction = found
        if is_spread(growing, worked, columns) and not begun:
            columns = one_each(columns)
        base, columns, span, holds = with_own_chains(
            base, columns, span, worked, growing.mesh.size, begun=begun
        )
        laid = growing.mesh.row_on(
            base,
            columns,
            heights.of,
            heights.usual,
            closed=closed,
            direction=direction,
            whole=not worked.left,
            label=row_name(outcome.step),
            span=span,
        )
        if holds is not None:
            growing.mesh.hold(laid.first, holds)
    except TooLarge:
        growing.reason = f"{row_name(outcome.step)} makes the piece too large to lay out."
        return
    growing.outcomes.append(outcome)
    _keep(growing, outcome, worked, columns, laid, base)


def _keep(
    growing: Growing,
    outcome: Outcome,
    worked: WorkedRow,
    columns: Columns,
    laid: Laid,
    base: Base,
) -> None:
    """Keeps the edges that a row leaves: what it did not reach, and its own."""
    if worked.left and not base.ring:
        rest = places_of(worked.rest)
        whole = LaidEdge(worked.over, base.nodes, base.first, base.number, laid.direction)
        if len(rest.units) <= len(base.units):
            made = growing.number_of_edge()
            growing.edges.append(whole.last(len(rest.units), worked.rest, made))
    edge = LaidEdge(
        worked.edge,
        laid.nodes,
        columns.place_first,
        columns.place_nodes,
        laid.direction,
        growing.number_of_edge(),
    )
    growing.keep(edge, turned=outcome.turned)
