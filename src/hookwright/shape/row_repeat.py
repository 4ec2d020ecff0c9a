"""Which repeat makes up most of a row, and how many nodes of it are laid?"""

from __future__ import annotations

from functools import lru_cache

from hookwright.shape.columns import columns_of
from hookwright.working.fabric import Row, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Line, Repeat, Run, total


def longest_repeat(outcome: Outcome) -> tuple[int, int, int] | None:
    """Nodes before the repeat that makes up most of a row, nodes in it, and how often."""
    assert outcome.worked is not None
    best: tuple[int, int, int] | None = None
    before = 0
    for piece in outcome.worked.row.line:
        nodes = _nodes((piece,))
        if isinstance(piece, Repeat) and isinstance(piece.times, int) and piece.times > 1:
            each = nodes // piece.times
            if each > 1 and (best is None or each * piece.times > best[1] * best[2]):
                best = before, each, piece.times
        before += nodes
    return best


def _nodes(line: Line[Stitch]) -> int:
    """How many nodes a line makes."""
    found = total(line, _nodes_of)
    return found if isinstance(found, int) else 0


@lru_cache(maxsize=4096)
def _nodes_of(stitch: Stitch) -> int:
    return columns_of(Row((Run(stitch),))).size
