"""Where is a block worked "in each block": in the space that every block leaves.

"Block: sl st in ch-3 sp of next block, ch 3, 3 dc in same sp" says in which place of a
block the next one stands; a row then names the block alone. Behind a slip stitch of the
row's own into that space it stands there: "sl st in ch-3 sp of next block, block".
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.bodies import is_begun_cluster
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import (
    Chain,
    Definition,
    Make,
    PartText,
    Target,
    Which,
)


def into_their_spaces(
    parts: Sequence[PartText], definitions: Sequence[Definition]
) -> tuple[PartText, ...]:
    """The parts with the space told, wherever a place is called by the name of a block."""
    blocks = {
        name: space
        for definition in definitions
        for space in _space_of_block(definition)
        for name in definition.names
    }
    if not blocks:
        return tuple(parts)
    closed = {
        name for one in definitions if is_begun_cluster(one.body) for name in one.names
    }
    places = {name: space for name, space in blocks.items() if name not in closed}

    def placed(value: object) -> object:
        if isinstance(value, tuple):
            return _behind_slips(value, blocks)
        if not isinstance(value, Target):
            return value
        if value.of is not None and value.noun == value.of.noun == "sp":
            return replace(value.of, span=value.span)  # "ch-3 sp of next block"
        space = places.get(value.noun)
        if space is None:
            return value
        return replace(value, noun=space.noun, chains=space.chains)

    return rebuilt(tuple(parts), placed)


def _space_of_block(definition: Definition) -> Iterator[Target]:
    """The space that chains leave, with stitches beside them, all worked into a space."""
    space = definition.place
    if space is None or space.noun != "sp" or not definition.body:
        return
    begins = definition.body[0]
    chains = next((node for node in definition.body if isinstance(node, Chain)), None)
    slips = isinstance(begins, Make) and begins.stitch == "sl st"
    if chains is not None and (slips or begins is chains):
        yield replace(space, chains=space.chains or chains.amount.at(0))


def _behind_slips(items: tuple[object, ...], blocks: Container[str]) -> tuple[object, ...]:
    """Some instructions, with every block that no place is told of where the slip went."""
    result = [*items]
    for at, (slip, block) in enumerate(pairwise(items)):
        bare = isinstance(block, Make) and block.stitch in blocks and not block.target
        gone = isinstance(slip, Make) and slip.stitch == "sl st" and slip.target
        if isinstance(block, Make) and bare and gone and gone.noun == "sp":
            result[at + 1] = replace(block, target=Target("sp", Which.SAME, block.span))
    return tuple(result) if result != [*items] else items
