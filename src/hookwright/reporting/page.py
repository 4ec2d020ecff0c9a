"""A report as a page that needs nothing else: no scripts, no pictures, nothing fetched.

What comes from a pattern is set as words, never as marks of the page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from pathlib import Path

from hookwright.listing.excerpt import Excerpt
from hookwright.regex import regex
from hookwright.reporting.contents import Entry, Group, Report, RowsOfPart

MARK = "<!doctype html>\n<!-- hookwright check: a report -->\n"
"""How every such page begins, so that it may be written anew."""

_STYLE = Path(__file__).with_name("page.css")


def as_page(report: Report) -> str:
    """The whole page."""
    return MARK + "\n".join(_page(report)) + "\n"


def _page(report: Report) -> Iterator[str]:
    title = escape(report.title)
    yield '<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield (
        '<meta http-equiv="Content-Security-Policy"'
        " content=\"default-src 'none'; style-src 'unsafe-inline'\">"
    )
    yield f"<title>{title}: report of the check</title>"
    yield f"<style>\n{_STYLE.read_text(encoding='utf-8')}</style>\n</head>\n<body>"
    yield f'<header>\n<p class="kind">Report of the check</p>\n<h1 dir="auto">{title}</h1>'
    if report.facts:
        yield '<dl class="band">'
        for name, said in report.facts:
            yield f'<div><dt>{escape(name)}</dt><dd dir="auto">{escape(said)}</dd></div>'
        yield "</dl>"
    yield f'<p class="verdict">{escape(report.verdict)}</p>\n</header>\n<main>'
    yield from _findings("To mend and to look at", report.findings)
    yield from _sentences("What was proven", report.proven)
    yield from _sentences("What was assumed", report.assumed)
    yield from _sentences("What was put back or left out while reading", report.notes)
    yield from _findings("Advice", report.advice)
    yield from _rows(report)
    yield "</main>\n</body>\n</html>"


def _findings(heading: str, groups: Sequence[Group]) -> Iterator[str]:
    if not groups:
        return
    yield f"<section>\n<h2>{heading}</h2>"
    for group in groups:
        yield f'<h3 dir="auto">{escape(group.name)}</h3>'
        for entry in group.entries:
            yield from _entry(entry)
    yield "</section>"


def _entry(entry: Entry) -> Iterator[str]:
    yield f'<article class="{"loud" if entry.is_loud else "quiet"}">'
    yield (
        f'<h4><span dir="auto">{escape(entry.where)}</span>:'
        f" {escape(entry.loudness)} <small>{escape(entry.rule)}</small></h4>"
    )
    yield _excerpt(entry.words)
    yield f"<p>{escape(entry.message)}</p>"
    if entry.why:
        yield f"<p>{escape(entry.why)}</p>"
    if entry.change:
        yield f'<p class="change">{escape(entry.change)}</p>'
    for place in entry.related:
        said = place.said[:1].upper() + place.said[1:]
        yield f"<p>{escape(said)}</p>\n{_excerpt(place.words)}"
    yield "</article>"


def _excerpt(words: Excerpt) -> str:
    marked = f"<mark>{escape(words.marked)}</mark>" if words.marked.strip() else ""
    return (
        f'<blockquote dir="auto">{escape(words.before)}{marked}'
        f"{escape(words.after)}</blockquote>"
    )


def _sentences(heading: str, sentences: Sequence[str]) -> Iterator[str]:
    if not sentences:
        return
    yield f"<section>\n<h2>{heading}</h2>\n<ul>"
    yield from (f'<li dir="auto">{escape(sentence)}</li>' for sentence in sentences)
    yield "</ul>\n</section>"


def _rows(report: Report) -> Iterator[str]:
    if not report.rows:
        return
    yield "<section>\n<h2>Row by row</h2>"
    several = len(report.rows) > 1
    for number, part in enumerate(report.rows, start=1):
        yield from _part(part, report.columns, f"part-{number}", named=several)
    yield "</section>"


def _kept(label: str) -> str:
    """A label whose word stays beside its number where the line is broken."""
    return label.replace(" ", "\N{NO-BREAK SPACE}", 1)


_SIZE_LIST = regex(r"\S+ \([^()]*\)")
_SHORT_LIST = 18


def _lists_kept(figure: str) -> str:
    """A figure whose lists of sizes are not broken, as long as they are short."""
    return _SIZE_LIST.sub(
        lambda found: (
            found[0].replace(" ", "\N{NO-BREAK SPACE}")
            if len(found[0]) <= _SHORT_LIST
            else found[0]
        ),
        figure,
    )


def _part(
    part: RowsOfPart, columns: Sequence[str], name: str, *, named: bool
) -> Iterator[str]:
    caption = escape(part.name) if named and part.name else "Rows"
    yield f'<div class="table" role="region" aria-labelledby="{name}" tabindex="0">'
    yield f'<table>\n<caption id="{name}" dir="auto">{caption}</caption>\n<thead>\n<tr>'
    yield '<th scope="col">row</th>'
    yield from (f'<th scope="col" class="number">{column}</th>' for column in columns)
    yield '<th scope="col">holds</th>\n</tr>\n</thead>\n<tbody>'
    for line in part.lines:
        figures = "".join(
            f'<td class="number">{escape(_lists_kept(figure))}</td>'
            for figure in line.figures
        )
        verdict = f"<strong>{escape(line.verdict)}</strong>" if line.amiss else line.verdict
        yield (
            f'<tr><th scope="row" dir="auto">{escape(_kept(line.label))}</th>{figures}'
            f"<td>{verdict}</td></tr>"
        )
    yield "</tbody>\n</table>\n</div>"
