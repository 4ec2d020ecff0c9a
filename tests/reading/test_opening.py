"""Which file is read as what, and what is said of a file that cannot be read."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.reading import UnreadableDraft, read_bytes, read_draft, read_text

KINDS = ("txt", "md", "html", "docx", "pdf")


@pytest.mark.parametrize(
    ("ending", "text"),
    [
        (".txt", "# A"),
        (".MD", "  A"),
        (".markdown", "  A"),
        (".htm", "# A\n"),
        (".HTML", "# A\n"),
    ],
)
def test_a_file_is_read_by_the_ending_of_its_name(
    tmp_path: Path, ending: str, text: str
) -> None:
    path = tmp_path / f"tern{ending}"
    path.write_text("# A", encoding="utf-8")
    draft = read_draft(path)
    assert draft.source.text == text
    assert draft.source.name == str(path)
    assert read_draft(str(path)).source.text == text


def test_without_an_ending_the_contents_tell(
    make_docx: Callable[..., bytes],
    make_pdf: Callable[..., bytes],
    paragraph: Callable[..., str],
    at: Callable[..., bytes],
) -> None:
    files = {
        "Row 1: *sc*\n": b"Row 1: *sc*\n",
        "Row 2\n": b"<!DOCTYPE html><p>Row 2",
        "Row 3\n": make_docx(paragraph("Row 3")),
        "Row 4\n": make_pdf([at(40, 480, "Row 4")]),
    }
    assert [read_bytes(data, "", "-").source.text for data in files.values()] == list(files)


def _refused(data: bytes, kind: str, name: str = "tern") -> str:
    with pytest.raises(UnreadableDraft) as refusal:
        read_bytes(data, kind, name)
    return str(refusal.value)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("data", [b"", b" \n\t\r\n"])
def test_an_empty_file_is_refused(kind: str, data: bytes) -> None:
    assert _refused(data, kind) == "tern cannot be read: it is empty."


@pytest.mark.parametrize("kind", KINDS)
def test_a_huge_file_is_refused_unread(kind: str) -> None:
    assert _refused(b"a" * (20 * 1024 * 1024 + 1), kind) == (
        "tern cannot be read: it is larger than 20 MB. Save a copy without the pictures, or"
        " the pattern alone, and try again."
    )


@pytest.mark.parametrize("kind", ["txt", "md", "html"])
def test_more_text_than_any_pattern_is_refused(kind: str) -> None:
    assert "far" in _refused(b"sc, " * 1_300_000, kind)
    with pytest.raises(
        UnreadableDraft, match=r"The text cannot be read: it holds far more"
    ):
        read_text("sc, " * 1_300_000)


OTHER_CONTENTS = [
    (b"%PDF-1.7\n", "txt", "by its contents it is a PDF."),
    (b"PK\x03\x04....", "pdf", "by its contents it is a Word document or another packed"),
    (b"{\\rtf1 Row 1}", "txt", "by its contents it is a rich text file (.rtf)."),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" * 9, "docx", "by its contents it is an old Word"),
    (
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
        "docx",
        "it is locked with a password.",
    ),
    (
        b"Row 1: sc",
        "docx",
        "it is not a .docx file, whatever its name says, or it is damaged.",
    ),
    (
        b"Row 1: sc",
        "pdf",
        "it is not a .pdf file, whatever its name says, or it is damaged.",
    ),
    (b"Row 1: sc", "odt", "files that end in .odt are not read. Save a copy as .md,"),
    (b"{\\rtf1 Row 1}", "", "by its contents it is a rich text file (.rtf)."),
]


@pytest.mark.parametrize(("data", "kind", "said"), OTHER_CONTENTS)
def test_a_file_of_another_kind_is_refused_with_what_it_is(
    data: bytes, kind: str, said: str
) -> None:
    assert _refused(data, kind).startswith(f"tern cannot be read: {said}")


def test_a_text_that_speaks_of_a_print_is_a_text_and_a_print_may_begin_late(
    make_pdf: Callable[..., bytes], at: Callable[..., bytes]
) -> None:
    assert (
        read_bytes(b"Save it as %PDF-1.7.", "txt", "a").source.text
        == "Save it as %PDF-1.7."
    )
    late = b"junk\n" + make_pdf([at(40, 480, "Row 1")])
    assert read_bytes(late, "pdf", "a").source.text == "Row 1\n"


def test_what_is_no_file_is_refused(tmp_path: Path) -> None:
    missing = tmp_path / "tern.md"
    with pytest.raises(UnreadableDraft, match=r"^There is no file .*tern\.md\.$"):
        read_draft(missing)
    with pytest.raises(UnreadableDraft, match=r"it is a folder\.$"):
        read_draft(tmp_path)
    with pytest.raises(UnreadableDraft, match=r"There is no file"):
        read_draft("tern\0.md")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "tern.md")
    with pytest.raises(UnreadableDraft, match=r"it is not a file\.$"):
        read_draft(tmp_path / "tern.md")


def test_nothing_large_is_imported_until_a_file_of_that_kind_is_read() -> None:
    heavy = {
        "pypdfium2",
        "html.parser",
        "zipfile",
        "xml",
        "xml.etree.ElementTree",
        "ctypes",
    }
    code = (
        "import sys, hookwright.reading as reading; reading.read_text('Row 1: sc.');"
        f"print(sorted(set(sys.modules) & {heavy!r}))"
    )
    done = subprocess.run(  # noqa: S603 - our own code
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


@given(st.binary(max_size=400), st.sampled_from((*KINDS, "")))
def test_no_bytes_do_worse_than_be_refused(data: bytes, kind: str) -> None:
    _read_or_refuse(data, kind)


@given(st.text(max_size=300), st.sampled_from(("txt", "md", "html")))
def test_no_text_does_worse_than_be_refused(text: str, kind: str) -> None:
    _read_or_refuse(text.encode("utf-8", "surrogatepass"), kind)
    refused = _refusal(lambda: read_text(text))
    assert not refused or refused.endswith(".")


TAGS = """
    <p> </p> <b> </b> <em> </em> <table> <tr> <td> </td> </tr> </table> <ol> <li> </ol> <br>
    <!-- --> <![if> <? ?> <! &amp; & &#42; <script> </script> <nav> </nav> <h1> </h1> <pre>
    </pre> <sup> <s> </s> <header> <article> <a/> <p/> < > <div/class='share'> </div> a,b 1
    """
WORDS = (" ", "\n", "Row 1:", "rep from *", "x6")


@given(st.lists(st.sampled_from((*TAGS.split(), *WORDS)), max_size=40))
def test_no_order_of_tags_does_worse_than_be_refused(tags: list[str]) -> None:
    _read_or_refuse("".join(tags).encode(), "html")


NAMES = """
    p r tbl tr tc sdt sdtContent ins del pPr rPr numPr numId ilvl pStyle b i strike
    txbxContent drawing AlternateContent Choice Fallback sym outlineLvl
    """
ELEMENTS = st.recursive(
    st.sampled_from(
        ("<w:t>Row 1: a, b</w:t>", "<w:t>rep from *</w:t>", "<w:br/>", "<w:tab/>")
    ),
    lambda inner: st.builds(
        lambda name, parts: f"<w:{name} w:val='1'>{''.join(parts)}</w:{name}>",
        st.sampled_from(NAMES.split()),
        st.lists(inner, max_size=4),
    ),
    max_leaves=20,
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(ELEMENTS, max_size=4))
def test_no_order_of_elements_does_worse_than_be_refused(
    make_docx: Callable[..., bytes], elements: list[str]
) -> None:
    _read_or_refuse(make_docx("".join(elements), styles="".join(elements)), "docx")


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_no_damage_to_a_good_file_does_worse_than_be_refused(
    files: Path, data: st.DataObject
) -> None:
    name = data.draw(
        st.sampled_from(("no-copying.pdf", "typeset.pdf", "word-processor.docx"))
    )
    good = (files / name).read_bytes()
    start = data.draw(st.integers(0, len(good)))
    gone = data.draw(st.integers(0, 40))
    new = data.draw(st.binary(max_size=20))
    _read_or_refuse(good[:start] + new + good[start + gone :], name.rpartition(".")[2])


def _refusal(read: Callable[[], object]) -> str:
    try:
        read()
    except UnreadableDraft as refusal:
        return str(refusal)
    return ""


def _read_or_refuse(data: bytes, kind: str) -> None:
    """Read; a refusal must be a sentence, and a text lead back to its file everywhere."""
    refused = _refusal(lambda: read_bytes(data, kind, "tern"))
    if refused:
        assert refused.startswith("tern cannot be read: ")
        assert refused.endswith(".")
        return
    draft = read_bytes(data, kind, "tern")
    text = draft.source.text
    assert text.strip()
    for offset in {0, len(text) // 2, len(text) - 1, len(text)}:
        assert draft.origin_of(offset).describe()
    for heading in draft.headings:
        assert draft.source.slice(heading.span).strip()
    assert all(note.endswith(".") for note in draft.notes)
