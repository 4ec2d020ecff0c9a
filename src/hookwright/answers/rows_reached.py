"""Up to which row is some of a yarn enough, with what the edgings take kept back?"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.answers.enough import rows_of_growing
from hookwright.answers.listed_yarn import Needed
from hookwright.answers.row_yarn import yarn_weights
from hookwright.checking import Checked
from hookwright.design.stripes import stripe_plans
from hookwright.regex import regex
from hookwright.working.outcome import Outcome
from hookwright.working.row_yarns import row_yarns

_EDGING = regex(r"\b(?:edging|border|trim|fringe|ties?|straps?)\b", re.IGNORECASE)


class Reached(Struct, frozen=True):
    """How far a yarn is enough.

    Attributes:
        rows: How many rows in that yarn.
        of: How many there are, the edgings apart.
        last: What the last of them is called; "" where it has no number.
        kept: Whether yarn for an edging is kept back.
    """

    rows: int
    of: int
    last: str
    kept: bool

    def told(self, need: Needed) -> str:
        """The same as a sentence."""
        colour = f" in {need.name}" if need.letter else ""
        up_to = f", up to {self.last}" if self.last else ""
        kept = ", with the yarn for the edging kept back" if self.kept else ""
        return f"It is enough for {self.rows} of the {self.of} rows{colour}{up_to}{kept}."


def rows_reached(
    checked: Checked, size: int, need: Needed, share: Fraction
) -> Reached | None:
    """How far a share of what a colour needs is enough; None where nothing tells its rows.

    Args:
        checked: The pattern.
        size: Which size, from 0.
        need: The colour.
        share: How much of its listed yarn is there, 1 for all.
    """
    outcomes = checked.worked.sizes[size].outcomes
    own = _rows_in(checked, outcomes, need)
    if own is None or not own:
        return None
    weights = yarn_weights(outcomes, checked.worked.terms)
    names = [part.name for part in checked.reading.pattern.parts]
    main = [at for at in own if not _EDGING.search(names[outcomes[at].step.part])] or own
    whole = sum((weights[at] for at in own), Fraction(0))
    kept = whole - sum((weights[at] for at in main), Fraction(0))
    there = max(Fraction(0), whole * share - kept)
    enough = main[: rows_of_growing(there, [weights[at] for at in main])]
    rows = [at for at in enough if outcomes[at].worked is not None]
    of = sum(outcomes[at].worked is not None for at in main)
    last = _called(outcomes[rows[-1]], names) if rows else ""
    return Reached(len(rows), of, last, kept > 0)


def _rows_in(
    checked: Checked, outcomes: Sequence[Outcome], need: Needed
) -> list[int] | None:
    """The rows in a colour; None where they are told by stripes that no row names."""
    if not need.letter:
        return list(range(len(outcomes)))
    pattern = checked.reading.pattern
    named = row_yarns(pattern, outcomes)
    if not named and any(len(p.stripes) > 1 for p in stripe_plans(checked.source, pattern)):
        return None
    return [
        at for at, one in enumerate(outcomes) if _yarn(one, named.get(at)) == need.letter
    ]


def _yarn(outcome: Outcome, told: str | None) -> str | None:
    if told is not None or outcome.worked is None:
        return told
    yarns = outcome.worked.row.yarns()
    return yarns[0][0] if yarns else None


def _called(outcome: Outcome, names: Sequence[str]) -> str:
    if outcome.step.number is None:
        return ""
    called = "Round" if outcome.step.is_round else "Row"
    part = names[outcome.step.part]
    return f"{called} {outcome.step.number}" + (f" of {part}" if part else "")
