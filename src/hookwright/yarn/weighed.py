"""How many loops has a swatch that was weighed?

Of a swatch in a plain stitch they follow from its stitches and rows, its foundation chain
and its turning chains with them. Of one in the pattern they are those of the rows of its
part, so many stitches or repeats of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.design.gauge_counts import stitch_named
from hookwright.notation.vocabulary import height_of
from hookwright.sizing.facts import PartMultiple
from hookwright.yarn.counting import counted_rows
from hookwright.yarn.facts import RowUsed, Section
from hookwright.yarn.loops import named

_STANDS = 3
_BETWEEN = frozenset({"ch", "sl st"})
"""What lies between stitches and is not counted with them."""


class Weighed(Struct, frozen=True):
    """A weighed swatch.

    Attributes:
        gauge: The swatch.
        grams: What it weighs.
        yarn: Its yarn as the worksheet names it; "" for any.
        strands: Strands held together.
        kind: The stitch it is in; "" for the pattern's own mixture.
        loops: Its loops.
        said: How they came about.
    """

    gauge: Gauge
    grams: Fraction
    yarn: str
    strands: int
    kind: str
    loops: Fraction
    said: str


def weighed_swatches(
    checked: Checked, multiples: Sequence[PartMultiple]
) -> tuple[Weighed, ...]:
    """The swatches whose weight and counts are told."""
    noted = checked.design.noted
    found = [
        _weighed(checked, multiples, swatch)
        for swatch in (noted.swatches if noted is not None else ())
        if swatch.weighed is not None
    ]
    return tuple(one for one in found if one is not None)


def _weighed(
    checked: Checked, multiples: Sequence[PartMultiple], gauge: Gauge
) -> Weighed | None:
    told = gauge.weighed
    assert told is not None
    across, rows = told.stitches or gauge.stitches, told.rows or gauge.rows
    if not across or not rows:
        return None
    kind = stitch_named(gauge.stitch) if gauge.of == "st" else ""
    if kind:
        loops, said = _plain(kind, across, rows, checked.worked.terms)
    else:
        own = _rows_of_part(checked, gauge.part)
        each = _repeat(multiples, gauge.part) if gauge.of != "st" else Fraction(1)
        if not own or not each:
            return None
        kind = _one_kind(own)
        loops = _as_pattern(own, across * each, rows)
        many = f"{_short(across)} {'stitches' if gauge.of == 'st' else 'repeats'}"
        said = f"{many} by {_short(rows)} rows of the pattern, with their chain"
    grams, yarn, strands = told.grams, told.yarn, told.strands
    return Weighed(gauge, grams, yarn, strands, kind, loops, said)


def _plain(kind: str, across: Fraction, rows: Fraction, terms: str) -> tuple[Fraction, str]:
    """The loops of a swatch in a plain stitch.

    From a height of three on the turning chain stands for a stitch, as is usual; that of
    the first row is part of the foundation chain.
    """
    each, turn = named(kind, terms, {}).loops, max(1, height_of(kind, terms))
    stands = int(turn >= _STANDS)
    chain = across + turn - stands
    loops = chain + rows * (across - stands) * each + (rows - 1) * turn
    return loops, f"{_short(across)} by {_short(rows)} {kind}, with their chain"


def _rows_of_part(checked: Checked, part: str) -> list[RowUsed]:
    """The rows of the part that a swatch stands for, or of the largest piece."""
    names = [own.name for own in checked.reading.pattern.parts]
    counted = counted_rows(checked, checked.worked.sizes[0].outcomes).rows
    rows = [row for row in counted if row.section is Section.PIECE]
    wanted = {at for at, name in enumerate(names) if part and part.lower() in name.lower()}
    if not wanted and rows:
        by_part = {row.part for row in rows}
        wanted = {max(by_part, key=lambda at: sum(row.part == at for row in rows))}
    return [row for row in rows if row.part in wanted]


def _repeat(multiples: Sequence[PartMultiple], part: str) -> Fraction:
    """Stitches of a repeat; 0 where nobody knows."""
    known = [one for one in multiples if one.stitches is not None]
    own = [one for one in known if part and part.lower() in one.part.lower()]
    found = next(iter(own or known), None)
    return Fraction(found.stitches.each) if found and found.stitches else Fraction(0)


def _one_kind(rows: Sequence[RowUsed]) -> str:
    """The stitch that all rows are made of, turning chains apart; "" for a mixture."""
    kinds = {use.kind for row in rows for use in row.uses if use.kind != "turning ch"}
    return kinds.pop() if len(kinds) == 1 else ""


def _as_pattern(rows: Sequence[RowUsed], across: Fraction, high: Fraction) -> Fraction:
    """The loops of so many stitches and rows like these: turning chains once a row."""
    stitches = turning = made = Fraction(0)
    for row in rows:
        for use in row.uses:
            if use.kind == "turning ch":
                turning += use.loops * use.number
            else:
                stitches += use.loops * use.number
                made += use.number if use.kind not in _BETWEEN else 0
    each = stitches / made if made else Fraction(0)
    return across + high * (across * each + turning / len(rows))


def _short(number: Fraction) -> str:
    return f"{float(number):g}"
