"""The sections of a copy as elements of a page.

A word never becomes a mark: all go through `escape`. Lists of sizes carry their word for
each size, and rows the sizes that work them, so that the page can show one size alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from itertools import groupby

from hookwright.release.copies import file_stem
from hookwright.release.facts import Block, Contents, Entry, Paragraph, Row, Run, Section
from hookwright.release.size_lists import by_size

_TAGS = {"label": ("<b>", "</b>"), "repeat": ('<span class="rep">', "</span>")}


def section(contents: Contents, own: Section, level: int = 2) -> Iterator[str]:
    """A section under its heading."""
    sizes = len(contents.sizes)
    yield f'<section aria-labelledby="{anchor(own)}">' if own.heading else "<section>"
    if own.heading:
        yield f'<h{level} id="{anchor(own)}">{escape(own.heading)}</h{level}>'
    coloured = len(contents.shades) > 1
    for kind, blocks in groupby(own.blocks, key=type):
        if kind is Row:
            yield f'<div class="rows{" plain" if not coloured else ""}">'
            yield from (_row(block, sizes) for block in blocks if isinstance(block, Row))
            yield "</div>"
        elif kind is Entry:
            yield '<ul class="words">'
            yield from (_entry(block) for block in blocks if isinstance(block, Entry))
            yield "</ul>"
        else:
            yield from (_paragraph(block, sizes) for block in blocks)
    yield "</section>"


def anchor(own: Section) -> str:
    """The name of a section within the page."""
    return f"s-{file_stem(own.heading)}"


def _paragraph(block: Block, sizes: int) -> str:
    assert isinstance(block, Paragraph)
    return f"<p>{words(block.runs, sizes)}</p>"


def _entry(entry: Entry) -> str:
    return f"<li><b>{escape(entry.word)}</b> = {escape(entry.meaning)}</li>"


def _row(row: Row, sizes: int) -> str:
    kinds = ["row", *(["begins"] if row.begins else []), *(["ends"] if row.ends else [])]
    worked = f' data-sizes="{" ".join(map(str, row.sizes))}"' if row.sizes else ""
    side = f" ({row.side})" if row.side else ""
    name = f"<b>{words([Run(row.name)], sizes)}{side}:</b> " if row.name else ""
    count = counted(row)
    said = f' <b class="count">{words([Run(count)], sizes)}</b>' if count else ""
    return (
        f'<div class="{" ".join(kinds)}" id="{row.anchor}"{worked}>{_stripe(row)}'
        f"<p><span>{name}{words(row.runs, sizes)}</span>{said}</p></div>"
    )


def counted(row: Row) -> str:
    """The count of a row on one line."""
    return " ".join(filter(None, (*row.counts, row.unit, row.count)))


def _stripe(row: Row) -> str:
    """The yarn beside a row: drawn for whoever sees it, said for whoever does not."""
    if not row.yarns:
        return '<span class="bar none"></span>'
    letters = ", ".join(row.yarns)
    shown = letters if len(row.yarns) == 1 else ""
    return (
        f'<span class="bar" role="img" aria-label="yarn {escape(letters)}"'
        f' data-letter="{escape(shown if row.begins else "")}"'
        f' style="{bands(row.yarns)}"></span>'
    )


def bands(letters: Sequence[str]) -> str:
    """The colours of a stripe column, as a style: one, or bands of equal height."""
    names = [colour_name(letter) for letter in letters]
    if len(names) == 1:
        return f"background:var({names[0]});color:var({names[0]}-on)"
    share = 100 / len(names)
    stops = ",".join(
        f"var({name}) {share * at:.4g}% {share * (at + 1):.4g}%"
        for at, name in enumerate(names)
    )
    return f"background:linear-gradient({stops})"


def colour_name(letter: str) -> str:
    """The name of a colour in the style of the page."""
    return f"--yarn-{file_stem(letter)}"


def words(runs: Iterable[Run], sizes: int) -> str:
    """Runs of words as elements."""
    return "".join(_run(run, sizes) for run in runs)


def _run(run: Run, sizes: int) -> str:
    opening, closing = _TAGS.get(run.kind, ("", ""))
    return opening + "".join(map(_sized, by_size([run], sizes))) + closing


def _sized(run: Run) -> str:
    said = escape(run.words, quote=False)
    if not run.sizes:
        return said
    return f'<span class="sz" data-n="{escape("|".join(run.sizes))}">{said}</span>'
