"""A copy as plain text: a line a row, nothing but words, for a screen reader or a note."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.release.facts import (
    Block,
    Contents,
    Entry,
    Page,
    Paragraph,
    Row,
    Run,
    Section,
)

_ORDER = (Page.BEFORE, Page.WRITTEN, Page.ROWS, Page.FINISHING)


def as_text(contents: Contents) -> str:
    """The whole text, each section under its heading."""
    lines = "\n".join(_lines(contents)).replace("\u00a0", " ")
    return lines.rstrip("\n") + "\n"


def _lines(contents: Contents) -> Iterator[str]:
    yield from _head(contents)
    for said in contents.introduction:
        yield from (_words(said.runs), "")
    for page in _ORDER:
        for section in contents.sections:
            if section.page is page:
                yield from _section(section)
        if page is Page.WRITTEN and contents.counting:
            yield from _paragraphs("How to count along", contents.counting)
    if contents.cautions:
        yield from _paragraphs("Care and cautions", contents.cautions)
    stamp = contents.stamp
    for label, words in (("Rights", stamp.rights), ("Corrections", stamp.corrections)):
        if words:
            yield from (label, "", words, "")


def _head(contents: Contents) -> Iterator[str]:
    """Its name, who designed it, which version it is."""
    yield from (contents.title, "")
    if contents.draft:
        yield from ("DRAFT, not for makers", "")
    stamp = contents.stamp
    about = [
        f"Designed by {stamp.designer}." if stamp.designer else "",
        f"Version {stamp.version}." if stamp.version else "",
        f"{stamp.date}." if stamp.date else "",
    ]
    if any(about):
        yield from (" ".join(words for words in about if words), "")


def _paragraphs(heading: str, paragraphs: tuple[Paragraph, ...]) -> Iterator[str]:
    yield from (heading, "")
    for paragraph in paragraphs:
        yield from (_words(paragraph.runs), "")


def _section(section: Section) -> Iterator[str]:
    if section.heading:
        yield from (section.heading, "")
    for at, block in enumerate(section.blocks):
        yield _block(block)
        following = section.blocks[at + 1] if at + 1 < len(section.blocks) else None
        if not (isinstance(block, Entry) and isinstance(following, Entry)):
            yield ""


def _block(block: Block) -> str:
    match block:
        case Entry():
            return f"{block.word} = {block.meaning}"
        case Paragraph():
            return _words(block.runs)
        case Row():
            return _row(block)


def _row(row: Row) -> str:
    side = f" ({row.side})" if row.side else ""
    label = f"{row.name}{side}: " if row.name else ""
    count = " ".join(filter(None, (*row.counts, row.unit, row.count)))
    return f"{label}{_words(row.runs)} {count}".strip()


def _words(runs: tuple[Run, ...]) -> str:
    return "".join(run.words for run in runs)
