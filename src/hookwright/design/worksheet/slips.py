"""A slip in the writing of a worksheet itself: where it is, and what to do about it.

What reads TOML stops at the first slip and tells it in a programmer's words.
"""

from __future__ import annotations

from hookwright.design.worksheet.places import entries_of
from hookwright.finding import Finding, Severity
from hookwright.regex import regex
from hookwright.source import Source, Span

_HOW = 'A line is a [heading], or a key with its value: terms = "US".'
_TOLD_TWICE = regex(r'Key "([^"\n]+)" already exists')
_LETTER = regex(r"Unexpected character: '(.)' at line ")
_SLIPS = {
    "InvalidControlChar": (
        "The words in quotes do not end on their line.",
        "Close the quotes at the end of the words.",
    ),
    "InvalidCharInStringError": (
        "A backslash within quotes means something of its own.",
        "Write two of them for one, or put the words in single quotes.",
    ),
    "EmptyKeyError": ("There is no key before the equals sign.", _HOW),
    "InvalidNumberError": ("This number cannot be read.", "Write it in digits: 5.5."),
    "InvalidDateError": ("This is no date.", "Put words in quotes."),
    "UnexpectedCharError": ("Something is missing in this line.", _HOW),
}


def slip(
    source: Source, rule: str, reason: Exception, line: int = 1, column: int = 0
) -> Finding:
    """The finding for a worksheet that cannot be read.

    Args:
        source: The worksheet.
        rule: The rule it comes under.
        reason: What the reading stopped with.
        line: Where it stopped.
        column: The same, from 0.
    """
    said = str(reason)
    where = source.line_span(max(1, min(line, len(source.line_starts))))
    if told_twice := _TOLD_TWICE.search(said):
        message = f'"{told_twice[1]}" is told twice.'
        span = _second(source.text, told_twice[1]) or where
        return _finding(rule, span, message, "Take out one of them.")
    if "\\x00" in said or type(reason).__name__ == "UnexpectedEofError":
        span = source.line_span(_last_line_with_words(source))
        why = "Look for a bracket, a brace or quotes that are open to the end."
        return _finding(rule, span, "Something is not closed by the end.", why)
    if letter := _LETTER.search(said):
        start = min(where.start + column, where.end)
        span = Span(start, min(start + 1, where.end))
        return _finding(rule, span, f'"{letter[1]}" cannot stand here.', _HOW)
    message, why = _SLIPS.get(
        type(reason).__name__, ("From here on the worksheet cannot be read.", _HOW)
    )
    return _finding(rule, where, message, why)


def _second(text: str, name: str) -> Span | None:
    """Where a name is told for the second time in one table."""
    seen: set[tuple[tuple[str, ...], int]] = set()
    for entry in entries_of(text):
        if (entry.path, entry.table) in seen and entry.path[-1:] == (name,):
            return entry.value if entry.is_heading else entry.name
        seen.add((entry.path, entry.table))
    return None


def _last_line_with_words(source: Source) -> int:
    return source.line_of(max(0, len(source.text.rstrip()) - 1))


def _finding(rule: str, span: Span, message: str, why: str) -> Finding:
    said = f"The worksheet cannot be read: {message[:1].lower()}{message[1:]}"
    return Finding(rule, Severity.ERROR, span, said, why)
