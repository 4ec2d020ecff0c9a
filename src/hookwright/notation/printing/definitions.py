"""The special stitches of a pattern: what they are made of, or their own words for it.

Of a stitch told in hook motions the tree keeps what it comes to beside its words, and it is
printed in these.
"""

from __future__ import annotations

from hookwright.notation.definitions import beginning_names
from hookwright.notation.printing.places import place
from hookwright.notation.printing.sequence import phrases
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import sentence, stitch_word
from hookwright.notation.tree import Definition, Make


def definition_words(definition: Definition, wording: Wording) -> str:
    """A definition: "Shell (sh): (2 dc, ch 2, 2 dc) in one st."."""
    passes = definition.passes or 0
    over = f" (worked over {passes} sts)" if passes > 1 and not definition.body else ""
    return f"{_names(definition)}{over}: {_meaning(definition, wording)}."


def _names(definition: Definition) -> str:
    implied = [other for name in definition.names for other in beginning_names(name)]
    name, *short = (n for i, n in enumerate(definition.names) if not i or n not in implied)
    others = (f"({stitch_word(other)})" for other in short)
    return " ".join([sentence(stitch_word(name)), *others])


def _meaning(definition: Definition, wording: Wording) -> str:
    if definition.is_alias:
        return stitch_word(definition.stitch)
    if definition.in_one_place:
        own = definition.place
        where = "in one st" if own is None else place(own, wording)
        body = phrases(definition.body, wording)
        return f"{body} {where}" if _of_any(definition) else f"({body}) {where}"
    if definition.body:
        return _along_the_row(definition, wording)
    return definition.words


def _of_any(definition: Definition) -> bool:
    """Whether it is so many of whichever stitch: in brackets "2 sts" would be a count."""
    first = definition.body[0]
    return len(definition.body) == 1 and isinstance(first, Make) and first.stitch == "st"


def _along_the_row(definition: Definition, wording: Wording) -> str:
    """A list; a single stitch says a word more, or it would be another name for it."""
    body = phrases(definition.body, wording)
    first = definition.body[0]
    single = len(definition.body) == 1 and isinstance(first, Make) and first.amount is None
    return f"{body}, the usual way" if single else body
