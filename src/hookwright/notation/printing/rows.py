"""One row of a pattern in words: its label, its instructions, its counts."""

from __future__ import annotations

from hookwright.notation.printing.labels import claim_words, label_words
from hookwright.notation.printing.sequence import phrases
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import sentence
from hookwright.notation.tree import RowText


def print_row(row: RowText, *, terms: str | None = None) -> str:
    """A row in words, without a line end.

    "Row 3 (RS): Ch 3 (counts as dc), dc in next 4 sts, *ch 1, sk next st, dc in next st;
    rep from * 9 more times, dc in last st, turn. (24 dc)"

    Args:
        row: The row; only its tree is printed, the text it was read from is not looked at.
        terms: The terms its stitches are in, "US" or "UK", for the words that differ beside
            them (sk or miss). US where nothing is said. `translate` changes the stitches.
    """
    return row_words(row, Wording(terms or "US"))


def row_words(row: RowText, wording: Wording) -> str:
    """A row in some wording."""
    rounds = row.label is not None and row.label.is_round
    here = wording.for_rounds(in_rounds=rounds)
    label = [label_words(row.label, here)] if row.label is not None else []
    return " ".join([*label, body_words(row, here)]).rstrip()


def body_words(row: RowText, wording: Wording) -> str:
    """The instructions and counts of a row, without its label."""
    rounds = row.label is not None and row.label.is_round
    here = wording.for_rounds(in_rounds=rounds)
    body = phrases(row.body, here)
    work = [f"{sentence(body)}."] if body else []
    counts = [claim_words(claim, here) for claim in row.claims]
    return (LINE_END if here.style.one_a_line else " ").join([*work, *counts])


LINE_END = "\n"
"""What stands between the actions of a row that has each on a line of its own."""
