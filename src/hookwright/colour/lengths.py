"""How many rows is the striped piece to have, and is it worked in rounds?"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, Measure, StripesWanted
from hookwright.editing.main_piece import Piece, main_piece
from hookwright.editing.told_lengths import in_unit, short

_MOST_ROWS = 9_999


class Length(Struct, frozen=True):
    """The rows that are wanted.

    Attributes:
        rows: How many; None where nothing tells.
        says: Where that comes from; "" where nothing tells.
        in_rounds: Whether the piece is worked in rounds.
    """

    rows: int | None = None
    says: str = ""
    in_rounds: bool = False


def length_wanted(checked: Checked, told: StripesWanted) -> Length:
    """The rows that the worksheet wants, or else that the pattern works."""
    piece = _piece(checked)
    in_rounds = piece is not None and piece.in_rounds
    if told.rows_in_all is not None:
        return Length(told.rows_in_all, "", in_rounds)
    if told.length is not None:
        return _at_gauge(checked, told.length, in_rounds=in_rounds)
    if piece is None or not piece.alone or piece.open_ended or told.times is not None:
        return Length(in_rounds=in_rounds)
    rows = len(piece.rows)
    return Length(rows, f"The pattern works {rows} rows.", in_rounds)


def _piece(checked: Checked) -> Piece | None:
    """The main piece, where every size has as many rows."""
    pieces = [
        main_piece(checked.reading.pattern, working, checked.source.text)
        for working in checked.worked.sizes
    ]
    first = pieces[0] if pieces else None
    if first is None or any(p is None or len(p.rows) != len(first.rows) for p in pieces):
        return None
    return first


def _at_gauge(checked: Checked, length: Measure, *, in_rounds: bool) -> Length:
    noted = checked.design.noted
    gauges = (*(noted.swatches if noted is not None else ()), *checked.design.gauges)
    mm, told = length.mm[0], in_unit(length.mm[0] or Fraction(0), length.unit)
    for gauge in gauges:
        height = _height(gauge)
        if gauge.rows and height and mm:
            rows = min(_MOST_ROWS, max(1, round(mm / height * gauge.rows)))
            unit = gauge.height.unit if gauge.height is not None else length.unit
            at = f"{short(gauge.rows)} rows to {in_unit(height, unit)}"
            return Length(rows, f"{told} at {at} are {rows} rows.", in_rounds)
    says = f"Nothing tells how many rows {told} are: write rows and height of a swatch."
    return Length(None, says, in_rounds)


def _height(gauge: Gauge) -> Fraction | None:
    return gauge.height.mm[0] if gauge.height is not None else None
