"""Do the labels of a part count on, with no number left out and none told twice?

Only rows that stand right behind one another are looked at, and a part in which more than
one number is passed is numbered by a plan of its own: every other row, or rows of a chart.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Label, PartText, RowText
from hookwright.source import Source

_LONGEST_PAUSE = 60
_TELLS_ROWS = re.compile(
    r"\b(?:rows?|rnds?|rounds?|rep|repeat|until|chart|times|even|again)\b", re.IGNORECASE
)


def label_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """A number left out, or told of two rows, each where the counting goes wrong."""
    source = manuscript.source
    for part in manuscript.pattern.parts:
        if any(row.label is not None and _is_planned(row.label) for row in part.rows):
            continue
        found = [finding for finding in _in_part(part, source) if finding is not None]
        if len(found) == 1:
            yield from found


def _is_planned(label: Label) -> bool:
    """Whether a label tells rows out of their order, or not the same ones in all sizes."""
    numbers = label.numbers
    run = all(after == before + 1 for before, after in pairwise(numbers))
    by_size = bool(label.by_size or label.sizes)
    return by_size or not run or bool(label.every) or label.next_rows is not None


def _in_part(part: PartText, source: Source) -> Iterator[Finding | None]:
    for at, (before, after) in enumerate(pairwise(part.rows)):
        first, second = before.label, after.label
        if first is None or second is None or not first.numbers or not second.numbers:
            continue
        if _word(first) != _word(second):  # "Row 1" and "Border Row 1"
            continue
        last, number = first.numbers[-1], second.numbers[0]
        if number > last + 1 and not _is_close(before, after, source):
            yield None
        elif number > last + 1:
            yield _left_out(part, first, second)
        elif number == last and not second.ranged and _goes_on(part, at + 2, number):
            yield _told_twice(part, second)


def _word(label: Label) -> str:
    """What the rows are called, without their number: "rnd", "border row"."""
    return re.sub(r"[^a-z ].*", "", label.text.lower()).strip().rstrip("s")


def _is_close(before: RowText, after: RowText, source: Source) -> bool:
    """Whether nothing stands between two rows that might be rows as well."""
    between = source.text[before.span.end : after.span.start]
    words = between + source.slice(before.span).rpartition("\n")[2]
    recalled = _TELLS_ROWS.search(words.split(":", 1)[-1]) is not None
    return len(between) <= _LONGEST_PAUSE and not recalled


def _goes_on(part: PartText, at: int, number: int) -> bool:
    """Whether the row after the second of its number is the next one."""
    label = part.rows[at].label if at < len(part.rows) else None
    return label is not None and label.numbers[:1] == (number + 1,)


def _left_out(part: PartText, first: Label, second: Label) -> Finding:
    missing = range(first.numbers[-1] + 1, second.numbers[0])
    kind = "Round" if second.is_round else "Row"
    several = f"are no {kind}s {missing[0]} to {missing[-1]}"
    which = f"is no {kind} {missing[0]}" if len(missing) == 1 else several
    follows = "are followed" if len(first.numbers) > 1 else "is followed"
    message = f"There {which}: {first.text} {follows} by {second.text}."
    return _finding(part, second, message, "Number the rows on, or put in what is missing.")


def _told_twice(part: PartText, label: Label) -> Finding:
    kind = "Round" if label.is_round else "Row"
    message = f"There are two rows called {kind} {label.numbers[0]}."
    return _finding(part, label, message, "Number the rows on from here.")


def _finding(part: PartText, label: Label, message: str, why: str) -> Finding:
    return Finding(
        "row-labels",
        Severity.WARNING,
        label.span,
        message,
        why,
        row=label.text,
        part=part.name or None,
        numbers=(label.numbers[0], label.numbers[-1]),
    )
