"""Single and half double crochet as strands."""

from __future__ import annotations

from hookwright.drawing.fabric.strands import Seen, Shape, Strand, leaning, strand


def single(seen: Seen) -> Shape:
    """Single crochet: a V from the front, a bar over two legs from the back."""
    strands = _single_front() if seen is Seen.FRONT else _single_back()
    return Shape(leaning(strands, seen), height=0.95)


def _single_front() -> tuple[Strand, ...]:
    return (
        strand(
            (0.05, 0, -0.24, -0.20),
            (-0.07, 0.02, 0, 0.20),
            (-0.22, 0.42, 0, 0.34),
            (-0.40, 0.82, 0, 0.22),
            (-0.44, 1, 0.04, -0.05),
            (-0.30, 1, 0.14, -0.22),
            thick=1.05,
        ),
        strand(
            (0.07, 0, -0.24, -0.20),
            (0.15, 0.02, 0, 0.18),
            (0.25, 0.42, 0, 0.32),
            (0.36, 0.80, 0, 0.22),
            (0.44, 0.98, 0.04, -0.05),
            (0.36, 1, 0.14, -0.22),
            thick=1.05,
        ),
        strand(
            (-0.62, 0.30, 0, -0.28),
            (-0.3, 0.42, 0, -0.16),
            (0.3, 0.52, 0, -0.16),
            (0.62, 0.62, 0, -0.28),
        ),
        strand((-0.62, 0.72, 0, -0.24), (0, 0.78, 0, -0.16), (0.62, 0.74, 0, -0.24)),
    )


def _single_back() -> tuple[Strand, ...]:
    return (
        strand(
            (0.02, 0, -0.22, -0.18),
            (-0.13, 0.06, 0, 0.12),
            (-0.24, 0.42, 0, 0.16),
            (-0.26, 0.80, 0, -0.02),
            (-0.26, 0.95, 0, -0.2),
        ),
        strand(
            (0.05, 0, -0.22, -0.18),
            (0.17, 0.06, 0, 0.12),
            (0.25, 0.42, 0, 0.16),
            (0.27, 0.80, 0, -0.02),
            (0.26, 0.95, 0, -0.2),
        ),
        strand(
            (-0.62, 0.56, 0, -0.14),
            (-0.40, 0.55, 0, 0.17),
            (-0.02, 0.70, 0, 0.30),
            (0.32, 0.76, 0, 0.20),
            (0.60, 0.66, 0, -0.14),
            thick=0.96,
        ),
        strand(
            (-0.62, 0.30, 0, -0.28),
            (-0.3, 0.32, 0, -0.20),
            (0.3, 0.36, 0, -0.20),
            (0.62, 0.34, 0, -0.28),
        ),
    )


def half_double(seen: Seen) -> Shape:
    """Half double crochet: a wrap across the legs; from the back a loop lies high on it."""
    strands = _half_double_front() if seen is Seen.FRONT else _half_double_back()
    return Shape(leaning((*strands, *_BEHIND), seen), height=1.27)


_BEHIND = (
    strand((-0.28, 0.10, 0, -0.18), (-0.27, 0.85, 0, -0.12)),
    strand((0.30, 0.10, 0, -0.18), (0.30, 0.85, 0, -0.12)),
)


def _half_double_front() -> tuple[Strand, ...]:
    return (
        strand(
            (0.03, 0, -0.20, -0.15),
            (-0.12, 0.08, 0, 0.20),
            (-0.19, 0.45, 0, 0.26),
            (-0.34, 0.93, 0, 0.10),
            (-0.34, 1, 0.10, -0.1),
        ),
        strand(
            (0.05, 0, -0.20, -0.15),
            (0.15, 0.08, 0, 0.18),
            (0.20, 0.45, 0, 0.24),
            (0.36, 0.91, 0, 0.10),
            (0.40, 1, 0.10, -0.1),
        ),
        strand(
            (0.48, 0.84, 0, -0.15),
            (0.27, 0.78, 0, 0.19),
            (0, 0.68, 0, 0.29),
            (-0.21, 0.58, 0, 0.18),
            (-0.33, 0.48, 0, -0.15),
            thick=0.88,
        ),
    )


def _half_double_back() -> tuple[Strand, ...]:
    return (
        strand(
            (0.02, 0, -0.20, -0.15),
            (-0.14, 0.10, 0, 0.12),
            (-0.20, 0.45, 0, 0.16),
            (-0.22, 0.90, 0, -0.04),
        ),
        strand(
            (0.05, 0, -0.20, -0.15),
            (0.17, 0.10, 0, 0.12),
            (0.22, 0.45, 0, 0.16),
            (0.24, 0.90, 0, -0.04),
        ),
        strand(
            (-0.62, 0.72, 0, -0.10),
            (-0.36, 0.70, 0, 0.21),
            (0, 0.76, 0, 0.32),
            (0.34, 0.78, 0, 0.19),
            (0.60, 0.72, 0, -0.12),
            thick=0.96,
        ),
    )
