"""Which lists in one place are the blocks that a sentence tells of?

"A tile is 3 dc and a ch-3 that lies on its side" says what a tile is made of, and a row
below how: "sl st in the ch-3 sp, ch 3, 3 dc in that same sp". From there on it is a tile.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence

from msgspec.structs import replace

from hookwright.notation.bodies import stitches_of
from hookwright.notation.nested import nested
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Chain, Definition, InOnePlace, Make, Node, PartText

_Made = tuple[str, int | None, int | None]
"""What a block is made of: a stitch, how many of it, and the chains beside them."""


def with_blocks(
    parts: Sequence[PartText], definitions: Sequence[Definition]
) -> tuple[tuple[PartText, ...], tuple[Definition, ...]]:
    """The parts with such lists named, and the blocks as the rows work them."""
    told = {_made_of(d.body): d for d in definitions if d.in_one_place}
    told.pop(None, None)
    lists = _worked(parts, told) if told and _is_used(parts, told.values()) else {}
    if not lists:
        return tuple(parts), tuple(definitions)

    def named(value: object) -> object:
        made = _worked_as(value) if isinstance(value, InOnePlace) else None
        definition = told.get(made) if made in lists else None
        if not isinstance(value, InOnePlace) or definition is None:
            return value
        return replace(value, name=definition.names[0])

    whole = {told[made].span: body for made, body in lists.items()}
    others = (
        replace(d, body=whole[d.span], heads=stitches_of(whole[d.span]))
        if d.span in whole else d
        for d in definitions
    )  # fmt: skip
    return rebuilt(tuple(parts), named), tuple(others)


def _is_used(parts: Iterable[PartText], told: Iterable[Definition]) -> bool:
    """Whether a row calls a block by its name: else all are written out alike."""
    names = {name for definition in told for name in definition.names}
    nodes = [n for part in parts for row in part.rows for n in nested(row.body)]
    return any(_calls(node, names) for node in nodes)


def _calls(node: Node, names: Container[str]) -> bool:
    """ "Block in next sp", "starting block": a block, or another one, by its name."""
    if not isinstance(node, Make):
        return False
    kind, _, block = node.stitch.rpartition(" ")
    placed = node.target is not None and node.target.noun == "sp"
    return (placed and node.stitch in names) or (bool(kind) and block in names)


def _worked(
    parts: Iterable[PartText], told: Mapping[_Made | None, Definition]
) -> dict[_Made, tuple[Node, ...]]:
    """How the rows work the blocks that are told of."""
    found: dict[_Made, tuple[Node, ...]] = {}
    for part in parts:
        for row in part.rows:
            for node in nested(row.body):
                made = _worked_as(node) if isinstance(node, InOnePlace) else None
                if isinstance(node, InOnePlace) and made is not None and made in told:
                    found.setdefault(made, node.body)
    return found


def _worked_as(node: InOnePlace) -> _Made | None:
    """What "(sl st, ch 3, 3 dc) in the ch-3 sp" is made of, if nothing has named it."""
    if node.name or len(node.body) != _SLIP_CHAIN_STITCHES or not _is_slip(node.body[0]):
        return None
    return _made_of(node.body[1:]) if isinstance(node.body[1], Chain) else None


_SLIP_CHAIN_STITCHES = 3


def _is_slip(node: Node) -> bool:
    return isinstance(node, Make) and node.stitch == "sl st"


def _made_of(body: Sequence[Node]) -> _Made | None:
    chains = [node for node in body if isinstance(node, Chain)]
    makes = [node for node in body if isinstance(node, Make)]
    both = len(chains) == len(makes) == 1 and len(body) == len(chains) + len(makes)
    if not both or makes[0].amount is None:
        return None
    return makes[0].stitch, makes[0].amount.at(0), chains[0].amount.at(0)
