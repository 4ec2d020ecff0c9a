"""How large a piece do the balls in hand make, and which colour limits it?

Tried are more and more rows at a width, and larger and larger pieces in the proportions of
a size; each has whole sequences of stripes where there are any. More never takes less, so
the largest is found by halving.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import lcm

from msgspec import Struct

from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.yarn.cutting import stretches
from hookwright.yarn.facts import Reach, RowUsed, SizeNeed
from hookwright.yarn.needing import Terms, had_of, share_in_hand, used_in
from hookwright.yarn.resizing import Resizer
from hookwright.yarn.stripes import Stripes

_MOST_ROWS = 2_000
"""With more rows nothing is crocheted; yarn for so much is told as enough for more."""
_EVEN_FROM = 4
"""With fewer rows nothing tells on which side a piece ends. As in sizing/row_family.py."""


class Search(Struct, frozen=True):
    """What pieces are made from.

    Attributes:
        resizer: The pattern in other sizes.
        coloured: Rows with their yarns.
        terms: What is reckoned with.
        stripes: The sequence of stripes; None without one.
        gauge: The gauge; None where there is none.
        beside: Stitches beside the repeats.
        stitches: Stitches of a repeat.
    """

    resizer: Resizer
    coloured: Callable[[Sequence[RowUsed]], tuple[RowUsed, ...]]
    terms: Terms
    stripes: Stripes | None
    gauge: FabricGauge | None
    stitches: int
    beside: int

    def step(self) -> int:
        """Rows between two heights that end alike."""
        sets = self.resizer.sets
        step = sets.each if sets is not None else 1
        if len(self.resizer.body) >= _EVEN_FROM:
            step = lcm(step, 2)
        if self.stripes is not None:
            step = lcm(step, sum(stripe.rows for stripe in self.stripes.stripes))
        return step

    def limit(self, repeats: int, rows: int) -> str:
        """The colour there is too little of for such a piece; "" if it can be made."""
        made = self.coloured(self.resizer.sized(repeats, rows))
        across = self.stitches * repeats + self.beside
        wide = self.gauge.width(across, repeats, self.beside) if self.gauge else None
        found = stretches(made, carried=self.terms.carried)
        used = used_in(made, found, self.terms, wide.mm if wide is not None else None)
        shares = {}
        for label in used.loops:
            had = had_of(label, used, self.terms).bought.had
            share = share_in_hand(self.terms.yarn(label), had)
            if share is not None and share < 1:
                shares[label] = share
        return min(shares, key=lambda label: shares[label], default="")


def reaches(search: Search, sizes: Sequence[SizeNeed]) -> Iterator[Reach]:
    """The largest pieces: as wide as each size, and in the proportions of the last."""
    rows = len(search.resizer.body)
    step = search.step()
    first = rows % step or step
    for need in sizes:
        wide = need.counted.repeats
        if wide is not None:
            name = need.counted.name or "written"

            def as_wide(at: int, wide: int = wide) -> tuple[int, int]:
                return wide, first + at * step

            yield _largest(search, f"as wide as {name}", as_wide)
    last = sizes[-1] if sizes else None
    wide = last.counted.repeats if last is not None else None
    if last is None or not wide:
        return
    high = _rows_of(search, last)

    def in_proportion(at: int) -> tuple[int, int]:
        exact = Fraction(high * (at + 1), wide) - first
        return at + 1, first + max(0, round(exact / step)) * step

    name = last.counted.name or "the piece as written"
    yield _largest(search, f"in the proportions of {name}", in_proportion)


def _rows_of(search: Search, need: SizeNeed) -> int:
    others = len(search.resizer.rows) - len(search.resizer.body)
    return len(need.counted.rows) - others


def _largest(search: Search, of: str, piece: Callable[[int], tuple[int, int]]) -> Reach:
    """The largest of a row of pieces, each larger than the one before."""
    low, high = -1, 0
    limit = search.limit(*piece(high))
    while not limit and piece(2 * high + 1)[1] <= _MOST_ROWS:
        low, high = high, 2 * high + 1
        limit = search.limit(*piece(high))
    if not limit:
        low = high
    while high - low > 1:
        middle = (low + high) // 2
        found = search.limit(*piece(middle))
        if found:
            high, limit = middle, found
        else:
            low = middle
    if low < 0:
        return Reach(of, None, 0, None, None, limit)
    repeats, rows = piece(low)
    width = height = None
    if search.gauge is not None:
        stitches = search.stitches * repeats + search.beside
        wide = search.gauge.width(stitches, repeats, search.beside)
        tall = search.gauge.height(rows)
        width = wide.mm if wide is not None else None
        height = tall.mm if tall is not None else None
    return Reach(of, repeats, rows, width, height, limit)
