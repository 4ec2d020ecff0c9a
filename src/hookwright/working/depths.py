"""How far below its own row does a row lie that is named by its number?

"Dc in st of Row 2" goes two rows down where it is told in Row 5, for its edge is Row 4.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import InOnePlace, Make, Node, Repeat, Tail, Target


def with_depths(nodes: tuple[Node, ...], number: int | None) -> tuple[Node, ...]:
    """The instructions of a row, with places of rows that it names as deep as these lie."""
    if number is None or not any(map(_names_row, nodes)):
        return nodes

    def deep(value: object) -> object:
        if not isinstance(value, Target) or not 0 < value.row < number - 1:
            return value
        return replace(value, rows_below=number - 1 - value.row)

    return rebuilt(nodes, deep)


def _names_row(node: Node) -> bool:
    if isinstance(node, (Repeat, Tail)):
        return any(map(_names_row, node.body))
    if isinstance(node, InOnePlace):
        return bool(node.target.row) or any(map(_names_row, node.body))
    target = node.target if isinstance(node, Make) else None
    while target is not None:
        if target.row:
            return True
        target = target.of
    return False
