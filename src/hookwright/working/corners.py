"""Which stitches of an edge are the middle ones of its corners?

A corner is what was worked in one place of the row before, an odd number of stitches from
three up: "sc in each sc around, 3 sc in centre sc of each corner".
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from hookwright.notation.tree import Target, Which
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.fabric import Place, counted
from hookwright.working.sequence import Group, Piece, Repeat, Run, split, total

CENTRE = "centre of a corner"
"""What the middle stitch of a corner is called while a row asks for it by that name."""


def is_each_centre(target: Target) -> bool:
    """Whether a target is "the centre sc of each corner"."""
    inner = target.of
    return (
        target.which is Which.CENTRE
        and inner is not None
        and inner.noun == "corner"
        and inner.which is Which.EACH
    )


def is_one_centre(target: Target) -> bool:
    """Whether a target is the one middle place of a row: "the center ch-2 sp"."""
    return target.which is Which.CENTRE and target.of is None and target.amount is None


def with_middle(line: Ahead, wanted: Callable[[Place], bool]) -> Ahead:
    """The same places out of their groups, the middle one of a kind marked."""
    line = ahead.ungrouped(line)
    number = total(line, lambda place: int(wanted(place)))
    half = number // 2 if isinstance(number, int) else 0
    before, rest = split(line, half, lambda place: int(wanted(place))) or (line, ())
    found = ahead.seek(rest, wanted)
    taken = ahead.take(found.rest) if found is not None else None
    if found is None or taken is None:
        return line
    middle = Run(replace(taken.place, stitch=CENTRE))
    return (*before, *found.line, middle, *taken.rest)


def is_corner(group: Group[Place]) -> bool:
    """Whether a group is an odd number of stitches: one of them is in the middle."""
    number = ahead.stitches(group.body)
    return isinstance(number, int) and number >= 3 and number % 2 == 1


def with_centres(line: Ahead) -> Ahead:
    """The same places out of their groups, the middle stitch of each corner marked."""
    result: list[Piece[Place]] = []
    for piece in line:
        if isinstance(piece, Repeat):
            result.append(Repeat(with_centres(piece.body), piece.times))
        elif isinstance(piece, Group):
            body = ahead.ungrouped(piece.body)
            result.extend(_marked(body) if is_corner(piece) else body)
        else:
            result.append(piece)
    return tuple(result)


def _marked(body: Ahead) -> Ahead:
    number = ahead.stitches(body)
    halves = split(body, (number - 1) // 2, counted) if isinstance(number, int) else None
    if halves is None:
        return body
    before, behind = halves
    at = next((i for i, piece in enumerate(behind) if _is_counted(piece)), 0)
    middle = behind[at] if behind else None
    if not isinstance(middle, Run):
        return body
    before, after = (*before, *behind[:at]), behind[at + 1 :]
    centre = Run(replace(middle.item, stitch=CENTRE), 1)
    rest = (replace(middle, times=middle.times - 1),) if middle.times != 1 else ()
    return (*before, centre, *rest, *after)


def _is_counted(piece: Piece[Place]) -> bool:
    """Whether a piece is more than a space between stitches."""
    return not isinstance(piece, Run) or bool(counted(piece.item))
