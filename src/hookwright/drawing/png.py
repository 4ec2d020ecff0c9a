"""A drawing as a picture in points, as large as is wanted."""

from __future__ import annotations

import json

from hookwright.drawing.pen import PAPER

_PAGE = """#let asked = json(bytes(sys.inputs.asked))
#set page(width: asked.wide * 1pt, height: auto, margin: 0pt, fill: rgb(asked.paper))
#image(bytes(asked.svg), format: "svg", width: 100%)
"""
_POINTS_PER_INCH = 72
MOST_PIXELS = 20_000


def png_of(svg: str, width: int, paper: str = PAPER) -> bytes:
    """A PNG of an SVG.

    Args:
        svg: The drawing.
        width: How many pixels wide, 1 to `MOST_PIXELS`; the height follows.
        paper: The colour behind it, as "#rrggbb".

    Raises:
        ValueError: When the width is none that can be made.
    """
    import typst  # noqa: PLC0415 - only where a picture is made

    if not 1 <= width <= MOST_PIXELS:
        raise ValueError(f"A picture can be 1 to {MOST_PIXELS} pixels wide, not {width}.")
    asked = json.dumps({"wide": width, "paper": paper, "svg": svg})
    return typst.compile(
        _PAGE.encode(),
        format="png",
        ppi=_POINTS_PER_INCH,
        sys_inputs={"asked": asked},
        ignore_system_fonts=True,
    )
