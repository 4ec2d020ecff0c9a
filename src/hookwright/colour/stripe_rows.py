"""How many rows has each stripe, and how often is the sequence worked?"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

from hookwright.colour.facts import Kind
from hookwright.colour.wishes import Wishes

USUAL_ROWS = (2,)
"""Two rows a stripe, where nothing is told. Common practice, no source."""


def choices_for(wishes: Wishes, colour: int) -> tuple[int, ...]:
    """The rows that a stripe of a colour may have, even ones where these are wished."""
    plain = _even(wishes, wishes.told.rows or USUAL_ROWS)
    if colour not in wishes.favourites:
        return plain
    return _even(wishes, wishes.told.favourite_rows or (2 * max(plain),))


def _even(wishes: Wishes, choices: tuple[int, ...]) -> tuple[int, ...]:
    """The even ones; where there are none, all: that is told as a breach."""
    even = tuple(rows for rows in choices if rows % 2 == 0)
    return even if even and wishes.told.carry else choices


def most_stripes(wishes: Wishes, colours: int) -> list[int | None]:
    """How many stripes of each colour its yarn is enough for, at the narrowest."""
    limits = {r.colours[0]: r.number for r in wishes.rules if r.kind is Kind.LIMIT}
    return [
        limits[colour] // min(choices_for(wishes, colour)) if colour in limits else None
        for colour in range(colours)
    ]


def rows_of_base(
    wishes: Wishes, base: Sequence[int], often: Sequence[int], random: Random | None
) -> list[int]:
    """The rows of each stripe of a base.

    Widths that may be chosen from take turns, or come by chance where the order is to look
    like chance. Where a colour would have more rows than there are to be, its widest
    stripes become narrower.

    Args:
        wishes: What a stripe may have.
        base: The colours.
        often: How often each stripe of the base stands in the piece.
        random: Where chance comes from; None where widths take turns.
    """
    turn: dict[tuple[int, ...], int] = {}
    rows = []
    for colour in base:
        choices = choices_for(wishes, colour)
        at = turn.get(choices, 0)
        turn[choices] = at + 1
        chosen = at % len(choices) if random is None else random.randrange(len(choices))
        rows.append(choices[chosen])
    for rule in wishes.rules:
        if rule.kind is Kind.LIMIT:
            _narrow(wishes, rule.colours[0], rule.number, base, often, rows)
    return rows


def _narrow(
    wishes: Wishes, colour: int, limit: int, base: Sequence[int], often: Sequence[int],
    rows: list[int],
) -> None:  # fmt: skip
    own = [at for at, one in enumerate(base) if one == colour]
    choices = sorted(set(choices_for(wishes, colour)))
    while sum(rows[at] * often[at] for at in own) > limit:
        wide = max(own, key=lambda at: (rows[at], at))
        narrower = [one for one in choices if one < rows[wide]]
        if not narrower:
            return
        rows[wide] = narrower[-1]


def nearest_times(wanted: int, sequence: int, after: int) -> int:
    """How often a sequence is worked to come nearest to so many rows; once at least.

    Of two that are as near the larger: a piece may not be too short.
    """
    exact = Fraction(wanted - after, sequence)
    return max(1, int(exact + Fraction(1, 2)))
