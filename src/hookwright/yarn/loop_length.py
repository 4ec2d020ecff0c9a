"""How long is a loop of yarn in the fabric, and how sure is that?

By weighed swatches: their lengths over their loops, fitted by least squares. A stitch that
was weighed itself is known to 5 %, another one by its number of loops to 10 %, or as much
worse as the swatches disagree. Before there is a swatch a loop is taken to be a turn about
hook and yarn together, pi (D + d), to 20 %; a second opinion is how much yarn covers an
area, 3.2 over its thickness. Which of them it was is always told.

Source of the laws and their accuracy: our own fit to published swatches, each of which
stands with its source in tests/yarn/test_published_swatches.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.sizing.pitch import root
from hookwright.yarn.facts import Basis, Law, LoopLength
from hookwright.yarn.thickness import Thickness
from hookwright.yarn.weighed import Weighed

PI = Fraction(355, 113)
COVER = Fraction(32, 10)
"""Length of yarn per area, times its thickness, in a fabric without holes."""
OWN_STITCH, OTHER_STITCH = Fraction(5, 100), Fraction(10, 100)
UNWEIGHED, GUESSED = Fraction(20, 100), Fraction(35, 100)
DISAGREE = Fraction(20, 100)
"""How far the two laws may be apart before a swatch is asked for."""
_SHORT_SWATCH = 300
"""Loops from which on a weighed swatch is as good as is said. Common practice."""
_ODD = Fraction(45, 100)


class Cell(Struct, frozen=True):
    """What a stitch of the fabric takes up.

    Attributes:
        area: Its area in square millimetres.
        loops: Loops of an average stitch.
    """

    area: Fraction
    loops: Fraction


def law_of(
    swatches: Sequence[Weighed],
    mm_per_g: Fraction | None,
    hook_mm: Fraction | None,
    thick: Thickness | None,
    cell: Cell | None,
) -> Law:
    """The loops of a yarn.

    Args:
        swatches: Its weighed swatches.
        mm_per_g: The length of a gram of it; None where that is not known.
        hook_mm: The hook; None where none is told.
        thick: How thick it is; None where nothing tells.
        cell: An average stitch of the fabric; None without a gauge.
    """
    if swatches and mm_per_g is not None:
        return _weighed_law(swatches, mm_per_g, thick, cell)
    return Law(prior(hook_mm, thick, cell))


def _weighed_law(
    swatches: Sequence[Weighed],
    mm_per_g: Fraction,
    thick: Thickness | None,
    cell: Cell | None,
) -> Law:
    common = fitted(swatches, mm_per_g, OTHER_STITCH)
    kinds = dict.fromkeys(swatch.kind for swatch in swatches if swatch.kind)
    own = tuple(
        (kind, fitted([s for s in swatches if s.kind == kind], mm_per_g, OWN_STITCH))
        for kind in kinds
    )
    of_pattern = [swatch for swatch in swatches if not swatch.kind]
    if of_pattern:  # the mixture of the pattern was weighed itself
        common = fitted(of_pattern, mm_per_g, OWN_STITCH)
    doubt = _doubt(common, thick, cell)
    return Law(LoopLength(common.mm, common.spread, common.basis, common.said + doubt), own)


def fitted(
    swatches: Sequence[Weighed], mm_per_g: Fraction, promise: Fraction
) -> LoopLength:
    """A loop by weighed swatches: least squares through nothing, the spread beside it.

    What a swatch is off by grows with the root of its length, so each is weighted by one
    over its loops; then the fit is all their length over all their loops. The scales tell
    a weight to half of its last digit, and that is off as well.
    """
    lengths = [s.grams * mm_per_g / s.strands for s in swatches]
    loops = [s.loops for s in swatches]
    mm = sum(lengths, Fraction(0)) / sum(loops, Fraction(0))
    scales = max(_rounding(s.grams) / s.grams for s in swatches)
    scatter = Fraction(0)
    if len(swatches) > 1:
        off = sum(
            ((y - mm * n) ** 2 / n for y, n in zip(lengths, loops, strict=True)),
            Fraction(0),
        )
        mean = sum(loops, Fraction(0)) / len(loops)
        scatter = root(off / (len(swatches) - 1) / mean) / mm
    short = max(Fraction(1), _SHORT_SWATCH / max(loops))
    spread = max(promise * short, scales, scatter)
    said = [
        f"A swatch of {s.said}, {float(s.grams):g} g, has {float(s.loops):.0f} loops in "
        f"{float(long) / 1000:.1f} m: {float(long / s.loops):.1f} mm a loop."
        for s, long in zip(swatches, lengths, strict=True)
    ]
    if len(swatches) > 1:
        said.append(
            f"By least squares a loop is {float(mm):.1f} mm; the swatches lie "
            f"{float(scatter):.1%} about it."
        )
    return LoopLength(mm, min(spread, GUESSED), Basis.SWATCH, tuple(said))


def _rounding(grams: Fraction) -> Fraction:
    """Half of the last digit of a weight: whole grams, tenths or hundredths."""
    for digit in (1, 10, 100):
        if (grams * digit).denominator == 1:
            return Fraction(1, 2 * digit)
    return Fraction(1, 1000)


def prior(
    hook_mm: Fraction | None, thick: Thickness | None, cell: Cell | None
) -> LoopLength:
    """A loop before a swatch is weighed."""
    covering = _covering(thick, cell)
    if hook_mm is not None and thick is not None:
        mm = PI * (hook_mm + thick.mm)
        told = (
            "No swatch of this yarn is weighed, so a loop is taken as a turn about the "
            f"hook of {float(hook_mm):g} mm and the yarn: {float(mm):.1f} mm "
            f"({thick.said})."
        )
        said = [told]
        spread = UNWEIGHED
        if covering is not None:
            apart = abs(mm - covering) / mm
            agree = "comes to" if apart <= DISAGREE else "comes to another length,"
            said.append(
                f"What covers such an area {agree} {float(covering):.1f} mm a loop."
            )
            if apart > DISAGREE:
                spread = max(spread, apart)
                said.append("Make a swatch and weigh it: the two do not agree.")
        return LoopLength(mm, min(spread, GUESSED), Basis.PRIOR, tuple(said))
    if covering is not None:
        told = (
            f"No swatch is weighed and no hook is told, so a loop is taken by what covers "
            f"such an area: {float(covering):.1f} mm."
        )
        return LoopLength(covering, UNWEIGHED, Basis.PRIOR, (told,))
    told = (
        "Neither yarn nor hook nor a weighed swatch is known, so a loop is guessed, as of "
        "medium yarn and a hook of 5.5 mm: weigh a swatch."
    )
    return LoopLength(PI * Fraction(79, 10), GUESSED, Basis.PRIOR, (told,))


def _covering(thick: Thickness | None, cell: Cell | None) -> Fraction | None:
    """A loop by the yarn that covers the area of a stitch."""
    if thick is None or cell is None or not cell.loops:
        return None
    return COVER * cell.area / thick.mm / cell.loops


def _doubt(
    common: LoopLength, thick: Thickness | None, cell: Cell | None
) -> tuple[str, ...]:
    """What to look at, where a weighed swatch is far from what covers its area."""
    covering = _covering(thick, cell)
    if covering is None or abs(common.mm - covering) <= _ODD * covering:
        return ()
    told = (
        f"That is far from the {float(covering):.1f} mm of yarn of this weight at this "
        "gauge: look at the weight of the swatch, and at what was on the scales."
    )
    return (told,)


def at_gauge(law: Law, factor: Fraction) -> Law:
    """The same yarn at another gauge, by the area that a stitch then takes up.

    The covering law holds there: a fabric of one yarn has as much of it per area, so what
    a stitch takes goes with its area. It is a law to 15 %.
    """
    own = tuple((kind, _scaled(loop, factor)) for kind, loop in law.own)
    return Law(_scaled(law.common, factor), own)


def _scaled(loop: LoopLength, factor: Fraction) -> LoopLength:
    told = (
        f"At the other gauge a stitch takes {float(factor):.2f} times the area, and its "
        f"loops are {float(loop.mm * factor):.1f} mm."
    )
    spread = max(loop.spread, Fraction(15, 100))
    return LoopLength(loop.mm * factor, spread, loop.basis, (*loop.said, told))
