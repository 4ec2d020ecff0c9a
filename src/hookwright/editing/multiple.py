"""Does the chain that a pattern begins with agree with the multiple it states?

A multiple may be of chains or of stitches, and chains to turn on may be added or not. So
it is only contradicted where no such way to take it fits, or where it says chains itself.
A row that does not close tells of the chain already: then nothing is said here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import Chain, Multiple
from hookwright.source import Source, Span
from hookwright.working.foundations import begins_on_chain, next_is_from_hook
from hookwright.working.multiple import fits
from hookwright.working.outcome import Working
from hookwright.working.problems import problems_of


def multiple_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for a stated multiple that the pattern's own chain contradicts."""
    worked = manuscript.worked
    stated = worked.pattern.multiples
    if len(stated) != 1 or any(_amiss(working) for working in worked.sizes):
        return
    for working in worked.sizes:
        chains = _chains(working)
        if chains is None or fits(stated[0], working, chains):
            continue
        yield _finding(stated[0], chains, manuscript.source)
        return


def _amiss(working: Working) -> bool:
    return any(
        problem.rule != "stated-count"
        for outcome in working.outcomes
        for problem in problems_of(working, outcome)
    )


def _chains(working: Working) -> int | None:
    """The chain that the first row is worked into, told or found by its count."""
    first = next((o for o in working.outcomes if o.worked is not None), None)
    if first is None:
        return next((o.foundation for o in working.outcomes if o.foundation), None)
    nodes = [node for node in first.step.nodes if not isinstance(node, Chain)]
    on_chain = next_is_from_hook(nodes) or begins_on_chain(nodes)
    return first.below if on_chain and isinstance(first.below, int) else None


def _finding(stated: Multiple, chains: int, source: Source) -> Finding:
    over = chains % stated.each
    times = chains // stated.each
    change = _put_right(stated, over, source)
    why = "Correct the multiple, or say whether it is one of stitches."
    if change is not None:
        said = f'With "{change.replacement}" (not {stated.extra})'
        why = f"{said} it agrees, if it is one of chains."
    return Finding(
        "multiple",
        Severity.ERROR,
        stated.span,
        f"The multiple is given as {stated.each} plus {stated.extra}, but a chain of "
        f"{chains} is {times} times {stated.each} plus {over}.",
        why,
        edit=change,
    )


def _put_right(stated: Multiple, over: int, source: Source) -> Edit | None:
    """The multiple with as many over as there are, where its words end in that number."""
    words = source.slice(stated.span)
    found = re.search(rf"\b{stated.each}\b.*(?P<extra>\b{stated.extra})$", words)
    if found is None or not over:
        return None
    at = stated.span.start
    behind = f"{words[found.start() : found.start('extra')]}{over}"
    return Edit(Span(at + found.start(), stated.span.end), behind)
