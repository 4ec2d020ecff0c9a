"""What does a maker have to know to count along: which chains count, how repeats are read?

Both conventions on which counts turn are said, however the text is silent on them: whether
the chain at the beginning counts as a stitch, and whether chains of a space do. They are
said as they were worked, so a copy never counts otherwise than its source.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.notation.nested import nested
from hookwright.notation.tree import Repeat, Topic
from hookwright.release.facts import Paragraph, Run
from hookwright.working.left_open import (
    chain_at_start,
    chains_begun_with,
    says_of_spaces,
    steps_once,
)


def counting_in(checked: Checked, *, underlined: bool) -> tuple[Paragraph, ...]:
    """The sentences, each a paragraph with its label.

    Args:
        checked: The text.
        underlined: Whether what is repeated is underlined in the copy.
    """
    if not checked.worked.sizes:
        return ()
    found = [
        ("Sizes:", _of_sizes(checked)),
        ("What counts:", " ".join(_of_chains(checked))),
        ("Repeats:", _of_repeats(checked) if underlined else ""),
    ]
    return tuple(
        Paragraph((Run(label, "label"), Run(f" {said}"))) for label, said in found if said
    )


def _of_sizes(checked: Checked) -> str:
    sizes = checked.sizes
    if len(sizes) < 2:
        return ""
    others = sizes[1] if len(sizes) == 2 else f"{', '.join(sizes[1:-1])} and {sizes[-1]}"
    return (
        f"numbers are for {sizes[0]} first, then in parentheses for {others}. "
        "One number alone is for every size."
    )


def _of_chains(checked: Checked) -> Iterator[str]:
    """The conventions on which the text itself is silent."""
    pattern, working = checked.reading.pattern, checked.worked.sizes[0]
    conventions = working.assumption.conventions
    topics = {statement.topic for statement in pattern.statements}
    begun = sorted(chains for chains in chains_begun_with(working) if chains)
    if begun and Topic.TURNING_CHAIN not in topics:
        what = chain_at_start(working)
        for chains in begun:
            counts = "counts" if chains in conventions.counting_chains else "does not count"
            yield f"The {what} of {chains} ch {counts} as a stitch."
    if not says_of_spaces(pattern) and _has_spaces(checked):
        counted = conventions.spaces_count
        yield f"Chain spaces are {'counted' if counted else 'not counted'} as stitches."


def _has_spaces(checked: Checked) -> bool:
    return any(bool(spaces) for line in checked.lines for spaces in line.spaces)


def _of_repeats(checked: Checked) -> str:
    stars = any(
        isinstance(node, Repeat) and node.mark.startswith("*")
        for step in steps_once(checked.worked.sizes[0])
        for node in nested(step.nodes)
    )
    if not stars:
        return ""
    return (
        "what is underlined, from a star on, is worked once and then again as often as it"
        " says."
    )
