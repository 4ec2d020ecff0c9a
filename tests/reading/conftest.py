"""The same small pattern in every kind of file, and ways to make such files by hand."""

from __future__ import annotations

import zipfile
from collections.abc import Callable, Mapping, Sequence
from io import BytesIO
from pathlib import Path
from xml.sax.saxutils import escape

import pytest

ROWS = (
    "Row 1: With A, ch 24, sc in 2nd ch from hook and in each ch across, turn. (23 sc)",
    (
        "Row 2: Ch 1, sc in first st, *ch 1, sk 1, sc in next st; rep from * across, turn."
        " (12 sc, 11 ch-1 sps)"
    ),
    (
        "Row 3: Ch 1, sc in first st, *sc in next sp, ch 1, sk 1; rep from * to last sp, sc"
        " in last sp and in last st, turn."
    ),
    "Rows 4-9: Rep Rows 2 and 3.",
    "Fasten off.",
)
LINES = (
    "Kittiwake Ledge Cloth",
    "Materials",
    "Cotton in Kelp (A) and Foam (B), 5 mm hook.",
    "Body",
    *ROWS,
)
HEADINGS = {"Kittiwake Ledge Cloth": 1, "Materials": 2, "Body": 2}

MakePdf = Callable[..., bytes]
MakeDocx = Callable[..., bytes]

_WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_COMPATIBLE = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_RELATIONS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Id="r1" Target="word/document.xml" Type="http://schemas.openxmlformats'
    '.org/officeDocument/2006/relationships/officeDocument"/></Relationships>'
)


@pytest.fixture
def files() -> Path:
    """Files that other programs wrote; each test says which."""
    return Path(__file__).parent / "files"


@pytest.fixture
def rows() -> tuple[str, ...]:
    return ROWS


@pytest.fixture
def pattern_lines() -> tuple[str, ...]:
    return LINES


@pytest.fixture
def pattern_headings() -> Mapping[str, int]:
    return HEADINGS


@pytest.fixture
def make_docx() -> MakeDocx:
    """A document around the XML of its body, with other parts if they are given."""
    return docx_of


def docx_of(body: str, **parts: str) -> bytes:
    file = BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("_rels/.rels", _RELATIONS)
        archive.writestr("word/document.xml", _part("document", f"<w:body>{body}</w:body>"))
        for name, content in parts.items():
            archive.writestr(f"word/{name}.xml", _part(name, content))
    return file.getvalue()


def _part(name: str, content: str) -> str:
    return f'<w:{name} xmlns:w="{_WORD}" xmlns:mc="{_COMPATIBLE}">{content}</w:{name}>'


def paragraph_of(text: str, style: str = "") -> str:
    properties = f'<w:pPr><w:pStyle w:val="{style}"/></w:pPr>' if style else ""
    return f"<w:p>{properties}<w:r><w:t>{escape(text)}</w:t></w:r></w:p>"


@pytest.fixture
def paragraph() -> Callable[..., str]:
    """The XML of one paragraph."""
    return paragraph_of


@pytest.fixture
def make_pdf() -> MakePdf:
    """A print of one content stream a page, with Helvetica as F1 and its bold as F2."""
    return pdf_of


def pdf_of(pages: Sequence[bytes], width: int = 400, height: int = 560) -> bytes:
    kids = b" ".join(b"%d 0 R" % (5 + 2 * at) for at in range(len(pages)))
    objects = [
        b"<</Type/Catalog/Pages 2 0 R>>",
        b"<</Type/Pages/Kids[%s]/Count %d>>" % (kids, len(pages)),
        b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>",
        b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica-Bold/Encoding/WinAnsiEncoding>>",
    ]
    for at, content in enumerate(pages):
        objects += [
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 %d %d]/Contents %d 0 R"
            b"/Resources<</Font<</F1 3 0 R/F2 4 0 R>>>>>>" % (width, height, 6 + 2 * at),
            b"<</Length %d>>stream\n%s\nendstream" % (len(content), content),
        ]
    return _numbered(objects)


def _numbered(objects: Sequence[bytes]) -> bytes:
    file = b"%PDF-1.4\n"
    offsets = []
    for number, content in enumerate(objects, start=1):
        offsets.append(b"%010d 00000 n \n" % len(file))
        file += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    table = b"xref\n0 %d\n0000000000 65535 f \n%s" % (len(objects) + 1, b"".join(offsets))
    trailer = b"trailer<</Size %d/Root 1 0 R>>\n" % (len(objects) + 1)
    return file + table + trailer + b"startxref\n%d\n%%%%EOF" % len(file)


def words_at(x: float, y: float, words: str, size: float = 10, font: str = "F1") -> bytes:
    for mark in "\\()":
        words = words.replace(mark, "\\" + mark)
    place = f"BT /{font} {size:g} Tf 1 0 0 1 {x:g} {y:g} Tm ({words}) Tj ET\n"
    return place.encode("cp1252")


@pytest.fixture
def at() -> Callable[..., bytes]:
    """Words at a place on a page, in points from its lower left corner."""
    return words_at


@pytest.fixture
def column() -> Callable[..., bytes]:
    """Lines of words below one another, 14 points apart."""
    return column_of


def column_of(x: float, y: float, lines: Sequence[str], size: float = 10) -> bytes:
    return b"".join(words_at(x, y - 14 * at, line, size) for at, line in enumerate(lines))
