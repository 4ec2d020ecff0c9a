"""Which spaces of an edge are its corners?

They are the longest ones. Where others are as long ("ch 1" along the sides of a hexagon as
in its corners), they are those with stitches on both sides that were worked in one place.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.nested import nested
from hookwright.notation.tree import Node
from hookwright.working.corners import is_corner
from hookwright.working.count import Count
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.sequence import Group, Line, Piece, Repeat, Run, total

Spaces = Line[Place]

IN_CORNER = "corner"
"""What a space is called that is a corner among others of its length."""
_MOST_CORNERS = 12
"""Spaces alike that may be corners; more of them are a mesh or a moss stitch."""


_FEWEST_CORNERS = 3
"""So many a fabric has at the least, and as many sides, each with a space or more."""


def corner_space(line: Spaces) -> int:
    """The chains of the spaces that are the corners of an edge; 0 where none are."""
    longest = _longest_space(line)
    alike = total(line, lambda place: int(is_corner_space(place, longest)))
    if total(line, lambda place: int(place.stitch == IN_CORNER)):
        return longest
    if not longest or alike > _MOST_CORNERS or _lie_in_pairs(line, longest):
        return 0
    return longest


def _lie_in_pairs(line: Spaces, chains: int) -> bool:
    """ "(Dc, ch 1, tr, ch 1, dc) in next sc": a corner is the tr between its spaces."""
    for piece in line:
        if isinstance(piece, Run):
            continue
        spaces = total(piece.body, lambda place: int(is_corner_space(place, chains)))
        if isinstance(piece, Group):
            if spaces == _PAIR and is_corner(piece):
                return True
        elif _lie_in_pairs(piece.body, chains):
            return True
    return False


_PAIR = 2


def is_corner_space(place: Place, chains: int) -> bool:
    """Whether a place is a space of so many chains."""
    return place.kind is PlaceKind.SPACE and place.chains == chains


def with_corners_told(line: Spaces, nodes: Sequence[Node]) -> Spaces:
    """The same edge, its corner spaces called so where a row asks for them in vain.

    That is where as many of the longest spaces, or more, lie along the sides.
    """
    longest = _longest_space(line)
    if not longest or not any(_names_corner(node) for node in nested(nodes)):
        return line
    every: Count = total(line, lambda place: int(is_corner_space(place, longest)))
    within = _told(line, longest)
    some: Count = total(within, lambda place: int(place.stitch == IN_CORNER))
    return within if some >= _FEWEST_CORNERS and every - some >= some else line


def _names_corner(node: Node) -> bool:
    target = getattr(node, "target", None)
    while target is not None:
        places = (target, target.until, *target.also)
        if any(place is not None and place.noun == "corner" for place in places):
            return True
        target = target.of
    return False


def _longest_space(line: Spaces) -> int:
    longest = 0
    for piece in line:
        if isinstance(piece, Run):
            chains = piece.item.chains if piece.item.kind is PlaceKind.SPACE else 0
        else:
            chains = _longest_space(piece.body)
        longest = max(longest, chains)
    return longest


def _told(line: Spaces, chains: int) -> Spaces:
    found: list[Piece[Place]] = []
    for piece in line:
        if isinstance(piece, Repeat):
            found.append(Repeat(_told(piece.body, chains), piece.times))
        elif isinstance(piece, Group):
            found.append(replace(piece, body=_within(piece.body, chains)))
        else:
            found.append(piece)
    return tuple(found)


def _within(body: Spaces, chains: int) -> Spaces:
    """What was worked in one place, the one space between its stitches called a corner."""
    at = [
        i
        for i, piece in enumerate(body)
        if isinstance(piece, Run) and is_corner_space(piece.item, chains)
    ]
    if len(at) != 1 or not 0 < at[0] < len(body) - 1:
        return body
    middle = body[at[0]]
    assert isinstance(middle, Run)
    told = replace(middle, item=replace(middle.item, stitch=IN_CORNER))
    return (*body[: at[0]], told, *body[at[0] + 1 :])
