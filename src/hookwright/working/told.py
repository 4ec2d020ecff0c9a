"""What do the words of a row tell before it is worked?

Most rows are like another, and every size works the same words: they are asked once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from msgspec import Struct

from hookwright.notation.named_places import BASE_OF
from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    Loops,
    Means,
    Node,
    Remark,
    Turn,
    Unworked,
    Yarn,
)
from hookwright.notation.work import work_in
from hookwright.working.foundations import next_is_from_hook
from hookwright.working.half_loops import is_loop_closed, may_close_loop
from hookwright.working.legs import names_leg
from hookwright.working.lists_by_size import is_by_size
from hookwright.working.markers import goes_to_markers
from hookwright.working.nodes import fills_its_start, turned, works_in_ring
from hookwright.working.openings import goes_round_opening
from hookwright.working.sides import (
    goes_by_row_ends,
    is_along_row_ends,
    is_both_sides,
    is_round_opening,
    is_told_under,
    only_chains,
    other_edges,
)
from hookwright.working.steps import Step
from hookwright.working.surroundings import (
    is_turned_back,
    joins_at_beginning,
    joins_to_unknown,
    row_named,
    works_in_space,
)
from hookwright.working.told_by_number import names_piece


class Told(Struct, frozen=True):
    """What the words of a row tell.

    Attributes:
        nodes: The instructions.
        in_ring: Whether the first thing worked goes into a ring.
        in_space: Whether the first place named is a loop or space.
        from_hook: Whether the first thing worked goes into a chain counted from the hook.
        at_beginning: Whether new yarn is joined where the row below began.
        turned: Whether the work is turned, or not turned; None where nothing is said.
        turned_back: Whether it is turned without being joined, so that it is no round.
        closes_loop: Whether a stitch closes its last loop.
        may_close_loop: Whether it ends with a stitch that may do so.
        to_markers: Whether it goes up to a marker.
        of_leg: Whether a leg is spoken of.
        of_piece: Whether another piece of the part is: "sc in 8 sc of first post".
        row: The row that all of it is worked into; 0 where none is named.
        edges: The other edges that it names.
        under: Whether it is worked along the underside of the foundation, and says so.
        both_sides: Whether it goes on along the other side of the chain.
        round_opening: Whether it is worked round a slit or hole.
        along_row_ends: Whether it names nothing but the ends of rows.
        by_row_ends: Whether it goes along one side until the ends of its rows run out.
        yarn: The yarn it ends with; None where it names none.
        by_size: Whether any of its numbers depends on the size.
        works: Whether it tells any work.
        unworked: What it tells, but not by its stitches: a chart, "at the same time".
        joins_to_unknown: Whether it begins on a piece that the text does not make.
        through_opening: Whether it speaks of stitches skipped earlier, or of an underarm.
        only_chains: What it calls the places it goes into, if these are chains only.
        fills_its_start: Whether it works into the space that it begins in.
    """

    nodes: tuple[Node, ...]
    in_ring: bool
    in_space: bool
    from_hook: bool
    at_beginning: bool
    turned: bool | None
    turned_back: bool
    closes_loop: bool
    may_close_loop: bool
    to_markers: bool
    of_leg: bool
    of_piece: bool
    row: int
    edges: frozenset[str]
    under: bool
    both_sides: bool
    round_opening: bool
    along_row_ends: bool
    by_row_ends: bool
    yarn: str | None
    by_size: bool
    works: bool
    unworked: frozenset[str]
    joins_to_unknown: bool
    through_opening: bool
    only_chains: frozenset[str]
    fills_its_start: bool

    def is_open(self, step: Step) -> bool:
        """Whether a row is told, but not by its stitches."""
        if self.unworked - {"evenly"} or (self.unworked and not step.claims):
            return True
        told = step.number is not None and bool(step.label)
        return told and (not self.works or _is_words(self.nodes))


_BEFORE_WORK = (Chain, Turn, Means, Yarn, Loops, Remark)
_FEWEST_WORDS = 4


def _is_words(nodes: Sequence[Node]) -> bool:
    """ "Ch 2, turn, round each bar work one as it faces you": read as words, but a row."""
    if not all(isinstance(node, _BEFORE_WORK) for node in nodes):
        return False
    said = (node.words for node in nodes if isinstance(node, Remark))
    return any(not w.startswith("(") and len(w.split()) >= _FEWEST_WORDS for w in said)


def _unworked(nodes: tuple[Node, ...]) -> Iterator[str]:
    """What is told and not worked: "evenly", the base of a stitch below the first row."""
    for node in nested(nodes):
        target = getattr(node, "target", None)
        if isinstance(node, Unworked):
            yield node.what
        elif target is not None and target.noun == BASE_OF:
            yield target.noun


@lru_cache(maxsize=1024)
def told_by(nodes: tuple[Node, ...]) -> Told:
    """What the instructions of a row tell."""
    yarns = [node.name for node in nodes if isinstance(node, Yarn) and node.name]
    return Told(
        nodes,
        in_ring=works_in_ring(nodes),
        in_space=works_in_space(nodes),
        from_hook=next_is_from_hook(nodes),
        at_beginning=joins_at_beginning(nodes),
        turned=turned(nodes),
        turned_back=is_turned_back(nodes),
        closes_loop=is_loop_closed(nodes),
        may_close_loop=may_close_loop(nodes),
        to_markers=goes_to_markers(nodes),
        of_leg=names_leg(nodes),
        of_piece=names_piece(nodes),
        row=row_named(nodes),
        edges=other_edges(nodes),
        under=is_told_under(nodes),
        both_sides=is_both_sides(nodes),
        round_opening=is_round_opening(nodes),
        along_row_ends=is_along_row_ends(nodes),
        by_row_ends=goes_by_row_ends(nodes),
        yarn=yarns[-1] if yarns else None,
        by_size=is_by_size(nodes),
        works=work_in(nodes),
        unworked=frozenset(_unworked(nodes)),
        joins_to_unknown=joins_to_unknown(nodes),
        through_opening=goes_round_opening(nodes),
        only_chains=only_chains(nodes),
        fills_its_start=fills_its_start(nodes),
    )
