"""A report as Markdown, to be pasted into a letter or kept beside the pattern.

What comes from a pattern is set as words: its stars and brackets are no marks here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.listing.excerpt import Excerpt
from hookwright.regex import regex
from hookwright.reporting.contents import Entry, Group, Report, RowsOfPart

MARK = "<!-- hookwright check: a report -->\n"
"""How every such report begins, so that it may be written anew."""

_MARKS = regex(r"([\\`*_\[\]<>|~&#!$]|^[-+=](?=\s|$))")
_BEGINS_A_LIST = regex(r"^(\d+)([.)])")


def as_markdown(report: Report) -> str:
    """The whole report."""
    return MARK + "\n" + "\n\n".join(_blocks(report)) + "\n"


def _blocks(report: Report) -> Iterator[str]:
    yield f"# {_words(report.title)}"
    if report.facts:
        facts = (f"**{_words(name)}:** {_words(said)}" for name, said in report.facts)
        yield " · ".join(facts)
    yield _words(report.verdict)
    yield from _findings("To mend and to look at", report.findings)
    yield from _sentences("What was proven", report.proven)
    yield from _sentences("What was assumed", report.assumed)
    yield from _sentences("What was put back or left out while reading", report.notes)
    yield from _findings("Advice", report.advice)
    if report.rows:
        yield "## Row by row"
    for part in report.rows:
        if len(report.rows) > 1 and part.name:
            yield f"### {_words(part.name)}"
        yield "\n".join(_table(part, report.columns))


def _findings(heading: str, groups: Sequence[Group]) -> Iterator[str]:
    if groups:
        yield f"## {heading}"
    for group in groups:
        yield f"### {_words(group.name)}"
        for entry in group.entries:
            yield from _entry(entry)


def _entry(entry: Entry) -> Iterator[str]:
    yield f"**{_words(entry.where)}: {entry.loudness}** ({_words(entry.rule)})"
    yield _excerpt(entry.words)
    told = (entry.message, entry.why, entry.change)
    yield "  \n".join(_words(sentence) for sentence in told if sentence)
    for place in entry.related:
        yield _words(place.said[:1].upper() + place.said[1:])
        yield _excerpt(place.words)


def _excerpt(words: Excerpt) -> str:
    """The line with the words between bold marks, as a quotation."""
    before, after = _words(words.before), _words(words.after)
    marked = words.marked.strip()
    return f"> {before}**{_words(marked)}**{after}" if marked else f"> {before}{after}"


def _sentences(heading: str, sentences: Sequence[str]) -> Iterator[str]:
    if sentences:
        yield f"## {heading}"
        yield "\n".join(f"- {_words(sentence)}" for sentence in sentences)


def _table(part: RowsOfPart, columns: Sequence[str]) -> Iterator[str]:
    yield _line(["row", *columns, "holds"])
    yield _line(["---", *("--:" for _ in columns), "---"])
    for line in part.lines:
        verdict = f"**{_words(line.verdict)}**" if line.amiss else line.verdict
        yield _line([_words(line.label), *map(_words, line.figures), verdict])


def _line(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _words(text: str) -> str:
    """Words whose letters are all taken as letters."""
    return _BEGINS_A_LIST.sub(r"\1\\\2", _MARKS.sub(r"\\\1", text))
