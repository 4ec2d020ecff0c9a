"""Why do the numbers of a later part not follow from the chain, in a designer's words?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.notation.tree import Evenly
from hookwright.sizing.growing import Growing
from hookwright.working.fabric import Stitch
from hookwright.working.sequence import Run
from hookwright.working.steps import row_name


def why_stopped(checked: Checked, growing: Growing, at: int) -> tuple[str, str]:
    """What is amiss with the first row that comes out on no other chain, and what to do.

    Args:
        checked: The text.
        growing: The size that was worked on other chains.
        at: The row, in working order.
    """
    step = growing.steps[at]
    name = row_name(step)
    part = checked.reading.pattern.parts[step.part].name
    other = f" of {part}" if part else ""
    message = f"The numbers of {name}{other} do not follow from the chain."
    if any(growing.steps[root.at].part == step.part for root in growing.roots[1:]):
        first = checked.reading.pattern.parts[growing.steps[growing.roots[0].at].part].name
        told = f"where {first} is wider" if first else "at another size"
        return message, (
            f"{part or 'It'} stands on a chain of its own, and how wide that is to be "
            f"{told}, only you can say: write its numbers yourself, size by size."
        )
    if any(isinstance(node, Evenly) for node in step.nodes):
        return message, (
            f"{name} tells how many stitches go along each edge, and what those edges come "
            "to, nothing tells: write its numbers yourself, size by size."
        )
    if _divides(growing, at):
        return message, (
            f"{name} divides the stitches by number, and how those that come or go are "
            "shared out, only you can say: write its numbers yourself, size by size."
        )
    return message, (
        f"{name} has no repeat, and no run across, that takes up what comes or goes: write "
        "its numbers yourself, size by size."
    )


def _divides(growing: Growing, at: int) -> bool:
    """Whether a row leaves stitches on purpose, or passes over many at once."""
    outcome = growing.base[at]
    line = outcome.worked.row.line if outcome.worked is not None else ()
    return growing.divides(at) or any(
        isinstance(piece, Run) and not piece.item.feet and _passed(piece) > _FEW
        for piece in line
    )


def _passed(run: Run[Stitch]) -> int:
    """How many stitches are skipped at once."""
    return run.item.passes * run.times if isinstance(run.times, int) else 0


_FEW = 3
"""So many are skipped within a stitch pattern."""
