"""The changes that put a text into the words that are asked for, layer on layer.

First numbers and rows, in the terms of the source; then sides, terms, the words that are
told beside the rows, and last abbreviations in full. Each layer is made in the text that
the one before has left, and looks at it as the lexer and the reader do.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from enum import StrEnum

from msgspec import Struct, field

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.notation import Reading
from hookwright.notation.lexer import Token, tokens_of
from hookwright.notation.nested import nested
from hookwright.notation.tree import Pattern, RowText, Unread
from hookwright.reading import Draft
from hookwright.source import Span
from hookwright.wording.asked import Asked, Form
from hookwright.wording.beside import beside
from hookwright.wording.country import in_terms, tells_of_both
from hookwright.wording.edits import Layered
from hookwright.wording.expected import rows_of, work_behind_label
from hookwright.wording.fractions import in_fractions
from hookwright.wording.in_full import in_full, own_names
from hookwright.wording.mirrored import for_left_hand
from hookwright.wording.one_size import in_one_size
from hookwright.wording.rows_set import row_set
from hookwright.wording.said import label_said, said
from hookwright.wording.same_fabric import Difference


class Way(StrEnum):
    """How a row is worded."""

    SPOKEN = "set anew, to be heard"
    SPOKEN_LABEL = "set anew, to be heard, under its own label"
    SET = "set anew from the tree"
    SET_SHORT = "set anew from the tree, with abbreviations"
    OWN = "in its own words"
    OWN_LABEL = "in its own words, under its own label"
    OWN_SHORT = "in its own words, with abbreviations"


_SET = (Way.SPOKEN, Way.SPOKEN_LABEL, Way.SET, Way.SET_SHORT)
_LABEL = (Way.SPOKEN_LABEL, Way.OWN_LABEL)
_SHORT = (Way.SET_SHORT, Way.OWN_SHORT)


def ways(asked: Asked, row: RowText, told: Collection[Span] = ()) -> list[Way]:
    """The ways in which a row may be worded, the best one first.

    Args:
        asked: The wording.
        row: The row.
        told: Where stitches are defined and conventions stated: a row with such words in it
            cannot be set from its instructions alone.
    """
    if asked.form is Form.SPOKEN:
        found = [Way.SPOKEN, Way.SET, Way.OWN]
        if _has_more_behind_label(row):
            found = [Way.SPOKEN, Way.SPOKEN_LABEL, Way.OWN_LABEL]
    elif asked.sets_rows:
        found = [Way.SET, Way.OWN]
    else:
        found = [Way.OWN, Way.SET]
    found += [Way.SET_SHORT] if asked.form is Form.LONG else []
    found += [Way.OWN_SHORT]  # whatever it reads as, these are the words she chose
    cannot = any(isinstance(node, Unread) and not node.likely for node in nested(row.body))
    _, nodes = work_behind_label(row)
    tells = any(span in row.span for span in told)
    if cannot or tells or not nodes:
        found = [way for way in found if way not in _SET]
    return found


def _has_more_behind_label(row: RowText) -> bool:
    """Whether a label has words of its own: "Row 2 (in BLO, except at the edges):"."""
    label = row.label
    return label is not None and row.at - label.span.end > _MARKS_BEHIND


_MARKS_BEHIND = 8
"""A side in brackets, a mark and a gap: "(RS): "."""


class Job(Struct):
    """What is asked of a pattern, and how far it has come.

    Attributes:
        checked: The pattern.
        asked: The wording, with its terms.
        terms: The terms it is in.
        gone: Rows that the only size wanted does not have.
        wanted: The tree that the new text is to be read as.
        ways: For each row the ways that are left to word it; the first is taken.
        left: Stretches beside the rows whose abbreviations stay.
        tells_terms: Whether the new text has to say its terms, as the source does not.
        downs: How often each row was set in a lesser way.
        read: The text that was read last, and what it was read as.
    """

    checked: Checked
    asked: Asked
    terms: str
    gone: frozenset[int]
    wanted: Pattern
    ways: list[list[Way]]
    left: list[Span] = field(default_factory=list)
    tells_terms: bool = False
    downs: dict[int, int] = field(default_factory=dict)
    read: tuple[Draft, Reading] | None = None

    @property
    def kept_rows(self) -> frozenset[int]:
        """The rows that could not be worded in the way that suits the form."""
        return frozenset(at for at in self.downs if at not in self.gone)

    def step_down(self, at: int) -> bool:
        """Take the next way for a row; False where there is none."""
        if len(self.ways[at]) < 2:
            return False
        self.ways[at].pop(0)
        self.downs[at] = self.downs.get(at, 0) + 1
        return True

    def way_down(self, differs: Difference) -> bool:
        """Take the next way for a row that came out as another fabric.

        Where it has its own words already, what other rows say decides how it is read.
        """
        if differs.row is not None and self.step_down(differs.row):
            return True
        anew = [at for at, own in enumerate(self.ways) if own[0] in _SET]
        return sum(self.step_down(at) for at in anew) > 0

    def leave(self, span: Span) -> bool:
        """Leave the abbreviations in a stretch; False where they are left already."""
        if self.asked.form is Form.SHORT or span in self.left:
            return False
        self.left.append(span)
        return True

    def why_kept(self, at: int) -> str:
        """What became of a row that could not be worded as asked."""
        return f"It would read otherwise, and is {self.ways[at][0]}."

    def notes(self) -> Iterator[str]:
        """What the designer has to see to."""
        if self.asked.terms != self.terms:
            for number, line in enumerate(self.checked.source.text.split("\n"), start=1):
                if tells_of_both(line):
                    yield f'Line {number} speaks of both terms and stays: "{line.strip()}"'


def layered(job: Job) -> Layered:
    """The text with all changes, each row in the first way that is left to it."""
    text = Layered(job.checked.source.text).then([*_numbers(job), *_rows(job)])
    if job.asked.left_handed:
        text = text.then(for_left_hand(text.text, job.terms))
    if job.asked.terms not in (None, job.terms):
        tokens = [t for t in tokens_of(text.text) if not _stays(job, text, t)]
        text = text.then(in_terms(text.text, tokens, str(job.asked.terms)))
    told = beside(job.checked, job.asked, text, tells_terms=job.tells_terms, left=job.left)
    text = text.then(told)
    if job.asked.form is not Form.SHORT:
        text = text.then(_full(job, text))
    if job.asked.style.fractions and job.asked.form is not Form.SPOKEN:
        beside_rows = _beside_rows(job, text)
        text = text.then(in_fractions(text.text, beside_rows, job.asked.style.fractions))
    if job.asked.form is Form.SPOKEN:
        text = text.then(_said(job, text))
    return text


def _numbers(job: Job) -> Iterator[Edit]:
    if job.asked.size is not None:
        yield from in_one_size(job.checked, job.asked.size, job.gone, _set_rows(job))


def _set_rows(job: Job) -> frozenset[int]:
    return frozenset(at for at, own in enumerate(job.ways) if own[0] in _SET)


def _rows(job: Job) -> Iterator[Edit]:
    """The rows that are set anew."""
    rows = rows_of(job.checked.reading.pattern)
    for at in sorted(_set_rows(job) - job.gone):
        yield from row_set(
            job.checked, rows[at], job.asked, job.terms,
            spoken=job.ways[at][0] in (Way.SPOKEN, Way.SPOKEN_LABEL),
        )  # fmt: skip


def _stays(job: Job, text: Layered, token: Token) -> bool:
    """Whether a word keeps its terms: in the title, or in a line that tells of both."""
    title = min(job.checked.draft.headings, key=lambda h: h.level, default=None)
    if title is not None and title.level == 1 and token.span in text.span_on(title.span):
        return True
    start = text.text.rfind("\n", 0, token.start) + 1
    end = text.text.find("\n", token.start)
    return tells_of_both(text.text[start : None if end < 0 else end])


_DOUBTFUL = {"pat": "pattern", "bet": "between"}
"""Abbreviations that are words of the language too: they are some where they are listed."""


def _full(job: Job, text: Layered) -> Iterator[Edit]:
    """Abbreviations in full, but for the stretches that stay short."""
    rows = rows_of(job.checked.reading.pattern)
    short = [
        text.span_on(rows[at].span)
        for at, own in enumerate(job.ways)
        if own[0] in _SHORT and at not in job.gone
    ]
    short += [text.span_on(span) for span in job.left]
    names = own_names([d.names for d in job.checked.reading.pattern.definitions])
    listed = {entry.word.lower() for entry in job.checked.design.abbreviations}
    names = {**names, **{word: _DOUBTFUL[word] for word in _DOUBTFUL if word in listed}}
    stretches = _outside(tokens_of(text.text), sorted(short))
    for tokens in stretches:
        yield from in_full(text.text, tokens, job.asked.terms, names, units=True)


def _beside_rows(job: Job, text: Layered) -> list[Span]:
    """What lies outside the rows."""
    rows = rows_of(job.checked.reading.pattern)
    spans = [text.span_on(row.span) for at, row in enumerate(rows) if at not in job.gone]
    return _between(spans, len(text.text))


def _between(spans: Sequence[Span], end: int) -> list[Span]:
    """The stretches that some others leave free."""
    found, at = [], 0
    for span in sorted(spans):
        if span.start > at:
            found.append(Span(at, span.start))
        at = max(at, span.end)
    return [*found, Span(at, end)]


def _said(job: Job, text: Layered) -> Iterator[Edit]:
    """The words beside the instructions, and the labels, without signs."""
    pattern = job.checked.reading.pattern
    colour = "colour" if job.asked.terms == "UK" else "color"
    kept = [text.span_on(span) for span in job.left]
    for at, row in enumerate(rows_of(pattern)):
        if at in job.gone:
            continue
        begin, _ = work_behind_label(row)
        body = text.on(begin)
        whole = text.span_on(Span(begin, row.span.end))
        plain = job.ways[at][0] in (*_SHORT, *_LABEL)
        if row.label is not None and begin >= row.label.span.end:
            label = Span(text.on(row.label.span.start), body)
            listed = row.label.by_size and job.asked.size is None
            if not plain and not listed:  # lists of sizes keep their brackets
                yield from label_said(text.text, label, colour)
            whole = Span(label.start, whole.end)
        kept.append(whole)
    stretches = _between(kept, len(text.text))
    special = [text.span_on(definition.span) for definition in pattern.definitions]
    yield from said(text.text, stretches, special)


def _outside(tokens: Sequence[Token], spans: Sequence[Span]) -> Iterator[list[Token]]:
    """The tokens between some stretches."""
    found: list[Token] = []
    at = 0
    for token in tokens:
        while at < len(spans) and spans[at].end <= token.start:
            at += 1
        if at < len(spans) and spans[at].start <= token.start:
            if found:
                yield found
            found = []
        else:
            found.append(token)
    yield found
