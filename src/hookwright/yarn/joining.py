"""In which row does a ball end, and is that inside a stripe?

Yarn is used up row by row. Where a stripe is longer than what is left of a ball, the new
one is begun inside it, unless so much is over that the stripe can begin with it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import accumulate, islice

from hookwright.yarn.cutting import Stretch
from hookwright.yarn.facts import Join, Law, RowUsed

_MOST = 200
"""Joins that are told; a colour with more is no colour of a piece."""


def row_lengths(rows: Sequence[RowUsed], yarn: str, law: Law) -> list[Fraction]:
    """What each row takes of a colour, in all pieces that are made."""
    return [
        sum(
            (
                law.at(use.kind).mm * use.loops * use.number * row.make
                for use in row.uses
                if use.yarn == yarn
            ),
            Fraction(0),
        )
        for row in rows
    ]


def joins_of(
    rows: Sequence[RowUsed],
    taken: Sequence[Fraction],
    found: Sequence[Stretch],
    ball: Fraction,
    spread: Fraction,
    tail: Fraction,
    *,
    striped: bool = True,
) -> tuple[Join, ...]:
    """Where the balls of a colour end.

    Args:
        rows: All rows.
        taken: What each takes of the colour.
        found: The separate lengths of the colour.
        ball: The length of a ball.
        spread: How far the lengths may be off, in parts of them.
        tail: The length of an end.
        striped: Whether there are other colours, so that its lengths are stripes.
    """
    with_tails = list(taken)
    for one in found:
        with_tails[one.rows[0]] += 2 * tail * one.make
    used = list(accumulate(with_tails))
    return tuple(islice(_joins(rows, used, found, ball, spread, striped=striped), _MOST))


def _joins(
    rows: Sequence[RowUsed],
    used: Sequence[Fraction],
    found: Sequence[Stretch],
    ball: Fraction,
    spread: Fraction,
    *,
    striped: bool,
) -> Iterator[Join]:
    whole = used[-1] if used else Fraction(0)
    number = 2
    while (end := (number - 1) * ball) < whole:
        at = bisect_left(used, end)
        early = bisect_left(used, end / (1 + spread))
        late = min(bisect_left(used, end / (1 - spread)), len(rows) - 1)
        stripe = next((one for one in found if striped and at in one.rows), None)
        inside = stripe is not None and _is_inside(stripe, used, at, end)
        begins = used[stripe.rows[0] - 1] if stripe is not None and stripe.rows[0] else 0
        yield Join(
            number,
            rows[at].label,
            rows[early].label,
            rows[late].label,
            (rows[stripe.rows[0]].label, rows[stripe.rows[-1]].label)
            if stripe is not None and inside
            else ("", ""),
            end - begins if 0 < end - begins <= ball else Fraction(0),
        )
        number += 1


def _is_inside(stripe: Stretch, used: Sequence[Fraction], at: int, end: Fraction) -> bool:
    """Whether a ball ends within a stripe, not just as it begins."""
    first = stripe.rows[0]
    before = used[first - 1] if first else Fraction(0)
    return at in stripe.rows and end > before
