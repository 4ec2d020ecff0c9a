"""Is a round joined to the chain that it begins with?

"Ch 7 ..., join with sl st to 4th st of ch-8" names a chain that was not made, and so does
"join to 5th ch" of a chain of four. A shorter chain that is named without its stitch is
only another word for the beginning.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import (
    Chain,
    Join,
    Make,
    Node,
    PartText,
    RowText,
    Target,
)
from hookwright.working.nodes import QUIET


def join_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Joins that name another chain than the one their round begins with."""
    for part in manuscript.pattern.parts:
        for row in part.rows:
            target, made = _joined(row.body)
            if target is None or not made or target.chains in _by_hand(row.body):
                continue
            if _is_another(target, made):
                yield _told(part, row, target, made)


def _joined(nodes: Sequence[Node]) -> tuple[Target | None, int]:
    """Where a round is joined, and the length of its beginning chain; 0 where unknown."""
    work = [node for node in nodes if type(node) not in QUIET]
    while work and _closes(work[0]):
        work = work[1:]
    joins = [at for at, node in enumerate(work) if _closes(node)]
    first = work[0] if work else None
    if len(joins) != 1 or joins[0] < 2 or not isinstance(first, Chain):
        return None, 0
    values = first.amount.values
    return getattr(work[joins[0]], "target", None), (values[0] or 0) * (len(values) == 1)


def _by_hand(nodes: Sequence[Node]) -> frozenset[int | None]:
    """Chains made outside the repeats, behind a first stitch: "ch 1, sc, ch 2, ..."."""
    chains = [node for node in nodes if isinstance(node, Chain)][1:]
    return frozenset(value for node in chains for value in node.amount.values)


def _closes(node: Node) -> bool:
    """Whether a node joins: with the word, or as a slip stitch into a place named."""
    slips = isinstance(node, Make) and node.stitch == "sl st" and node.target is not None
    return isinstance(node, Join) or slips


def _is_another(target: Target, made: int) -> bool:
    if target.noun != "tch":
        return False
    beyond = target.ordinal is not None and target.ordinal > made
    named = target.chains is not None and target.chains != made
    longer = target.chains is not None and target.chains > made
    return beyond or longer or (named and target.ordinal is not None)


def _told(part: PartText, row: RowText, target: Target, made: int) -> Finding:
    numbers = row.label.numbers if row.label is not None else ()
    label = row.label.text if row.label is not None else "The round"
    named = f"a chain of {target.chains}" if target.chains else f"chain {target.ordinal}"
    return Finding(
        "missing-target",
        Severity.ERROR,
        row.place(target.span),
        f"{label} begins with a chain of {made}, but is joined to {named}.",
        "Name the chain that the round begins with.",
        row=row.label.text if row.label is not None else None,
        part=part.name or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )
