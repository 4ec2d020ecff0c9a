"""Changes of a text as read are made in its file exactly, or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hookwright.finding import Edit
from hookwright.reading import UnreadableDraft, read_bytes
from hookwright.reading.changes import Changed, with_changes
from hookwright.source import Span

TEXT = "# Eider Strip\n\n**Row 1:** Sc in each ch. (20 sc)\n- **Row 2:** Sc in each st. (19 sc)\n"


def changed(data: bytes, *changes: tuple[str, str], kind: str = ".md") -> Changed:
    """A file in which words, found in the text as read, are changed for others."""
    draft = read_bytes(data, kind, "eider.md")
    edits = []
    for old, new in changes:
        at = draft.source.text.index(old)
        edits.append(Edit(Span(at, at + len(old)), new, safe=True))
    return with_changes(data, kind, draft, edits)


def test_words_are_changed_and_nothing_else() -> None:
    found = changed(TEXT.encode(), ("19", "20"))
    assert found.data.decode() == TEXT.replace("19", "20")
    assert (len(found.made), found.refused, found.waiting) == (1, (), ())


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16-le", "utf-16-be", "cp1252"]
)
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_encoding_and_line_ends_stay(encoding: str, end: str) -> None:
    text = TEXT.replace("Eider", "Eider é").replace("\n", end)
    mark = {"utf-16-le": b"\xff\xfe", "utf-16-be": b"\xfe\xff"}.get(encoding, b"")
    found = changed(mark + text.encode(encoding), ("19", "20"), ("20", "21"))
    new = text.replace("20", "21").replace("19", "20")
    assert found.data == mark + new.encode(encoding)


def test_a_line_that_is_put_in_ends_as_the_others_do() -> None:
    data = TEXT.replace("\n", "\r\n").encode()
    draft = read_bytes(data, ".md", "eider.md")
    at = draft.source.text.index("- ")
    found = with_changes(data, ".md", draft, [Edit(Span(at, at), "Row 1a: Turn.\n")])
    assert found.data.decode().splitlines(keepends=True)[3] == "Row 1a: Turn.\r\n"
    assert found.data.decode().replace("Row 1a: Turn.\r\n", "") == TEXT.replace(
        "\n", "\r\n"
    )


def test_words_with_marks_among_them_are_left() -> None:
    found = changed(TEXT.encode(), ("Row 1:   Sc", "Row 1: Dc"), ("19", "20"))
    assert found.data.decode() == TEXT.replace("19", "20")
    assert [edit.replacement for edit in found.refused] == ["Row 1: Dc"]


def test_nothing_is_put_in_between_two_marks() -> None:
    draft = read_bytes(TEXT.encode(), ".md", "eider.md")
    at = TEXT.index("**Row 1") + 1
    found = with_changes(TEXT.encode(), ".md", draft, [Edit(Span(at, at), "x")])
    assert found.data.decode() == TEXT
    assert len(found.refused) == 1


def test_of_two_changes_that_touch_the_first_is_made() -> None:
    found = changed(TEXT.encode(), ("(20 sc)", "(21 sc)"), ("20 sc", "22 dc"), ("19", "20"))
    assert found.data.decode() == TEXT.replace("20", "21").replace("19", "20")
    assert [edit.replacement for edit in found.waiting] == ["22 dc"]


def test_the_same_change_told_twice_is_made_once() -> None:
    found = changed(TEXT.encode(), ("19", "20"), ("19", "20"))
    assert (len(found.made), found.waiting, found.refused) == (1, (), ())


def test_words_that_would_become_marks_are_not_written() -> None:
    found = changed(TEXT.encode(), ("Sc in each st", "![Sc](in) each st"), ("19", "20"))
    assert found.data.decode() == TEXT.replace("19", "20")
    assert len(found.refused) == 1


def test_letters_that_the_file_cannot_hold_are_not_written() -> None:
    data = TEXT.replace("Eider", "Eider é").encode("cp1252")
    found = changed(data, ("Sc in each ch", "Sc \N{SNOWMAN}"), ("19", "20"))
    assert found.data == data.replace(b"19", b"20")


PIECES = some.sampled_from(
    ["Row 1: ", "**Row 2:** ", "# ", "#", "*", "**", "sc", " ", "\n", "\r\n", "![a](b)",
     "\\*", "\\", "(12)", "- ", "1. ", "é", "[", "]", ":", "_"],
)  # fmt: skip


@given(
    some.lists(PIECES, min_size=1, max_size=40).map("".join),
    some.lists(some.tuples(some.integers(0, 80), some.integers(0, 6), some.lists(PIECES, max_size=3)),
               max_size=4),
    some.sampled_from([".md", ".txt"]),
)  # fmt: skip
def test_a_changed_file_reads_as_the_changed_text(
    text: str, changes: list[tuple[int, int, list[str]]], kind: str
) -> None:
    data = text.encode()
    try:
        draft = read_bytes(data, kind, "eider")
    except UnreadableDraft:
        return
    read = draft.source.text
    edits = [
        Edit(Span(min(at, len(read)), min(at + length, len(read))), "".join(new))
        for at, length, new in changes
    ]
    found = with_changes(data, kind, draft, edits)
    expected = read
    for edit in reversed(found.made):
        expected = (
            expected[: edit.span.start] + edit.replacement + expected[edit.span.end :]
        )
    if found.made:
        assert read_bytes(found.data, kind, "eider").source.text == expected
    else:
        assert found.data == data
    assert {*found.made, *found.waiting, *found.refused} == set(edits)


def test_every_example_can_be_changed() -> None:
    for path in sorted((Path(__file__).parents[2] / "examples").glob("*-slip.md")):
        data = path.read_bytes()
        draft = read_bytes(data, ".md", path.name)
        at = draft.source.text.rindex("Fasten off")
        found = with_changes(data, ".md", draft, [Edit(Span(at, at + 6), "Finish")])
        raw = data.decode()
        at = raw.rindex("Fasten off")
        assert found.data.decode() == raw[:at] + "Finish" + raw[at + 6 :]
