""" "It ruffles", "it cups", "it curls": what makes it so, and what helps.

What each may come from is common practice, no source; whether the pattern itself lies flat
is worked out from its stitches.
"""

from __future__ import annotations

from collections.abc import Callable

from hookwright.answers.facts import Figure, Reply
from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions
from hookwright.shape.facts import Lie, Measures
from hookwright.shape.measures import measures_of

KINDS = ("ruffles", "cups", "curls", "slants")

_CAUSES = {
    "ruffles": (
        (
            "First count a row or round near the edge and hold it against the pattern: a "
            "stitch too many in each repeat makes a frill."
        ),
        (
            "If the count is right, your stitches are wide for their height: try a hook "
            "half a size smaller for the rows that ruffle."
        ),
        (
            "An edging that ruffles has too many stitches along the edge: leave out every "
            "tenth and look again."
        ),
    ),
    "cups": (
        (
            "First count a row or round near the edge and hold it against the pattern: a "
            "stitch too few in each repeat draws it in."
        ),
        (
            "If the count is right, your stitches are narrow for their height, or the "
            "beginning chain was tight: try a hook half a size larger."
        ),
        (
            "An edging that draws in has too few stitches along the edge: add one in every "
            "tenth place and look again."
        ),
    ),
    "curls": (
        (
            "Curling is tension, not counting: rows of one stitch worked under the same "
            "loops turn towards one side. A larger hook and a loose hand lessen it."
        ),
        "A tight foundation chain curls the first rows: chain with a hook one size larger.",
        "Blocking takes most of it out, and an edging the rest.",
    ),
    "slants": (
        (
            "Count a row, and the one after it: edges that slant come from a stitch lost "
            "or won at the same end in each row."
        ),
        (
            "Mark the first and the last stitch of a row, and work into both marks in the "
            "next."
        ),
    ),
}


def lies(
    checked: Checked,
    kind: str,
    measure: Callable[[Checked], Measures] = measures_of,
) -> Reply:
    """A reply to a maker whose piece does not lie as it should.

    Args:
        checked: The pattern.
        kind: One of `KINDS`.
        measure: What lays the pattern out; the laying out of all its stitches.
    """
    answer = [*_as_written(measure(checked)), *_CAUSES[kind]]
    text = checked.source.text
    cautions = blocking_cautions(text) if kind != "slants" else ()
    if kind in {"ruffles", "cups"}:
        answer.append(
            "A little of it goes when the piece is washed, pinned out and left to dry."
        )
    figures: tuple[tuple[str, Figure], ...] = (("kind", kind),)
    return Reply(f"It {kind}", tuple(answer), (), cautions, figures)


def _as_written(measures: Measures) -> tuple[str, ...]:
    sizes = [size for part in measures.parts[:1] for size in part.sizes[:1]]
    if not sizes:
        return ()
    verdict = sizes[0].verdict
    if verdict.lie is Lie.FLAT:
        return ("Worked as written, at its gauge, the pattern lies flat.",)
    return (f"By its counts the pattern {verdict.lie} as it is written. {verdict.advice}",)
