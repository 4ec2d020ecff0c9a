"""How do numbers lie, and how far up has one to go so that 19 of 20 makers are covered?

The limit for the next maker is that of a sample that is taken as normal: the mean, and t
times the standard deviation times the root of 1 + 1/n, t being Student's quantile for 95 in
a hundred with n - 1 degrees of freedom. With few testers t is large, as it has to be.

Source: prediction limit of a normal sample, any text-book of statistics; quantiles of
Student's t as in the common tables (NIST/SEMATECH e-Handbook, 1.3.6.7.2).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from statistics import fmean, median, stdev

from hookwright.trials.facts import Allowance, Spread

_T95 = (
    6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812,
    1.796, 1.782, 1.771, 1.761, 1.753, 1.746, 1.740, 1.734, 1.729, 1.725,
    1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697,
)  # fmt: skip
_NORMAL95 = 1.6449
FEW = 5
"""Fewer reports than these tell a spread only roughly."""


def spread_of(values: Sequence[float]) -> Spread | None:
    """How some numbers lie; None for none."""
    if not values:
        return None
    deviation = stdev(values) if len(values) > 1 else None
    return Spread(
        tuple(values), fmean(values), deviation, min(values), max(values), median(values)
    )


def t95(freedom: int) -> float:
    """Student's quantile for 95 in a hundred; beyond the table by an approximation.

    Source: Abramowitz and Stegun, 26.7.5, its first term.
    """
    if freedom <= len(_T95):
        return _T95[freedom - 1]
    z = _NORMAL95
    return z + (z**3 + z) / (4 * freedom)


def covering(values: Sequence[float]) -> float | None:
    """What covers the next maker 19 times in 20; None for fewer than two numbers."""
    if len(values) < 2:
        return None
    n = len(values)
    return fmean(values) + t95(n - 1) * stdev(values) * sqrt(1 + 1 / n)


def allowance_of(ratios: Sequence[float]) -> Allowance:
    """How much more yarn than reckoned covers 19 of 20 makers, from what testers used."""
    most = max(ratios, default=None)
    factor = covering(ratios)
    n = len(ratios)
    if most is None:
        return Allowance(None, 0, None, "Nobody has told what yarn was used.")
    if factor is None:
        return Allowance(
            None, n, most,
            f"One tester used {most:.2f} times the reckoned yarn; one tells no spread.",
        )  # fmt: skip
    method = (
        f"{n} testers: mean {fmean(ratios):.2f}, standard deviation {stdev(ratios):.2f}; "
        f"the mean and {t95(n - 1):.2f} x {stdev(ratios):.2f} x {sqrt(1 + 1 / n):.2f} "
        f"covers the next maker 19 times in 20, if makers lie as a normal distribution "
        f"does."
    )
    few = (
        f" {n} are few: the limit is as wide as it has to be, and more reports narrow it."
        if n < FEW
        else ""
    )
    return Allowance(max(factor, most), n, most, f"{method}{few}")
