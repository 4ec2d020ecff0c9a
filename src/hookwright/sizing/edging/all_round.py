"""The edging all round a piece in rows: four sides and four corners.

The ends of waves are made straight in the first rounds, as they are by themselves. Three
stitches in a corner add 2 to each side and 8 to the round.
Source: counting; a flat right angle gains two stitches a round where the stitch is square.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.sizing.edging.along_sides import pick_up_told, picked_along, why_no_sides
from hookwright.sizing.edging.base import Picked, along_places
from hookwright.sizing.edging.closing import closing, graded_once_more, slope_of
from hookwright.sizing.edging.cornered import (
    IN_CORNER,
    back_in_corner,
    fits_told,
    rounds_from_a_corner,
)
from hookwright.sizing.edging.facts import Flatness, PickUp, Shape, Side
from hookwright.sizing.edging.flatness import LIES_FLAT, flat_increase, flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import in_stitches
from hookwright.sizing.edging.moves import Form, Move, Moves, made, plain, several
from hookwright.sizing.edging.one_edge import what_remains
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import rounds_with_ends
from hookwright.sizing.edging.wave import Wave, wave_under

_CORNERS = 4
_NAMES = ("the top", "the left side", "the foundation", "the right side")


def all_round(ground: Ground, *, turned: bool) -> Plan | CannotBe:
    """The edging all round a piece worked in rows."""
    piece = ground.piece
    refusal = why_no_sides(ground)
    if refusal is not None:
        return refusal
    if not piece.chains:
        return CannotBe("The piece has no foundation chain, so that one side is wanting.")
    found = _edges(ground, turned=turned)
    if isinstance(found, CannotBe):
        return found
    top, under, notes = found
    left, pick_up = picked_along(ground, Side.LEFT)
    right, _ = picked_along(ground, Side.RIGHT)
    edges = [top.first, left, under.first, right]
    if min(len(edges[0].moves), len(edges[2].moves)) < IN_CORNER:
        return CannotBe("The ends of the piece are too narrow for two corners.")
    return _rounds(ground, edges, (top.again, (), under.again, ()), pick_up, notes)


class _End(Struct, frozen=True):
    """The top or the foundation in the first rounds, without the corners.

    Attributes:
        first: The first round along it.
        again: The second, where that is graded as well; empty for a plain one.
    """

    first: Picked
    again: Moves = ()


def _edges(ground: Ground, *, turned: bool) -> tuple[_End, _End, list[str]] | CannotBe:
    """The first rounds along the top and the foundation."""
    piece, stitch = ground.piece, ground.wish.stitch
    top = along_places(piece.top(turned=turned), stitch)
    under = Picked((plain(stitch, "foundation ch"),) * piece.chains, Fraction(piece.chains))
    if ground.wave is not None:
        return _closed_ends(ground, ground.wave, turned=turned)
    return _End(top), _End(under), []


def _closed_ends(
    ground: Ground, on_top: Wave, *, turned: bool
) -> tuple[_End, _End, list[str]] | CannotBe:
    """Both ends of a piece in waves, made straight in the first rounds."""
    below = wave_under(ground.piece)
    if below is None:
        return CannotBe(
            "The rows lie in waves, but the first row does not tell which chains lie under"
            " their peaks."
        )
    below = replace(below, nouns=("foundation ch",) * below.places)
    over = on_top.turned() if turned else on_top
    under = below.turned() if ground.piece.rows[0].step.side != "WS" else below
    top, told = _closed(ground, over, -1)
    foundation, _ = _closed(ground, under, 0)
    ends = [edge.first.moves[at] for edge in (top, foundation) for at in (0, -1)]
    if any(move.takes != 1 for move in ends):
        return CannotBe("The ends of its waves leave no place for a corner.")
    return top, foundation, told


def _closed(ground: Ground, wave: Wave, end: int) -> tuple[_End, list[str]]:
    """An end that is made straight, and what is left of its wave to blocking."""
    height = ground.measures.heights[end]
    slope = slope_of(wave, ground.height_at(end), ground.measures.wave_mm)
    across = Fraction(slope.width).limit_denominator(10**6) / wave.in_one
    length = across * wave.places

    def lies(row: Moves) -> bool:
        return abs(made(_with_corners(row)) - length) <= LIES_FLAT * length

    found = closing(wave, slope, height, lies)
    moves = _with_corners(found.rows[0])
    again = graded_once_more(wave, slope, height, moves) if len(found.rows) > 1 else ()
    return _End(Picked(moves, length), again), what_remains(slope, found, ground)


def _with_corners(moves: Moves) -> Moves:
    """A row whose outermost places are free for corners, with nothing drawn together."""
    found = list(moves)
    for at in (0, -1):
        move = found[at]
        if move.form is Form.TOGETHER:
            each = [plain(move.stitch, move.noun)] * move.takes
            found[at:] = each if at else [*each, *found[1:]]
    return tuple(found)


def _rounds(
    ground: Ground,
    edges: Sequence[Picked],
    again: Sequence[Moves],
    pick_up: PickUp,
    told: Sequence[str],
) -> Plan | CannotBe:
    wish, stitch = ground.wish, ground.wish.stitch
    # between the middles of two corners: each side has one stitch of both of them
    top, left, under, right = (made(edge.moves) for edge in edges)
    found = rounds_from_a_corner(
        _first_round(edges), [top, left + 2, under, right + 2], wish, again
    )
    if isinstance(found, CannotBe):
        return found
    notes = [pick_up_told(ground), *told, *fits_told(found, _NAMES)]
    side = "RS" if ground.spelling.tells_sides else ""
    rows = rounds_with_ends(found.rounds, side)
    lies = _lies(edges, found.changes, stitch, ground.width_mm)
    return Plan(
        Side.ALL, Shape.PLAIN, "Edging", _lead(ground), rows, lies,
        pick_up, tuple(notes),
    )  # fmt: skip


def _lead(ground: Ground) -> tuple[str, ...]:
    """How the round is begun: where the last row ends, if the work lies so; else joined."""
    piece = ground.piece
    lies_so = piece.turns and not piece.stays and piece.next_side in ("", "RS")
    if lies_so and not piece.cut and ground.is_first:
        return ("Work all round, along the last row first.",)
    return (f"{ground.joined(f'the first st of {ground.last_row}')}.",)


def _first_round(edges: Sequence[Picked]) -> Moves:
    top, left, under, right = (edge.moves for edge in edges)
    return (
        *_in_one(top[0], 2),
        *top[1:-1],
        *_in_one(top[-1], IN_CORNER),
        *left,
        *_in_one(under[0], IN_CORNER),
        *under[1:-1],
        *_in_one(under[-1], IN_CORNER),
        *right,
        back_in_corner(top[0].stitch),
    )


def _in_one(move: Move, number: int) -> Moves:
    return (several(number, move.stitch, move.noun),)


def _lies(
    edges: Sequence[Picked], changes: Sequence[int], stitch: str, width_mm: Fraction | None
) -> tuple[Flatness, ...]:
    """How each side lies, and what the corners add in each round."""
    sides = tuple(
        flatness(
            made(edge.moves) + change,
            edge.length,
            f"{made(edge.moves) + change} stitches along {name} of"
            f" {in_stitches(edge.length, width_mm)}",
        )
        for edge, change, name in zip(edges, changes, _NAMES, strict=True)
    )
    needed = flat_increase(_CORNERS, HEIGHTS.get(stitch, Fraction(1)))
    whole = sum((edge.length for edge in edges), Fraction(0)) + needed
    added = _CORNERS * (IN_CORNER - 1)
    corners = flatness(
        whole - needed + added,
        whole,
        f"each round adds {added} in its corners, and {float(needed):.3g} would lie flat",
    )
    return (*sides, corners)
