"""Does a row that is worked again make what it made before?

Over as many stitches the same words make as many again. Where the nouns of a recalled row,
"skip next sc", meet other stitches than in their own row, they are only words for the next.
"""

from __future__ import annotations

from hookwright.working.outcome import Outcome
from hookwright.working.reading_state import State
from hookwright.working.steps import Step

_LOOK_BACK = 60
"""The row itself, or the last time it was worked again, lies no further back than that."""


def made_before(state: State, step: Step) -> Outcome | None:
    """The row that is recalled, if it was worked over as many stitches as lie here."""
    if step.recalled is None:
        return None
    here = state.edge.stitches
    for outcome in state.outcomes[: -_LOOK_BACK - 1 : -1]:
        same = step.recalled in (outcome.step.number, outcome.step.recalled)
        if outcome.step.part == step.part and same:
            return outcome if outcome.below == here and outcome.worked else None
    return None
