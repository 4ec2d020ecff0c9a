"""Do the labels of a part count on, with none left out, told twice or out of order?

Only rows that stand right behind one another are looked at, and a part in which more than
one number is passed is numbered by a plan of its own: every other row, or rows of a chart.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import FinishOff, Label, PartText, RowText
from hookwright.regex import regex
from hookwright.source import Source

_LONGEST_PAUSE = 60
_TELLS_ROWS = regex(
    r"\b(?:rows?|rnds?|rounds?|rep|repeat|until|chart|times|even|again)\b", re.IGNORECASE
)


def label_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """A number left out, or told of two rows, each where the counting goes wrong."""
    source = manuscript.source
    for part in manuscript.pattern.parts:
        if any(row.label is not None and _is_planned(row.label) for row in part.rows):
            continue
        found = _swapped(part) or [f for f in _in_part(part, source) if f is not None]
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
        last, number = first.numbers[-1], second.numbers[0]
        if number == last + 1 or _is_apart(before, first, second):
            continue  # as it should be, or another edging
        if number > last + 1 and not _is_close(before, after, source):
            yield None
        elif number == last + 2 and _has_number(part, at + 2, number):
            also = f", and there is no {_kind(second)} {number - 1}"
            yield _told_twice(part, second, also)
        elif number > last + 1 and not _is_told_before(part, at, number):
            yield _left_out(part, first, second)
        elif number == last and _has_number(part, at, number) and _is_after_gap(part, at):
            continue  # told with the number that is left out before it
        elif number == last and _goes_on(part, at + 2, second.numbers[-1]):
            yield _told_twice(part, second)
        elif number == last and not second.ranged and _goes_on(part, at + 2, number + 1):
            yield _told_twice(part, second, also=f", and no {_kind(second)} {number + 1}")


def _is_apart(before: RowText, first: Label, second: Label) -> bool:
    """Whether labels count by themselves: "Row 1" and "Border Row 1", or a next edging."""
    return _word(first) != _word(second) or _begins_again(before, second)


def _begins_again(before: RowText, label: Label) -> bool:
    """Whether a row 1 stands behind one that is fastened off: of the next edging."""
    ends = any(isinstance(node, FinishOff) for node in before.body)
    return ends and label.numbers[0] == 1


def _word(label: Label) -> str:
    """What the rows are called, without their number: "rnd", "border row"."""
    return re.sub(r"[^a-z ].*", "", label.text.lower()).strip().rstrip("s")


def _is_close(before: RowText, after: RowText, source: Source) -> bool:
    """Whether nothing stands between two rows that might be rows as well."""
    between = source.text[before.span.end : after.span.start]
    words = between + source.slice(before.span).rpartition("\n")[2]
    recalled = _TELLS_ROWS.search(words.split(":", 1)[-1]) is not None
    return len(between) <= _LONGEST_PAUSE and not recalled


def _has_number(part: PartText, at: int, number: int) -> bool:
    """Whether the row at a place bears a number, and no other."""
    label = part.rows[at].label if at < len(part.rows) else None
    return label is not None and label.numbers == (number,)


def _is_after_gap(part: PartText, at: int) -> bool:
    """Whether a number is left out between the row at a place and the one before it."""
    own, before = part.rows[at].label, part.rows[at - 1].label if at else None
    if own is None or before is None or not own.numbers or not before.numbers:
        return False
    return own.numbers[0] == before.numbers[-1] + 2


def _goes_on(part: PartText, at: int, number: int) -> bool:
    """Whether the row at a place is the one after a number."""
    label = part.rows[at].label if at < len(part.rows) else None
    return label is not None and label.numbers[:1] == (number + 1,)


def _is_told_before(part: PartText, at: int, number: int) -> bool:
    """Whether the row before took the number of the one before it, and so skips one."""
    label = part.rows[at - 1].label if at else None
    return label is not None and label.numbers[-1:] == (number - 2,)


def _swapped(part: PartText) -> list[Finding]:
    """Two rows side by side that stand in the wrong order, where all others are right.

    The numbers of 1, 2, 4, 3, 5 come out when two of them change places.
    """
    labels = [row.label for row in part.rows if row.label is not None and row.label.numbers]
    numbers = [label.numbers for label in labels]
    wrong = [at for at, (a, b) in enumerate(pairwise(numbers)) if b[0] < a[0]]
    if len(wrong) != 1 or wrong[0] == 0 or wrong[0] + 2 >= len(numbers):
        return []
    (at,) = wrong
    mended = [*numbers[:at], numbers[at + 1], numbers[at], *numbers[at + 2 :]]
    if not all(b[0] == a[-1] + 1 for a, b in pairwise(mended)):
        return []
    first, second = labels[at], labels[at + 1]
    message = f"{first.text} stands before {second.text}."
    return [_finding(part, second, message, "Put them in order, or number the rows on.")]


def _left_out(part: PartText, first: Label, second: Label) -> Finding:
    missing = range(first.numbers[-1] + 1, second.numbers[0])
    kind = _kind(second)
    several = f"are no {kind}s {missing[0]} to {missing[-1]}"
    which = f"is no {kind} {missing[0]}" if len(missing) == 1 else several
    follows = "are followed" if len(first.numbers) > 1 else "is followed"
    message = f"There {which}: {first.text} {follows} by {second.text}."
    return _finding(part, second, message, "Number the rows on, or put in what is missing.")


def _told_twice(part: PartText, label: Label, also: str = "") -> Finding:
    message = f"There are two rows called {_kind(label)} {label.numbers[0]}{also}."
    return _finding(part, label, message, "Number the rows on from here.")


def _kind(label: Label) -> str:
    return "Round" if label.is_round else "Row"


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
