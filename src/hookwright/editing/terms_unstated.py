"""Does the pattern say whether its stitches are in US or in UK terms?

Most names of stitches stand for two stitches, one in each terms. Where words of only one of
them show which it is, a line that says so changes nothing and may be put in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import rows_of, with_parts, words_used
from hookwright.finding import Edit, Finding, Severity
from hookwright.regex import regex
from hookwright.source import Span

_US_ONLY = frozenset("sc hdc esc fsc fhdc rsc single".split())
_UK_ONLY = frozenset("htr ehtr fhtr".split())
_OF_BOTH = frozenset("dc tr dtr trtr edc etr fdc double treble triple".split())
_HALF_TREBLE = regex(r"\bhalf[ -]treble", re.IGNORECASE)
_NAMES_TERMS = regex(
    r"\b(?:UK|US|U\.K\.|U\.S\.|British|American)\s+(?:crochet|terms?|names?|readers?|stitch|"
    r"abbreviations|notation|sc|dc|hdc|htr|d?tr|single|half|double|treble)\b"
)
"""A text that explains "sc = UK dc" says by that in which terms it is."""


def terms_unstated(manuscript: Manuscript) -> Iterator[Finding]:
    """One finding at the first stitch, where nothing says the terms."""
    if manuscript.pattern.terms_said or _NAMES_TERMS.search(manuscript.source.text):
        return
    used = words_used(manuscript.source.text, rows_of(manuscript))
    names = _US_ONLY | _UK_ONLY | _OF_BOTH
    first = min(
        (use.first for word, use in used.items() if with_parts([word]) & names),
        default=None,
    )
    if first is None:
        return
    proven = _proven(manuscript, with_parts(used))
    line = f"Written in {proven} terms."
    yield Finding(
        "terms-unstated",
        Severity.ADVICE,
        first,
        "Nothing says whether the stitches are in US or in UK terms.",
        f'Write "{line}" above the rows.'
        if proven
        else 'Write "Written in US terms." or "Written in UK terms." above the rows.',
        edit=_put_in(manuscript, line) if proven else None,
    )


def _proven(manuscript: Manuscript, used: set[str]) -> str:
    """The terms that only the words themselves tell; "" where they tell none, or both."""
    american = bool(used & _US_ONLY)
    british = bool(used & _UK_ONLY) or bool(_HALF_TREBLE.search(manuscript.source.text))
    if american == british:
        return ""
    terms = "US" if american else "UK"
    return terms if terms == manuscript.terms else ""


def _put_in(manuscript: Manuscript, line: str) -> Edit | None:
    """The line as a paragraph behind the title, where that heads no rows by itself."""
    source = manuscript.source
    first_row = rows_of(manuscript)[0].start
    headings = {part.span.start for part in manuscript.pattern.parts}
    for number in range(1, len(source.line_starts)):
        title = source.line_span(number)
        if not source.slice(title).strip():
            continue
        behind = source.slice(source.line_span(number + 1))
        heads = any(title.start <= start <= title.end for start in headings)
        if behind.strip() or heads or title.end >= first_row:
            return None
        return Edit(Span(title.end, title.end), f"\n\n{line}", safe=True)
    return None
