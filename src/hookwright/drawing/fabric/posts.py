"""Double crochet and taller stitches as strands, round a top or round a post."""

from __future__ import annotations

from itertools import pairwise

from hookwright.drawing.fabric.strands import Point, Seen, Shape, Strand, leaning, strand

_HEIGHTS = (1.27, 1.9, 2.6, 3.3, 4.0)
_LEG = 0.19
"""How far the two legs of a post lie from its middle."""
_WRAP, _OVER_LEGS = 0.84, 0.31
"""How thick a wrap is, pulled tight over the legs, and how near to the eye it lies."""


def post(wraps: int, seen: Seen) -> Shape:
    """A stitch with 1 wrap (double crochet), 2 (treble), 3 and so on."""
    wraps = min(wraps, len(_HEIGHTS) - 1)
    return Shape(leaning(_post(wraps, seen), seen), height=_HEIGHTS[wraps])


def _post(wraps: int, seen: Seen) -> tuple[Strand, ...]:
    at = [0.12 + 0.68 * i / (wraps + 1) for i in range(1, wraps + 1)]
    near = 0.20 if seen is Seen.FRONT else 0.15
    strands = [*_lower(at[0], near), *_upper(at[-1], near)]
    for low, high in pairwise(at):
        strands += _between(low, high, near)
    height = _HEIGHTS[wraps]
    strands += [_wrap(v, seen.way, height) for v in at]
    strands += _behind(at[0], seen)
    if seen is Seen.BACK:
        strands.append(_bar(height))
    return tuple(strands)


def _lower(first: float, near: float) -> tuple[Strand, ...]:
    return (
        strand(
            (0.02, 0, -0.24, -0.2),
            (-0.15, 0.02, 0, near - 0.02),
            (-_LEG, first / 2, 0, near),
            (-0.16, first - 0.02, 0, near - 0.02),
            (-0.08, first + 0.08, 0, -0.05),
        ),
        strand(
            (0.06, 0, -0.24, -0.2),
            (0.17, 0.02, 0, near - 0.02),
            (_LEG, first / 2, 0, near),
            (0.16, first - 0.02, 0, near - 0.02),
            (0.08, first + 0.08, 0, -0.05),
        ),
    )


def _between(low: float, high: float, near: float) -> tuple[Strand, ...]:
    return tuple(
        strand(
            (0.06 * side, low - 0.06, 0, -0.05),
            (_LEG * side, low + 0.03, 0, near - 0.05),
            (_LEG * side, high - 0.03, 0, near - 0.04),
            (0.06 * side, high + 0.06, 0, -0.05),
        )
        for side in (-1, 1)
    )


def _upper(last: float, near: float) -> tuple[Strand, ...]:
    return (
        strand(
            (-0.03, last - 0.08, 0, -0.04),
            (-0.19, last + 0.06, 0, near + 0.02),
            (-0.22, 0.86, 0, near),
            (-0.27, 0.97, 0, 0.06),
            (-0.27, 1, 0.12, -0.18),
        ),
        strand(
            (0.04, last - 0.08, 0, -0.04),
            (0.19, last + 0.06, 0, near + 0.02),
            (0.23, 0.86, 0, near),
            (0.29, 0.97, 0, 0.06),
            (0.30, 1, 0.12, -0.18),
        ),
    )


def _wrap(v: float, way: int, height: float) -> Strand:
    """The yarn that was laid over the hook, slanting over the legs."""
    g, m = 0.52 / height, way
    return strand(
        (0.38 * m, v + 0.95 * g, 0, -0.16),
        (0.28 * m, v + 0.62 * g, 0, 0.15),
        (0.02 * m, v + 0.02, 0, _OVER_LEGS),
        (-0.26 * m, v - 0.55 * g, 0, 0.19),
        (-0.38 * m, v - 0.90 * g, 0, -0.16),
        thick=_WRAP,
    )


def _behind(first: float, seen: Seen) -> tuple[Strand, ...]:
    """What closes the fabric as the unseen side of the stitch does."""
    m, b = seen.way, -0.14 if seen is Seen.FRONT else -0.06
    return (
        strand(
            (0.10 * m, 0, -0.15, -0.24),
            (0.34 * m, 0.12, 0, b),
            (0.37 * m, first, 0, b),
            (0.30 * m, 0.88, 0, b),
            (0.30 * m, 1, 0, -0.24),
        ),
        strand(
            (-0.10 * m, 0, -0.15, -0.24),
            (-0.33 * m, 0.25, 0, b - 0.08),
            (-0.34 * m, 0.85, 0, b - 0.08),
            (-0.30 * m, 1, 0, -0.26),
        ),
        strand((-0.66, 0.90, 0, -0.3), (0, 0.90, 0, -0.25), (0.66, 0.90, 0, -0.3)),
    )


def _bar(height: float) -> Strand:
    """The back of the top, which lies across below it."""
    return strand(
        (-0.68, 0.84 - 0.10 / height, 0, -0.12),
        (-0.42, 0.85 - 0.12 / height, 0, 0.11),
        (0, 0.88, 0, 0.21),
        (0.40, 0.90 + 0.06 / height, 0, 0.13),
        (0.68, 0.88, 0, -0.12),
    )


_HOOKS = tuple(
    strand(
        (0.44 * side, -0.02, 0, -0.30),
        (0.32 * side, 0, 0, 0.14),
        (0.16 * side, 0.08, 0, 0.36),
        (0.10 * side, 0.2, 0, 0.40),
        thick=0.9,
    )
    for side in (1, -1)
)
"""The yarn goes behind the post below and comes out at both its sides."""
_FULL = 1.1
"""How thick the strands of a raised post are: nothing beside it presses them flat, so that
ribs close over the furrows between them."""
_SUNK = 0.86
"""How thick its wrap is: it sinks between the legs, which are drawn long."""


def round_post(wraps: int, *, raised: bool) -> Shape:
    """A stitch round a post: raised on the side that is seen, or on the other."""
    wraps = min(wraps, len(_HEIGHTS) - 1)
    strands = tuple(
        Strand(
            tuple(_bent(one, p, raised=raised) for p in one.points),
            one.thick * _fullness(one, raised=raised),
        )
        for one in leaning(_post(wraps, Seen.FRONT), Seen.FRONT)
    )
    return Shape((*strands, *_HOOKS) if raised else strands, height=_HEIGHTS[wraps] + 0.3)


def _fullness(one: Strand, *, raised: bool) -> float:
    if not raised:
        return 1.0
    return _SUNK if _is_wrap(one) else _FULL


def _is_wrap(one: Strand) -> bool:
    """Whether a strand is one that lies over the legs."""
    return one.thick == _WRAP


def _bent(one: Strand, point: Point, *, raised: bool) -> Point:
    u, v, a, z = point
    if raised and _is_wrap(one):
        # Steeper and lower than on a flat post: the rib is a cord of its legs, no plait.
        u, z = 0.86 * u, z - 0.02
    hidden = all(other[3] < 0 for other in one.points)
    bend = min(max(1.05 - 3.2 * (v - 0.45) ** 2, 0), 1) * (0.6 if hidden else 1)
    return (
        u * (1.24 if raised else 0.9),
        v,
        a,
        z + (0.46 if raised else -0.38) * bend,
    )


def spike(seen: Seen) -> Shape:
    """A long leg over the rows between its foot and its top; behind them from the back."""
    near = 0.46 if seen is Seen.FRONT else -0.30
    return Shape(
        tuple(
            strand(
                (0.03 * side, 0, -0.10, -0.25),
                (0.10 * side, 0.06, 0, near - 0.1),
                (0.20 * side, 0.5, 0, near),
                (0.30 * side, 0.92, 0, near - 0.12),
                (0.28 * side, 1, 0.06, -0.2),
            )
            for side in (-1, 1)
        ),
        height=1.9,
    )
