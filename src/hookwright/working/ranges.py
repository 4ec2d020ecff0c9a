"""Does a range of rows hold as many rows as its words work?

"Rows 5-25: Rep Rows 2-3 ten times" labels 21 rows and works 20. Where no number of sets is
told, the range itself says how many rows are worked, and a set may end in its middle.
"""

from __future__ import annotations

from collections.abc import Callable

from hookwright.notation.tree import Amount, Label, Often, Recall

_NUMBERED = (Often.TIMES, Often.MORE, Often.UNCLEAR)


def rows_by_words(
    label: Label, recall: Recall, labelled: int, at: Callable[[Amount], int | None]
) -> int:
    """How many rows the words work: those of the label where they tell no other number.

    `at` tells the number of the size that is planned for.
    """
    times = recall.times
    if not label.ranged or label.every or times is None or times.often not in _NUMBERED:
        return labelled
    sets = at(times.amount) if times.amount is not None else None
    if sets is None or not recall.rows:
        return labelled
    worked = len(recall.rows) * sets + len(recall.then)
    # "Rows 2-21: Rep Rows 2 and 3 nine more times" counts the first time in.
    with_first = worked + len(recall.rows) if label.numbers[0] == recall.rows[0] else worked
    return labelled if labelled == with_first else worked
