"""How many: an exact number, or a number that grows with the repeats.

A foundation of `16k + 2` chains is a linear form in the repeat count k. Sums of such
forms are forms again, so the code that works a row over 178 chains works it over
16k + 2 of them as well, and the multiple of a pattern falls out of it.
"""

from __future__ import annotations

from msgspec import Struct


class Linear(Struct, frozen=True):
    """`fixed + each * k`, for a repeat count k that is as large as need be.

    Two forms compare as they do for every large enough k. A form whose `each` is 0 is
    never made: it is the plain number.
    """

    fixed: int
    each: int

    @staticmethod
    def of(fixed: int, each: int) -> Count:
        """The simplest count of this value: a plain number where nothing grows."""
        return Linear(fixed, each) if each else fixed

    def at(self, repeats: int) -> int:
        """The number for a given repeat count."""
        return self.fixed + self.each * repeats

    def __add__(self, other: Count) -> Count:
        fixed, each = parts_of(other)
        return Linear.of(self.fixed + fixed, self.each + each)

    __radd__ = __add__

    def __neg__(self) -> Count:
        return Linear.of(-self.fixed, -self.each)

    def __sub__(self, other: Count) -> Count:
        fixed, each = parts_of(other)
        return Linear.of(self.fixed - fixed, self.each - each)

    def __rsub__(self, other: Count) -> Count:
        return -self + other

    def __mul__(self, factor: Count) -> Count:
        if isinstance(factor, Linear):
            raise TypeError("a count that grows with the repeats twice over is not linear")
        return Linear.of(self.fixed * factor, self.each * factor)

    __rmul__ = __mul__

    def __lt__(self, other: Count) -> bool:
        return _by_growth(self) < _by_growth(other)

    def __le__(self, other: Count) -> bool:
        return _by_growth(self) <= _by_growth(other)

    def __gt__(self, other: Count) -> bool:
        return _by_growth(self) > _by_growth(other)

    def __ge__(self, other: Count) -> bool:
        return _by_growth(self) >= _by_growth(other)

    def __str__(self) -> str:
        grows = {1: "k", -1: "-k"}.get(self.each, f"{self.each}k")
        if not self.fixed:
            return grows
        return f"{grows} {'+' if self.fixed > 0 else '-'} {abs(self.fixed)}"


Count = int | Linear


def parts_of(count: Count) -> tuple[int, int]:
    """A count as (fixed, each)."""
    return (count.fixed, count.each) if isinstance(count, Linear) else (count, 0)


def _by_growth(count: Count) -> tuple[int, int]:
    fixed, each = parts_of(count)
    return each, fixed


def whole_times(total: Count, size: int) -> Count | None:
    """How often `size` goes whole into `total`; None where that depends on k.

    The remainder is a plain number below `size`, so `whole_times(16k + 2, 8)` is 2k.
    """
    fixed, each = parts_of(total)
    if each % size:
        return None
    return Linear.of(fixed // size, each // size)
