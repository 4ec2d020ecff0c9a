"""Which stitches go along an edge of another length, and nothing settles how many?

"60 sc evenly around" about a piece of rows says nothing of how many go on each side.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from hookwright.checking import Checked
from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import Amount, Evenly, Make, Node, RowText, Which
from hookwright.regex import regex
from hookwright.sizing.along_edges import EdgeOf, told_along
from hookwright.sizing.new_counts import row_texts
from hookwright.sizing.wishes import SIZE_RULE
from hookwright.source import Span
from hookwright.working.count import Count
from hookwright.working.sides import UNDERSIDE


def along_unsettled(
    checked: Checked, again: Checked, edits: Sequence[Edit]
) -> Iterator[Finding]:
    """What is named, so that nothing is written.

    Args:
        checked: The text as it was.
        again: The text with other numbers.
        edits: What is changed in it.
    """
    changed = [edit.span for edit in edits]
    told = told_along(checked)
    for row in _on_other_edges(checked, again):
        for node in row.body:
            amount = _along_one(node, told)
            if amount is None or _touches(row.place(amount.span), changed):
                continue
            span = row.place(node.span)
            words = " ".join(checked.source.slice(span).split())
            yield Finding(
                SIZE_RULE, Severity.ERROR, span,
                f'Nothing settles "{words}" along an edge that is longer or shorter.',
                "Say how many go along the top, the foundation and each side.",
            )  # fmt: skip


def _touches(span: Span, others: Sequence[Span]) -> bool:
    return any(other.start < span.end and span.start < other.end for other in others)


def _on_other_edges(checked: Checked, again: Checked) -> Iterator[RowText]:
    """The rows that are worked on a longer or shorter edge than before."""
    was, now = _edges(checked), _edges(again)
    for number, row in enumerate(row_texts(checked.reading.pattern)):
        at_the_side = _ROW_ENDS.search(checked.source.slice(row.span)) is not None
        if was.get(number) != now.get(number) and not at_the_side:
            yield row


_ROW_ENDS = regex(r"\brow[- ]ends?\b|\bends? of (?:the |each )?rows?\b", re.IGNORECASE)


def _edges(checked: Checked) -> dict[int, Count]:
    """How many stitches lie below each row of a text, in its first size."""
    places = {id(row): at for at, row in enumerate(row_texts(checked.reading.pattern))}
    outcomes = checked.worked.sizes[0].outcomes
    return {places[id(outcome.step.text)]: outcome.below for outcome in outcomes}


def _along_one(node: Node, told: Mapping[int, EdgeOf]) -> Amount | None:
    """How many stitches a phrase works along the top, or along the foundation."""
    if isinstance(node, (Evenly, Make)) and id(node.amount) in told:
        return node.amount
    target = node.target if isinstance(node, Make) else None
    along = target is not None and target.noun == UNDERSIDE and target.which is Which.EACH
    return target.amount if target is not None and along else None
