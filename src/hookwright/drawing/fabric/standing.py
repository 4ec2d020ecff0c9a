"""How does a piece look that stands up and whose front cannot be cut out by itself?

It is shown as it is measured, laid double on the table: each round half as wide as its
stitches are together, each row as high as it is worked. Only the upper layer is drawn.
"""

from __future__ import annotations

import re

import numpy as np

from hookwright.regex import regex
from hookwright.shape.columns import Truth
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph
from hookwright.shape.starts import on_circles

_BEGUN_BELOW = regex(
    r"\b(?:base|bottom|soles?|basket|bag|tote|pouch|purse|bowl|pot|booties?|slippers?)\b",
    re.IGNORECASE,
)
"""Names of what is begun at its foot; common practice, no source."""


def is_begun_below(named: str) -> bool:
    """Whether a piece of that name stands on its first rounds, as a bag does, not a hat."""
    return _BEGUN_BELOW.search(named) is not None


def laid_double(graph: FabricGraph) -> tuple[Complex, Truth]:
    """Where the nodes of a piece in rounds lie, and (n,) which are of the upper layer.

    Its first rounds lie on top, and each begins behind. Figures are in widths of a stitch.
    """
    about = np.angle(on_circles(graph) * 1j)
    position = np.zeros(graph.size, dtype=complex)
    upper = np.zeros(graph.size, dtype=bool)
    level = 0.0
    for course in graph.courses:
        level -= course.height
        own = course.nodes
        position[own] = about[own] * course.number / (2 * np.pi) + 1j * level
        upper[own] = np.abs(about[own]) <= np.pi / 2
    return position, upper
