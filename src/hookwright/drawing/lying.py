"""Which pieces does a pattern have, and how do they lie when they are drawn?

A piece is drawn as it lies on a table, right side up and level: a row from right to left is
one worked on the right side by a right-handed maker, a round goes anticlockwise. Lengths
are in widths of a stitch, x to the right and y **up**.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.drawing.fabric.yarn import yarns_in
from hookwright.drawing.levelling import levelled
from hookwright.drawing.opened_rows import goes_as_tube, opened, rows_opened
from hookwright.drawing.round_layout import rounds_flat
from hookwright.drawing.slack import hangs_straight, hung_straight, with_slack_chains
from hookwright.drawing.two_discs import closes_from, second_disc
from hookwright.progress import Progress
from hookwright.shape.columns import Truth, Whole
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.facts import Degree, Lie
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import Piece
from hookwright.shape.relaxing import relax
from hookwright.shape.resting import AtRest, pieces_at_rest
from hookwright.shape.sides import first_way
from hookwright.shape.starts import start_of
from hookwright.working.outcome import Outcome
from hookwright.working.steps import row_name


class Lying(Struct, frozen=True, eq=False):
    """A piece as it is drawn.

    Attributes:
        part: The name of the part it begins with; "" for a pattern in one part.
        graph: Its stitches.
        position: (n,) complex, where they lie, in widths of a stitch, y up.
        outcomes: Its rows as worked, one for each course with a row number.
        front: (courses,) whether each course was worked with the right side to the maker.
        rounds: Whether all of it is worked in rounds.
        width_mm: The width of a stitch; 0 where nothing tells it.
        notes: What a drawing of it on paper cannot show, in sentences.
        yarns: The names of its yarns; "" for one that nothing names.
        yarn: (n,) the number of the yarn of each node.
        stands: Whether it stands up, and does not lie as it is drawn.
        pinned: Whether it is lace, drawn as it is pinned out: its rows run straight.
        mirrored: Whether it is drawn for left-handed work.
        closing: The number of the first course on a second disc; 0 for none.
        again: (n,) complex, the positions with the course before that on it too.
    """

    part: str
    graph: FabricGraph
    position: Complex
    outcomes: tuple[Outcome, ...]
    front: Truth
    rounds: bool
    width_mm: float
    notes: tuple[str, ...]
    yarns: tuple[str, ...]
    yarn: Whole
    stands: bool = False
    pinned: bool = False
    mirrored: bool = False
    closing: int = 0
    again: Complex | None = None


def left_handed(piece: Lying) -> Lying:
    """The piece as a left-handed maker works it: right-side rows from left to right."""
    again = None if piece.again is None else -piece.again.conj()
    return replace(
        piece, position=-piece.position.conj(), mirrored=not piece.mirrored, again=again
    )


def lying_pieces(
    checked: Checked, size: int = 0, progress: Progress | None = None
) -> Iterator[Lying]:
    """The pieces of a pattern in one of its sizes, in working order.

    Raises:
        Cancelled: When `progress` answers False.
    """
    return lying_of(checked, size, pieces_at_rest(checked, size, progress))


def lying_of(
    checked: Checked, size: int, rests: Iterable[AtRest | Piece]
) -> Iterator[Lying]:
    """The pieces of one size as they are drawn, from where they came to rest."""
    pattern = checked.reading.pattern
    for rest in rests:
        if isinstance(rest, AtRest):
            yarns = yarns_in(checked, size, rest.piece)
            yield lying(rest, rest.piece.named(pattern), *yarns)


def lying(rest: AtRest, part: str, yarns: tuple[str, ...], yarn: Whole) -> Lying:
    """A piece at rest, laid to be drawn."""
    graph = rest.graph
    front = worked_on_front(graph, rest.piece.outcomes)
    position, note = _on_paper(rest)
    if first_way(graph.courses, rest.piece.outcomes) < 0:
        # The first row shows its wrong side: the piece is turned over.
        position = -position.conj()
    again, stands, pinned = None, note == _STANDS, note == _PINNED
    if stands and not rest.piece.described and goes_as_tube(graph):
        graph, note = opened(graph), _OPENED
        position = rows_opened(graph)
    else:
        position = levelled(graph, position, front)
    closing = closes_from(graph) if stands and note == _STANDS else 0
    if closing:
        position, again = second_disc(graph, position, closing)
        note = _CLOSES.format(row_name(rest.piece.outcomes[closing - 1].step))
    notes = (
        "" if pinned else note,
        rest.piece.reason and f"{rest.piece.reason} It is not drawn.",
    )
    return Lying(
        part,
        graph,
        position,
        rest.piece.outcomes,
        front,
        all(course.closed for course in graph.courses if course.row),
        rest.stitch.width_mm if rest.stitch is not None else 0.0,
        tuple(note for note in notes if note),
        yarns,
        yarn,
        stands=stands,
        pinned=pinned,
        closing=closing,
        again=again,
    )


_STANDS = (
    "It stands up and is drawn flat, as if its rounds lay one outside the other: "
    "the stitches of the outer ones are closer together than here."
)
_OPENED = (
    "It stands up as a tube and is drawn opened flat, each round as a row: the end of a "
    "round meets its beginning."
)
_PINNED = "It is drawn as it is pinned out, its rows straight."
_CLOSES = (
    "It closes and is drawn as two discs. The first is read from its centre outwards; "
    "the other, from {} on, from its rim inwards, and its rim is the rim of the first."
)


def _on_paper(rest: AtRest) -> tuple[Complex, str]:
    """Where the stitches lie, and what is to be said of it."""
    graph, verdict = rest.graph, rest.verdict
    rounds = all(course.closed for course in graph.courses)
    strong = verdict.degree is Degree.STRONG
    if rest.relaxed is None or (rounds and strong and verdict.lie is Lie.CUPS):
        return rounds_flat(graph), _STANDS
    in_rows = hung_straight(rest)
    if in_rows is not None:
        return in_rows, _PINNED
    own_chains = any(course.own_chains for course in graph.courses)
    loose = graph if own_chains else with_slack_chains(graph)
    if loose is not graph and hangs_straight(loose):
        loose = graph  # it grows within itself, and bends
    if strong or rest.folds or loose is not graph:
        drawn = relax(loose, start_of(loose), shear=DRAWING)
        return drawn.position, f"It is drawn flat. {verdict.advice}" if strong else ""
    return rest.relaxed.position, ""


def worked_on_front(graph: FabricGraph, outcomes: tuple[Outcome, ...]) -> Truth:
    """(courses,) whether each course was worked with the right side to the maker."""
    way = first_way(graph.courses, outcomes)
    return np.array([course.direction == way for course in graph.courses], dtype=bool)
