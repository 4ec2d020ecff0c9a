"""How many separate lengths of yarn does each colour come to?

A colour goes on where the row before was in it too. Where stripes are carried, it is picked
up again at the edge it was left at, as long as not too many rows lie between. A cut, or
another piece, begins a new length.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.yarn.facts import RowUsed

CARRIED = 8
"""Rows between, over which a colour is still carried. Common practice, no source."""


class Stretch(Struct, frozen=True):
    """One separate length of a colour.

    Attributes:
        yarn: The colour.
        rows: Where its rows stand among all rows.
        make: How many are made of its piece.
    """

    yarn: str
    rows: tuple[int, ...]
    make: int = 1


def stretches(rows: Sequence[RowUsed], *, carried: bool) -> tuple[Stretch, ...]:
    """The separate lengths of all colours, in the order in which they begin."""
    found: list[tuple[str, list[int]]] = []
    open_: dict[str, int] = {}
    for at, row in enumerate(rows):
        yarns = list(dict.fromkeys(use.yarn or "" for use in row.uses))
        for yarn in yarns:
            last = open_.get(yarn)
            if last is not None and _goes_on(rows, found[last][1][-1], at, carried=carried):
                found[last][1].append(at)
            else:
                open_[yarn] = len(found)
                found.append((yarn, [at]))
        if row.cut:
            open_ = {y: n for y, n in open_.items() if y not in yarns}
    return tuple(Stretch(yarn, tuple(own), rows[own[0]].make) for yarn, own in found)


def _goes_on(rows: Sequence[RowUsed], last: int, at: int, *, carried: bool) -> bool:
    """Whether a colour that was left behind a row is at hand for another."""
    between = at - last - 1
    same = rows[last].part == rows[at].part
    if not between:
        return same or rows[last].make == rows[at].make == 1
    return same and carried and between <= CARRIED and between % 2 == 0


def tails_of(found: Sequence[Stretch], yarn: str) -> int:
    """Ends of a colour: two for every separate length of it."""
    return 2 * sum(one.make for one in found if one.yarn == yarn)
