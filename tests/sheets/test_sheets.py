"""Sheets say the same as Markdown, as a page and on paper, whatever the words are."""

from __future__ import annotations

from html.parser import HTMLParser

import pypdfium2  # type: ignore[import-untyped]
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.sheets.facts import (
    Caution,
    Grid,
    Heading,
    Picture,
    Points,
    Sheet,
    Words,
)
from hookwright.sheets.markdown import as_markdown
from hookwright.sheets.page import as_page
from hookwright.sheets.paper import as_pdf

LIVE = "<b>*not bold*</b> #let x = 1 $y$ | `code` & [link](x)"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="10">'
    '<rect width="20" height="10"/></svg>'
)


def sheet(words: str) -> Sheet:
    return Sheet(
        words,
        "A trial",
        (("Label", words),),
        (
            Heading(words),
            Words(words),
            Caution(words),
            Points((words, "second"), numbered=True),
            Grid(("Row", "Stitches"), ((words, "12"),), "Counts", (1,), (0,)),
            Picture(SVG, "a bar"),
        ),
    )


class _Words(HTMLParser):
    """The words of a page, and its marks."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.marks: list[str] = []

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del attrs
        self.marks.append(tag)


def page_of(words: str) -> _Words:
    reader = _Words()
    reader.feed(as_page(sheet(words)))
    return reader


def test_what_is_written_is_never_a_mark_of_the_page() -> None:
    page = page_of(LIVE)
    assert page.words.count(LIVE) == 7  # title, band, and the five kinds with words
    assert "b" not in page.marks


def test_what_is_written_is_never_a_mark_of_markdown() -> None:
    text = as_markdown(sheet(LIVE))
    assert "<b>" not in text.replace("\\<b\\>", "")
    assert "\\*not bold\\*" in text


def test_paper_has_the_words_as_they_are() -> None:
    document = pypdfium2.PdfDocument(as_pdf(sheet(LIVE)))
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    assert "*not bold*" in text
    assert "#let x" in text
    assert "second" in text


@pytest.mark.parametrize(("paper", "mm"), [("a4", (210, 297)), ("us-letter", (216, 279))])
def test_paper_has_its_size(paper: str, mm: tuple[int, int]) -> None:
    # ISO 216 and ANSI/ASME Y14.1: A4 is 210 x 297 mm, Letter 8 1/2 x 11 in.
    document = pypdfium2.PdfDocument(as_pdf(sheet("x"), paper))
    assert tuple(round(side / 72 * 25.4) for side in document[0].get_size()) == mm


@settings(max_examples=15)
@given(st.text(max_size=60))
def test_any_words_make_a_page_and_markdown(words: str) -> None:
    assert as_page(sheet(words)).endswith("</html>\n")
    assert as_markdown(sheet(words))


def test_a_letter_that_no_font_has_is_set_all_the_same() -> None:
    assert as_pdf(sheet("\U0001f9f6 \u0b95")).startswith(b"%PDF")
