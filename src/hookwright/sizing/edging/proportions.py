"""How wide is a stitch, and how high is each row, in widths of a stitch?

By the gauge where one is told of these rows; else by the proportions of the stitches, and
then that is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Design, Gauge
from hookwright.design.gauge_counts import stitch_named
from hookwright.editing.main_piece import stitches_of
from hookwright.notation.printing.terms import stitch_names
from hookwright.working.outcome import Outcome
from hookwright.working.stitches import base_of

HEIGHTS = {
    "sl st": Fraction(3, 10),
    "sc": Fraction(95, 100),
    "hdc": Fraction(127, 100),
    "dc": Fraction(190, 100),
    "tr": Fraction(250, 100),
}
"""Height of a stitch in its own widths.

Source: the trade's 6, 8 and 12 increases of a flat round of sc, hdc and dc are 2 pi heights
(Eucl. Elem.: the circumference grows by 2 pi for each unit of radius); tr by 4 turning
chains to the 3 of dc, weakly known.
"""
USUAL = {"sc": 1, "hdc": 2, "dc": 2, "tr": 3}
"""Stitches picked up in a row end. Source: crochetcabana.com, borders: 1 for a row of sc, 2
of dc, 3 of tr; a page's "3 over 2 rows" for hdc is common practice, no source."""


class Proportions(Struct, frozen=True):
    """The rows of a piece in widths of a stitch.

    Attributes:
        heights: One number a row.
        width_mm: How wide a stitch is; None where no gauge tells.
        told: Where the numbers come from, in a sentence.
        gauge: The gauge they are taken from.
        wave_mm: How wide a wave and how high its row is, where the gauge is of waves.
    """

    heights: tuple[Fraction, ...]
    width_mm: Fraction | None
    told: str
    gauge: Gauge | None = None
    wave_mm: tuple[Fraction, Fraction] | None = None


def proportions_of(
    design: Design, rows: Sequence[Outcome], terms: str, in_wave: int
) -> Proportions:
    """The proportions of a piece.

    Args:
        design: What the text says beside its rows.
        rows: The rows of the piece in one size.
        terms: "US" or "UK".
        in_wave: Stitches of one wave; 0 for a piece without waves.
    """
    own = {id(row.worked): _own_height(row, terms) for row in rows}
    heights = tuple(own[id(row.worked)] for row in rows)
    gauges = [*design.gauges, *(design.noted.swatches if design.noted else ())]
    for gauge in gauges:
        found = _by_gauge(gauge, rows, heights, terms, in_wave)
        if found is not None:
            return found
    named = sorted({us_name(s, terms) for s in stitches_of(rows)} & HEIGHTS.keys())
    listed = ", ".join(
        f"{_in_terms(name, terms)} {float(HEIGHTS[name]):g}" for name in named
    )
    of = f" ({listed} times as high as wide)" if listed else ""
    told = f"No gauge of these rows is told: by the usual proportions of the stitches{of}."
    return Proportions(heights, None, told)


def us_name(stitch: str, terms: str) -> str:
    """A plain stitch by its US name."""
    base = base_of(stitch)
    return stitch_names("US").get(base, base) if terms == "UK" else base


def _in_terms(stitch: str, terms: str) -> str:
    return stitch_names("UK").get(stitch, stitch) if terms == "UK" else stitch


def _own_height(row: Outcome, terms: str) -> Fraction:
    """The height of a row by proportions: that of the taller stitches in it."""
    kinds: Mapping[str, object] = row.worked.row.kinds() if row.worked is not None else {}
    known = [HEIGHTS[n] for k in kinds if (n := us_name(k, terms)) in HEIGHTS]
    return max(known, default=HEIGHTS["sc"])


def _by_gauge(
    gauge: Gauge,
    rows: Sequence[Outcome],
    heights: Sequence[Fraction],
    terms: str,
    in_wave: int,
) -> Proportions | None:
    """The proportions by one gauge; None where it may be of other rows."""
    if not (gauge.stitches and gauge.rows and gauge.width and gauge.height):
        return None
    width, height = gauge.width.mm[0], gauge.height.mm[0]
    if not width or not height:
        return None
    across, up = width / gauge.stitches, height / gauge.rows
    if gauge.of != "st":
        if not in_wave or gauge.in_one not in (None, in_wave):
            return None
        return Proportions(
            tuple(heights), None, "By the gauge of the waves.", gauge, (across, up)
        )
    stitch = stitch_named(gauge.stitch)
    mostly = stitches_of(rows).most_common(1)
    if in_wave or (stitch and (not mostly or mostly[0][0] != stitch)):
        return None  # a gauge of flat rows says little of waves
    ratio = up / across
    if stitch:
        scale = ratio / HEIGHTS.get(us_name(stitch, terms), ratio)
    else:
        scale = ratio * len(heights) / sum(heights)
    scaled = tuple(h * scale for h in heights)
    return Proportions(scaled, across, "By the stated gauge.", gauge)
