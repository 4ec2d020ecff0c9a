"""Where do the corners of a last round lie?

A corner is where most is worked in one place. Between two corners a side may have groups
and skips of its own, as lace has; all sides are alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from hookwright.sizing.edging.piece import MOST_PLACES, Edged
from hookwright.sizing.edging.wave import is_passed_chain, made_by, used_by
from hookwright.working.fabric import Place, Stitch, is_space
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import unrolled

_FEWEST_CORNERS = 3
_FEWEST_IN_CORNER = 3


class _Group(Struct):
    """What is worked in one place: its tops and spaces, from and to along the new edge."""

    first: int
    end: int
    is_where_it_began: bool = False

    @property
    def made(self) -> int:
        """How many tops and spaces it has."""
        return self.end - self.first


def corners_of(piece: Edged) -> tuple[int, ...] | None:
    """The places in the middle of the corners, as the edging meets them.

    () where nothing is worked thrice in one place. None where the corners are not all
    whole, too few, or not as far from one another, and where points stand out of the round.
    """
    if _has_points(piece.rows[-1]):
        return None
    edge = piece.top(turned=False)
    groups = _closed(_trimmed(edge, _groups(piece.rows[-1])), len(edge))
    most = max((group.made for group in groups), default=0)
    if most < _FEWEST_IN_CORNER:
        return ()
    middles = [Fraction(g.first + g.end - 1, 2) for g in groups if g.made == most]
    at = [int(middle) % len(edge) for middle in middles if middle.denominator == 1]
    if len(at) < len(middles) or len(at) < _FEWEST_CORNERS:
        return None
    at.sort()
    gaps = {b - a for a, b in pairwise([*at, at[0] + len(edge)])}
    if max(gaps) - min(gaps) > 1:
        return None
    return tuple(sorted(len(edge) - 1 - a for a in at)) if piece.turns else tuple(at)


def _has_points(row: Outcome) -> bool:
    """Whether stitches lead back along chains made in the round: a star, leaves."""
    assert row.worked is not None
    line = unrolled(row.worked.row.line, MOST_PLACES)
    begun = (stitch.kind for at, stitch in enumerate(line) if at)
    return any(kind == "tch" and before != "sl st" for before, kind in pairwise(begun))


def _groups(row: Outcome) -> Iterator[_Group]:
    """What is worked in one place each, in order, chains behind it with it."""
    assert row.worked is not None
    group = _Group(0, 0)
    for stitch in unrolled(row.worked.row.line, MOST_PLACES):
        if is_passed_chain(stitch):
            continue
        back = _goes_back(stitch)
        if used_by(stitch) or (back and not group.is_where_it_began):
            yield group
            group = _Group(group.end, group.end, back)
        group.end += made_by(stitch)
    yield group


def _goes_back(stitch: Stitch) -> bool:
    """Whether it is worked in a place used up before, other than the last."""
    return not used_by(stitch) and any(foot.step != -1 for foot in stitch.feet)


def _trimmed(edge: Sequence[Place], groups: Iterator[_Group]) -> Iterator[_Group]:
    """The same without the chains that lead from one group to the next."""
    for group in groups:
        while group.made > 1 and is_space(edge[group.end - 1]):
            group.end -= 1
        while group.made > 1 and is_space(edge[group.first]):
            group.first += 1
        if group.made:
            yield group


def _closed(groups: Iterator[_Group], around: int) -> list[_Group]:
    """The same with what is worked in the place where the round began put together."""
    found = list(groups)
    if len(found) > 1 and found[-1].is_where_it_began:
        last = found.pop()
        found[0] = _Group(last.first - around, found[0].end)
    return found
