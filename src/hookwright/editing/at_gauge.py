"""How wide, long or far around is a piece at a stated gauge?

It is told only where the gauge is certainly one of these rows: it names their stitch, their
pattern or a repeat that the rows consist of, and the piece keeps its width.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Along, Gauge
from hookwright.design.gauge_counts import stitch_named
from hookwright.editing.main_piece import (
    Piece,
    are_sound,
    girth_rows,
    is_band,
    keeps_its_width,
    steady_count,
    stitches_of,
    straight_rows,
)
from hookwright.editing.manuscript import Manuscript
from hookwright.working.outcome import Outcome, Working

_REPEAT_WORDS = frozenset("repeat rep pattern patt motif".split())


class Worked(Struct, frozen=True):
    """What a size comes to at a gauge.

    Attributes:
        mm: How wide or long.
        number: How many stitches, repeats or rows that are.
        called: What they are called: "stitches", "rows", "waves".
        slack: The part of it that the rounding of the gauge may make.
    """

    mm: Fraction
    number: Fraction
    called: str
    slack: Fraction


def at_gauge(
    manuscript: Manuscript,
    piece: Piece,
    working: Working,
    gauge: Gauge,
    along: Along | None,
) -> Worked | None:
    """What a piece comes to that way; None where the gauge may be of other rows."""
    if along is None:
        return None
    if along is Along.AROUND:
        return _around(manuscript, piece, working, gauge)
    if not piece.flat or not piece.alone or not keeps_its_width(piece.rows):
        return None
    if along is not Along.WIDTH:
        return up_at_gauge(piece, gauge)  # so many rows, whatever stitches they make
    if not are_sound(working, piece.rows):
        return None
    return _across(manuscript, piece, gauge)


def _around(
    manuscript: Manuscript, piece: Piece, working: Working, gauge: Gauge
) -> Worked | None:
    """The rounds that make the girth of a piece; a band in rows may lie along them."""
    parts = manuscript.pattern.parts
    around = [o for o in piece.rows if not is_band(parts[o.step.part].name)]
    if not around or gauge.of != "st" or not all(o.step.is_round for o in around):
        return None
    rows = girth_rows(around)
    if not rows:
        return None
    count = rows[0].tally.stitches
    straight = straight_rows(rows)
    if len(straight) * 2 < len(rows) or not are_sound(working, rows):
        return None
    if not isinstance(count, int) or not is_worked_so(gauge, straight):
        return None
    return of_stitches(gauge, count)


def _across(manuscript: Manuscript, piece: Piece, gauge: Gauge) -> Worked | None:
    if gauge.of != "st":
        return _of_repeats(manuscript, piece, gauge)
    count = steady_count(piece.rows)
    if count is None:
        return None
    straight = straight_rows(piece.rows)
    plain = len(straight) * 10 >= len(piece.rows) * 8
    in_pattern = bool(gauge.stitch) and not stitch_named(gauge.stitch)
    spaces = any(o.worked is not None and o.worked.row.spaces for o in piece.rows)
    if not (plain or in_pattern) or spaces or not is_worked_so(gauge, piece.rows):
        return None
    return of_stitches(gauge, count)


def is_worked_so(gauge: Gauge, rows: Sequence[Outcome]) -> bool:
    """Whether rows are worked in what the gauge is worked in."""
    stitches = stitches_of(rows)
    named = stitch_named(gauge.stitch)
    if gauge.stitch and not named:
        return True
    mostly, often = stitches.most_common(1)[0] if stitches else ("", 0)
    if often * 10 < len(rows) * (6 if named else 8):  # the rest may be ribbing
        return False
    return not named or mostly == named


def of_stitches(gauge: Gauge, count: int) -> Worked | None:
    """How wide so many stitches are at a gauge."""
    width = gauge.width.mm[0] if gauge.width is not None else None
    if not gauge.stitches or width is None:
        return None
    mm = width * count / gauge.stitches
    return Worked(mm, Fraction(count), "stitches", _rounding(gauge.stitches))


def _rounding(number: Fraction) -> Fraction:
    """The part of a gauge that its own rounding may make."""
    return Fraction(1, 2 * number.denominator) / number


def _of_repeats(manuscript: Manuscript, piece: Piece, gauge: Gauge) -> Worked | None:
    """Waves, fans or pattern repeats that go into the width."""
    width = gauge.width.mm[0] if gauge.width is not None else None
    repeats = _repeats(manuscript, piece, gauge)
    if not gauge.stitches or width is None or repeats is None or repeats < _FEWEST:
        return None
    mm = width * repeats / gauge.stitches
    called = gauge.of if gauge.of.endswith("s") else f"{gauge.of}s"
    return Worked(mm, Fraction(repeats), called, Fraction(1, 2 * repeats))


_FEWEST = 3
"""Repeats in a row; with fewer, half a repeat at the edges is too much of the width."""


def _repeats(manuscript: Manuscript, piece: Piece, gauge: Gauge) -> int | None:
    """Their number: from their stitches, from the groups of that name, or the multiple."""
    each = gauge.in_one
    multiples = manuscript.pattern.multiples
    if each is None and len(multiples) == 1 and _REPEAT_WORDS & set(gauge.of.split()):
        each = multiples[0].each
    if each:
        count = steady_count(piece.rows)
        return count // each if count is not None else None
    groups = [o.tally.groups.get(gauge.of, 0) for o in piece.rows]
    numbers = [number for number in groups if isinstance(number, int)]
    most = max(numbers, default=0)
    return most if numbers.count(most) >= max(_FEWEST, len(groups) // 5) else None


def up_at_gauge(piece: Piece, gauge: Gauge) -> Worked | None:
    """How high the rows of a piece are; None where the gauge may be of others."""
    height = gauge.height.mm[0] if gauge.height is not None else None
    if not gauge.rows or height is None or piece.open_ended:
        return None
    straight = len(straight_rows(piece.rows)) * 10 >= len(piece.rows) * 8
    named = stitch_named(gauge.stitch)
    stitches = stitches_of(piece.rows)
    mostly, often = stitches.most_common(1)[0] if stitches else ("", 0)
    alike = often * 10 >= len(piece.rows) * 9
    if gauge.stitch and not named:
        alike = True
    elif named and mostly != named:
        return None
    if not alike or not (straight or (gauge.stitch and not named)):
        return None
    rows = Fraction(len(piece.rows))
    return Worked(height * rows / gauge.rows, rows, "rows", _rounding(gauge.rows))
