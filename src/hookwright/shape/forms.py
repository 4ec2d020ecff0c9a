"""Closed forms of crocheted shapes: what a solved layout is held against.

Lengths are in any one unit; w is the width of a stitch, h its height.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct


class Ripple(Struct, frozen=True):
    """A ripple of k plain stitches, 3 in 1, k plain, 3 together.

    Attributes:
        angle: How steeply its rows climb, in radians.
        repeat: The width from peak to peak.
        pitch: What a row takes up.
        depth: From peak to valley.
    """

    angle: float
    repeat: float
    pitch: float
    depth: float

    def height(self, rows: int) -> float:
        """The finished height: the rows, and the depth of one."""
        return rows * self.pitch + self.depth


def ripple(width: float, height: float, plain: int) -> Ripple:
    """How a ripple lies whose stitches stand square to their rows.

    The increase is worked in the middle stitch of the one below and the decrease over the
    old one and its neighbours, so each column moves a stitch towards the peak every row:
    tan t = w/h. Source: geometry of the leaning columns.
    """
    angle = math.atan2(width, height)
    leg = (plain + 2) * width
    return Ripple(
        angle, 2 * leg * math.cos(angle), width / math.sin(angle), leg * math.sin(angle)
    )


def ripple_of_springs(width: float, height: float, plain: int) -> Ripple:
    """The same without any stiffness against shear: columns upright, sin t = w / 2h.

    A cell between two columns is then a rhomboid that shears freely, and the stitches of
    peak and valley hold the rows apart by h. No fabric lies so; it is a test of a solver.
    Source: plane geometry.
    """
    angle = math.asin(width / (2 * height))
    leg = (plain + 2) * width
    return Ripple(angle, 2 * leg * math.cos(angle), height, leg * math.sin(angle))


def stitch_of_ripple(repeat: float, pitch: float, plain: int) -> tuple[float, float] | None:
    """Width and height of a stitch from a measured ripple; None where none fits.

    sin 2t = P / ((k + 2) V). Of the two roots the one is taken at which the stitch is
    taller than wide. For sc, t near 45 degrees, it hardly tells: measure the depth as well.
    Source: the forms of `ripple`, solved for w and h.
    """
    sine = repeat / ((plain + 2) * pitch)
    if not 0 < sine <= 1:
        return None
    angle = math.asin(sine) / 2
    return pitch * math.sin(angle), pitch * math.cos(angle)


def flat_increases(width: float, height: float, corners: int = 0) -> float:
    """The stitches a round has to add to lie flat.

    2 pi h/w for a circle, 2 C tan(pi/C) h/w for a polygon of C corners. Source: plane
    geometry, the perimeter by the inner radius.
    """
    turn = 2 * corners * math.tan(math.pi / corners) if corners > 2 else 2 * math.pi
    return turn * height / width


def surplus(increases: float, width: float, height: float) -> float:
    """By how much more than flat each round is, 0.1 for a tenth; below 0 for too few."""
    return increases / flat_increases(width, height) - 1


def cone_angle(increases: float, width: float, height: float) -> float:
    """The angle of a cone's surface to the flat, in radians, for fewer increases than flat.

    Source: plane geometry; the circumference at slant s is 2 pi s cos(angle).
    """
    return math.acos(min(1.0, increases * width / (2 * math.pi * height)))


def curvatures(counts: Sequence[int], height: float) -> tuple[float, ...]:
    """The Gaussian curvature at each round but the first and last, in 1 / unit squared.

    Source: K = -f''/f for a surface of rounds of length f at distance r from the centre (do
    Carmo, Differential Geometry, 4-6), with differences for derivatives.
    """
    return tuple(
        -(after - 2 * here + back) / (here * height**2)
        for back, here, after in zip(counts, counts[1:], counts[2:], strict=False)
    )


def total_curvature(before: int, count: int, width: float, height: float) -> float:
    """The whole curvature inside a round, in radians: 0 for a flat disc.

    Source: Gauss-Bonnet, with the growth of a round over its height for its turning.
    """
    return 2 * math.pi - (count - before) * width / height


def sphere_counts(
    radius: float, width: float, height: float, share: float = 1.0
) -> tuple[int, ...]:
    """The stitches of each round of a ball, as far as a share of the way to its far pole.

    Source: the circles of latitude, 2 pi R sin(r/R) at distance r from the pole.
    """
    rounds = int(share * math.pi * radius / height)
    return tuple(
        max(1, round(2 * math.pi * radius * math.sin(r * height / radius) / width))
        for r in range(1, rounds + 1)
    )


def hyperbolic_radius(stitches: int, height: float) -> float:
    """The radius of the plane that grows by one stitch in every N: K = -1/R^2.

    Source: e^(h/R) = (N + 1)/N, the growth of horocycles; a geometry text on crocheted
    hyperbolic planes, cs.appstate.edu/sjg/class/1010/wc/geom/crochet.html.
    """
    return height / math.log((stitches + 1) / stitches)


def rectangle(stitches: int, rows: int, width: float, height: float) -> tuple[float, float]:
    """The finished width and height: half a stitch lies beyond the end tops."""
    return stitches * width, rows * height


def edging_stitches(length: float, width: float) -> float:
    """The stitches of an edging that lies flat along an edge."""
    return length / width


def straight_over_ripple(shape: Ripple, width: float) -> float:
    """The stitches of a straight row over one repeat of a ripple."""
    return shape.repeat / width


def wave_height(excess: float, length: float) -> float:
    """Half the height of the waves of an edge that is too long; about, to a half of itself.

    Args:
        excess: By how much it is too long, as a share.
        length: The length of one wave: three to four times the depth of the edging.

    Source: the length of a shallow sine, L (1 + (pi a / L)^2).
    """
    return length / math.pi * math.sqrt(max(0.0, excess))
