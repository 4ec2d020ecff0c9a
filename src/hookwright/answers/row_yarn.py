"""What share of the yarn does each row take?

Taller stitches take more: per inch of row 10.6 in of yarn for single, 15.7 in for half
double and 20.4 in for double crochet (US terms), measured once by one maker. Between and
beyond them the line through these is taken. It only shares out the yarn that is listed, so
what a yarn or a hand takes more of cancels out.

Source: yarn per inch of row, three swatches, blog of a maker, as given in the trade.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.working.outcome import Outcome
from hookwright.working.stitches import base_of, height

_AT_NOTHING = Fraction(57, 10)
_EACH_CHAIN = Fraction(49, 10)
_CHAIN_ALONE = Fraction(4)


def yarn_weights(outcomes: Sequence[Outcome], terms: str) -> tuple[Fraction, ...]:
    """For each row what it takes, in a measure of its own that only compares rows."""
    return tuple(_weight(outcome, terms) for outcome in outcomes)


def _weight(outcome: Outcome, terms: str) -> Fraction:
    if outcome.worked is None:
        return Fraction(outcome.foundation or 0) * _CHAIN_ALONE
    kinds = outcome.worked.row.kinds()
    whole = Fraction(0)
    for name, number in kinds.items():
        times = number if isinstance(number, int) else 0
        whole += times * (_AT_NOTHING + _EACH_CHAIN * height(base_of(name), terms))
    return whole
