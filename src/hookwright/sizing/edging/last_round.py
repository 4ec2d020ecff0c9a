"""The edging round the last round of a piece worked in rounds.

A disc or a motif with corners grows by what its rounds add when they lie flat; a tube, a hat
or a cowl, keeps its number.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.sizing.edging.base import Picked, along_places, fitted
from hookwright.sizing.edging.borders import CRAB, KINDS
from hookwright.sizing.edging.dressing import change_told
from hookwright.sizing.edging.even import change_to_fit
from hookwright.sizing.edging.facts import Flatness, Shape, Side
from hookwright.sizing.edging.flatness import flat_increase, flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.moves import Moves, made, plain, several
from hookwright.sizing.edging.piece import Edged
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import Row, with_ends
from hookwright.sizing.edging.wave import corners_of
from hookwright.sizing.facts import Multiple

_IN_CORNER = 3


def round_the_last(ground: Ground) -> Plan | CannotBe:
    """The edging round the last round."""
    piece, wish = ground.piece, ground.wish
    stitch = wish.stitch
    corners = corners_of(piece)
    if corners is None:
        return CannotBe(
            "The last round lies in waves or petals: what an edging adds and takes away"
            " there its rounds do not tell."
        )
    picked = along_places(piece.top(turned=piece.turns), stitch)
    border = KINDS.get(wish.kind) if wish.repeat is None else None
    multiple = wish.repeat or (border.multiple if border is not None else None)
    if corners and multiple is not None and multiple.each > 1:
        return CannotBe(
            "The rounds begin within a side, so that a border with a repeat has no corner to"
            " begin in.",
            f"Plain rounds and {CRAB} stitch can be worked round it.",
        )
    height = HEIGHTS.get(stitch, Fraction(1))
    needed = flat_increase(len(corners), height) if _grows(piece) else Fraction(0)
    rounds: list[Moves] = []
    lies: list[Flatness] = []
    notes: list[str] = []
    moves: Moves | None = picked.moves
    at = corners
    length = picked.length
    plain_rounds = max(1, wish.rows - (border is not None))
    for number in range(plain_rounds):
        length += needed
        moves = _grown(picked.moves if not number else None, rounds, at, needed, stitch)
        if moves is None:
            return CannotBe("The last round is too short for an edging that lies flat.")
        rounds.append(moves)
        at = _corners_after(at, moves)
        if not number:
            lies.append(_lies(moves, picked, length, corners, needed))
    if multiple is not None:
        closed = Multiple(multiple.each, 0)
        change = change_to_fit(made(rounds[-1]), closed)
        row = fitted(made(rounds[-1]), change, stitch)
        if row is None:
            return CannotBe("The last round is too short for the repeat of the border.")
        if change:
            rounds.append(row)
        whole = made(rounds[-1])
        if multiple.each > 1:
            repeats = whole // multiple.each
            notes.append(f"{whole} sts are {repeats} repeats of {multiple.each}{change_told(change)}.")
        if border is not None:
            rounds.append(border.closed * (whole // border.multiple.each))
    turned = [False] * (len(rounds) - 1)
    side = "RS" if ground.spelling.tells_sides and ground.piece.cut else ""
    rows = with_ends([Row(m, is_round=True) for m in rounds], first_side=side, turned=turned)
    return Plan(
        Side.ALL, Shape.PLAIN, "Edging", _lead(ground), tuple(rows), tuple(lies), None,
        tuple(notes),
    )  # fmt: skip


def _lead(ground: Ground) -> tuple[str, ...]:
    if not ground.piece.cut:
        return ("Work along the last round.",)
    return (
        f"With {ground.facing}, join {ground.yarn} with {ground.spelling.slip} in the first st"
        " of the last round.",
    )


def _grows(piece: Edged) -> bool:
    """Whether the piece is flat: its last rounds grow."""
    numbers = [row.tally.stitches for row in piece.rows[-3:]]
    return len(set(numbers)) > 1 or len(piece.rows) == 1


def _grown(
    first: Moves | None,
    rounds: Sequence[Moves],
    corners: Sequence[int],
    needed: Fraction,
    stitch: str,
) -> Moves | None:
    """One more round, with what it adds in its corners or spread evenly."""
    base = list(first if first is not None else (plain(stitch),) * made(rounds[-1]))
    if corners:
        for at in corners:
            base[at] = several(_IN_CORNER, stitch, base[at].noun)
        return tuple(base)
    more = round(needed)
    if not more:
        return tuple(base)
    if any(move != plain(stitch) for move in base):
        return tuple(base)
    return fitted(len(base), more, stitch)


def _corners_after(corners: Sequence[int], moves: Moves) -> tuple[int, ...]:
    """Where the middles of the corners lie along the round just worked."""
    wanted = set(corners)
    found: list[int] = []
    head = 0
    for at, move in enumerate(moves):
        if at in wanted:
            found.append(head + move.makes // 2)
        head += move.makes
    return tuple(found)


def _lies(
    moves: Moves,
    picked: Picked,
    length: Fraction,
    corners: Sequence[int],
    needed: Fraction,
) -> Flatness:
    if not needed:
        how = f"{made(moves)} stitches round an edge of {float(length):.4g}, which keeps its number"
        return flatness(made(moves), length, how)
    added = made(moves) - made(picked.moves)
    where = f"in its {len(corners)} corners" if corners else "spread evenly"
    how = (
        f"the round adds {added} stitches {where}, and {float(needed):.3g} would lie flat"
        " beyond the last one"
    )
    return flatness(made(moves), length, how)

