"""Does a label say what its row is: as many rows as are worked, and rows that are there?"""

from __future__ import annotations

import re

from hookwright.notation.tree import Recall, RowText
from hookwright.regex import regex
from hookwright.working.planner import Planner
from hookwright.working.ranges import rows_by_words


def check_label(
    planner: Planner, row: RowText, recall: Recall | None, labelled: int
) -> None:
    """Notes where a label contradicts its words, for as many rows as it stands for."""
    _check_range(planner, row, recall, labelled)
    _check_number_told(planner, row, labelled)
    _check_named(planner, row, recall)


def _check_range(
    planner: Planner, row: RowText, recall: Recall | None, labelled: int
) -> None:
    """Tells a label that stands for another number of rows than its words work."""
    if recall is None or row.label is None:
        return
    worked = rows_by_words(row.label, recall, labelled, planner.at)
    if worked != labelled:
        told = f"{labelled} rows, but its words work {worked}"
        planner.problems.append(("row-range", row.place(recall.span), told))


_NUMBER_TOLD = regex(r"\((\d{1,4}) (?:rows|rnds|rounds)\)", re.IGNORECASE)


def _check_number_told(planner: Planner, row: RowText, labelled: int) -> None:
    """Tells "Rows 8-12 (6 rows)": the label stands for 5."""
    label = row.label
    told = None if label is None or label.by_size else _NUMBER_TOLD.search(label.text)
    if label is not None and told is not None and int(told[1]) != labelled > 1:
        words = f"{labelled} rows, but says that they are {told[1]}"
        planner.problems.append(("row-range", label.span, words))


def _check_named(planner: Planner, row: RowText, recall: Recall | None) -> None:
    """Tells a row that is not there among others that are: "Rep Rows 2 and 9" of five."""
    if recall is None or recall.part or recall.label or len(recall.rows) < 2:
        return
    known = planner.there | planner.known.keys()
    lacking = [n for n in (*recall.rows, *recall.then) if n > 0 and n not in known]
    if lacking and len(lacking) < len(recall.rows):
        named = ", ".join(map(str, lacking))
        planner.problems.append(("missing-target", row.place(recall.span), named))
