"""The edging round the last round of a piece worked in rounds.

A disc or a motif with corners grows by what its rounds add when they lie flat; a tube, a
hat or a cowl, keeps its number.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.sizing.edging.base import Picked, along_places, fitted
from hookwright.sizing.edging.borders import KINDS, Border
from hookwright.sizing.edging.cornered import (
    back_in_corner,
    fits_told,
    rounds_from_a_corner,
)
from hookwright.sizing.edging.corners import corners_of
from hookwright.sizing.edging.dressing import fit_told
from hookwright.sizing.edging.even import change_to_fit
from hookwright.sizing.edging.facts import Flatness, Shape, Side, Wish
from hookwright.sizing.edging.flatness import flat_increase, flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import in_stitches
from hookwright.sizing.edging.moves import CORNER, Move, Moves, made, plain, several
from hookwright.sizing.edging.piece import MOST_PLACES
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import rounds_with_ends
from hookwright.sizing.facts import Multiple
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import unrolled

_IN_CORNER = (2, 3, 5)
"""What is worked in a corner stitch. Source: crochetcabana.com, borders: 3 or 5; 2 for the
blunt corners of a hexagon, by the perimeter of a polygon."""
_ODD_IN_CORNER = (3, 5)
"""Of these the ones that have a middle stitch, which a border turns on."""


def round_the_last(ground: Ground) -> Plan | CannotBe:
    """The edging round the last round."""
    piece, wish = ground.piece, ground.wish
    corners = corners_of(piece)
    if corners is None or _ruffles(ground, corners):
        return CannotBe(
            "The last round lies in waves, petals or points: what an edging adds and takes"
            " away there its rounds do not tell."
        )
    border = KINDS.get(wish.kind) if wish.repeat is None else None
    multiple = wish.repeat or (border.multiple if border is not None else None)
    picked = along_places(piece.top(turned=piece.turns), wish.stitch)
    height = HEIGHTS.get(wish.stitch, Fraction(1))
    needed = flat_increase(len(corners), height) if _grows(ground) else Fraction(0)
    if corners and multiple is not None and multiple.each > 1:
        return _from_a_corner(ground, picked, corners, needed)
    rounds = _plain_rounds(picked, corners, needed, wish)
    if rounds is None:
        return CannotBe("The last round is too short for an edging that lies flat.")
    lies = _lies(ground, rounds[0], picked, corners, needed)
    notes: list[str] = []
    if multiple is not None:
        fitting = _fitted(rounds, multiple, border, wish.stitch)
        if fitting is None:
            return CannotBe("The last round is too short for the repeat of the border.")
        rounds, told = fitting
        notes = [told] if multiple.each > 1 else []
    side = "RS" if ground.spelling.tells_sides and piece.cut else ""
    rows = rounds_with_ends(rounds, side)
    lead = _lead(ground)
    return Plan(Side.ALL, Shape.PLAIN, "Edging", lead, rows, (lies,), None, tuple(notes))


def _from_a_corner(
    ground: Ground, picked: Picked, corners: Sequence[int], needed: Fraction
) -> Plan | CannotBe:
    """Rounds whose border has a repeat: they begin in a corner, so that sides are whole."""
    wish, moves = ground.wish, picked.moves
    ends = (*corners[1:], corners[0] + len(moves))
    sides = [(*moves, *moves)[at + 1 : end] for at, end in zip(corners, ends, strict=True)]
    here = moves[corners[0]]
    wanted = here.makes + needed / len(corners)
    number = min(_ODD_IN_CORNER, key=lambda number: abs(number - wanted))
    half = number // 2
    first: list[Move] = [several(half + 1, wish.stitch, here.noun), CORNER, *sides[0]]
    for at, between in zip(corners[1:], sides[1:], strict=True):
        first += [CORNER, several(number, wish.stitch, moves[at].noun), CORNER, *between]
    noun = "sp" if here.noun.endswith("sp") else here.noun
    first += [CORNER, back_in_corner(wish.stitch, noun, half)]
    number_of = [made(side) + 2 * half for side in sides]
    found = rounds_from_a_corner(tuple(first), number_of, wish)
    if isinstance(found, CannotBe):
        return found
    names = [f"side {at}" for at in range(1, len(sides) + 1)]
    side = "RS" if ground.spelling.tells_sides else ""
    lies = [_lies(ground, found.rounds[0], picked, corners, needed)]
    lies += [
        flatness(
            number,
            Fraction(number - change),
            f"{number} stitches between two corners where {number - change} would lie flat",
        )
        for number, change in dict.fromkeys(zip(found.sides, found.changes, strict=True))
        if change
    ]
    return Plan(
        Side.ALL,
        Shape.PLAIN,
        "Edging",
        (f"{ground.joined(f'any corner {here.noun} of {ground.last_row}')}.",),
        rounds_with_ends(found.rounds, side),
        tuple(lies),
        None,
        tuple(fits_told(found, names)),
    )


def _lead(ground: Ground) -> tuple[str, ...]:
    if not ground.piece.cut:
        return ("Work along the last round.",)
    return (f"{ground.joined(f'the first st of {ground.last_row}')}.",)


def _grows(ground: Ground) -> bool:
    """Whether the piece is flat: its last rounds grow at least half as fast as a disc does.

    What grows more slowly is a tube or a cone, whose edge is as long as it is.
    """
    rows, heights = ground.piece.rows, ground.measures.heights
    if len(rows) == 1:
        return True
    first = max(0, len(rows) - _LAST_ROUNDS - 1)
    now, before = rows[-1].tally.stitches, rows[first].tally.stitches
    if not isinstance(now, int) or not isinstance(before, int):
        return False
    flat = flat_increase(0, sum(heights[first + 1 :], Fraction(0)))
    return now - before > flat / 2


_LAST_ROUNDS = 3


def _ruffles(ground: Ground, corners: Sequence[int]) -> bool:
    """Whether the last round adds far more than lies flat: petals, a frill."""
    rows = ground.piece.rows
    if len(rows) < 2 or not corners:
        return False
    now, before = (_round_length(row, ground.wish.stitch) for row in rows[:-3:-1])
    flat = flat_increase(len(corners), ground.measures.heights[-1])
    return now - before > _FRILL * flat


_FRILL = Fraction(3, 2)
"""How much more than flat a round may add before it is no edge to go round plainly."""


def _round_length(row: Outcome, stitch: str) -> Fraction:
    """How long the edge is that a round leaves, in widths of a stitch."""
    assert row.worked is not None
    return along_places(tuple(unrolled(row.worked.edge.line, MOST_PLACES)), stitch).length


def _plain_rounds(
    picked: Picked, corners: Sequence[int], needed: Fraction, wish: Wish
) -> list[Moves] | None:
    """The rounds under a border, each grown as it lies flat; None where it cannot be."""
    rounds: list[Moves] = []
    base = picked.moves
    for number in range(max(1, wish.rows - (wish.kind in KINDS and wish.repeat is None))):
        moves = _grown(base, corners, needed, wish.stitch)
        if moves is None:
            return None
        rounds.append(moves)
        corners = _corners_after(corners, moves, number)
        base = (plain(wish.stitch),) * made(moves)
    return rounds


def _grown(
    base: Moves, corners: Sequence[int], needed: Fraction, stitch: str
) -> Moves | None:
    """One more round, with what it adds in its corners or spread evenly."""
    if corners:
        moves = list(base)
        for at in corners:
            wanted = base[at].makes + needed / len(corners)
            number = min(_IN_CORNER, key=lambda number: abs(number - wanted))
            moves[at] = several(number, stitch, base[at].noun)
        return tuple(moves)
    more = round(needed)
    if not more or any(move != plain(stitch) for move in base):
        return base
    return fitted(len(base), more, stitch)


def _corners_after(corners: Sequence[int], moves: Moves, number: int) -> tuple[int, ...]:
    """Where the middles of the corners lie along the round just worked.

    Of two in a corner it is the one and the other in turn, or the sides would lean.
    """
    found: list[int] = []
    head = 0
    for at, move in enumerate(moves):
        if at in corners:
            odd = move.makes % 2 == 1
            found.append(head + (move.makes // 2 if odd else number % 2))
        head += move.makes
    return tuple(found)


def _fitted(
    rounds: list[Moves], multiple: Multiple, border: Border | None, stitch: str
) -> tuple[list[Moves], str] | None:
    """The rounds with those that fit a border and work it, and how it fits.

    A round has no edge stitches: only whole repeats go into it.
    """
    whole = Multiple(multiple.each, 0)
    number = made(rounds[-1])
    change = change_to_fit(number, whole)
    row = fitted(number, change, stitch)
    if row is None:
        return None
    number += change
    worked = [*rounds, row] if change else list(rounds)
    if border is not None:
        worked.append(border.closed * (number // whole.each))
    return worked, f"{number} sts are {fit_told(whole, number, change)}."


def _lies(
    ground: Ground,
    moves: Moves,
    picked: Picked,
    corners: Sequence[int],
    needed: Fraction,
) -> Flatness:
    """How the first round lies along an edge that has grown by its height."""
    length = picked.length + needed
    if not needed:
        told = in_stitches(length, ground.width_mm)
        return flatness(made(moves), length, f"{made(moves)} stitches round {told} in all")
    below = in_stitches(picked.length, ground.width_mm)
    corners_told = f" with {len(corners)} corners" if corners else ""
    how = (
        f"{made(moves)} stitches round an edge of {below}{corners_told}, which"
        f" {float(needed):.3g} more would keep flat"
    )
    return flatness(made(moves), length, how)
