"""Which rows are edged, and can they be?

The piece is what the pattern works in one go beside its own edgings: one part, or parts
that go on from one another. What cannot be edged is told with the reason, at its words.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.editing.main_piece import (
    Piece,
    keeps_its_width,
    main_piece,
)
from hookwright.notation.tree import Topic, Turn
from hookwright.sizing.edging.facts import Reason
from hookwright.source import Span
from hookwright.working.fabric import Place, is_space
from hookwright.working.outcome import Outcome, Working
from hookwright.working.problems import problems_of
from hookwright.working.sequence import unrolled
from hookwright.working.sides import passed_at_start

MOST_PLACES = 2_000
"""Places along an edge; a longer one is no edge of a piece made by hand."""


_OTHER = {"RS": "WS", "WS": "RS"}


class Edged(Struct, frozen=True):
    """The piece of one size.

    Attributes:
        rows: Its rows in working order.
        working: The working they are of.
        chains: Chains of its foundation that can be worked along; 0 where there are none.
        open_ended: Whether its number of rows is left to the maker.
        keeps_width: Whether its sides are straight.
        is_round: Whether it is worked in rounds.
        turns: Whether the work is turned after its last row.
        stays: Whether its words say that it is not turned there.
    """

    rows: tuple[Outcome, ...]
    working: Working
    chains: int
    open_ended: bool
    keeps_width: bool
    is_round: bool
    turns: bool
    stays: bool

    @property
    def last(self) -> Outcome:
        """Its last row."""
        return self.rows[-1]

    @property
    def cut(self) -> bool:
        """Whether the yarn is cut behind its last row."""
        return self.last.worked is not None and self.last.worked.finished

    @property
    def next_side(self) -> str:
        """The side that faces in the row behind the last one; "" where no label tells."""
        told = [at for at, row in enumerate(self.rows) if row.step.side]
        if not told:
            return ""
        side = self.rows[told[-1]].step.side
        turns = len(self.rows) - 1 - told[-1] + self.turns
        return side if turns % 2 == 0 else _OTHER[side]

    def top(self, *, turned: bool) -> tuple[Place, ...]:
        """The stitches and spaces along its last row as they lie, or after turning."""
        assert self.last.worked is not None
        edge = self.last.worked.edge
        line = edge.turned().line if turned else edge.line
        places = unrolled(line, 2 * MOST_PLACES)
        return tuple(place for place in places if place.counts or is_space(place))


def noun_of(place: Place) -> str:
    """What a place along the last row is called."""
    return f"ch-{place.chains} sp" if is_space(place) else "st"


def chain_noun(piece: Edged) -> str:
    """What a chain of the foundation is called: in full where the last row has chains."""
    return "foundation ch" if piece.last.tally.spaces else "ch"


def pieces_of(checked: Checked) -> tuple[Edged, ...] | Reason:
    """The piece to be edged, one value a size; or why none can be."""
    found: list[Edged] = []
    for working in checked.worked.sizes:
        piece = main_piece(checked.reading.pattern, working, checked.source.text)
        rows = piece.rows if piece is not None else _made_alike(working)
        refusal = _why_not(checked, working, rows)
        if refusal is not None:
            return refusal
        found.append(_edged(checked, working, rows, piece))
    if not found or any(edged.is_round != found[0].is_round for edged in found):
        return Reason(Span(0, 0), "There is no row that an edging could be worked on.")
    return tuple(found)


def _made_alike(working: Working) -> tuple[Outcome, ...]:
    """The rows of a piece that is made several times, where it is the only one."""
    worked = [o for o in working.outcomes if o.worked is not None]
    parts = {o.step.part for o in worked}
    return tuple(worked) if len(parts) == 1 else ()


def _why_not(checked: Checked, working: Working, rows: Sequence[Outcome]) -> Reason | None:
    if not rows:
        return Reason(
            Span(0, 0),
            "The pattern makes several pieces, or has no rows: which one is to be edged"
            " is not certain.",
            "Keep the piece to be edged in a draft of its own.",
        )
    last = rows[-1]
    begun = [row for row in rows if _begins_anew(row)]
    if len({row.step.part for row in begun}) > 1:
        names = [checked.reading.pattern.parts[row.step.part].name for row in begun]
        told = " and ".join(dict.fromkeys(f'"{name}"' for name in names if name))
        return Reason(
            begun[-1].step.span,
            f"Several pieces are begun, {told}: which one is to be edged is not certain.",
            "Keep the piece to be edged in a draft of its own.",
        )
    open_row = next((row for row in rows if row.worked is None), None)
    if open_row is not None:
        return Reason(
            open_row.step.span,
            "A row of the piece is not told stitch by stitch, so an edging cannot be"
            " proven on it.",
        )
    faulty = next((row for row in rows if problems_of(working, row)), None)
    if faulty is not None:
        return Reason(
            faulty.step.span,
            "A row of the piece does not come out, so an edging cannot be proven on it.",
            "Mend what hookwright check says of it first.",
        )
    number = last.tally.stitches
    spaces = last.tally.spaces
    if not isinstance(number, int) or not isinstance(spaces, int):
        return Reason(last.step.span, "The number of stitches is left to the maker.")
    if not 2 <= number + spaces <= MOST_PLACES:
        return Reason(
            last.step.span,
            f"The last row has {number} stitches, and an edging takes 2 to {MOST_PLACES}.",
        )
    return None


def _begins_anew(row: Outcome) -> bool:
    """Whether a row is worked on a chain or ring of its own, not on the row before it."""
    if row.worked is None:
        return False
    return row.below == 0 or passed_at_start(row.worked.row) > 0


def _edged(
    checked: Checked, working: Working, rows: tuple[Outcome, ...], piece: Piece | None
) -> Edged:
    last = rows[-1].worked
    assert last is not None
    is_round = last.edge.closed
    never = any(s.topic is Topic.NO_TURN for s in checked.reading.pattern.statements)
    turned = last.turned if last.turned is not None else not (is_round or never)
    return Edged(
        rows,
        working,
        _chains_under(working, rows),
        piece is not None and piece.open_ended,
        keeps_its_width(rows) or len({row.tally.stitches for row in rows}) == 1,
        is_round,
        turned,
        any(isinstance(n, Turn) and not n.turned for n in rows[-1].step.text.body),
    )


def _chains_under(working: Working, rows: Sequence[Outcome]) -> int:
    """The chains that the first row stands in, with those it skips between."""
    first = rows[0]
    assert first.worked is not None
    passed = passed_at_start(first.worked.row)
    before = working.outcomes[: working.outcomes.index(first)]
    on_chain = passed > 0 or (before and before[-1].foundation == first.below)
    if first.worked.edge.closed or not on_chain or not isinstance(first.below, int):
        return 0
    return first.below - passed
