"""The edging all round a piece in rows: four sides and four corners.

Each round begins in the middle stitch of a corner and ends there, so that every side lies
whole between two corners. Three stitches in a corner add 2 to each side and 8 to the round.
Source: counting; a flat right angle gains two stitches a round where the stitch is square.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.sizing.edging.along_sides import pick_up_told, picked_along, why_no_sides
from hookwright.sizing.edging.base import Picked, along_places, fitted
from hookwright.sizing.edging.borders import KINDS, Border
from hookwright.sizing.edging.dressing import fit_told
from hookwright.sizing.edging.even import change_to_fit
from hookwright.sizing.edging.facts import Flatness, PickUp, Shape, Side
from hookwright.sizing.edging.flatness import flat_increase, flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import in_stitches
from hookwright.sizing.edging.moves import CORNER, Move, Moves, free, made, plain, several
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import rounds_with_ends

_CORNERS = 4
_IN_CORNER = 3
_NAMES = ("the top", "the left side", "the foundation", "the right side")


def all_round(ground: Ground, *, turned: bool) -> Plan | CannotBe:
    """The edging all round a piece worked in rows."""
    piece = ground.piece
    refusal = why_no_sides(ground)
    if refusal is not None:
        return refusal
    if not piece.chains:
        return CannotBe("The piece has no foundation chain, so that one side is wanting.")
    if ground.wave is not None:
        return CannotBe(
            "The ends of the piece are waves, and no round lies flat over them.",
            "Ask for all sides (--side all): the ends are closed, then the sides edged.",
        )
    edges, pick_up = _edges(ground, turned=turned)
    if min(len(edges[0].moves), len(edges[2].moves)) < _IN_CORNER:
        return CannotBe("The ends of the piece are too narrow for two corners.")
    return _rounds(ground, edges, pick_up)


def _edges(ground: Ground, *, turned: bool) -> tuple[list[Picked], PickUp]:
    """The first round along each of the four edges, without its corners."""
    piece, stitch = ground.piece, ground.wish.stitch
    top = along_places(piece.top(turned=turned), stitch)
    under = Picked((plain(stitch, "foundation ch"),) * piece.chains, Fraction(piece.chains))
    left, pick_up = picked_along(ground, Side.LEFT)
    right, _ = picked_along(ground, Side.RIGHT)
    return [top, left, under, right], pick_up


def _rounds(ground: Ground, edges: Sequence[Picked], pick_up: PickUp) -> Plan | CannotBe:
    wish, stitch = ground.wish, ground.wish.stitch
    border = KINDS.get(wish.kind) if wish.repeat is None else None
    multiple = wish.repeat or (border.multiple if border is not None else None)
    rounds = [_first_round(edges, stitch)]
    # between the middles of two corners: each side has one stitch of both of them
    top, left, under, right = (made(edge.moves) for edge in edges)
    sides = [top, left + 2, under, right + 2]
    notes = [pick_up_told(ground)]
    changes = [0] * _CORNERS
    plain_rounds = max(1, wish.rows - (border is not None))
    if multiple is not None and any(change_to_fit(n, multiple) for n in sides):
        plain_rounds = max(plain_rounds, 2)
    for number in range(1, plain_rounds):
        if multiple is not None and number == plain_rounds - 1:
            changes = [change_to_fit(n + 2, multiple) for n in sides]
        between = [fitted(n, c, stitch) for n, c in zip(sides, changes, strict=True)]
        if any(side is None for side in between):
            return CannotBe("A side is too short for the repeat of the border.")
        rounds.append(_plain_round([side or () for side in between], stitch))
        sides = [n + c + 2 for n, c in zip(sides, changes, strict=True)]
    if border is not None:
        rounds.append(_border_round(border, sides))
    if multiple is not None and multiple.each > 1:
        notes.extend(
            f"Between two corners {name} has {n} sts: {fit_told(multiple, n, c)}."
            for name, n, c in zip(_NAMES, sides, changes, strict=True)
        )
    side = "RS" if ground.spelling.tells_sides else ""
    rows = rounds_with_ends(rounds, side)
    lies = _lies(edges, changes, stitch, ground.width_mm)
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


def _first_round(edges: Sequence[Picked], stitch: str) -> Moves:
    top, left, under, right = (edge.moves for edge in edges)
    return (
        *_in_one(top[0], 2),
        *top[1:-1],
        *_in_one(top[-1], _IN_CORNER),
        *left,
        *_in_one(under[0], _IN_CORNER),
        *under[1:-1],
        *_in_one(under[-1], _IN_CORNER),
        *right,
        _back_in_corner(stitch),
    )


def _in_one(move: Move, number: int) -> Moves:
    return (several(number, move.stitch, move.noun),)


def _back_in_corner(stitch: str) -> Move:
    """The last stitch of a corner, in the place where the round began."""
    return free(f"{{{stitch}}} in same st as first {{{stitch}}}", makes=1)


def _plain_round(between: Sequence[Moves], stitch: str) -> Moves:
    first, *others = between
    corner = several(_IN_CORNER, stitch)
    found: list[Move] = [several(2, stitch), *first]
    for side in others:
        found += [CORNER, corner, CORNER, *side]
    return (*found, _back_in_corner(stitch))


def _border_round(border: Border, sides: Sequence[int]) -> Moves:
    found: list[Move] = []
    for number in sides:
        found += [*border.corner, CORNER, *border.over(number), CORNER]
    return tuple(found)


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
    added = _CORNERS * (_IN_CORNER - 1)
    corners = flatness(
        whole - needed + added,
        whole,
        f"each round adds {added} in its corners, and {float(needed):.3g} would lie flat",
    )
    return (*sides, corners)
