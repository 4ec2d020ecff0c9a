"""The strands of a piece as strokes, each of which knows its stitch.

They are for drawings in ink, and for canvases that tell stitches apart. Each strand becomes
as many cubic curves as it has points but one, and each curve knows how near it lies, of
which stitch it is and of which yarn.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from msgspec import Struct

from hookwright.drawing.fabric.scene import Copies, Scene
from hookwright.drawing.fabric.strands import Real32, Sampled
from hookwright.drawing.fabric.tubes import Frame, lines_of
from hookwright.shape.columns import Whole


class Strokes(Struct, frozen=True, eq=False):
    """Curves, those of one form one behind the other.

    Attributes:
        points: (s, 4) complex64, start, two points that pull, and end of each (a cubic
            Bezier curve), in points of the picture, y down.
        near: (s,) how far towards the eye its middle lies, in widths of a stitch.
        stitch: (s,) the node of the graph that it belongs to.
        yarn: (s,) the number of its yarn.
        width: That of all of them, in points of the picture.
    """

    points: np.typing.NDArray[np.complex64]
    near: Real32
    stitch: Whole
    yarn: Whole
    width: float


def strokes_of(scene: Scene, frame: Frame, *, in_front: bool = False) -> Strokes:
    """The strands of a piece as strokes.

    Args:
        scene: The strands.
        frame: What part of the plane, how large.
        in_front: Whether strands are left out that never come to the front.
    """
    pieces = [
        piece
        for copies in scene.copies
        for piece in _of_copies(copies, frame, in_front=in_front)
    ]
    width = scene.diameter * frame.scale
    if not pieces:
        none = np.zeros(0, dtype=np.int64)
        points = np.zeros((0, 4), dtype=np.complex64)
        return Strokes(points, none.astype(np.float32), none, none, width)
    points, near, stitch, yarn = (
        np.concatenate(column) for column in zip(*pieces, strict=True)
    )
    return Strokes(points, near, stitch, yarn, width)


Piece = tuple[np.typing.NDArray[np.complex64], Real32, Whole, Whole]


def _of_copies(copies: Copies, frame: Frame, *, in_front: bool) -> list[Piece]:
    """The curves of copies of a shape, strand by strand."""
    strands = [
        one
        for one in copies.shape.strands
        if not in_front or max(point[3] for point in one.points) >= 0
    ]
    if not strands or not copies.number:
        return []
    held = np.array([point for one in strands for point in one.points], dtype=np.float32)
    thick = np.concatenate([np.full(len(one.points), one.thick) for one in strands])
    starts = np.cumsum([0, *(len(one.points) for one in strands)])
    u, v, a, z = np.ascontiguousarray(held.T)
    none = np.zeros(len(held), dtype=np.float32)
    ends = tuple(int(start) for start in starts)
    samples = Sampled(u, v, a, z, none, thick.astype(np.float32), ends)
    lines = lines_of(copies, frame, samples)
    place = (lines.x + 1j * lines.y).astype(np.complex64)
    pieces: list[Piece] = []
    for begin, end in pairwise(samples.starts):
        points = _curves(place[:, begin:end])
        each = points.shape[1]
        middle = (lines.z[:, begin : end - 1] + lines.z[:, begin + 1 : end]) / 2
        pieces.append(
            (
                points.reshape(-1, 4),
                middle.ravel().astype(np.float32),
                np.repeat(copies.node, each),
                np.repeat(copies.yarn, each),
            )
        )
    return pieces


def _curves(
    place: np.typing.NDArray[np.complex64],
) -> np.typing.NDArray[np.complex64]:
    """(n, p - 1, 4) smooth curves through (n, p) points."""
    pull = np.zeros_like(place)
    pull[:, 1:-1] = (place[:, 2:] - place[:, :-2]) / 6
    pull[:, 0] = (place[:, 1] - place[:, 0]) / 3
    pull[:, -1] = (place[:, -1] - place[:, -2]) / 3
    start, end = place[:, :-1], place[:, 1:]
    return np.stack([start, start + pull[:, :-1], end - pull[:, 1:], end], axis=2)
