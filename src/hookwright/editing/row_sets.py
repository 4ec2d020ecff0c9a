"""Does a range of rows hold whole sets of those that it repeats?

"Rows 5-25: Rep Rows 2 and 3" is 21 rows, ten sets and one row more, so that the last is a
Row 2. That may be meant: it is told quietly, and not at all where the words say with which
row they end. A number of times that does not agree is told with the rows as worked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Label, Recall, RowText
from hookwright.regex import regex
from hookwright.source import Source
from hookwright.working.recalled import recall_in, repeats_itself

_ENDS = regex(
    r"\b(?:end\w*|finish\w*|last|until|then|continu\w*|over and over|"
    r"as (?:set|established))\b|\.{2,}|…",
    re.IGNORECASE,
)


def row_sets(manuscript: Manuscript) -> Iterator[Finding]:
    """A range, told once a row of the text, whose last set is broken off."""
    for part in manuscript.pattern.parts:
        for row in part.rows:
            label = row.label
            recall = recall_in(row.nodes_worked) if label is not None else None
            if label is None or recall is None or not label.ranged or label.by_size:
                continue
            if not label.numbers:  # "Next 3 rows"
                continue
            words = manuscript.source.slice(row.span)
            ends = _ENDING.search(words)
            if ends is not None and _is_plain(label, recall) and not _GOES_ON.search(words):
                yield from _wrong_end(row, label, recall, int(ends["row"]), part.name)
            if _is_open(row, label, recall, manuscript.source):
                continue
            sets, over = divmod(len(label.numbers), len(recall.rows))
            if over and sets:
                yield _finding(row, label, recall, over, part.name)


def _is_open(row: RowText, label: Label, recall: Recall, source: Source) -> bool:
    """Whether the words say themselves how it ends, or are no plain repeat of a set."""
    numbers = label.numbers
    in_order = numbers == tuple(range(numbers[0], numbers[0] + len(numbers)))
    itself = repeats_itself(row.body, recall)
    more = recall.then or _is_ended(recall)
    known = len(recall.rows) > 1 and min(recall.rows) > 0
    said = _ENDS.search(source.slice(row.span)) is not None
    return not in_order or itself or bool(more) or not known or said or bool(label.every)


def _is_ended(recall: Recall) -> bool:
    """Whether the words say how far it goes, or whose rows they are."""
    far = recall.times or recall.up_to or recall.open_length or recall.reached
    return bool(far or recall.part)


_ENDING = regex(
    r"\bend(?:s|ing)? (?:with|on|after) (?:a )?(?:row|rnd|round) (?P<row>\d{1,4})\b(?! of)",
    re.IGNORECASE,
)


_GOES_ON = regex(r"\b(?:until|so on|continu\w*|length|long|then|last)\b", re.IGNORECASE)


def _is_plain(label: Label, recall: Recall) -> bool:
    """Whether a range in order repeats a set of rows before it, as often as it takes."""
    numbers = label.numbers
    in_order = numbers == tuple(range(numbers[0], numbers[0] + len(numbers)))
    more = _is_ended(recall)
    before = len(recall.rows) > 1 and 0 < min(recall.rows) <= max(recall.rows) < numbers[0]
    return in_order and before and not more


def _wrong_end(
    row: RowText, label: Label, recall: Recall, said: int, part: str
) -> Iterator[Finding]:
    """A range that is said to end with another row of the set than it does."""
    last = recall.rows[(len(label.numbers) - 1) % len(recall.rows)]
    if last != said and said in recall.rows:
        kind = "Round" if label.is_round else "Row"
        message = f"{label.text} end with {kind} {last} of the set, not with {kind} {said}."
        why = "Look at the numbers of the label."
        yield _told(row, label, recall, Severity.WARNING, message, why, part)


def _finding(row: RowText, label: Label, recall: Recall, over: int, part: str) -> Finding:
    kind = "Round" if label.is_round else "Row"
    number = len(label.numbers)
    last = recall.rows[over - 1]
    message = (
        f"{label.text} are {number} {kind.lower()}s, no whole number of sets of "
        f"{len(recall.rows)}: the last one is worked as {kind} {last}."
    )
    why = f'If that is meant, write "ending with {kind} {last}".'
    return _told(row, label, recall, Severity.ADVICE, message, why, part)


def _told(
    row: RowText,
    label: Label,
    recall: Recall,
    severity: Severity,
    message: str,
    why: str,
    part: str,
) -> Finding:
    return Finding(
        "row-range",
        severity,
        row.place(recall.span),
        message,
        why,
        row=label.text,
        part=part or None,
        numbers=(label.numbers[0], label.numbers[-1]),
    )
