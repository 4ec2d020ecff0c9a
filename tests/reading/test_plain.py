"""Text files are read as they stand; only line ends are made alike."""

from __future__ import annotations

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.reading import LinePlace, UnreadableDraft, read_bytes, read_text
from hookwright.reading.plain import decoded

ROW = "Row 1: *ch 1, sk 1; rep from * \u2013 5\u00bd times.\n\n  Row 2:\tsc.  \n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_text_file_is_read_in_whichever_way_it_was_written_down(encoding: str) -> None:
    assert read_bytes(ROW.encode(encoding), "txt", "a.txt").source.text == ROW


def test_big_endian_text_with_its_mark_is_read() -> None:
    data = codecs.BOM_UTF16_BE + ROW.encode("utf-16-be")
    assert read_bytes(data, "txt", "a.txt").source.text == ROW


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_all_systems_are_made_alike(end: str) -> None:
    draft = read_bytes(ROW.replace("\n", end).encode(), "txt", "a.txt")
    assert draft.source.text == ROW
    assert draft.origin_of(ROW.index("Row 2")) == LinePlace(3, 3)


def test_the_encoding_is_told_so_that_a_change_can_be_written_back() -> None:
    found = decoded(b"\xef\xbb\xbfRow 1\r\n")
    assert (found.text, found.encoding) == ("Row 1\r\n", "utf-8-sig")
    assert found.text.encode(found.encoding) == b"\xef\xbb\xbfRow 1\r\n"


def test_pasted_text_keeps_everything_but_its_byte_order_mark() -> None:
    draft = read_text("\ufeffRow 1: sc.\r\nRow 2: \udc80 sc.")
    assert draft.source.text == "Row 1: sc.\nRow 2: \ufffd sc."
    assert draft.source.name == "-"


@given(
    st.text(
        st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("\n\t"), min_size=1
    )
)
def test_any_text_comes_back_with_every_character_in_its_place(text: str) -> None:
    if not text.strip() or text.startswith("\ufeff"):
        return
    draft = read_bytes(text.encode(), "txt", "a.txt")
    assert draft.source.text == text
    lines = text.split("\n")
    for offset, character in enumerate(text):
        place = draft.origin_of(offset)
        assert isinstance(place, LinePlace)
        assert f"{lines[place.line - 1]}\n"[place.column - 1] == character


@pytest.mark.parametrize(
    "data",
    [
        b"Row 1\x00Row 2",
        bytes(range(1, 32)) * 4,
        "Row 1".encode("utf-16-le"),
        b"\xff\xfe\x00\xd8",
        b"\x81\x8d\x8f",
    ],
)
def test_what_is_not_text_is_refused(data: bytes) -> None:
    with pytest.raises(
        UnreadableDraft, match=r"a\.txt cannot be read: it is not a text file"
    ):
        read_bytes(data, "txt", "a.txt")
