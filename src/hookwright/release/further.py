"""Which further pages go out with a pattern, beside its copies?

A page of help, the corrections to the version before: each is a sheet, made of the pattern
by whoever knows about it, and is put out as a page to open and a page to print. Which ones
there are is not known here: they come with the order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

import msgspec
from msgspec import Struct

from hookwright.checking import Checked
from hookwright.release.copies import file_stem, home_paper
from hookwright.sheets.facts import Sheet
from hookwright.sheets.page import as_page
from hookwright.sheets.paper import as_pdf


class Further(Struct, frozen=True):
    """A further page.

    Attributes:
        name: How its files end, in small letters: "help" for "long-swell-us-help.pdf".
        what: What it is, in words.
        sheet: Makes it of the pattern in the terms wanted; None where there is nothing to
            say.
        both_terms: Whether there is one in each terms; else only in those of the pattern.
        beside: Files that go with it as they are: how each name ends, and what it holds.
    """

    name: str
    what: str
    sheet: Callable[[Checked], Sheet | None]
    both_terms: bool = False
    beside: tuple[tuple[str, bytes], ...] = ()


class FurtherFile(Struct, frozen=True):
    """A file of a further page.

    Attributes:
        name: Its name.
        what: What it is, in words.
        follows_from: What its bytes follow from, with what sets it.
        make: Makes them.
    """

    name: str
    what: str
    follows_from: bytes
    make: Callable[[], bytes]


def further_files(
    pages: Iterable[Further],
    title: str,
    terms: Iterable[str],
    in_terms: Callable[[str], Checked],
) -> Iterator[FurtherFile]:
    """The files of all further pages.

    Args:
        pages: The pages.
        title: The name of the design.
        terms: The terms to put them out in, those of the pattern first.
        in_terms: The pattern in some terms, read and worked.
    """
    every = tuple(terms)
    for page in pages:
        for own in every if page.both_terms else every[:1]:
            sheet = page.sheet(in_terms(own))
            if sheet is not None:
                yield from _files(page, f"{file_stem(title)}-{own.lower()}", own, sheet)
        for ending, data in page.beside:
            name = f"{file_stem(title)}-{ending}"
            what = f"{page.what}: {ending}"
            yield FurtherFile(name, what, b"as it is " + data, partial(bytes, data))


def _files(page: Further, stem: str, terms: str, sheet: Sheet) -> Iterator[FurtherFile]:
    paper = home_paper(terms).value
    data = msgspec.json.encode(sheet)
    said = f"{page.what} in {terms} terms"
    yield FurtherFile(
        f"{stem}-{page.name}.pdf",
        f"{said}, to print",
        b"paper " + paper.encode() + data,
        lambda: as_pdf(sheet, paper),
    )
    yield FurtherFile(
        f"{stem}-{page.name}.html",
        f"{said}, to open",
        b"page " + data,
        lambda: as_page(sheet).encode(),
    )
