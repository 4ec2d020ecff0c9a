"""One pattern in every kind of file gives the same rows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from hookwright.reading import Draft, PagePlace, ParagraphPlace, read_bytes, read_draft

KINDS = ("txt", "md", "html", "docx", "pdf")


@pytest.fixture
def drafts(
    pattern_lines: tuple[str, ...],
    pattern_headings: Mapping[str, int],
    make_docx: Callable[..., bytes],
    make_pdf: Callable[..., bytes],
    paragraph: Callable[..., str],
    at: Callable[..., bytes],
) -> dict[str, Draft]:
    """The pattern of conftest.py, read from each kind of file."""
    files = {
        "txt": "\n".join(pattern_lines).encode(),
        "md": "\n\n".join(
            _in_markdown(line, pattern_headings.get(line, 0)) for line in pattern_lines
        ).encode(),
        "html": _page("".join(_in_html(line, pattern_headings) for line in pattern_lines)),
        "docx": make_docx(
            "".join(
                paragraph(line, f"Heading{pattern_headings[line]}")
                if line in pattern_headings
                else paragraph(line)
                for line in pattern_lines
            )
        ),
        "pdf": make_pdf([_print(pattern_lines, pattern_headings, at)]),
    }
    return {kind: read_bytes(data, kind, f"ledge.{kind}") for kind, data in files.items()}


def _in_markdown(line: str, level: int) -> str:
    if level:
        return f"{'#' * level} {line}"
    label, colon, rest = line.partition(":")
    return f"**{label}:**{rest}" if colon else line


def _in_html(line: str, headings: Mapping[str, int]) -> str:
    level = headings.get(line, 0)
    if level:
        return f"<h{level}>{line}</h{level}>\n"
    label, colon, rest = line.partition(":")
    return f"<p><strong>{label}:</strong>{rest}</p>\n" if colon else f"<p>{line}</p>\n"


def _page(words: str) -> bytes:
    head = "<!DOCTYPE html><html><head><title>Ledge &amp; sea</title></head>"
    return f"{head}<body><nav>Home</nav><main>{words}</main></body></html>".encode()


def _print(
    lines: tuple[str, ...], headings: Mapping[str, int], at: Callable[..., bytes]
) -> bytes:
    """The pattern wrapped as a printer would: at most 48 letters a line."""
    content, y = b"", 500
    for line in lines:
        size = {1: 18, 2: 14}.get(headings.get(line, 0), 10)
        y -= 10
        for part in _wrapped(line, 48):
            content += at(40, y, part, size)
            y -= 14
    return content


def _wrapped(line: str, letters: int) -> list[str]:
    parts = [""]
    for word in line.split():
        longer = f"{parts[-1]} {word}".strip()
        if len(longer) > letters:
            parts.append(word)
        else:
            parts[-1] = longer
    return parts


def _lines(draft: Draft) -> list[str]:
    return [
        " ".join(line.split()) for line in draft.source.text.split("\n") if line.strip()
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_file_gives_the_same_lines(
    drafts: dict[str, Draft], pattern_lines: tuple[str, ...], kind: str
) -> None:
    assert _lines(drafts[kind]) == list(pattern_lines)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "txt"])
def test_headings_are_known_in_every_kind_of_file_that_marks_them(
    drafts: dict[str, Draft], pattern_headings: Mapping[str, int], kind: str
) -> None:
    draft = drafts[kind]
    found = {draft.source.slice(each.span): each.level for each in draft.headings}
    assert found == pattern_headings


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_left_out_of_a_clean_draft_but_the_menu_of_a_page(
    drafts: dict[str, Draft], kind: str
) -> None:
    said = {"html": ("Left out of the page: menus.",)}
    assert drafts[kind].notes == said.get(kind, ())
    assert drafts[kind].findings == ()


def test_each_kind_of_file_says_in_its_own_way_where_row_two_stands(
    drafts: dict[str, Draft],
) -> None:
    said = {
        kind: draft.origin_of(draft.source.text.index("Row 2")).describe()
        for kind, draft in drafts.items()
    }
    assert said == {
        "txt": "line 6, column 1",
        "md": "line 11, column 3",
        "html": "line 6, column 12",
        "docx": "paragraph 6",
        # 560 less the baseline at 356, less 7.8 for the letters: 196.2 points / 72 x 25.4.
        "pdf": "page 1, 69 mm from the top",
    }


def test_a_document_made_by_another_program_gives_the_same_rows(
    files: Path, pattern_lines: tuple[str, ...]
) -> None:
    """Written with python-docx 1.2.0, with a list, a table and a header added."""
    draft = read_draft(files / "word-processor.docx")
    assert _lines(draft) == [
        *pattern_lines,
        "Making up",
        "1. Block to size.",
        "2. Weave in the ends.",
        "Size small large",
        "Rows 9 13",
    ]
    large = draft.origin_of(draft.source.text.index("13"))
    assert large == ParagraphPlace(None, table=1, row=2, cell=3)
    assert "a draft" not in draft.source.text


def test_a_typeset_print_in_two_columns_gives_the_same_rows(
    files: Path, pattern_lines: tuple[str, ...]
) -> None:
    """Typeset with typst 0.15: justified, hyphenated, two columns, running header."""
    draft = read_draft(files / "typeset.pdf")
    lines = _lines(draft)
    assert lines[: len(pattern_lines)] == list(pattern_lines)
    assert lines[len(pattern_lines)] == "Border"
    sentence = (
        "Sc evenly along the side of the rows, working towards the corner, 3 sc in the"
        " corner, sc in each stitch of the last row."
    )
    assert lines[-2] == f"Rnd 1: {' '.join([sentence] * 22)}"
    assert lines[-1] == "Rnd 2: Fasten off."
    last = draft.origin_of(draft.source.text.index("Rnd 2"))
    assert isinstance(last, PagePlace)
    assert last.page == 2
