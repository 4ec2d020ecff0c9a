"""Does the chain that a pattern begins with agree with the multiple it states?

A multiple may be of chains or of stitches, and chains to turn on may be added or not. So
it is only contradicted where no such way to take it fits, or where it says chains itself.
A row that does not close tells of the chain already: then nothing is said here.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Chain, Multiple
from hookwright.working.outcome import WorkedPattern, Working
from hookwright.working.problems import problems_of

_MOST_TURNING = 4
"""Chains that custom adds to a multiple of stitches for the first stitch."""


def multiple_findings(worked: WorkedPattern) -> Iterator[Finding]:
    """A finding for a stated multiple that the pattern's own chain contradicts."""
    stated = worked.pattern.multiples
    if len(stated) != 1 or any(_amiss(working) for working in worked.sizes):
        return
    for size, working in enumerate(worked.sizes):
        hint = worked.pattern.foundation_hint
        chains = _chains(working, size) or (hint.at(size) if hint is not None else None)
        if chains is None or _fits(stated[0], working, chains):
            continue
        yield _finding(stated[0], chains)
        return


def _amiss(working: Working) -> bool:
    return any(
        problem.rule != "stated-count"
        for outcome in working.outcomes
        for problem in problems_of(working, outcome)
    )


def _chains(working: Working, size: int) -> int | None:
    """The chain the piece is begun with, where it is written out."""
    for outcome in working.outcomes:
        for node in outcome.step.nodes:
            if isinstance(node, Chain):
                return node.amount.at(size)
        if outcome.worked is not None:
            return None
    return None


def _fits(stated: Multiple, working: Working, chains: int) -> bool:
    if not stated.each:
        return True
    added = 0 if stated.of_chains else _MOST_TURNING
    numbers = [chains - more for more in range(added + 1)]
    first = next((o for o in working.outcomes if o.worked is not None), None)
    if first is not None and not stated.of_chains:
        stitches = first.tally.stitches
        numbers.extend([stitches] if isinstance(stitches, int) else [])
    return any((number - stated.extra) % stated.each == 0 for number in numbers)


def _finding(stated: Multiple, chains: int) -> Finding:
    over = chains % stated.each
    times = chains // stated.each
    return Finding(
        "multiple",
        Severity.ERROR,
        stated.span,
        f"The multiple is given as {stated.each} plus {stated.extra}, but a chain of "
        f"{chains} is {times} times {stated.each} plus {over}.",
        "Correct the multiple, or say whether it is one of stitches.",
    )
