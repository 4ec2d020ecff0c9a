"""The fabric drawn in ink: each strand dark, its body over it, and a streak of light.

It reads as crochet in a printed style, at any size, for pieces up to some hundred stitches.
The curves lie in layers by how near they are; all curves of a layer and yarn are one path,
which is used again for each of its inks, so that a file stays small.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

import numpy as np

from hookwright.drawing.fabric.scene import Scene
from hookwright.drawing.fabric.shades import parts_of
from hookwright.drawing.fabric.strokes import Strokes, strokes_of
from hookwright.drawing.fabric.tubes import Frame
from hookwright.shape.columns import Whole

UNIT = 40
"""Whole units of a file to a width of a stitch."""
_LAYERS = 48
_FARTHEST, _NEAREST = -0.35, 0.60
_DARK, _BODY, _LIGHT = 1.08, 0.84, 0.30
"""How broad the three inks are, against the yarn."""


def inked(
    scene: Scene,
    frame: Frame,
    colours: tuple[str, ...],
    told: tuple[str, str],
    table: str,
    millimetres: float,
) -> str:
    """The drawing as SVG, the same bytes for the same piece.

    Args:
        scene: The strands.
        frame: What part of the plane.
        colours: Those of the yarns, as "#rrggbb".
        told: A title, and what somebody who looks at it sees.
        table: What it lies on, as "#rrggbb"; "" for nothing.
        millimetres: How wide it is on paper.
    """
    wide, high = (frame.wide / frame.scale * UNIT, frame.high / frame.scale * UNIT)
    whole = Frame(
        frame.left, frame.top, UNIT, round(wide), round(high), mirrored=frame.mirrored
    )
    strokes = strokes_of(scene, whole)
    paths = list(_paths(strokes))
    tall = millimetres * high / wide
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.0f} {high:.0f}" '
        f'width="{millimetres:.2f}mm" height="{tall:.2f}mm" role="img" '
        'aria-labelledby="fabric-title fabric-description">'
    )
    lines = [
        head,
        f'<title id="fabric-title">{escape(told[0])}</title>',
        f'<desc id="fabric-description">{escape(told[1])}</desc>',
        f'<rect width="100%" height="100%" fill="{table}"/>' if table else "",
        *(f'<defs><path id="s{n}" d="{way}"/></defs>' for n, (*_, way) in enumerate(paths)),
        '<g fill="none">',
        *_uses(paths, colours, strokes.width),
        "</g>",
        "</svg>",
    ]
    return "\n".join(line for line in lines if line) + "\n"


def _paths(strokes: Strokes) -> Iterator[tuple[int, int, str]]:
    """The layer and the yarn of each path, the farthest first, and its way."""
    share = (strokes.near - _FARTHEST) / (_NEAREST - _FARTHEST)
    layer = np.clip((share * _LAYERS).astype(int), 0, _LAYERS - 1)
    bins = layer * (int(strokes.yarn.max(initial=0)) + 1) + strokes.yarn
    order = np.argsort(bins, kind="stable")
    numbers, starts = np.unique(bins[order], return_index=True)
    whole = _whole(strokes)
    for own in np.split(order, starts[1:]) if len(numbers) else ():
        way = "".join(
            "M{} {}c{} {} {} {} {} {}".format(*points) for points in whole[own].tolist()
        )
        yield int(layer[own[0]]), int(strokes.yarn[own[0]]), way


def _whole(strokes: Strokes) -> Whole:
    """(s, 8) starts and the steps to the other three points, in whole units."""
    points = strokes.points.astype(np.complex128)
    told = points[:, :1]
    start = np.rint(told.real) + 1j * np.rint(told.imag)
    steps = np.concatenate([start, points[:, 1:] - start], axis=1)
    found: Whole = np.rint(steps.view(np.float64).reshape(len(steps), 8)).astype(np.int64)
    return found


def _uses(
    paths: list[tuple[int, int, str]], colours: tuple[str, ...], width: float
) -> Iterator[str]:
    """First everything dark, so that no table shows between; then layer by layer."""
    for number, (_, yarn, _) in enumerate(paths):
        ink = _mixed(colours[yarn], 0.42)
        round_ = f'stroke-width="{0.9 * width:.1f}" stroke-linecap="round"'
        yield f'<use href="#s{number}" stroke="{ink}" {round_}/>'
    for number, (layer, yarn, _) in enumerate(paths):
        near = 0.62 + 0.42 * layer / _LAYERS
        own = colours[yarn]
        for ink, broad, move, cap in (
            (_mixed(own, 0.5 * near), _DARK, 0.0, ""),
            (_mixed(own, near), _BODY, 0.0, ' stroke-linecap="round"'),
            (_mixed(own, min(1.0, 1.05 * near), 0.22), _LIGHT, 0.14, ""),
        ):
            moved = (
                f' x="{-move * width:.1f}" y="{-1.14 * move * width:.1f}"' if move else ""
            )
            yield (
                f'<use href="#s{number}" stroke="{ink}" stroke-width="{broad * width:.1f}"'
                f"{moved}{cap}/>"
            )


def _mixed(code: str, dark: float, white: float = 0.0) -> str:
    """A colour made darker, then mixed with white."""
    told = (
        min(255, max(0, int(part * dark + (255 - part * dark) * white)))
        for part in parts_of(code)
    )
    return "#" + "".join(f"{part:02x}" for part in told)
