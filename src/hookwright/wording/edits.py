"""Changes of a text made one after the other, told as changes of the first text.

A layer of changes is made in the text that the layer before it has left. What comes out is
one list of changes of the source, none of which touch, so that they can be made in a file.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import force_setattr

from hookwright.finding import Edit
from hookwright.source import Span


class Layered(Struct, frozen=True):
    """A source text with changes made in it.

    Attributes:
        source: The text as it was.
        edits: What was changed, in reading order; none touches the next.
        text: The text as it is.
        starts: Where each change stands in it.
        ends: Where each change ends in it.
    """

    source: str
    edits: tuple[Edit, ...] = ()
    text: str = ""
    starts: tuple[int, ...] = ()
    ends: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        pieces, at, length = [], 0, 0
        starts, ends = [], []
        for edit in self.edits:
            pieces += [self.source[at : edit.span.start], edit.replacement]
            length += edit.span.start - at
            starts.append(length)
            length += len(edit.replacement)
            ends.append(length)
            at = edit.span.end
        pieces.append(self.source[at:])
        force_setattr(self, "text", "".join(pieces))
        force_setattr(self, "starts", tuple(starts))
        force_setattr(self, "ends", tuple(ends))

    def then(self, edits: Iterable[Edit]) -> Layered:
        """This text with further changes; of two that overlap the first is made."""
        apart = _apart(edits)
        if not apart:
            return self
        ours = [
            (start, end, None) for start, end in zip(self.starts, self.ends, strict=True)
        ]
        theirs = [(edit.span.start, edit.span.end, edit) for edit in apart]
        found: list[Edit] = []
        for start, end, made in _clusters(sorted([*ours, *theirs], key=_place)):
            words, at = "", start
            for edit in made:
                words += self.text[at : edit.span.start] + edit.replacement
                at = edit.span.end
            words += self.text[at:end]
            span = Span(self.back(start), self.back(end, last=True))
            if words != self.source[span.start : span.end]:
                found.append(Edit(span, words))
        return Layered(self.source, tuple(found))

    def back(self, offset: int, *, last: bool = False) -> int:
        """Where a place of the changed text lies in the source.

        Within a change it is the beginning of the words that went, or with `last` their
        end.
        """
        at = bisect_right(self.starts, offset) - 1
        if at < 0:
            return offset
        if offset < self.ends[at] or (not last and offset == self.starts[at]):
            span = self.edits[at].span
            return span.end if last and offset > self.starts[at] else span.start
        return offset - self.ends[at] + self.edits[at].span.end

    def on(self, offset: int, *, last: bool = False) -> int:
        """Where a place of the source lies in the changed text."""
        at = bisect_right(self.edits, offset, key=lambda edit: edit.span.start) - 1
        if at < 0:
            return offset
        span = self.edits[at].span
        if offset < span.end or (not last and offset == span.start):
            return self.ends[at] if last and offset > span.start else self.starts[at]
        return offset - span.end + self.ends[at]

    def span_on(self, span: Span) -> Span:
        """Where a stretch of the source lies in the changed text."""
        return Span(self.on(span.start), self.on(span.end, last=True))

    def span_back(self, span: Span) -> Span:
        """The stretch of the source that a stretch of the changed text stands for."""
        start, end = self.back(span.start), self.back(span.end, last=True)
        return Span(start, max(start, end))


_Piece = tuple[int, int, Edit | None]


def _place(piece: _Piece) -> tuple[int, int]:
    return piece[0], piece[1]


def _apart(edits: Iterable[Edit]) -> list[Edit]:
    apart: list[Edit] = []
    for edit in sorted(edits, key=lambda edit: (edit.span.start, -edit.span.end)):
        if not apart or edit.span.start >= apart[-1].span.end:
            apart.append(edit)
    return apart


def _clusters(pieces: Sequence[_Piece]) -> Iterable[tuple[int, int, list[Edit]]]:
    """Changes of both layers that touch, as one stretch with what is still to be made."""
    start = end = -1
    made: list[Edit] = []
    for first, last, edit in pieces:
        if first > end:
            if end >= 0:
                yield start, end, made
            start, end, made = first, last, []
        end = max(end, last)
        if edit is not None:
            made.append(edit)
    if end >= 0:
        yield start, end, made
