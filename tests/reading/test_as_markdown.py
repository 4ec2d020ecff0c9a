"""A draft written as Markdown reads back to the same words and the same rows."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hookwright.checking import check
from hookwright.commands.fix import numbers_of
from hookwright.reading import Draft, UnreadableDraft, read_draft, read_text
from hookwright.reading.markdown import as_markdown, markdown_draft

ROOT = Path(__file__).parents[1]
FILES = [
    ROOT / "reading" / "files" / name for name in ("typeset.pdf", "word-processor.docx")
]
CASES = sorted((ROOT / "cases").glob("*/*.txt"))[::12]


def words(text: str) -> list[str]:
    """The words of a text without the gaps between them."""
    return ["".join(line.split()) for line in text.split("\n")]


def back(draft: Draft) -> Draft:
    return markdown_draft(as_markdown(draft), "pattern.md")


@pytest.mark.parametrize(
    "path", [*FILES, *CASES], ids=lambda path: f"{path.parent.name}/{path.name}"
)
def test_a_draft_reads_back_to_the_same_rows(path: Path) -> None:
    draft = read_draft(path)
    again = back(draft)
    assert words(again.source.text) == words(draft.source.text)
    assert numbers_of(check(again)) == numbers_of(check(draft))
    assert [heading.level for heading in again.headings] == [
        heading.level
        for heading in draft.headings
        if draft.source.slice(heading.span).strip()
    ]


PIECES = some.sampled_from(
    ["Row 1: ", "**Row 2:** ", "**Note**", "# ", "## ", "#", "*", "**", "sc in next st", " ",
     "\n", "![a](b)", "\\*", "\\", "\\\\[", "(12)", "- ", "1. ", "é", "[", "]", ":", "_", "\t"],
)  # fmt: skip


@given(some.lists(PIECES, min_size=1, max_size=30).map("".join))
def test_any_text_reads_back_to_its_words(text: str) -> None:
    try:
        draft = read_text(text)
    except UnreadableDraft:
        return
    assert words(back(draft).source.text) == words(draft.source.text)
