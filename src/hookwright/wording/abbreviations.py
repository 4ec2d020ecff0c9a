"""The list of abbreviations, made of those that the text uses.

An entry that nothing uses any more goes ("sk" where the text says "miss"), a word of the
rows that is missing comes in, and a list that was in the order of the alphabet is in it
again under its new names. An entry that says how a stitch is worked always stays.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hookwright.checking import Checked
from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import plain_form
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.undefined_abbreviation import undefined_abbreviations
from hookwright.editing.unused_abbreviation import unused_abbreviations
from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.wording.edits import Layered

IN_FULL = "None: every word is written in full."
"""What stands in the place of a list where no word is short."""

_LONGEST_GAP = 12
_HAS_WORDS = regex(r"[A-Za-z0-9]")
_FEWEST = 2


def without_list(
    checked: Checked, text: Layered, left: Sequence[Span] = ()
) -> Iterator[Edit]:
    """The change that leaves of a list only what says how a stitch is worked.

    Args:
        checked: The source.
        text: The text so far, its abbreviations still short.
        left: Where the words of the source stay as they are; a list in them stays whole.
    """
    entries = _entries(checked)
    if any(entry.span in span for entry in entries for span in left):
        return
    spans = [text.span_on(entry.span) for entry in entries]
    if not _is_list(text.text, spans):
        return
    kept = [
        text.text[span.start : span.end]
        for entry, span in zip(entries, spans, strict=True)
        if _defines(checked, entry)
    ]
    gap = text.text[spans[0].end : spans[1].start]
    yield Edit(spans[0].to(spans[-1]), gap.join(kept) or IN_FULL)


def list_of_used(source: Checked, written: Checked) -> Iterator[Edit]:
    """The change of a written text that makes its list one of what is used in it.

    What is unused, and what is missing, is what the tech edit says of the written text.
    """
    entries = _entries(written)
    spans = [entry.span for entry in entries]
    text = written.source.text
    if not _is_list(text, spans):
        return
    gap = text[spans[0].end : spans[1].start]
    manuscript = _manuscript(written)
    idle = {finding.span for finding in unused_abbreviations(manuscript)}
    kept = [
        text[entry.span.start : entry.span.end]
        for entry in entries
        if _defines(written, entry)
        or not any(span.start <= entry.span.start < span.end for span in idle)
    ]
    kept += [
        finding.edit.replacement.strip(gap + "\n")
        for finding in undefined_abbreviations(manuscript)
        if finding.edit is not None
    ]
    if _in_order(_entries(source)):
        kept.sort(key=_first_word)
    if kept and kept != [text[span.start : span.end] for span in spans]:
        yield Edit(spans[0].to(spans[-1]), gap.join(kept))


def _manuscript(written: Checked) -> Manuscript:
    """A written text as the tech edit looks at it."""
    return Manuscript(
        written.source,
        written.reading.pattern,
        written.worked,
        written.design,
        written.terms,
        written.draft.only_words,
    )


def _entries(checked: Checked) -> list[Abbreviation]:
    """The entries, each once though it tells two spellings."""
    found = {entry.span: entry for entry in reversed(checked.design.abbreviations)}
    return [found[span] for span in sorted(found)]


def _is_list(text: str, spans: Sequence[Span]) -> bool:
    """Whether entries follow one another with nothing but a gap between them."""
    gaps = [text[a.end : b.start] for a, b in pairwise(spans)]
    loose = any(len(gap) > _LONGEST_GAP or _HAS_WORDS.search(gap) for gap in gaps)
    return len(spans) >= _FEWEST and not loose


def _defines(checked: Checked, entry: Abbreviation) -> bool:
    """Whether an entry says how a stitch of the pattern is worked."""
    return any(
        entry.span.start <= definition.span.start < entry.span.end
        for definition in checked.reading.pattern.definitions
        if not definition.is_alias
    )


def _in_order(entries: Sequence[Abbreviation]) -> bool:
    words = [plain_form(entry.word) for entry in entries]
    return words == sorted(words)


_MARK = regex(r"[=:\t|–—]| - ")


def _first_word(entry: str) -> str:
    return plain_form(_MARK.split(entry, 1)[0])
