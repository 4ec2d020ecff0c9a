"""How wide is a stitch or repeat of a piece, and how high a row, as worked and blocked?

A gauge that is asked for counts first, then what the text states, then the swatches of the
worksheet; where the text tells a gauge once and swatches were measured several times, the
swatches tell its spread. Of the gauges told, the one of the repeat is taken before one of
the stitches, one in the pattern before one of a plain stitch. Finished sizes are those
after blocking where that was measured. Where nothing was, the gauge is guessed, and that is
said.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, State
from hookwright.design.gauge_counts import stitch_named
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.gauge_counted import Fitting
from hookwright.sizing.guessing import guessed
from hookwright.sizing.lengths import small
from hookwright.sizing.pieces import Piece
from hookwright.sizing.pitch import (
    Counted,
    Pitch,
    apart_beyond_counting,
    pitch_of,
)
from hookwright.sizing.waves import Slope, repeat_at, slope_of, slope_of_flat


class Origin(StrEnum):
    """Who says what the gauge is."""

    ASKED = "asked for"
    TEXT = "the pattern"
    WORKSHEET = "the worksheet"
    GUESS = "a guess"


class Sample(Struct, frozen=True):
    """A gauge as it is told, with who tells it."""

    gauge: Gauge
    origin: Origin


class FabricGauge(Struct, frozen=True):
    """The gauge of a piece.

    Attributes:
        stitch: What a stitch takes across; None where only the rows are known.
        repeat: What a repeat takes, where it was measured so or lies in waves.
        row: What a row takes; None where nothing tells.
        origin: Who says so.
        state: How the finished piece is measured.
        as_worked: The same on the hook, before blocking; None where that is not known.
        slope: How its waves climb; None for a piece that lies straight.
        of_plain: Whether it was told in a plain stitch, not in the pattern.
        said: Sentences on how it came about.
    """

    stitch: Pitch | None
    row: Pitch | None
    repeat: Pitch | None = None
    origin: Origin = Origin.GUESS
    state: State = State.UNSAID
    as_worked: FabricGauge | None = None
    slope: Slope | None = None
    of_plain: bool = False
    said: tuple[str, ...] = ()

    def width(self, stitches: int, repeats: int = 0, beside: int = 0) -> Pitch | None:
        """How wide a row is: so many stitches, or repeats with some stitches beside."""
        if self.repeat is not None and repeats:
            edge = self.stitch.times(beside) if self.stitch is not None else None
            whole = self.repeat.times(repeats)
            if edge is None:
                return whole
            return replace(
                whole, mm=whole.mm + edge.mm, spread_mm=whole.spread_mm + edge.spread_mm
            )
        return self.stitch.times(stitches) if self.stitch is not None else None

    def height(self, rows: int) -> Pitch | None:
        """How high so many rows are."""
        return self.row.times(rows) if self.row is not None else None

    @property
    def blocking(self) -> tuple[Fraction | None, Fraction | None]:
        """How much wider and higher it blocks: finished over as worked."""
        before = self.as_worked
        if before is None:
            return None, None
        return _over(self.stitch, before.stitch), _over(self.row, before.row)


def _over(after: Pitch | None, before: Pitch | None) -> Fraction | None:
    return after.mm / before.mm if after is not None and before is not None else None


def gauge_of(
    checked: Checked,
    piece: Piece | None,
    multiple: PartMultiple | None,
    asked: Sequence[Gauge] = (),
    *,
    waves: bool = False,
    unit: str = "in",
) -> FabricGauge:
    """The gauge of a piece, guessed where nothing was measured.

    Args:
        checked: The pattern.
        piece: The piece; None where only its multiple is known.
        multiple: How it grows.
        asked: Gauges that a maker has instead.
        waves: Whether its rows lie in waves.
        unit: The unit to speak in first.
    """
    samples = [s for s in _samples(checked, asked) if _may_be_of(s, piece, multiple)]
    fits = Fitting(piece, multiple, checked)
    finished = [s for s in samples if s.gauge.state is not State.AS_WORKED]
    before = [s for s in samples if s.gauge.state is State.AS_WORKED]
    measured = _measured(finished or before, fits, unit)
    if measured is not None and asked:
        told = gauge_of(checked, piece, multiple, waves=waves, unit=unit)
        measured = _with_the_other_way(measured, told)
    if measured is None:
        return _guess(checked, piece, multiple, waves=waves, unit=unit)
    if finished and before:
        measured = replace(measured, as_worked=_measured(before, fits, unit))
    if measured.stitch is None or measured.row is None:
        measured = _completed(measured, checked, piece)
    if waves:
        return _in_waves(measured, multiple, unit)
    return _with_spaces(measured, fits, unit)


def _with_the_other_way(asked: FabricGauge, told: FabricGauge) -> FabricGauge:
    """A gauge that only tells one way, with the other as the pattern tells it."""
    if told.origin is Origin.GUESS:
        return asked
    if asked.row is None and told.row is not None:
        said = (*asked.said, "No rows are told with it: they stay as the pattern has them.")
        return replace(asked, row=told.row, said=said)
    if asked.stitch is None and told.stitch is not None:
        said = (*asked.said, "No stitches are told with it: they stay as in the pattern.")
        plain = told.of_plain
        return replace(
            asked, stitch=told.stitch, repeat=told.repeat, of_plain=plain, said=said
        )
    return asked


def _samples(checked: Checked, asked: Sequence[Gauge]) -> Iterator[Sample]:
    if asked:
        yield from (Sample(gauge, Origin.ASKED) for gauge in asked)
        return
    yield from (Sample(gauge, Origin.TEXT) for gauge in checked.design.gauges)
    if checked.design.noted is not None:
        yield from (Sample(g, Origin.WORKSHEET) for g in checked.design.noted.swatches)


def _may_be_of(sample: Sample, piece: Piece | None, multiple: PartMultiple | None) -> bool:
    """Whether a swatch is of this part: it names it, or none."""
    named = sample.gauge.part.strip().lower()
    names = {piece.name.lower()} if piece is not None else set()
    if multiple is not None:
        names.add(multiple.part.lower())
    return not named or named in names or names <= {""}


def _measured(samples: Sequence[Sample], fits: Fitting, unit: str) -> FabricGauge | None:
    """The gauge that samples of one state tell together."""
    across = [
        (sample, fits.rank(sample.gauge), *found)
        for sample in samples
        if (found := fits.across(sample.gauge)) is not None
    ]
    up = [
        (sample, fits.rank(sample.gauge), count)
        for sample in samples
        if (count := fits.up(sample.gauge)) is not None
    ]
    in_repeats = [(s, rank, count) for s, rank, repeats, count in across if repeats]
    in_stitches = [(s, rank, count) for s, rank, repeats, count in across if not repeats]
    repeat, from_repeat, apart = _best(in_repeats)
    stitch, from_stitch, apart_stitch = _best(in_stitches)
    row, from_row, apart_row = _best(up)
    if repeat is not None:
        stitch, from_stitch = repeat.times(Fraction(1, fits.places)), from_repeat
    if stitch is None and row is None:
        return None
    first = from_stitch or from_row
    assert first is not None
    said = (
        *_told("repeat", repeat, from_repeat, apart, unit),
        *(
            ()
            if repeat is not None
            else _told("stitch", stitch, from_stitch, apart_stitch, unit)
        ),
        *_told("row", row, from_row, apart_row, unit),
        *_of_another(fits, from_stitch),
    )
    plain = repeat is None and bool(stitch_named(first.gauge.stitch))
    return FabricGauge(
        stitch, row, repeat, first.origin, first.gauge.state, of_plain=plain, said=said
    )


def _best(
    found: Sequence[tuple[Sample, int, Counted]],
) -> tuple[Pitch | None, Sample | None, Fraction]:
    """The pitch that the best of the samples tell, the first of these, how far apart."""
    if not found:
        return None, None, Fraction(0)
    best = min(rank for _, rank, _ in found)
    own = [(sample, count) for sample, rank, count in found if rank == best]
    origins = list(dict.fromkeys(sample.origin for sample, _ in own))
    of_first = [count for sample, count in own if sample.origin is origins[0]]
    pitch, apart = pitch_of(of_first), apart_beyond_counting(of_first)
    swatches = pitch_of([c for s, c in own if s.origin is Origin.WORKSHEET])
    if pitch is None or swatches is None or len(of_first) > 1 or swatches.measured < 2:
        return pitch, own[0][0], apart
    spread = swatches.spread_mm * pitch.mm / swatches.mm
    pitch = Pitch(pitch.mm, spread, swatches.measured, swatches.from_rounding)
    return pitch, own[0][0], apart


def _told(
    what: str, pitch: Pitch | None, sample: Sample | None, apart: Fraction, unit: str
) -> Iterator[str]:
    if pitch is None or sample is None:
        return
    spread = f"{float(pitch.spread_mm):.2f} mm"
    if pitch.measured > 1 and not pitch.from_rounding:
        how = f"the standard deviation of {pitch.measured} swatches"
    elif pitch.measured > 1:
        how = f"what the rounding of {pitch.measured} swatches may make"
    else:
        half = "half row" if what == "row" else "half stitch"
        how = f"what counting to the nearest {half} may make of one swatch"
    state = f", {sample.gauge.state}" if sample.gauge.state else ""
    yield (
        f"One {what} takes {small(pitch.mm, unit)} by {_whose(sample.origin)}{state}; "
        f"± {spread} is {how}."
    )
    if apart:
        yield (
            f"The gauges it is the mean of are {float(100 * apart):.0f} % apart in what one"
            f" {what} takes, which counting cannot make: measure again, or say which part"
            " each is of."
        )


def _whose(origin: Origin) -> str:
    return "the gauge asked for" if origin is Origin.ASKED else f"the gauge of {origin}"


def _of_another(fits: Fitting, sample: Sample | None) -> Iterator[str]:
    if sample is not None and fits.rank(sample.gauge) > 1:
        yield (
            f"The gauge is told in {sample.gauge.stitch}, and the rows are mainly "
            "something else: make a swatch of the rows."
        )


def _completed(gauge: FabricGauge, checked: Checked, piece: Piece | None) -> FabricGauge:
    """What was not measured, by the usual shape of the stitch."""
    guess = guessed(checked, piece.kinds if piece is not None else ())
    shape = guess.row.mm / guess.stitch.mm
    spread = guess.row.spread_mm / guess.row.mm
    if gauge.row is None and gauge.stitch is not None:
        row = gauge.stitch.mm * shape
        said = (
            "No rows are told in the gauge: their height is guessed from the usual shape."
        )
        made = Pitch(row, row * spread, 0)
        return replace(gauge, row=made, said=(*gauge.said, said))
    assert gauge.row is not None
    stitch = gauge.row.mm / shape
    said = "No stitches are told in the gauge: their width is guessed from the usual shape."
    return replace(
        gauge, stitch=Pitch(stitch, stitch * spread, 0), said=(*gauge.said, said)
    )


def _guess(
    checked: Checked,
    piece: Piece | None,
    multiple: PartMultiple | None,
    *,
    waves: bool,
    unit: str,
) -> FabricGauge:
    guess = guessed(checked, piece.kinds if piece is not None else ())
    said = (
        f"No gauge is told: guessed {guess.said}, {small(guess.stitch.mm, unit)} a stitch "
        f"and {small(guess.row.mm, unit)} a row. Make the swatch before anything else."
    )
    gauge = FabricGauge(guess.stitch, guess.row, of_plain=True, said=(said,))
    if waves:
        return _in_waves(gauge, multiple, unit)
    return _with_spaces(gauge, Fitting(piece, multiple, checked), unit)


def _with_spaces(gauge: FabricGauge, fits: Fitting, unit: str) -> FabricGauge:
    """A gauge in stitches, where chains between them make up part of a repeat."""
    if gauge.repeat is not None or gauge.stitch is None or fits.places == fits.in_repeat:
        return gauge
    repeat = gauge.stitch.times(fits.places)
    said = (
        f"A repeat lies {fits.places} stitches wide, the chains between them counted too: "
        f"{small(repeat.mm, unit)}."
    )
    return replace(gauge, repeat=repeat, said=(*gauge.said, said))


def _in_waves(gauge: FabricGauge, multiple: PartMultiple | None, unit: str) -> FabricGauge:
    """A gauge whose rows climb and fall: the slope, and the width of a repeat.

    A gauge in a plain stitch is of flat fabric: in waves its repeat draws in. One told in
    the pattern, or without a stitch, is taken as counted straight across the waves.
    """
    each = multiple.stitches.each if multiple is not None and multiple.stitches else 0
    if each < _SHORTEST_WAVE or gauge.row is None or gauge.stitch is None:
        return gauge
    if gauge.repeat is not None or not gauge.of_plain:
        repeat = gauge.repeat or gauge.stitch.times(each)
        slope = slope_of(repeat.mm, gauge.row.mm, each)
        taken = () if gauge.repeat is not None else (_STRAIGHT_ACROSS,)
        return replace(gauge, repeat=repeat, slope=slope, said=(*gauge.said, *taken))
    slope = slope_of_flat(gauge.stitch.mm, gauge.row.mm, each)
    width, height = repeat_at(slope, each)
    repeat = gauge.stitch.times(width / gauge.stitch.mm)
    row = gauge.row.times(height / gauge.row.mm)
    said = (
        f"That is the gauge of flat fabric. In waves that climb at {slope.degrees:.0f} "
        f"degrees a repeat draws in to {small(width, unit)} and a row takes "
        f"{small(height, unit)}, by geometry: measure a swatch of the wave, from peak to "
        "peak."
    )
    stitch = repeat.times(Fraction(1, each))
    said_all = (*gauge.said, said)
    return replace(gauge, repeat=repeat, row=row, stitch=stitch, slope=slope, said=said_all)


_STRAIGHT_ACROSS = (
    "Its stitches are taken as counted straight across the waves. If they were counted in "
    'plain rows, name the stitch, as in "14 dc = 4 in"; surest is a gauge of the wave from '
    "peak to peak."
)
_SHORTEST_WAVE = 4
"""Stitches of a repeat: with fewer there is no slope between peak and valley."""
