"""Where in a worksheet does each table, key and value stand?

What reads TOML gives the values without their places. This finds the places in a text that
is known to be TOML, so it only has to tell where names and values begin and end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from hookwright.regex import regex
from hookwright.source import Span

_GAP = regex(r"(?:[ \t\r\n\ufeff]+|#[^\n]*)*")
_NAME = regex(r"""[ \t]*(?:"((?:[^"\\\n]|\\.)*)"|'([^'\n]*)'|([A-Za-z0-9_-]+))[ \t]*""")
_STRING = regex(r""""(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_LONG_STRING = {
    '"""': regex(r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}', re.DOTALL),
    "'''": regex(r"'''(?:[^']|'(?!''))*'{3,5}"),
}
_PLAIN = regex(r"[^\"'\[\]{}#\n]+")


class Entry(Struct, frozen=True):
    """A heading of a table, or a key with its value.

    Attributes:
        path: The names that lead to it, from the outermost.
        table: Which table of its name this is, from 0.
        name: Where the first of its own names stands.
        value: Where its value stands; for a heading, its brackets.
        is_heading: Whether it begins a table.
        doubled: Whether a heading has double brackets.
    """

    path: tuple[str, ...]
    table: int
    name: Span
    value: Span
    is_heading: bool = False
    doubled: bool = False


def entries_of(text: str) -> Iterator[Entry]:
    """Every heading and every key outside of lists and braces, in order."""
    head: tuple[str, ...] = ()
    numbers: dict[str, int] = {}
    at = 0
    while (at := _past_gap(text, at)) < len(text):
        if text[at] == "[":
            entry, at = _heading(text, at, numbers)
            head = entry.path
        else:
            entry, at = _key(text, at, head, numbers)
        yield entry


def _past_gap(text: str, at: int) -> int:
    found = _GAP.match(text, at)
    return found.end() if found else at


def _heading(text: str, at: int, numbers: dict[str, int]) -> tuple[Entry, int]:
    doubled = text.startswith("[[", at)
    path, name, end = _names(text, at + 1 + doubled)
    end = min(len(text), end + 1 + doubled)
    if path[:1] and (len(path) == 1 and (doubled or path[0] not in numbers)):
        numbers[path[0]] = numbers.get(path[0], -1) + 1
    number = numbers.get(path[0], 0) if path else 0
    return Entry(path, number, name, Span(at, end), is_heading=True, doubled=doubled), end


def _key(
    text: str, at: int, head: tuple[str, ...], numbers: dict[str, int]
) -> tuple[Entry, int]:
    path, name, end = _names(text, at)
    start = end + 1
    while start < len(text) and text[start] in " \t":
        start += 1
    end = max(_end_of_value(text, start), at + 1)
    stop = start + len(text[start:end].rstrip())
    whole = head + path
    number = numbers.get(whole[0], 0) if whole else 0
    return Entry(whole, number, name, Span(start, max(start, stop))), end


def _names(text: str, at: int) -> tuple[tuple[str, ...], Span, int]:
    """The names of a dotted key, where the first stands, and what follows them."""
    names: list[str] = []
    first = Span(at, at)
    while found := _NAME.match(text, at):
        at = found.end()
        names.append(next(group for group in found.groups() if group is not None))
        if len(names) == 1:
            words = found[0]
            start = found.start() + len(words) - len(words.lstrip())
            first = Span(start, start + len(words.strip()))
        if not text.startswith(".", at):
            break
        at += 1
    return tuple(names), first, at


def _end_of_value(text: str, at: int) -> int:
    """The end of a value: of its line, if no bracket is open there."""
    depth = 0
    while at < len(text):
        letter = text[at]
        if letter == "\n" and depth <= 0:
            return at
        if letter == "#":
            if depth <= 0:
                return at
            at = _past_gap(text, at)
        elif letter in "\"'":
            at = _past_string(text, at)
        elif letter in "[{":
            depth, at = depth + 1, at + 1
        elif letter in "]}":
            depth, at = depth - 1, at + 1
        else:
            plain = _PLAIN.match(text, at)
            at = plain.end() if plain else at + 1
    return at


def _past_string(text: str, at: int) -> int:
    """The end of words in quotes; of long ones that are not closed, that of the text."""
    long = _LONG_STRING.get(text[at : at + 3])
    if long is not None:
        found = long.match(text, at)
        return found.end() if found else len(text)
    found = _STRING.match(text, at)
    return found.end() if found else at + 1
