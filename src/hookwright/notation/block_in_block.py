"""Where is a block worked "in each block": in the space that every block leaves.

"Block: sl st in ch-3 sp of next block, ch 3, 3 dc in same sp" says in which place of a
block the next one stands; a row then names the block alone.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Chain, Definition, Make, PartText, Target


def into_their_spaces(
    parts: Sequence[PartText], definitions: Sequence[Definition]
) -> tuple[PartText, ...]:
    """The parts with the space told, wherever a place is called by the name of a block."""
    places = {
        name: definition.place
        for definition in definitions if _is_block(definition)
        for name in definition.names
    }  # fmt: skip
    if not places:
        return tuple(parts)

    def placed(value: object) -> object:
        space = places.get(value.noun) if isinstance(value, Target) else None
        if not isinstance(value, Target) or space is None:
            return value
        return replace(value, noun=space.noun, chains=space.chains)

    return rebuilt(tuple(parts), placed)


def _is_block(definition: Definition) -> bool:
    """Whether a stitch is a slip into a space, and chains and stitches on top of it."""
    if definition.place is None or definition.place.noun != "sp":
        return False
    slip, *others = definition.body
    slips = isinstance(slip, Make) and slip.stitch == "sl st"
    return slips and any(isinstance(node, Chain) for node in others)
