"""Bobbles, popcorns, puffs and clusters as strands: several stitches in one top."""

from __future__ import annotations

from hookwright.drawing.fabric.strands import Seen, Shape, Strand, strand

_LEGS = (
    (-0.56, 0.04, 0.40),
    (0.56, 0.04, 0.52),
    (-0.29, 0.32, 0.62),
    (0.29, 0.32, 0.36),
    (0.0, 0.44, 0.50),
)
"""How far from the middle, and how near to the eye, each of five legs lies, and how far up
its wrap."""


def bobble(seen: Seen) -> Shape:
    """A bobble: it is pushed out away from the worker."""
    return _bulge(1.15, 0.14) if seen is Seen.BACK else _hollow()


def popcorn(seen: Seen) -> Shape:
    """A popcorn: it is drawn together towards the worker."""
    return _bulge(1.0, 0.03, 0.10) if seen is Seen.FRONT else _hollow()


def _bulge(wide: float, over: float, tip: float = 0.0) -> Shape:
    """A bobble, seen from the side it is pushed out to, its legs drawn together on top.

    Args:
        wide: How wide it is, in widths.
        over: How far it bulges over the rows below and above it, of its height.
        tip: How far the loop that gathers it comes forward, as that of a popcorn does.
    """
    strands = [part for u, z, v in _LEGS for part in _leg(u * wide, z, v, over)]
    return Shape((*strands, *_gathered(tip, over), *_BACKING), height=1.9)


def _leg(u: float, z: float, wrap: float, over: float) -> tuple[Strand, ...]:
    """One of the legs: two strands side by side, and its wrap slanting over them."""
    legs = tuple(
        strand(
            (0.15 * u, 0, -0.20, -0.15),
            (0.70 * u + 0.6 * s, 0.06 - over, 0, 0.5 * z + 0.12),
            (1.25 * u + s, 0.42, 0, z + 0.30),
            (1.02 * u + 0.8 * s, 0.80 + over, 0.02, 0.85 * z + 0.20),
            (0.26 * u, 1.00 + 0.6 * over, 0.08, 0.14),
            (0.1 * u, 1, 0.16, -0.1),
        )
        for s in (-0.07, 0.07)
    )
    lean = 0.13
    return (
        *legs,
        strand(
            (1.15 * u + 0.20, wrap + lean, 0, z + 0.08),
            (1.15 * u + 0.11, wrap + 0.6 * lean, 0, z + 0.38),
            (1.15 * u - 0.10, wrap - 0.5 * lean, 0, z + 0.40),
            (1.15 * u - 0.20, wrap - lean, 0, z + 0.08),
            thick=0.9,
        ),
    )


def _gathered(tip: float, over: float = 0.0) -> tuple[Strand, ...]:
    """The loop that closes it."""
    z = 0.34 + tip
    return (
        strand(
            (-0.42, 0.96 + 0.8 * over, 0.06, -0.1),
            (-0.22, 0.97 + 0.8 * over, 0.04, z - 0.06),
            (0.02, 0.95 + 0.8 * over, 0.02, z + 0.04),
            (0.24, 0.98 + 0.8 * over, 0.05, z - 0.06),
            (0.42, 1, 0.08, -0.1),
        ),
    )


_BACKING = (
    strand((-0.62, 0.30, 0, -0.30), (0, 0.34, 0, -0.24), (0.62, 0.30, 0, -0.30)),
    strand((-0.62, 0.70, 0, -0.30), (0, 0.72, 0, -0.24), (0.62, 0.70, 0, -0.30)),
)


def _hollow() -> Shape:
    """A bobble from the side it is not pushed out to: legs drawn into a dip."""
    strands = [
        strand(
            (0.3 * u, 0, -0.22, -0.18),
            (u, 0.10, 0, 0.02 - z),
            (1.1 * u, 0.5, 0, -0.02 - z),
            (0.9 * u, 0.86, 0, 0.04),
            (0.4 * u, 1, 0.10, -0.14),
        )
        for u, z in ((-0.34, 0.0), (-0.13, 0.06), (0.13, 0.06), (0.34, 0.0))
    ]
    bar = strand(
        (-0.62, 0.86, 0, -0.14),
        (-0.3, 0.84, 0, 0.16),
        (0.3, 0.9, 0, 0.18),
        (0.62, 0.86, 0, -0.14),
    )
    return Shape((*strands, bar, *_BACKING), height=1.9)


def puff() -> Shape:
    """A puff: long soft loops side by side, round on both sides."""
    strands = []
    for i, u in enumerate((-0.36, -0.24, -0.12, 0.0, 0.12, 0.24, 0.36)):
        z = 0.44 * (1 - (u / 0.5) ** 2)
        w = 1.3 * u
        strands.append(
            strand(
                (0.15 * u, 0, -0.20, -0.15),
                (0.8 * w, 0.10, 0, z * 0.7 + 0.06),
                (w, 0.45, 0, z + 0.12 + 0.03 * (i % 2)),
                (0.8 * w, 0.80, 0, z * 0.8 + 0.10),
                (0.25 * u, 0.99, 0.04, 0.06),
                (0.1 * u, 1, 0.12, -0.15),
                thick=1.06,
            )
        )
    return Shape((*strands, *_gathered(-0.06), *_BACKING), height=1.9)


def cluster(legs: int = 3) -> Shape:
    """Posts that begin in one place and end in one top, flat, each with its wrap."""
    strands = []
    for i in range(legs):
        u = 0.62 * (i - (legs - 1) / 2) / max(1, legs - 1)
        near = 0.20 - 0.10 * abs(u)
        strands += [
            strand(
                (0.2 * u, 0, -0.22, -0.16),
                (0.5 * u + s, 0.05, 0, near),
                (1.15 * u + 1.2 * s, 0.42, 0, near + 0.06),
                (0.8 * u + s, 0.80, 0, near + 0.02),
                (0.3 * u, 1, 0.08, -0.12),
            )
            for s in (-0.09, 0.09)
        ]
        strands.append(
            strand(
                (1.1 * u + 0.20, 0.66, 0, -0.10),
                (1.1 * u + 0.12, 0.60, 0, near + 0.12),
                (1.1 * u - 0.12, 0.46, 0, near + 0.14),
                (1.1 * u - 0.20, 0.40, 0, -0.10),
            )
        )
    return Shape((*strands, *_gathered(-0.12)), height=1.9)
