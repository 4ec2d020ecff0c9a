"""What else has a designer to see to, in a text that is written for another size?"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.sizing.finished_sizes import SizeMeasured, lengths_left, sides_unlike
from hookwright.sizing.left_standing import numbers_left
from hookwright.source import Span

_AMOUNT = regex(
    r"\d[ \t]?(?:g|gm|grams?|grammes?|oz|ounces?|m|meters?|metres?|yds?|yards?)\b|"
    r"\b(?:balls?|skeins?|hanks?|cakes?)\b",
    re.IGNORECASE,
)
_AMOUNTS = (
    "The amounts of yarn stand as they were: they are those of the size it was written in."
)


def notes_on(
    checked: Checked, measured: Sequence[SizeMeasured], edits: Sequence[Edit]
) -> Iterator[str]:
    """What else the designer has to see to, in sentences.

    Args:
        checked: The text as it was.
        measured: The sizes that are written.
        edits: What is changed for them.
    """
    if not edits:
        return
    left = _quoted(checked, lengths_left(checked, measured, edits))
    if left:
        yield f"These lengths stand as they were: {left}."
    stale = _quoted(checked, numbers_left(checked, edits))
    if stale:
        yield f"These words tell of the size it was written in: {stale}."
    yield from (
        f"The text calls it square: it comes {sides}, as near as whole sets of rows come."
        for sides in sides_unlike(checked, measured)
    )
    yield from _colours_by_row(checked, measured)
    materials = checked.design.section(Holds.MATERIALS)
    if materials is not None and _AMOUNT.search(checked.source.slice(materials.body)):
        yield _AMOUNTS


def _quoted(checked: Checked, spans: Iterable[Span]) -> str:
    """Words of the text as they are quoted, each once."""
    words = [" ".join(checked.source.slice(span).split()).rstrip(".") for span in spans]
    return ", ".join(f'"{own}"' for own in dict.fromkeys(words))


def _colours_by_row(checked: Checked, measured: Sequence[SizeMeasured]) -> Iterator[str]:
    """A table that gives each row its colour, where there are other rows now."""
    last = max((number for number, _ in checked.reading.pattern.stripes), default=0)
    sized = [(one.part.rows, one) for one in measured]
    was = {rows.at(one.part.set_repeats) for rows, one in sized if rows is not None}
    now = {rows.at(one.sets) for rows, one in sized if rows is not None}
    if last in was and now != {last}:
        told = " and ".join(str(number) for number in sorted(now - {last}))
        yield (
            f"The table of rows and colours goes to row {last}, and the piece has {told}"
            " rows now: share them out anew."
        )
