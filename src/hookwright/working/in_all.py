"""Does a count tell what all rows together have made: "(40 scallops in all)"?

Groups and picots may be counted over a whole piece, where each of its rows makes one or
two. Stitches are counted row by row.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hookwright.notation.tree import Claim, Figure
from hookwright.working.count import Count
from hookwright.working.groups import is_called
from hookwright.working.stated import Agreement
from hookwright.working.tally import Tally


def with_sums(
    agrees: Agreement, claims: Sequence[Claim], tallies: Iterable[Tally], size: int
) -> Agreement:
    """The agreement of a row's counts, with those that hold of all rows up to this one."""
    rows = tuple(tallies)
    return tuple(
        _ALL if claim.in_all and not any(agreed) and _is_sum(claim, rows, size) else agreed
        for claim, agreed in zip(claims, agrees, strict=True)
    )


_ALL = (True, True, True)


def _is_sum(claim: Claim, rows: Sequence[Tally], size: int) -> bool:
    """Whether every number of a count is that of a group in all of the rows."""
    return all(_made_in(figure, rows) == figure.amount.at(size) for figure in claim.figures)


def _made_in(figure: Figure, rows: Sequence[Tally]) -> Count:
    return sum(_made(figure.unit, row) for row in rows)


def _made(unit: str, row: Tally) -> Count:
    """How many groups, clusters or picots of a name a row makes."""
    groups: Count = sum(
        number for name, number in row.groups.items() if is_called(unit, name)
    )
    return groups or row.topless.get(unit, row.kinds.get(unit, 0))
