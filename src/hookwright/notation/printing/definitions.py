"""The special stitches of a pattern, as far as the tree knows what they are made of.

Of a stitch told in hook motions the tree keeps what it is built on and how many places it
draws together, not the motions: that much is printed.
"""

from __future__ import annotations

from hookwright.notation.printing.places import place
from hookwright.notation.printing.sequence import phrases
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import sentence, stitch_word
from hookwright.notation.tree import Definition, Make


def definition_words(definition: Definition, wording: Wording) -> str:
    """A definition: "Shell: (2 dc, ch 2, 2 dc) in one st."."""
    name = sentence(stitch_word(definition.names[0]))
    if definition.heads > 1 and not definition.body and (definition.passes or 0) > 1:
        stitches = f"{definition.heads} {stitch_word(definition.stitch)} that cross"
        return f"{name} (worked over {definition.passes} sts): {stitches}."
    return f"{name}: {_meaning(definition, wording)}."


def _meaning(definition: Definition, wording: Wording) -> str:
    if definition.is_alias:
        return stitch_word(definition.stitch)
    if definition.in_one_place:
        own = definition.place
        where = "in one st" if own is None else place(own, wording)
        return f"({phrases(definition.body, wording)}) {where}"
    if definition.body:
        return _along_the_row(definition, wording)
    return _drawn_together(definition)


def _along_the_row(definition: Definition, wording: Wording) -> str:
    """A list; a single stitch says a word more, or it would be another name for it."""
    body = phrases(definition.body, wording)
    first = definition.body[0]
    single = len(definition.body) == 1 and isinstance(first, Make) and first.amount is None
    return f"{body}, the usual way" if single else body


def _drawn_together(definition: Definition) -> str:
    passes = definition.passes or 1
    if definition.stitch in ("together", "cluster"):
        several = f"a cluster, {passes} sts worked together"
        return several if passes > 1 else "a cluster worked together in one st"
    if passes > 1:
        return f"{definition.stitch}{passes}tog over next {passes} sts"
    return f"a {stitch_word(definition.stitch)} cluster worked together in one st"
