"""The line of a pattern that a finding speaks of, with carets under the exact words.

A row of a pattern may be longer than the screen is wide. Then only the stretch around the
words is shown, and dots stand for the rest.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.listing.columns import beginning, columns_of, end, writable
from hookwright.regex import regex
from hookwright.source import Source, Span

_BEFORE = "... "
_AFTER = " ..."
_BROKEN_WORD = 16
"""A word cut by the edge is left out, unless it is longer than words are."""


class Excerpt(Struct, frozen=True):
    """A stretch of a line in three pieces, ready to be written."""

    before: str
    marked: str
    after: str

    @property
    def words(self) -> str:
        """The stretch itself."""
        return self.before + self.marked + self.after

    @property
    def margin(self) -> str:
        """The room under what stands before the marked words."""
        return " " * columns_of(self.before)

    @property
    def carets(self) -> str:
        """A caret under every column of the marked words, at least one."""
        return "^" * max(1, columns_of(self.marked))


def excerpt(source: Source, span: Span, columns: int) -> Excerpt:
    """The line that a span begins in, or as much of it around the span as fits."""
    line = source.line_span(source.line_of(span.start))
    marked = _within(source, span, line)
    # A letter may take no column at all, so a few more than fit are looked at; not all of
    # them, for a line may be a megabyte long.
    reach = columns * 4
    first, last = max(line.start, marked.start - reach), min(line.end, marked.end + reach)
    before = _evenly(source.text[first : marked.start])
    after = _evenly(source.text[marked.end : last])
    words = _evenly(source.text[marked.start : min(marked.end, marked.start + reach)])
    if first == line.start:
        before = before.lstrip()
    if last == line.end:
        after = after.rstrip()
    if columns_of(before + words + after) <= columns:
        return Excerpt(before, words, after)
    return _around(before, words, after, columns)


_GAPS = regex(" {2,}")


def _evenly(text: str) -> str:
    """The words without the wide gaps that marks of emphasis leave behind."""
    return _GAPS.sub(" ", writable(text))


def _within(source: Source, span: Span, line: Span) -> Span:
    """The span's words in this line, without white space at their ends."""
    stop = max(span.start, min(span.end, line.end))
    words = source.text[span.start : stop]
    start = span.start + len(words) - len(words.lstrip())
    return Span(start, max(start, start + len(words.strip())))


def _around(before: str, words: str, after: str, columns: int) -> Excerpt:
    """The marked words with as much as fits on both sides, more of it before them."""
    most = columns - len(_BEFORE) - len(_AFTER)
    if columns_of(words) > most:
        return Excerpt(_BEFORE if before else "", beginning(words, most).rstrip(), _AFTER)
    room = columns - columns_of(words)
    wanted_before, wanted_after = columns_of(before), columns_of(after)
    share = min(room * 2 // 3, room - len(_AFTER))
    room_before = min(wanted_before, max(share, room - wanted_after))
    return Excerpt(
        before if room_before == wanted_before else _ending(before, room_before),
        words,
        after
        if wanted_after <= room - room_before
        else _beginning(after, room - room_before),
    )


def _ending(text: str, columns: int) -> str:
    kept = end(text, columns - len(_BEFORE))
    first_word = kept.find(" ")
    if 0 <= first_word < _BROKEN_WORD:
        kept = kept[first_word:]
    return _BEFORE + kept.lstrip()


def _beginning(text: str, columns: int) -> str:
    kept = beginning(text, columns - len(_AFTER))
    last_word = kept.rfind(" ")
    if last_word >= 0 and len(kept) - last_word < _BROKEN_WORD:
        kept = kept[:last_word]
    return kept.rstrip() + _AFTER
