"""How is a wave closed by a straight edge, and how is it followed by a plain one?

Short stitches lie on the peaks and tall ones in the valleys, each slope shared evenly among
the heights, with what is left over for the shortest; the decrease stands in the valley,
and where more has to go, on the peak and beside the valley.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product

from msgspec import Struct

from hookwright.sizing.edging.moves import (
    Move,
    Moves,
    plain,
    several,
    skip,
    taken,
    together,
)
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.wave import Bend, Wave

SHORTEST = "sc"
_HEIGHTS_USED = ("sc", "hdc", "dc", "tr")
_TALLEST_BESIDE = 2
"""A stitch more than twice as tall as the rows beside it leaves holes. Common practice, no
source; a published closing of sc waves goes up to dc."""
BY_CUSTOM = 2
"""Stitches dropped in each wave where no gauge of waves is known.

Source: sites.google.com/site/hazel3crochetsmore, ripple afghan square: 9 stitches a wave
become 7 in its straight closing row.
"""


class Slope(Struct, frozen=True):
    """How a wave lies, by the closed form of a ripple.

    Source: plane geometry of a band of rows that zigzags: with the stitch square to its row
    tan th = w / h, a wave of n stitches is n w cos th wide, its rows w / sin th apart, and
    it is n / 2 w sin th deep from peak to valley. Where a column leans by other than one
    stitch a row, its lean times w stands for w in the first and the third.

    Attributes:
        width: How many stitches a straight edge over one wave takes.
        depth: From peak to valley, in widths of a stitch.
        pitch: From row to row along the side, in widths of a stitch.
        width_mm: How wide a stitch is; None where no gauge of waves is known.
    """

    width: float
    depth: float
    pitch: float
    width_mm: float | None = None


def slope_of(
    wave: Wave, height: Fraction, wave_mm: tuple[Fraction, Fraction] | None
) -> Slope:
    """How a wave lies.

    Args:
        wave: The wave.
        height: Height of its rows by proportions, in widths of a stitch.
        wave_mm: How wide a wave and how far apart its rows are; None where not measured.
    """
    lean, in_one = float(wave.lean), wave.in_one
    angle = math.atan2(lean, float(height))
    width_mm = None
    if wave_mm is not None:
        wide, pitch = map(float, wave_mm)
        twice = math.asin(min(1.0, 2 * wide * lean / (in_one * pitch)))
        # of the two angles, that of a stitch taller than it is wide
        angle = twice / 2 if height > lean else (math.pi - twice) / 2
        width_mm = pitch * math.sin(angle) / lean
    across, up = math.cos(angle), math.sin(angle)
    return Slope(in_one * across, in_one / 2 * up, lean / up, width_mm)


class Closing(Struct, frozen=True):
    """A straight edge over a wave.

    Attributes:
        rows: Its graded rows.
        dropped: Stitches that it has fewer in each wave.
        filled: By how much its heights differ in all, in widths of a stitch.
        tallest: Its tallest stitch.
    """

    rows: tuple[Moves, ...]
    dropped: int
    filled: float
    tallest: str


def closing(
    wave: Wave,
    slope: Slope,
    height: Fraction,
    lies: Callable[[Moves], bool] | None = None,
) -> Closing:
    """The graded rows that close a wave, the first in the order the edge is worked.

    Args:
        wave: The wave, in the order the edge is worked.
        slope: How it lies.
        height: Height of its rows, in widths of a stitch.
        lies: Whether a first row lies flat with whatever else is worked in it, corners.
    """
    kinds = _kinds(slope, height)
    step = float(HEIGHTS[kinds[-1]] - HEIGHTS[SHORTEST])
    first, dropped = _dropping(wave, slope, kinds, lies)
    rows = [first]
    if step and slope.width_mm is not None and slope.depth - step >= step:
        after = _after(wave, first).turned()
        rows.append(_graded(after, kinds, {}))
    return Closing(tuple(rows), dropped, step * len(rows), kinds[-1])


def graded_once_more(wave: Wave, slope: Slope, height: Fraction, first: Moves) -> Moves:
    """The graded row over a first one, worked in the same direction."""
    return _graded(_after(wave, first), _kinds(slope, height), {})


def _kinds(slope: Slope, height: Fraction) -> tuple[str, ...]:
    """The heights that are used: none that overfills, none that is too tall here."""
    return tuple(
        name
        for name in _HEIGHTS_USED
        if HEIGHTS[name] <= _TALLEST_BESIDE * max(height, HEIGHTS[SHORTEST])
        and float(HEIGHTS[name] - HEIGHTS[SHORTEST]) <= slope.depth
    )


def _dropping(
    wave: Wave,
    slope: Slope,
    kinds: Sequence[str],
    lies: Callable[[Moves], bool] | None,
) -> tuple[Moves, int]:
    """The first row, with as many stitches dropped in each wave as lie flat.

    By a gauge the decrease in the valley is enough where it comes near. Without one it is
    what custom drops, where blocking would take that up; else what comes nearest.
    """
    ways = list(_ways(wave, kinds))
    wanted = wave.in_one - slope.width
    measured = slope.width_mm is not None
    usual = ways[0] if measured else min(ways, key=lambda way: abs(way[1] - BY_CUSTOM))
    may_be_off = (_FLAT if measured else _SLIGHT) * slope.width
    near = [way for way in ways if abs(way[1] - wanted) <= may_be_off]
    flat = [way for way in near if measured and lies is not None and lies(way[0])]
    if flat:
        return flat[0]
    if usual in near:
        return usual
    return min(ways, key=lambda way: abs(way[1] - wanted))


_FLAT, _SLIGHT = 0.08, 0.17
"""The part of its length that an edge may be off, and lie flat or block out."""


def _ways(wave: Wave, kinds: Sequence[str]) -> Iterator[tuple[Moves, int]]:
    """Graded rows with the fewest decreases first, and how many each wave drops."""
    valleys = [bend for bend in wave.bends if not bend.is_peak]
    peaks = [bend for bend in wave.bends if bend.is_peak]
    inner = next(bend for bend in wave.bends[1:] if not bend.is_peak)
    in_valley = 2 if inner.at.denominator == 1 else 1
    for beside, on_peak in product((0, 2), (0, 1)):
        special: dict[int, Move | None] = {}
        for bend in valleys:
            special |= _in_valley(wave, bend, kinds[-1])
            special |= _beside(wave, bend, kinds[-1]) if beside else {}
        for bend in peaks:
            special |= _on_peak(wave, bend) if on_peak else {}
        row = _graded(wave, kinds, special)
        if taken(row) == wave.places:
            yield row, in_valley + on_peak + beside


def _in_valley(wave: Wave, bend: Bend, stitch: str) -> dict[int, Move | None]:
    """The decrease of a valley, by the place where it begins."""
    if bend.at.denominator == 1:
        return _over(wave, int(bend.at) - 1, int(bend.at) + 1, stitch)
    low = math.floor(bend.at)
    return _over(wave, low, low + 1, stitch)


def _over(wave: Wave, first: int, last: int, stitch: str) -> dict[int, Move | None]:
    """A decrease from one place to another, as far as they lie on the edge.

    The places behind its first one hold no movement of their own.
    """
    first, last = max(first, 0), min(last, wave.places - 1)
    if last <= first or len(set(wave.nouns[first : last + 1])) > 1:
        return {}
    rest = dict.fromkeys(range(first + 1, last + 1))
    return {first: together(last - first + 1, stitch, wave.nouns[first]), **rest}


def _on_peak(wave: Wave, bend: Bend) -> dict[int, Move | None]:
    """What drops one stitch on a peak: its middle one skipped, or two drawn together."""
    if bend.at.denominator == 1:
        at = int(bend.at)
        return {at: skip(1, wave.nouns[at])} if 0 < at < wave.places - 1 else {}
    low = math.floor(bend.at)
    return _over(wave, low, low + 1, SHORTEST)


def _beside(wave: Wave, bend: Bend, stitch: str) -> dict[int, Move | None]:
    """Decreases on both sides of the one in a valley."""
    behind = math.floor(bend.at) + 2
    before = math.ceil(bend.at) - 3
    found: dict[int, Move | None] = {}
    for first in (before, behind):
        if first >= 0 and first + 1 < wave.places:
            found |= _over(wave, first, first + 1, stitch)
    return found


def _graded(wave: Wave, kinds: Sequence[str], special: dict[int, Move | None]) -> Moves:
    """A row with short stitches on the peaks and tall ones in the valleys."""
    moves: list[Move] = []
    stitches = _heights_along(wave, kinds)
    for at in range(wave.places):
        move = special[at] if at in special else plain(stitches[at], wave.nouns[at])
        if move is not None:
            moves.append(move)
    return tuple(moves)


def _heights_along(wave: Wave, kinds: Sequence[str]) -> list[str]:
    """Which stitch stands in each place."""
    first, last = wave.bends[0], wave.bends[-1]
    half = Fraction(wave.in_one, 2)
    before = Bend(first.at - half, -first.gain)
    bends = [before, *wave.bends, Bend(last.at + half, -last.gain)]
    found = [SHORTEST] * wave.places
    for one, other in pairwise(bends):
        peak, valley = (one, other) if one.is_peak else (other, one)
        places = _on_slope(peak.at, valley.at)
        for at, stitch in zip(places, _shared(len(places), kinds), strict=True):
            if 0 <= at < wave.places:
                found[at] = stitch
    return found


def _on_slope(peak: Fraction, valley: Fraction) -> list[int]:
    """The places of a slope, from the one beside the peak down to the valley."""
    if peak < valley:
        return list(range(math.floor(peak) + 1, math.floor(valley) + 1))
    return list(range(math.ceil(peak) - 1, math.ceil(valley) - 1, -1))


def _shared(places: int, kinds: Sequence[str]) -> list[str]:
    """The heights of a slope: as many places for each, the rest for the shortest."""
    used = kinds[:1] if places < len(kinds) else kinds
    if 1 < places < len(kinds):
        used = (*kinds[: places - 1], kinds[-1])
    each = places // len(used)
    tall = [kind for kind in used[1:] for _ in range(each)]
    return [used[0]] * (places - len(tall)) + tall


def _after(wave: Wave, moves: Moves) -> Wave:
    """The wave as it lies along the row just worked."""
    heads: list[Fraction] = []
    made = 0
    for move in moves:
        middle = Fraction(2 * made + move.makes - 1, 2)
        heads.extend([middle] * move.takes)
        made += move.makes

    def above(at: Fraction) -> Fraction:
        low, high = max(math.floor(at), 0), min(math.ceil(at), len(heads) - 1)
        return (heads[low] + heads[high]) / 2

    bends = tuple(Bend(above(bend.at), bend.gain) for bend in wave.bends)
    peaks = [bend.at for bend in bends if bend.is_peak == bends[1].is_peak]
    in_one = int(peaks[1] - peaks[0]) if len(peaks) > 1 else wave.in_one
    return Wave(bends, in_one, ("st",) * made)


def following(wave: Wave, stitch: str) -> Moves:
    """A plain row along a wave: it adds and takes away where the wave's own rows do."""
    special: dict[int, Move | None] = {}
    for bend in wave.bends:
        special |= _as_worked(wave, bend, stitch)
    moves = (
        special[at] if at in special else plain(stitch, noun)
        for at, noun in enumerate(wave.nouns)
    )
    return tuple(move for move in moves if move is not None)


def on_itself(wave: Wave) -> Wave:
    """The wave along a plain row that has followed it: as many stitches, bent alike."""
    return Wave(wave.bends, wave.in_one, ("st",) * wave.places)


def _as_worked(wave: Wave, bend: Bend, stitch: str) -> dict[int, Move | None]:
    """The increase or decrease of a bend."""
    low, high = math.floor(bend.at), math.ceil(bend.at)
    if bend.is_peak:
        if low == high:
            return {low: several(bend.gain + 1, stitch, wave.nouns[low])}
        if bend.gain % 2 == 0:
            number = bend.gain // 2 + 1
            return {at: several(number, stitch, wave.nouns[at]) for at in (low, high)}
        at = max(low, 0) if low < wave.places / 2 else min(high, wave.places - 1)
        return {at: several(bend.gain + 1, stitch, wave.nouns[at])}
    lost = -bend.gain
    if low == high:
        half = lost // 2
        found = _over(wave, low - half, low + half, stitch)
        return found if lost % 2 == 0 else _at_edge(wave, low, stitch)
    if lost % 2 == 0:
        first = high - lost // 2
        rest = dict.fromkeys(range(first + 1, first + lost))
        return {first: skip(lost, wave.nouns[first]), **rest}
    at = high if low < wave.places / 2 else low
    at = min(max(at, 0), wave.places - 1)
    return {at: skip(1, wave.nouns[at])}


def _at_edge(wave: Wave, at: int, stitch: str) -> dict[int, Move | None]:
    """The two outermost stitches drawn together: half a valley."""
    first = at if at < wave.places / 2 else at - 1
    return _over(wave, first, first + 1, stitch)
