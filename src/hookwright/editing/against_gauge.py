"""Do the stitches and rows, at the gauge, come to the printed size?

A gauge in whole stitches is rounded itself, so that much is allowed beside the tenth that
hands and blocking may make. A piece that may be turned, folded or sewn is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Along, Finished, Gauge, Measure
from hookwright.editing.at_gauge import Worked, at_gauge
from hookwright.editing.main_piece import SIDEWAYS, Piece, main_piece, stitches_of
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.same_length import disagrees
from hookwright.editing.told_lengths import grain_mm, in_unit, short, sizes_named, telling
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.vocabulary import height_of
from hookwright.regex import regex
from hookwright.source import Span

_WARN = Fraction(8, 100)
_ADVISE = Fraction(4, 100)
_SURELY_ANOTHER = Fraction(1, 2)
"""A piece under half the size that is told is a sample of it."""
_PIECES = frozenset(
    "piece scarf blanket throw afghan shawl wrap stole runner cloth dishcloth washcloth "
    "towel mat rug cowl snood hat cap beanie headband belt strap panel cushion pillow "
    "cover coaster placemat square hotpad potholder swatch strip band".split()
)
_GIRTHS = frozenset("brim chest bust waist hips hip".split())


class _Off(Struct, frozen=True):
    """A measurement that a size does not come to.

    Attributes:
        size: The number of the size.
        worked: What it comes to.
        printed: What is printed.
        by: The part of it that they differ by, beyond what rounding explains.
    """

    size: int
    worked: Worked
    printed: Fraction
    by: Fraction


def against_gauge(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each measurement that the gauge contradicts, over all its sizes."""
    design = manuscript.design
    of_piece = [f for f in design.finished if not f.to_fit and not f.measure.ranged]
    if not of_piece or not design.gauges:
        return
    text = manuscript.source.text
    pieces = [main_piece(manuscript.pattern, w, text) for w in manuscript.worked.sizes]
    sideways = SIDEWAYS.search(text) is not None
    around = any(f.along is Along.AROUND for f in of_piece)
    told: set[Span] = set()
    for along in (Along.WIDTH, Along.LENGTH, Along.AROUND):
        one = _only(of_piece, along)
        if around and along is not Along.AROUND:  # a flat piece closed into a tube
            continue
        if one is None or any(disagrees(one.measure, i) for i in range(len(pieces))):
            continue
        if one.measure.span in told:  # "17 cm square" is one number
            continue
        other = _only(of_piece, _OTHER_WAY.get(along))
        found = {
            gauge: _off(manuscript, pieces, gauge, one, other, sideways=sideways)
            for gauge in design.gauges
        }
        off = next(((gauge, sizes) for gauge, sizes in found.items() if sizes), None)
        # A piece may be measured blocked and its gauge told in both states.
        if off is not None and not any(sizes == [] for sizes in found.values()):
            told.add(one.measure.span)
            yield _finding(manuscript, off[0], one, off[1])


_OTHER_WAY = {Along.WIDTH: Along.LENGTH, Along.LENGTH: Along.WIDTH}


def _only(finished: Sequence[Finished], along: Along | None) -> Finished | None:
    """The one measurement of the piece that way; None where there are several or none."""
    found = [f for f in finished if f.along is along and _is_of_piece(f)]
    return found[0] if len(found) == 1 else None


def _is_of_piece(finished: Finished) -> bool:
    words = set(finished.of.split())
    wanted = _PIECES | _GIRTHS if finished.along is Along.AROUND else _PIECES
    return not words or bool(words & wanted)


def _off(
    manuscript: Manuscript,
    pieces: Sequence[Piece | None],
    gauge: Gauge,
    one: Finished,
    other: Finished | None,
    *,
    sideways: bool,
) -> list[_Off] | None:
    """The sizes that do not come to it; None where the gauge is of other rows."""
    workings = manuscript.worked.sizes
    found: list[_Off] | None = None
    for size, (piece, working) in enumerate(zip(pieces, workings, strict=True)):
        printed = one.measure.at(size)
        if piece is None or not printed:
            continue
        worked = at_gauge(manuscript, piece, working, gauge, one.along)
        if worked is None:
            continue
        edging = _edging_mm(manuscript, piece, gauge, one)
        by = _apart(worked, printed, one.measure, edging)
        across = other.measure.at(size) if other is not None else None
        turned = at_gauge(manuscript, piece, working, gauge, _OTHER_WAY.get(one.along))
        if (
            (sideways and one.along is not Along.AROUND)  # a band may be, rounds are not
            or _runs_the_other_way(worked, turned, printed, across)
            or worked.mm < printed * _SURELY_ANOTHER
            or _is_put_together(manuscript, worked, printed)
        ):
            return []
        found = found or []
        if by > _ADVISE:
            found.append(_Off(size, worked, printed, by))
    return found


def _runs_the_other_way(
    worked: Worked, turned: Worked | None, printed: Fraction, across: Fraction | None
) -> bool:
    """Whether a piece fits its measurements with its stitches along its length."""
    if across is None:
        return turned is not None and _may_be(turned, printed)
    return _may_be(worked, across) and (turned is None or _may_be(turned, printed))


def _may_be(worked: Worked, printed: Fraction) -> bool:
    return abs(worked.mm - printed) <= printed * (_WARN + worked.slack)


_PUT_TOGETHER = regex(
    r"\b(?:sew|sewn|seam|join|strips?|panels?|halves|double)", re.IGNORECASE
)


def _is_put_together(manuscript: Manuscript, worked: Worked, printed: Fraction) -> bool:
    """Whether a piece may be folded, or sewn of two or three: then it is half or twice."""
    times = max(worked.mm, printed) / min(worked.mm, printed)
    near = round(times)
    whole = near > 1 and abs(times - near) <= _ADVISE * near
    return whole and _PUT_TOGETHER.search(manuscript.source.text) is not None


_EDGING_ROW_MM = Fraction(15)
"""How high a row of edging may be, where no gauge tells. Common practice, no source."""


_BEFORE_EDGING = regex(
    r"\b(?:before|without|excluding|excl\.?|not (?:counting|including)|minus|less)"
    r"(?:[ \t](?:adding|working|the|its|any|a))*"
    r"[ \t](?:borders?|edgings?|edges?|trim|fringe)\b",
    re.IGNORECASE,
)


def _edging_mm(
    manuscript: Manuscript, piece: Piece, gauge: Gauge, one: Finished
) -> Fraction:
    """By how much its edging may widen a piece: nothing, where it is measured before.

    A row of it is as high as one of the piece, where its stitch is certainly not taller.
    """
    line = manuscript.source.line_span(manuscript.source.line_of(one.span.start))
    if _BEFORE_EDGING.search(manuscript.source.text, line.start, line.end):
        return Fraction(0)
    height = gauge.height.mm[0] if gauge.height is not None else None
    row = height / gauge.rows if height and gauge.rows else Fraction(0)
    own = [height_of(name, manuscript.worked.terms) for name in stitches_of(piece.rows)]
    edging = [height_of(name, manuscript.worked.terms) for name in piece.edging_stitches]
    if not row or not own or not all(0 < height <= min(own) for height in edging):
        row = max(row, _EDGING_ROW_MM)
    return piece.edging_rows * row


def _apart(
    worked: Worked, printed: Fraction, measure: Measure, edging_mm: Fraction
) -> Fraction:
    """By how much of it they differ, beyond what rounding and an edging explain."""
    apart = worked.mm - printed
    if apart < 0:
        apart = min(apart + edging_mm, Fraction(0))
    rounded = grain_mm(printed, measure.unit) / 2 / printed + worked.slack
    return max(abs(apart) / printed - rounded, Fraction(0))


def _finding(
    manuscript: Manuscript, gauge: Gauge, one: Finished, found: Sequence[_Off]
) -> Finding:
    worst = max(found, key=lambda off: off.by)
    loud = worst.by > _WARN and not gauge.loose
    alike = [off for off in found if off.by > _WARN or not loud]
    names = manuscript.pattern.sizes
    some = len(alike) < len(manuscript.worked.sizes)
    sizes = tuple(names[off.size] for off in alike) if names and some else ()
    printed = telling(one.measure, worst.size)
    told = _comes_to(gauge, worst.worked, one)
    of_size = f"in {sizes_named(names[worst.size : worst.size + 1])}, " if names else ""
    others = [names[off.size] for off in alike if off is not worst] if names else []
    likewise = _likewise(others, of=len(names))
    message = f"{of_size}{told}, but {printed} is printed{likewise}."
    return Finding(
        "measure",
        Severity.WARNING if loud else Severity.ADVICE,
        one.measure.span,
        f"{message[0].upper()}{message[1:]}",
        _why(worst.worked, worst.printed, printed),
        related=(Related(gauge.span, "the gauge"),),
        sizes=sizes,
    )


def _comes_to(gauge: Gauge, worked: Worked, one: Finished) -> str:
    """ "At 16 stitches to 4 in, 80 stitches are 20 in around"."""
    long = f"{in_unit(worked.mm, one.measure.unit)} {_WORDS[one.along]}"
    number = f"{short(worked.number)} {worked.called}"
    return f"at {gauge_told(gauge, worked)}, {number} are {long}"


def _likewise(others: Sequence[str], of: int) -> str:
    if not others:
        return ""
    if len(others) + 1 == of > 2:
        return "; no other size agrees either"
    return (
        f"; {sizes_named(others)} {'does' if len(others) == 1 else 'do'} not agree either"
    )


_WORDS = {Along.WIDTH: "wide", Along.LENGTH: "long", Along.AROUND: "around"}


def gauge_told(gauge: Gauge, worked: Worked) -> str:
    """ "16 stitches to 4 in": the half of a gauge that a number was held against."""
    rows = worked.called == "rows"
    number = gauge.rows if rows else gauge.stitches
    length = gauge.height if rows else gauge.width
    assert number is not None
    assert length is not None
    what = "rows" if rows else worked.called
    if number == 1 and what.endswith("s"):
        what = what[:-1]
    return f"{_number(number)} {what} to {telling(length, 0)}"


def _number(number: Fraction) -> str:
    return short(number) if number.denominator in (1, 2, 5, 10) else f"{float(number):.2f}"


def _why(worked: Worked, printed: Fraction, told: str) -> str:
    wanted = short(Fraction(round(worked.number * printed / worked.mm)))
    return (
        f"At this gauge {told} would take {wanted} {worked.called}: "
        "look at the gauge, the size and the number."
    )
