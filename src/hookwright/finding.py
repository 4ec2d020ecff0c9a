"""What is wrong in a pattern, where, and what to do about it.

A finding is a value: stages return them beside their results and never raise for
anything a designer can write.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from hookwright.source import Span


class Severity(StrEnum):
    """How loudly a finding speaks.

    An error contradicts the text itself, a warning would make a maker stop, and advice
    is a matter of style.
    """

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


class Edit(Struct, frozen=True):
    """A change of the text.

    Attributes:
        span: The words that go.
        replacement: The words that come.
        safe: Whether it may be applied unread.
    """

    span: Span
    replacement: str
    safe: bool = False


class Related(Struct, frozen=True):
    """Another place with a part in a finding, and why: "the count was set here"."""

    span: Span
    message: str


class Finding(Struct, frozen=True):
    """One thing a tech editor would report.

    Attributes:
        rule: The identifier of the rule, a word or two: "stated-count".
        severity: How loudly it speaks.
        span: What a pencil would circle.
        message: What is wrong, a sentence in the designer's words, with both numbers.
        why: What to do about it.
        related: Other places that have a part in it.
        edit: A change that would put it right.
        row: The printed label of the row it is about, if it is about a row.
        part: The part of the pattern.
        numbers: The first and last row number the label stands for.
        sizes: The names of the sizes it holds for; empty for all.
    """

    rule: str
    severity: Severity
    span: Span
    message: str
    why: str = ""
    related: tuple[Related, ...] = ()
    edit: Edit | None = None
    row: str | None = None
    part: str | None = None
    numbers: tuple[int, int] | None = None
    sizes: tuple[str, ...] = ()
