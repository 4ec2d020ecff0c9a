"""Which strands is a stitch, or a part of one, made of?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache

from hookwright.drawing.fabric import braids, posts, raised, short_stitches
from hookwright.drawing.fabric.strands import Seen, Shape

MOST_WRAPS = 4
NOTHING = Shape(())
"""A slip stitch is its top and nothing else."""

_STITCHES: Mapping[str, Callable[[Seen], Shape]] = {
    "sc": short_stitches.single,
    "hdc": short_stitches.half_double,
    "bobble": raised.bobble,
    "popcorn": raised.popcorn,
    "puff": lambda _: raised.puff(),
    "cluster": lambda _: raised.cluster(),
    "spike": posts.spike,
    "top": braids.top,
    "free": braids.free,
    "edge": braids.edge,
    "ch": braids.chain,
    "ridge": braids.ridge,
    "left cap": lambda _: braids.cap(-1),
    "right cap": lambda _: braids.cap(1),
    "sl st": lambda _: NOTHING,
}
_WRAPS = {"dc": 1, "tr": 2, "dtr": 3, "trtr": 4}
"""How often the yarn is laid over the hook before it goes in."""


@cache
def shape_of(form: str, seen: Seen) -> Shape:
    """The strands of a form: "sc", "raised dc", "sunk tr", "top", "3 chains"."""
    if form in _STITCHES:
        return _STITCHES[form](seen)
    if form in _WRAPS:
        return posts.post(_WRAPS[form], seen)
    first, _, stitch = form.partition(" ")
    if stitch == "chains":
        return braids.column(int(first))
    return posts.round_post(_WRAPS.get(stitch, 1), raised=first == "raised")
