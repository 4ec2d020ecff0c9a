"""Changes of a text as read, made in the file that it was read from.

In a .md file marks are blanked out while reading, and line ends are made alike. A change is
made only where each of its words stands in the file just as it was read, and only if the
changed file reads as the changed text, letter for letter. All else in it stays as it is.
"""

from __future__ import annotations

import codecs
import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.finding import Edit
from hookwright.reading.draft import Draft, UnreadableDraft
from hookwright.reading.opening import read_bytes
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.source import Span

CHANGEABLE = (".md", ".markdown", ".txt", ".text")
"""Endings of the files that changes are made in."""


class Changed(Struct, frozen=True):
    """A file with changes made in it.

    Attributes:
        data: Its contents.
        before: Its words before, as they stand in the file.
        after: Its words after.
        made: The changes that were made, in the order of the text.
        waiting: Changes that touch the words of one that was made.
        refused: Changes that cannot be made exactly.
    """

    data: bytes
    before: str
    after: str
    made: tuple[Edit, ...] = ()
    waiting: tuple[Edit, ...] = ()
    refused: tuple[Edit, ...] = ()


class _File(Struct, frozen=True):
    """A text file in memory.

    Attributes:
        data: Its bytes.
        kind: The ending of its name.
        words: Its text, line ends as they are.
        encoding: How it is written down.
        crlf: Where, in the text with plain line ends, a line end of two letters stands.
    """

    data: bytes
    kind: str
    words: str
    encoding: str
    crlf: tuple[int, ...]

    def at(self, offset: int) -> int:
        """Where a character of the text as read stands in the file's own text."""
        return offset + bisect_left(self.crlf, offset)


def with_changes(data: bytes, kind: str, draft: Draft, edits: Sequence[Edit]) -> Changed:
    """Make changes in a file.

    Args:
        data: The file.
        kind: The ending of its name, one of `CHANGEABLE`.
        draft: The draft as it was read from this file.
        edits: Changes of the text as read. Of two that touch, the first is made.
    """
    text = decoded(data)
    ends = [found.start() for found in re.finditer("\r\n", text.text)]
    crlf = tuple(end - number for number, end in enumerate(ends))
    file = _File(data, kind, text.text, text.encoding, crlf)
    exact = [edit for edit in dict.fromkeys(edits) if _is_exact(edit, file, draft)]
    apart, waiting = _apart(exact)
    made = _that_read_back(apart, file, draft)
    changed = _data(file, made)
    assert changed is not None
    return Changed(
        changed,
        text.text,
        _words(file, made),
        tuple(made),
        tuple(waiting),
        tuple(e for e in dict.fromkeys(edits) if e not in made and e not in waiting),
    )


def _is_exact(edit: Edit, file: _File, draft: Draft) -> bool:
    """Whether the words that go stand in the file as they were read.

    Words that are put in may stand at the edge of a mark, but not inside of one.
    """
    text, span = draft.source.text, edit.span
    words = with_plain_line_ends(file.words)
    if not 0 <= span.start <= span.end <= len(text) == len(words):
        return False
    if span.start == span.end:
        beside = range(max(0, span.start - 1), min(len(text), span.start + 1))
        return any(text[at] == words[at] for at in beside) or not beside
    return words[span.start : span.end] == text[span.start : span.end]


def _apart(edits: Sequence[Edit]) -> tuple[list[Edit], list[Edit]]:
    """The changes that touch none before them, and the others."""
    apart: list[Edit] = []
    touching: list[Edit] = []
    for edit in sorted(edits, key=lambda edit: edit.span):
        free = not apart or edit.span.start > apart[-1].span.end
        (apart if free else touching).append(edit)
    return apart, touching


def _that_read_back(edits: list[Edit], file: _File, draft: Draft) -> list[Edit]:
    """The changes after which the file reads as the changed text."""
    if _reads_back(edits, file, draft):
        return edits
    alone = [edit for edit in edits if _reads_back([edit], file, draft)]
    return alone if _reads_back(alone, file, draft) else []


def _reads_back(edits: Sequence[Edit], file: _File, draft: Draft) -> bool:
    data = _data(file, edits)
    if data is None:
        return False
    try:
        read = read_bytes(data, file.kind, draft.source.name)
    except UnreadableDraft:
        return False
    return read.source.text == "".join(_pieces(draft.source.text, edits))


def _pieces(text: str, edits: Sequence[Edit]) -> Iterator[str]:
    """The pieces of a text with changes made in it."""
    at = 0
    for edit in edits:
        yield text[at : edit.span.start]
        yield edit.replacement
        at = edit.span.end
    yield text[at:]


def _words(file: _File, edits: Sequence[Edit]) -> str:
    end = "\r\n" if file.crlf else "\n"
    inside = [
        Edit(
            Span(file.at(edit.span.start), file.at(edit.span.end)),
            edit.replacement.replace("\n", end),
        )
        for edit in edits
    ]
    return "".join(_pieces(file.words, inside))


def _data(file: _File, edits: Sequence[Edit]) -> bytes | None:
    """The file with changes made; None where its encoding lacks a letter of them."""
    if not edits:
        return file.data
    encoding, mark = file.encoding, b""
    if encoding == "utf-16":
        big = file.data.startswith(codecs.BOM_UTF16_BE)
        encoding = "utf-16-be" if big else "utf-16-le"
        mark = codecs.BOM_UTF16_BE if big else codecs.BOM_UTF16_LE
    try:
        return mark + _words(file, edits).encode(encoding)
    except UnicodeEncodeError:
        return None
