"""A pattern in a PDF: its text layer, column by column.

Letters are taken with their places and gathered into lines, headers and page numbers are
left out, columns put into reading order, and rows broken over lines joined again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from threading import Lock
from typing import Any

from msgspec import Struct

from hookwright.reading import limits
from hookwright.reading.column_order import blocks_in_order
from hookwright.reading.draft import Box, Draft, UnreadableDraft
from hookwright.reading.lines import draft_of
from hookwright.reading.pdf_letters import Letters, origin_shift, runs_of
from hookwright.reading.printed import PrintedLine, lines_of
from hookwright.reading.running_lines import without_running_lines
from hookwright.reading.wrapped_rows import rejoined

_ONE_AT_A_TIME = Lock()
"""The PDF library must not be entered by two threads at once."""

_WRONG_PASSWORD = 4
_UNKNOWN_SHARE = 0.3
_DAMAGED = (
    "it is damaged. Print or export it again from the program it was written in, and try"
    " with that."
)
_NO_TEXT = (
    "it has no text in it, only pictures of pages. Export it from the program it was"
    " written in, or run it through text recognition first."
)


class _Page(Struct, frozen=True):
    """What was found on a page."""

    lines: list[PrintedLine]
    height_pt: float
    letters: int
    unknown: int
    has_sideways: bool


def read_pdf(data: bytes, name: str) -> Draft:
    """Read a .pdf file.

    Raises:
        UnreadableDraft: If it is damaged, locked, too long, or has no text layer.
    """
    with _ONE_AT_A_TIME:
        pages = _pages_of(data)
    letters = sum(page.letters for page in pages)
    unknown = sum(page.unknown for page in pages)
    if unknown > _UNKNOWN_SHARE * (letters + unknown):
        raise UnreadableDraft(
            "its letters cannot be told from their shapes: the font does not say which they"
            " are. Export it again with another font, or as .docx."
        )
    if not letters:
        raise UnreadableDraft(_NO_TEXT)
    heights_pt = [page.height_pt for page in pages]
    lines, running = without_running_lines([page.lines for page in pages], heights_pt)
    blocks = [blocks_in_order(page) for page in lines]
    return draft_of(rejoined(blocks, heights_pt), name, list(_notes(pages, running)))


def _notes(pages: Sequence[_Page], running: Sequence[str]) -> Iterator[str]:
    if running:
        said = "; ".join(f'"{" ".join(text.split())}"' for text in running)
        yield f"Left out, since it stands at one height on the pages: {said}."
    empty = [str(at) for at, page in enumerate(pages, start=1) if not page.letters]
    if empty:
        yield f"Without any text, so not read: page {', '.join(empty)}."
    if any(page.has_sideways for page in pages):
        yield "Words that run up, down or across the page were not read."


def _pages_of(data: bytes) -> list[_Page]:
    # A large library without types, for this kind of file only.
    import pypdfium2  # type: ignore[import-untyped] # noqa: PLC0415

    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as error:
        if error.err_code == _WRONG_PASSWORD:
            raise UnreadableDraft(
                "it is locked with a password. Save a copy without one and try again."
            ) from error
        raise UnreadableDraft(_DAMAGED) from error
    try:
        return _read_pages(document, pypdfium2.raw)
    except (pypdfium2.PdfiumError, ValueError, OverflowError) as error:
        raise UnreadableDraft(_DAMAGED) from error
    finally:
        document.close()


def _read_pages(document: Any, raw: Any) -> list[_Page]:  # noqa: ANN401 - it has no types
    if len(document) > limits.PDF_PAGES:
        raise UnreadableDraft(
            f"it has {len(document)} pages, more than any pattern. Cut out the pattern."
        )
    pages: list[_Page] = []
    characters = 0
    for number in range(1, len(document) + 1):
        page = document[number - 1]
        text_page = page.get_textpage()
        characters += text_page.count_chars()
        if characters > limits.PDF_CHARACTERS:
            raise UnreadableDraft(
                "it holds far more text than a pattern. Cut out the pattern and try again."
            )
        pages.append(_read_page(number, page.get_bbox(), Letters(text_page, raw)))
        text_page.close()
        page.close()
    return pages


def _read_page(
    number: int, visible: tuple[float, float, float, float], found: Letters
) -> _Page:
    """Turn a page so that most of its letters are upright, and gather its lines.

    Args:
        number: The number of the page, from 1.
        visible: The left, lower, right and upper edge of what is seen of it, in points.
        found: Its letters.
    """
    letters = list(found)
    turns = Counter(letter.style.turn for letter in letters if letter)
    del turns[None]
    turn = max(turns, key=lambda each: turns[each], default=0) or 0
    upright = [each for each in letters if each is None or each.style.turn == turn]
    sheet = Box(*visible)
    on_its_side = turn in {90, 270}
    return _Page(
        lines_of(number, list(runs_of(upright, origin_shift(turn, sheet)))),
        sheet.right - sheet.left if on_its_side else sheet.top - sheet.bottom,
        sum(letter is not None for letter in upright),
        found.unknown,
        has_sideways=len(upright) < len(letters),
    )
