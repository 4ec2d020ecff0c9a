"""Behind which rows is it not known how many stitches there are?

"Rep Rows 2 and 3 until the shawl is as wide as you like" grows by as many rows as she
works. Counts told behind it are those of one shawl, and no row is held to them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from hookwright.notation.tree import Recall
from hookwright.working.outcome import Outcome
from hookwright.working.steps import Step


def shaped_for_a_length(outcomes: Sequence[Outcome]) -> frozenset[int]:
    """The first row behind each set that is worked for a length and shapes the piece."""
    result: set[int] = set()
    at = 0
    for _, group in groupby(outcomes, lambda outcome: id(outcome.step.text)):
        rows = list(group)
        again = [outcome for outcome in rows if _is_open(outcome.step)]
        at += len(rows)
        if again and again[-1].tally.stitches != again[0].below:
            result.add(at)
    return frozenset(result)


def _is_open(step: Step) -> bool:
    if step.recalled is None:
        return False
    recalls = [node for node in step.text.body if isinstance(node, Recall)]
    return any(recall.open_length for recall in recalls)
