"""Is a row told by one bare stitch: "Row 2: ch 1, turn, sc."? It goes into every place."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.place_words import everything
from hookwright.notation.tree import Chain, Claim, Loops, Make, Node, Turn, Yarn
from hookwright.notation.vocabulary import families_of

_QUIET = (Chain, Turn, Yarn, Loops)


def in_each_place(nodes: tuple[Node, ...], claims: Sequence[Claim]) -> tuple[Node, ...]:
    """ "Ch 1, turn, sc.": where nothing else is told, one in each stitch of the row."""
    made = [node for node in nodes if not isinstance(node, _QUIET)]
    only = made[0] if len(made) == 1 else None
    if not isinstance(only, Make) or only.amount is not None or only.target is not None:
        return nodes
    plain = "plain" in families_of(only.stitch, {}) and only.legs == 1
    if not plain or any(_tells_one(claim) for claim in claims):
        return nodes
    whole = replace(only, target=everything(only.span))
    return tuple(whole if node is only else node for node in nodes)


def _tells_one(claim: Claim) -> bool:
    """Whether a count says that there is just this one stitch: "Row 9: Ch 1, sc. (1)"."""
    return any(1 in figure.amount.values for figure in claim.figures)
