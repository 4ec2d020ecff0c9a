"""Do the stripes come to the rows that are worked, and to the number the text claims?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec.structs import replace

from hookwright.design.stripes import StripePlan, TableRow, stripe_plans, stripe_tables
from hookwright.editing.main_piece import Piece, main_piece
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Related, Severity


def stripe_counts(manuscript: Manuscript) -> Iterator[Finding]:
    """A sequence that contradicts its own total, or the rows; a table that does."""
    source, pattern = manuscript.source, manuscript.pattern
    plans = stripe_plans(source, pattern)
    piece = _piece(manuscript) if len(plans) == 1 and plans[0].times else None
    for plan in plans:
        own = _against_claim(plan)
        if own is not None:
            yield own
        elif piece is not None:
            yield from _against_rows(plan, piece)
    for table in stripe_tables(source, pattern):
        yield from _within_table(table)


def _piece(manuscript: Manuscript) -> Piece | None:
    """The main piece, where every size has as many rows and none is left open."""
    text = manuscript.source.text
    pieces = [main_piece(manuscript.pattern, w, text) for w in manuscript.worked.sizes]
    first = pieces[0] if pieces else None
    if first is None or first.open_ended or not first.alone:
        return None
    alike = all(p is not None and len(p.rows) == len(first.rows) for p in pieces)
    return first if alike else None


def _against_claim(plan: StripePlan) -> Finding | None:
    """The sum of the stripes against the number that is told for them."""
    if plan.claimed is None or plan.claim is None:
        return None
    told = replace(plan, after=()) if plan.of_repeats else plan
    count = told.number if plan.of_stripes else told.rows
    sums = [count(times) for times in plan.times or (1,)]
    goes_on = not plan.times and (plan.claimed >= 2 * sums[0] or len(plan.stripes) < 4)
    if plan.claimed in sums or goes_on:
        return None
    unit = "stripes" if plan.of_stripes else "rows"
    return Finding(
        "measure",
        Severity.ERROR,
        plan.claim,
        f"The stripe sequence is said to come to {plan.claimed} {unit}, but "
        f"{_sum_told(told)} is {sums[0]}.",
        f"Write {sums[0]}, or look at the stripes and how often they are worked.",
        related=(Related(plan.span, "the sequence"),),
    )


def _sum_told(plan: StripePlan) -> str:
    """How a sum comes about: "9 times 12 and 2 more"."""
    each = len(plan.stripes) if plan.of_stripes else sum(s.rows for s in plan.stripes)
    after = len(plan.after) if plan.of_stripes else sum(s.rows for s in plan.after)
    times = plan.times[0] if plan.times else 1
    told = f"{times} times {each}" if plan.times else f"the sum of {each}"
    return f"{told} and {after} more" if after else told


_BESIDE = 2
"""Rows before or after the stripes that their number may leave out."""


def _against_rows(plan: StripePlan, piece: Piece) -> Iterator[Finding]:
    """The sum against the rows, where the text tells how often the sequence is worked."""
    if not plan.times or plan.of_stripes:
        return
    sums = {plan.rows(times) for times in plan.times}
    numbered = [o for o in piece.rows if o.step.number is not None]
    rows = {len(piece.rows), len(numbered)}
    is_sample = len(piece.rows) * 2 < min(sums)
    if sums & rows or is_sample:
        return
    planned = plan.rows(plan.times[0])
    beside = 0 < len(piece.rows) - planned <= _BESIDE
    last = piece.rows[-1].step
    yield Finding(
        "measure",
        Severity.ADVICE if beside else Severity.WARNING,
        plan.span if plan.of_repeats else plan.claim or plan.span,
        f"The stripe sequence comes to {planned} rows ({_sum_told(plan)}), but "
        f"{len(piece.rows)} rows are worked.",
        "Look at the last row number, and at how often the sequence is worked.",
        related=(Related(last.span, "the last row"),),
    )


def _within_table(table: Sequence[TableRow]) -> Iterator[Finding]:
    """A row that a table leaves out or tells twice."""
    numbers = any(row.ranged for row in table)  # "2 Oat" alone may be two rows of it
    if any(row.last < row.first for row in table) or not numbers:
        return
    amiss = [pair for pair in pairwise(table) if pair[1].first != pair[0].last + 1]
    if len(amiss) != 1:
        return
    before, row = amiss[0]
    if row.first == table[0].first:  # another table begins
        return
    if row.first > before.last:
        missing = range(before.last + 1, row.first)
        link = "and" if len(missing) == 2 else "to"
        several = f"Rows {missing[0]} {link} {missing[-1]} have"
        which = f"Row {missing[0]} has" if len(missing) == 1 else several
        message = f"{which} no colour in the table."
    else:
        message = f"Row {row.first} is told twice: in {before.colour} and in {row.colour}."
        if before.colour == row.colour:
            return
    yield Finding(
        "measure",
        Severity.WARNING,
        row.span,
        message,
        "Number the lines of the table on, or put in what is missing.",
        related=(Related(before.span, "the line before"),),
    )
