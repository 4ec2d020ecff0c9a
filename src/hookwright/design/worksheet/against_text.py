"""Does a worksheet say otherwise than the text it stands beside? The text counts.

Only what the text states itself is held against it: a title, the terms, the names of the
sizes. A text that is silent contradicts nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.design.facts import Design, Noted, Worksheet
from hookwright.design.worksheet.places import entries_of
from hookwright.design.worksheet.reading import RULE
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source, Span

_NO_WORDS = regex(r"[\W_]+")
_INITIALS = (
    ("extra", "x"), ("small", "s"), ("medium", "m"), ("large", "l"),
)  # fmt: skip
"""Common practice, no source: sizes are told by words or by their initials."""


def against_text(
    worksheet: Worksheet, pattern: Pattern, design: Design
) -> Iterator[Finding]:
    """A finding for each thing that the two tell differently."""
    noted = worksheet.noted
    terms = pattern.terms if pattern.terms_said else None
    if noted.terms and terms and noted.terms != terms:
        yield _finding(
            _value_of(worksheet.source, "terms"),
            f"The worksheet says {noted.terms} terms, but the pattern says {terms} terms.",
            "The pattern is read as it says. Put right the one that is wrong.",
        )
    if noted.title and design.title and not _is_same_title(noted.title, design.title):
        yield _finding(
            _value_of(worksheet.source, "title"),
            f'The worksheet calls the design "{noted.title}", '
            f'the pattern "{design.title}".',
            "Put right the one that is wrong.",
        )
    yield from _of_sizes(noted, pattern)


def _of_sizes(noted: Noted, pattern: Pattern) -> Iterator[Finding]:
    names = pattern.sizes
    if not noted.sizes or len(names) < 2:
        return
    if len(noted.sizes) != len(names):
        yield _finding(
            noted.sizes[0].span,
            f"The worksheet has {_sizes(len(noted.sizes))}, but the pattern has "
            f"{_sizes(len(names))}: {', '.join(names)}.",
            "Put right the one that is wrong.",
        )
        return
    numbered = all(name.isdigit() for name in names)
    for size, name in zip(noted.sizes, names, strict=True):
        if size.name and not numbered and _size_key(size.name) != _size_key(name):
            yield _finding(
                size.span,
                f'The worksheet has the size "{size.name}" where the pattern has "{name}".',
                "Name the sizes alike, in the same order.",
            )
            return


def _sizes(number: int) -> str:
    return f"{number} size{'' if number == 1 else 's'}"


def _size_key(name: str) -> str:
    """What two names of one size have in common: "Extra large" is "XL"."""
    words = name.lower()
    for word, initial in _INITIALS:
        words = words.replace(word, initial)
    return _NO_WORDS.sub("", words)


def _is_same_title(one: str, other: str) -> bool:
    """Whether two titles may name one design: one may say more than the other."""
    a, b = (_NO_WORDS.sub("", title.lower()) for title in (one, other))
    return a in b or b in a


def _value_of(source: Source, key: str) -> Span:
    """Where a key of [design] has its value."""
    return next(
        (e.value for e in entries_of(source.text) if e.path == ("design", key)), Span(0, 0)
    )


def _finding(span: Span, message: str, why: str) -> Finding:
    return Finding(RULE, Severity.WARNING, span, message, why)
