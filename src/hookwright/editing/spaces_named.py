"""Is a space named by the chains that it really has?

"Sc in next ch-6 sp" over spaces of five chains alone is a slip of one row or the other.
Only a number is told that no chain of either row explains: one at the beginning may be
named by all of its length.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import Chain, Node, Skip, Target
from hookwright.working.outcome import Outcome
from hookwright.working.problems import problems_of
from hookwright.working.sides import placed_in
from hookwright.working.steps import Step, row_name
from hookwright.working.tally import tally_of


def spaces_misnamed(manuscript: Manuscript) -> Iterator[Finding]:
    """Spaces called by a length that the row below has none of."""
    working = manuscript.worked.sizes[0]
    told: set[int] = set()
    for below, outcome in pairwise(working.outcomes):
        if id(outcome.step.text) in told:
            continue
        found = _misnamed(below, outcome)
        if found is not None and not problems_of(working, outcome):
            told.add(id(outcome.step.text))
            yield _finding(manuscript, outcome, *found)


def _misnamed(below: Outcome, outcome: Outcome) -> tuple[Target, tuple[int, ...]] | None:
    """A place named by other chains, and the lengths of the spaces that are there."""
    if outcome.worked is None or below.worked is None or outcome.step.recalled is not None:
        return None
    if not outcome.worked.over.spaces:
        return None
    named = [
        target for target in placed_in(outcome.step.nodes)
        if target.chains and target.noun == "sp" and not target.row and target.of is None
    ]  # fmt: skip
    if not named:
        return None
    there = tuple(sorted(tally_of(outcome.worked.over).lengths))
    made = _chained(below.step) | _chained(outcome.step)
    known = made.union(there)
    return next(((t, there) for t in named if t.chains not in known), None)


def _chained(step: Step) -> set[int]:
    """The lengths of the chains that a row makes, or skips at the hook."""
    return set(_lengths(nested(step.nodes)))


def _lengths(nodes: Iterable[Node]) -> Iterator[int]:
    for node in nodes:
        target = getattr(node, "target", None)
        if isinstance(node, Chain):
            yield node.amount.at(0) or 0
        elif target is not None and target.from_hook and target.ordinal:
            yield target.ordinal - 1
        elif isinstance(node, Skip) and node.target.noun == "ch" and node.target.amount:
            yield node.target.amount.at(0) or 0


def _finding(
    manuscript: Manuscript, outcome: Outcome, target: Target, there: tuple[int, ...]
) -> Finding:
    step = outcome.step
    spaces = " and ".join(f"ch-{chains} sps" for chains in there)
    return Finding(
        "missing-target",
        Severity.WARNING,
        step.place(target.span),
        f"{row_name(step)} names a ch-{target.chains} sp, but the row below has {spaces}.",
        "Name the space by the chains it has, or look at the chains of the row below.",
        row=step.label or None,
        part=manuscript.pattern.parts[step.part].name or None,
        numbers=(step.number, step.number) if step.number is not None else None,
    )
