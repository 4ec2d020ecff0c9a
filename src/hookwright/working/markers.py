"""What does a row come to that is told by markers, wherever they are?

"Sc to marker, 2 sc in next st, sc to end" works one stitch in each but for what it names:
the markers say where that is, and not how much. So the stretches up to the markers are put
together with the one that ends the row, and no marker need be followed from row to row.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.markers import MARKER
from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Skip,
    Target,
    Which,
)

_OPEN = (Often.ACROSS, Often.TO_LAST)


def is_to_marker(node: Node) -> bool:
    """Whether a node works up to a marker."""
    target = getattr(node, "target", None)
    until = target.until if isinstance(target, Target) else None
    return until is not None and until.noun == MARKER


def goes_to_markers(nodes: Sequence[Node]) -> bool:
    """Whether a row, or a repeat in it, goes up to a marker."""
    return any(map(is_to_marker, nested(nodes)))


def past_markers(nodes: Sequence[Node]) -> list[Node] | None:
    """The row with all of its plain stretches at the end; None where they are not alike.

    So are other stitches between the markers, spaces, and a repeat of unsaid length.
    """
    begun = next((at for at, node in enumerate(nodes) if not _is_slip(node)), 0)
    if any(_is_beyond(node, at - begun) for at, node in enumerate(nodes)):
        return None
    stretches = [node for node in nested(nodes) if _is_stretch(node)]
    first = stretches[0] if stretches else None
    if not isinstance(first, Make) or not all(_is_plain(one, first) for one in stretches):
        return None
    target = first.target and replace(first.target, until=None)
    kept = _without_stretches(nodes)
    last = max((at for at, node in enumerate(kept) if _works(node)), default=-1) + 1
    return [*kept[:last], replace(first, target=target), *kept[last:]]


def _is_slip(node: Node) -> bool:
    """Whether a round only travels to where it begins."""
    return isinstance(node, Make) and node.stitch == "sl st"


def _is_beyond(node: Node, at: int) -> bool:
    """Whether a node is more than stitches in their places, one after the other."""
    if isinstance(node, Repeat):
        inner = any(_is_beyond(one, 1) for one in node.body)
        return inner or (node.times.often in _OPEN and goes_to_markers(node.body))
    if isinstance(node, Make) and node.target is not None and node.target.last:
        return True
    return isinstance(node, (InOnePlace, Skip)) or (isinstance(node, Chain) and at > 0)


def _is_stretch(node: Node) -> bool:
    """ "Sc to marker", "sc in each st to end"."""
    target = node.target if isinstance(node, Make) else None
    if target is None or target.which is not Which.EACH or target.amount is not None:
        return False
    return target.until is None or is_to_marker(node)


def _is_plain(node: Node, like: Node) -> bool:
    if not isinstance(node, Make) or not isinstance(like, Make):
        return False
    one = node.amount is None or node.amount.values == (1,)
    alike = (node.stitch, node.loop, node.post) == (like.stitch, like.loop, like.post)
    return (
        one and node.legs == 1 and alike and bool(node.target and node.target.noun == "st")
    )


def _without_stretches(nodes: Sequence[Node]) -> list[Node]:
    kept: list[Node] = []
    for node in nodes:
        if isinstance(node, Repeat):
            kept.append(replace(node, body=tuple(_without_stretches(node.body))))
        elif not _is_stretch(node):
            kept.append(node)
    return kept


def _works(node: Node) -> bool:
    return isinstance(node, (Make, Repeat)) and getattr(node, "stitch", "") != "sl st"
