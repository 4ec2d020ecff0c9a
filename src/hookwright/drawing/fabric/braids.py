"""The tops of a row: a braid of links, each of two arms.

The arms of a link come out of the older link beside it and open the way the work goes.
"""

from __future__ import annotations

from hookwright.drawing.fabric.strands import Seen, Shape, Strand, strand


def _link(
    seen: Seen,
    lift: float,
    opening: float,
    near: float,
    front: float,
    *,
    wide: float = 1.0,
    thick: float = 1.0,
) -> tuple[Strand, ...]:
    """A link.

    Args:
        seen: Which side of its row is seen.
        lift: How far above the tops it lies.
        opening: How far its arms open.
        near: How near to the eye it lies.
        front: How much nearer its front arm lies besides.
        wide: How wide it is, against a stitch.
        thick: How thick its arms are, against the yarn.
    """
    w = wide * seen.way
    p, o, q = lift, opening, near
    return (
        strand(
            (0.64 * w, 0, p - 0.01, q - 0.24),
            (0.44 * w, 0, p - 0.045, q + 0.12),
            (0.05 * w, 0, p - o, q + 0.17 + front),
            (-0.33 * w, 0, p - 0.95 * o, q + 0.04),
            (-0.58 * w, 0, p - 0.05, q - 0.20),
            thick=thick,
        ),
        strand(
            (0.64 * w, 0, p + 0.01, q - 0.24),
            (0.44 * w, 0, p + 0.045, q + 0.10),
            (0.05 * w, 0, p + o, q + 0.12),
            (-0.33 * w, 0, p + 0.95 * o, q),
            (-0.58 * w, 0, p + 0.05, q - 0.20),
            thick=thick,
        ),
    )


def top(seen: Seen) -> Shape:
    """A top that another stitch stands on."""
    return Shape(_link(seen, 0.02, 0.17, -0.02, 0.0), on_row=True)


def free(seen: Seen) -> Shape:
    """A top within the piece that nothing is worked into: it lies high."""
    return Shape(_link(seen, 0.06, 0.20, -0.02, 0.04), on_row=True)


def edge(seen: Seen) -> Shape:
    """A top of the last row, with the yarn that shows between its arms."""
    between = strand((-0.62, 0, 0.13, -0.30), (0, 0, 0.13, -0.22), (0.62, 0, 0.13, -0.30))
    return Shape((*_link(seen, 0.11, 0.18, 0.04, 0.03, thick=0.92), between), on_row=True)


def chain(seen: Seen) -> Shape:
    """A chain."""
    return Shape(_link(seen, 0.0, 0.20, 0.0, 0.0, wide=0.98), on_row=True)


def ridge(seen: Seen) -> Shape:
    """The loop that is left free when only the other one is worked into."""
    w = seen.way
    loop = strand(
        (0.62 * w, 0, -0.05, 0.02),
        (0.40 * w, 0, -0.14, 0.36),
        (0.05 * w, 0, -0.20, 0.52),
        (-0.33 * w, 0, -0.18, 0.42),
        (-0.62 * w, 0, -0.07, 0.02),
        thick=1.16,
    )
    return Shape((loop,), on_row=True)


def cap(side: int) -> Shape:
    """The end of a row without a turning chain; `side` is 1 on the right, -1 left."""
    s = side
    end = strand(
        (0.05 * s, 1, 0.10, 0.05),
        (0.42 * s, 1, -0.06, 0.04),
        (0.62 * s, 0.62, 0, -0.02),
        (0.62 * s, 0.35, 0, -0.02),
        (0.42 * s, 0, 0.06, 0.04),
        (0.05 * s, 0, -0.05, 0.05),
    )
    return Shape((end,), height=1.3)


def column(chains: int) -> Shape:
    """Chains that stand for the first stitch of a row, one on the other."""
    strands = [
        _upright(i / chains, (i + 1) / chains, side)
        for i in range(chains)
        for side in (-1, 1)
    ]
    strands.append(strand((0, 0, -0.1, -0.25), (0, 0.5, 0, -0.16), (0, 1, 0.05, -0.25)))
    return Shape(tuple(strands), height=0.63 * chains)


def _upright(low: float, high: float, side: int) -> Strand:
    """One arm of a chain that stands from `low` to `high`."""
    long = high - low
    return strand(
        (0, low - 0.04, 0 if low else -0.06, -0.16),
        (0.10 * side, low + 0.10 * long, 0, 0.12),
        (0.21 * side, low + 0.5 * long, 0, 0.16),
        (0.21 * side, high - 0.08 * long, 0, 0.06),
        (0.06 * side, high + 0.10 * long, 0, -0.14),
        thick=0.94,
    )
