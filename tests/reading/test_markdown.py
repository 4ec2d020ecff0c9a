"""In a .md file only headings, images and bold labels are Markdown."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.reading import UnreadableDraft, read_bytes

# What the file says, and what is read: as long, with the marks blanked out.
MARKED = [
    ("# Tern Shawl", "  Tern Shawl"),
    ("### Body ###", "    Body    "),
    ("**Row 1:** *ch 1; rep from *", "  Row 1:   *ch 1; rep from *"),
    ("**Row 1**: sc", "  Row 1  : sc"),
    ("**Rnds 2-4** sc", "  Rnds 2-4   sc"),
    ("**Materials**", "  Materials  "),
    ("**Gauge:** 16 dc", "  Gauge:   16 dc"),
    ("- **Row 1:** sc", "-   Row 1:   sc"),
    ("* **Row 1:** sc", "    Row 1:   sc"),
    ("1. **Sizes:** S (M, L)", "1.   Sizes:   S (M, L)"),
    ("See ![the *swatch*](swatch.jpg) first", "See                             first"),
    (r"rep from \* to \*\*", "rep from  * to  * *"),
    ("# **Border**", "    Border  "),
]
# What belongs to the pattern and stays as it is.
KEPT = [
    "#hashtag",
    "####### seven",
    "*sc in next st, ch 1; rep from * across",
    "* sc, ch 1, * rep from * to *",
    "**sc, dc, ch 1** rep from ** to **",
    "**sc in next st; ch 1** 4 times",
    "*A**, B; rep from * across, ending at **",
    "[sc 2, inc] x 6 (18)",
    "_not_ a mark, nor + nor -",
    "- 24 sts",
    "Row 1: **dc** in next st",
    "![sc 2] is no picture",
    "> dc `ch` ~~sc~~",
]


@pytest.mark.parametrize(("file", "text"), MARKED)
def test_markdown_is_blanked_out(file: str, text: str) -> None:
    assert len(file) == len(text)
    assert read_bytes(file.encode(), "md", "a.md").source.text == text


@pytest.mark.parametrize("file", KEPT)
def test_what_belongs_to_the_pattern_stays(file: str) -> None:
    assert read_bytes(file.encode(), "md", "a.md").source.text == file


def test_headings_are_told_with_their_level_and_words() -> None:
    draft = read_bytes(
        b"#  Tern Shawl \r\n\r\n## Body ##\r\nRow 1: sc.\r\n#\r\n", "md", "a.md"
    )
    found = [(draft.source.slice(each.span), each.level) for each in draft.headings]
    assert found == [("Tern Shawl", 1), ("Body", 2)]


def test_a_file_of_marks_alone_has_no_words() -> None:
    with pytest.raises(UnreadableDraft, match="there are no words in it"):
        read_bytes(b"#\n![](a.jpg)\n", "md", "a.md")


@given(st.text("*#_[]()!\\-. ab1:\n", min_size=1))
def test_no_offset_moves_and_no_word_changes(text: str) -> None:
    try:
        read = read_bytes(text.encode(), "md", "a.md").source.text
    except UnreadableDraft:
        return
    assert len(read) == len(text)
    assert all(after in {before, " "} for before, after in zip(text, read, strict=True))
    outside_pictures = text if "![" not in text else ""
    for letter in "ab:_-":
        assert read.count(letter) == outside_pictures.count(letter) or not outside_pictures
