"""Up to which row is some of a yarn enough, with what the edgings take kept back?

What each row takes of a colour is reckoned from its stitches (`yarn/`), stripes among them.
Where balls are listed it only shares these out, so a loose or a tight hand cancels out;
where none are, the metres she has are held against those of the rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.answers.enough import rows_of_growing
from hookwright.answers.listed_yarn import Needed
from hookwright.answers.reckoned_size import reckoned_size
from hookwright.answers.reckoned_yarn import label_of
from hookwright.checking import Checked
from hookwright.yarn.facts import RowUsed, Section
from hookwright.yarn.joining import row_lengths
from hookwright.yarn.planning import ALLOWANCE, yarn_plan


class Reached(Struct, frozen=True):
    """How far a yarn is enough.

    Attributes:
        rows: How many rows in that yarn.
        of: How many there are, the edgings apart.
        last: What the last of them is called; "" where none is reached.
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
    plan = yarn_plan(checked)
    reckoned = reckoned_size(checked, plan, size)
    if reckoned is None:
        return None
    label = label_of(reckoned, need)
    law = dict(plan.laws).get(label)
    if law is None:
        return None
    rows = reckoned.counted.rows
    taken = row_lengths(rows, label, law)
    own = [at for at, length in enumerate(taken) if length]
    main = [at for at in own if rows[at].section is not Section.EDGING]
    if not main:
        return None
    whole = sum(taken, Fraction(0))
    kept = whole - sum((taken[at] for at in main), Fraction(0))
    had = whole * share
    if need.exact is not None and need.metres is not None:
        had = need.metres * 1000 * share / (1 + ALLOWANCE)
    there = max(Fraction(0), had - kept)
    enough = main[: rows_of_growing(there, [taken[at] for at in main])]
    worked = [rows[at] for at in enough if rows[at].number is not None]
    of = sum(rows[at].number is not None for at in main)
    return Reached(len(worked), of, _called(worked), kept > 0)


def _called(rows: Sequence[RowUsed]) -> str:
    return rows[-1].label if rows else ""
