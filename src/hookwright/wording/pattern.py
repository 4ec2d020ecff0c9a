"""From a pattern that is read and worked to the same pattern in other words, proven.

Every row is first tried in the way that suits the form, and the whole text is read again.
A row that reads otherwise than its tree says is tried in the next way: in her own words,
set anew from the tree, and last in her own words with nothing but the terms changed. What
even so reads otherwise is told; nothing of a text is ever left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked, worked_through
from hookwright.design import read_design
from hookwright.design.facts import Noted
from hookwright.finding import Edit
from hookwright.notation import Reading, read_pattern
from hookwright.notation.tree import Pattern, RowText
from hookwright.reading import Draft
from hookwright.reading.draft import Heading, SameLines
from hookwright.source import Source, Span
from hookwright.wording.abbreviations import list_of_used
from hookwright.wording.asked import Asked, Form
from hookwright.wording.edits import Layered
from hookwright.wording.expected import essence, expected, is_as_wanted, rows_of
from hookwright.wording.layers import Job, Way, layered, ways
from hookwright.wording.layout import Pictures, laid_out
from hookwright.wording.one_size import rows_gone
from hookwright.wording.same_fabric import Difference, differing_row
from hookwright.wording.told_terms import terms_told
from hookwright.wording.written import Written

_MOST_TRIES = 6


class Kept(Struct, frozen=True):
    """A row or sentence that could not be worded as asked.

    Attributes:
        row: The label of the row; "" for words that are no row.
        span: Where it stands in the source.
        why: What became of it, in a sentence.
    """

    row: str
    span: Span
    why: str


class Worded(Struct, frozen=True):
    """A pattern in other words.

    Attributes:
        source: The pattern, read and worked.
        asked: The wording.
        edits: What was changed in its text, in reading order; none touches the next.
        checked: The new text, read and worked; it has no findings, as nobody looked.
        written: The new text in sections and blocks.
        kept: What could not be worded as asked.
        notes: What else the designer has to see to, in sentences.
        differs: The first row that is another fabric than in the source; None where all
            are the same.
    """

    source: Checked
    asked: Asked
    edits: tuple[Edit, ...]
    checked: Checked
    written: Written
    kept: tuple[Kept, ...] = ()
    notes: tuple[str, ...] = ()
    differs: Difference | None = None

    @property
    def text(self) -> str:
        """The new text, as it is read: without the marks of any kind of file."""
        return self.checked.source.text


def write_pattern(checked: Checked, asked: Asked, pictures: Pictures = ()) -> Worded:
    """A pattern in the words that were asked for.

    Args:
        checked: The pattern, read and worked.
        asked: The wording.
        pictures: The pictures its file places, which the text as read has not.
    """
    job = _job(checked, asked)
    text = _worded(job)
    again = _checked(job, text)
    differs = differing_row(checked, again, asked.size)
    for _ in range(_MOST_TRIES):
        if differs is None or not (_beside_down(job, text) or job.way_down(differs)):
            break
        text = _worded(job)
        again = _checked(job, text)
        differs = differing_row(checked, again, asked.size)
    text, again = _listed(job, text, again, differs)
    written = laid_out(checked, asked, again, text, job.kept_rows, pictures)
    kept = tuple(_kept(job))
    notes = tuple(job.notes())
    return Worded(checked, asked, text.edits, again, written, kept, notes, differs)


def _listed(
    job: Job, text: Layered, again: Checked, differs: Difference | None
) -> tuple[Layered, Checked]:
    """The text with its list of abbreviations made of those it uses."""
    made = text.then(list_of_used(job.checked, again))
    if made is text or job.asked.form is not Form.SHORT:
        return text, again
    checked = _checked(job, made)
    if differing_row(job.checked, checked, job.asked.size) != differs:
        return text, again
    return made, checked


def _job(checked: Checked, asked: Asked) -> Job:
    terms = checked.terms or checked.worked.terms
    known = replace(checked.reading.pattern, terms=terms)
    whole = replace(asked, terms=asked.terms or terms)
    gone = rows_gone(checked, asked.size)
    wanted = essence(expected(known, whole, gone))
    told = [definition.span for definition in known.definitions]
    told += [statement.span for statement in known.statements]
    told += [multiple.span for multiple in known.multiples]
    ways_of = [ways(whole, row, told) for row in rows_of(known)]
    return Job(checked, whole, terms, gone, wanted, ways_of)


def _worded(job: Job) -> Layered:
    """The text in which as many rows as can be are set in the first way that holds."""
    text = layered(job)
    for _ in range(_MOST_TRIES):
        read = _read(job, text)
        if not terms_told(job.checked, job.asked, read) and not job.tells_terms:
            job.tells_terms = True
        elif not (_rows_down(job, read) or _no_rows(job, read, text) or _parted(job, read)):
            break
        text = layered(job)
    return text


def _rows_down(job: Job, read: Pattern) -> bool:
    """Whether a row that reads otherwise may be set in another way, which is then taken."""
    wanted, found = rows_of(job.wanted), rows_of(essence(read))
    places = [at for at in range(len(job.ways)) if at not in job.gone]
    if len(wanted) != len(found):
        return False
    pairs = enumerate(zip(wanted, found, strict=True))
    wrong = [at for at, (a, b) in pairs if not is_as_wanted(a, b)]
    return sum(job.step_down(places[at]) for at in wrong) > 0


def _parted(job: Job, read: Pattern) -> bool:
    """Whether rows are taken down where two lists of different length part."""
    wanted, found = rows_of(job.wanted), rows_of(essence(read))
    places = [at for at in range(len(job.ways)) if at not in job.gone]
    if len(wanted) == len(found):
        return False
    wrong = _first_wrong(wanted, found)
    return any(job.step_down(places[at]) for at in wrong if at < len(places))


def _no_rows(job: Job, read: Pattern, text: Layered) -> bool:
    """Whether words that are no row are read as one, and are then left as they are."""
    source = job.checked.source
    rows = rows_of(job.checked.reading.pattern)
    done = False
    for row in rows_of(read):
        span = text.span_back(row.span)
        if any(own.span.start < span.end and span.start < own.span.end for own in rows):
            continue
        first, last = (
            source.line_of(span.start),
            source.line_of(max(span.start, span.end - 1)),
        )
        for line in range(first, last + 1):
            done = job.leave(source.line_span(line)) or done
    return done


def _first_wrong(wanted: Sequence[RowText], found: Sequence[RowText]) -> Sequence[int]:
    """Where two lists of rows of different length part, with the row before and behind."""
    pairs = zip(wanted, found, strict=False)
    parts = (i for i, (a, b) in enumerate(pairs) if not is_as_wanted(a, b))
    at = next(parts, min(len(wanted), len(found)))
    return range(max(0, at - 1), at + 2)


def _beside_down(job: Job, text: Layered) -> bool:
    """Whether words beside the rows that read otherwise may be left as they are."""
    read = _read(job, text)
    plain = essence(read)
    done = len(read.sizes) != len(job.wanted.sizes) and _sizes_left(job)
    pairs = (
        (
            job.wanted.definitions,
            plain.definitions,
            job.checked.reading.pattern.definitions,
        ),
        (job.wanted.statements, plain.statements, job.checked.reading.pattern.statements),
    )
    for wanted, found, stand in pairs:
        for at, one in enumerate(wanted):
            if one not in found and at < len(stand):
                done = job.leave(_line_at(job, stand[at].span)) or done
    return done


def _line_at(job: Job, span: Span) -> Span:
    """Words with the line they begin in: of a list told in a sentence all entries stay."""
    source = job.checked.source
    line = source.line_span(source.line_of(span.start))
    return Span(line.start, max(line.end, span.end))


def _sizes_left(job: Job) -> bool:
    """Whether lines that tell all sizes may be left as they are."""
    source, names = job.checked.source, job.checked.sizes
    every = re.compile(r"\b.*\b".join(map(re.escape, names)), re.IGNORECASE)
    lines = {source.line_of(found.start()) for found in every.finditer(source.text)}
    return sum(job.leave(source.line_span(line)) for line in sorted(lines)) > 0


def _kept(job: Job) -> Iterator[Kept]:
    rows = rows_of(job.checked.reading.pattern)
    for at in sorted(job.kept_rows):
        label = rows[at].label
        yield Kept(label.text if label else "", rows[at].span, job.why_kept(at))
    for span in job.left:
        yield Kept("", span, "These words read otherwise in full, and stay short.")


def _draft(job: Job, text: Layered) -> Draft:
    draft = job.checked.draft
    source = Source(text.text, draft.source.name)
    headings = tuple(
        Heading(text.span_on(one.span), one.level)
        for one in draft.headings
        if text.span_on(one.span).end > text.on(one.span.start)
    )
    return Draft(source, SameLines(source), headings, only_words=draft.only_words)


def _read(job: Job, text: Layered) -> Pattern:
    return _reading(job, _draft(job, text)).pattern


def _reading(job: Job, draft: Draft) -> Reading:
    """A draft as it is read; the one that was read last is not read again."""
    if _is_source(job, draft):
        return job.checked.reading
    if job.read is None or job.read[0] != draft:
        levels = {heading.span.start: heading.level for heading in draft.headings}
        job.read = draft, read_pattern(draft.source, levels)
    return job.read[1]


def _checked(job: Job, text: Layered) -> Checked:
    draft = _draft(job, text)
    reading, terms = _reading(job, draft), job.asked.terms
    if _is_source(job, draft) and terms == job.checked.worked.terms:
        worked, lines = job.checked.worked, job.checked.lines
        design = replace(job.checked.design, noted=Noted())
        return Checked(draft, reading, design, worked, lines, (), terms)
    design = read_design(draft.source, reading.pattern)
    return worked_through(draft, reading, design, terms)


def _is_source(job: Job, draft: Draft) -> bool:
    """Whether nothing was changed in the text."""
    own = job.checked.draft
    return draft.source.text == own.source.text and draft.headings == own.headings


__all__ = ["Kept", "Way", "Worded", "write_pattern"]
