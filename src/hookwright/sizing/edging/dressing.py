"""The rows over the first one: more of it, or a border whose repeat is made to fit."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.sizing.edging.base import fitted, with_change
from hookwright.sizing.edging.borders import KINDS
from hookwright.sizing.edging.even import change_to_fit
from hookwright.sizing.edging.facts import Wish
from hookwright.sizing.edging.ground import CannotBe
from hookwright.sizing.edging.moves import Moves, made, plain
from hookwright.sizing.facts import Multiple


class Dressed(Struct, frozen=True):
    """All rows of an edging along one edge.

    Attributes:
        rows: Their movements.
        turned: Whether the work is turned before each row behind the first.
        change: Stitches that the repeat of a border made more or fewer.
        note: How the repeat fits, in a sentence; "" where there is none.
    """

    rows: tuple[Moves, ...]
    turned: tuple[bool, ...]
    change: int = 0
    note: str = ""


def dressed(
    first: Sequence[Moves], wish: Wish, first_side: str, *, steadied: bool = False
) -> Dressed | CannotBe:
    """The rows of an edging.

    Args:
        first: Its first row, or the rows that make its edge straight.
        wish: What is asked for.
        first_side: The side that faces in the first row; "" where none is told. A border
            that is worked back without turning has to face the right side.
        steadied: Whether a plain row has to follow the first ones.
    """
    border = KINDS.get(wish.kind)
    multiple = wish.repeat or (border.multiple if border is not None else None)
    stitch = wish.stitch
    rows = list(first)
    wanted = wish.rows - (border is not None and wish.repeat is None)
    wanted = max(wanted, len(first) + steadied, 1)
    change = change_to_fit(made(rows[-1]), multiple) if multiple is not None else 0
    if change:
        with_it = with_change(rows[-1], change, stitch) if len(first) == 1 else None
        row = with_it or fitted(made(rows[-1]), change, stitch)
        if row is None or not multiple:
            return CannotBe(
                f"An edge of {made(rows[-1])} stitches is too short for a border of"
                f" {multiple}."
            )
        rows = [row] if with_it else [*rows, row]
    number = made(rows[-1])
    wanted = max(wanted, len(rows))
    if border is not None and not border.turned and first_side:
        wanted += (wanted % 2 == 0) == (first_side == "RS")
    rows += [(plain(stitch),) * number] * (wanted - len(rows))
    turned = [True] * (len(rows) - 1)
    if border is not None and wish.repeat is None:
        rows.append(border.over(number))
        turned.append(border.turned)
    note = _note(multiple, number, change) if multiple and multiple.each > 1 else ""
    return Dressed(tuple(rows), tuple(turned), change, note)


def _note(multiple: Multiple, number: int, change: int) -> str:
    return f"{number} sts are {fit_told(multiple, number, change)}."


def fit_told(multiple: Multiple, number: int, change: int) -> str:
    """How a repeat fits: "6 repeats of 6 + 1, with 2 stitches more, spread evenly"."""
    repeats = (number - multiple.extra) // multiple.each
    return f"{repeats} repeats of {multiple}{_change_told(change)}"


def _change_told(change: int) -> str:
    """The change of a border, as the end of a sentence."""
    if not change:
        return ", with no stitch more or fewer"
    more = "more" if change > 0 else "fewer"
    sts = "stitch" if abs(change) == 1 else "stitches"
    return f", with {abs(change)} {sts} {more}, spread evenly"
