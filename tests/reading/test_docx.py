"""Word documents: what the designer sees when she accepts all changes.

The names of the elements are from ECMA-376, part 1.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable

import pytest

from hookwright.reading import ParagraphPlace, UnreadableDraft, read_bytes

MakeDocx = Callable[..., bytes]


def _run(text: str, properties: str = "") -> str:
    inner = f"<w:rPr>{properties}</w:rPr>" if properties else ""
    return f"<w:r>{inner}<w:t xml:space='preserve'>{text}</w:t></w:r>"


def _p(inner: str, properties: str = "") -> str:
    return f"<w:p><w:pPr>{properties}</w:pPr>{inner}</w:p>"


def _cell(*paragraphs: str) -> str:
    return f"<w:tc>{''.join(_p(_run(text)) for text in paragraphs)}</w:tc>"


_BOX = f"<w:txbxContent>{_p(_run('Row 9: dc'))}</w:txbxContent>"

# The XML of the body, and the lines that are read.
CASES = {
    "runs are joined": (_p(_run("Row") + _run(" 1: s") + _run("c")), "Row 1: sc"),
    "tabs and breaks": (
        _p("<w:r><w:t>Row 1:</w:t><w:tab/><w:t>sc</w:t><w:br/><w:t>Row 2</w:t></w:r>"),
        "Row 1:\tsc\nRow 2",
    ),
    "an empty paragraph is a blank line": (
        _p(_run("Row 1")) + _p("") + _p(" ") + _p(_run("Row 2")),
        "Row 1\n\nRow 2",
    ),
    "insertions are read, deletions are not": (
        _p(
            _run("dc in next ")
            + f"<w:ins>{_run('4')}</w:ins>"
            + "<w:del><w:r><w:delText>5</w:delText></w:r></w:del>"
            + _run(" sts")
        ),
        "dc in next 4 sts",
    ),
    "moved words stand where they went": (
        _p(f"<w:moveFrom>{_run('turn, ')}</w:moveFrom>{_run('sc, ')}")
        + _p(f"<w:moveTo>{_run('turn')}</w:moveTo>"),
        "sc,\nturn",
    ),
    "a deleted paragraph end joins two": (
        _p(_run("Row 1: "), "<w:rPr><w:del/></w:rPr>") + _p(_run("sc")),
        "Row 1: sc",
    ),
    "hidden and struck out words": (
        _p(_run("a", "<w:vanish/>") + _run("Row 1") + _run("b", "<w:strike/>")),
        "Row 1",
    ),
    "a switch may be off": (_p(_run("Row 1", "<w:strike w:val='0'/>")), "Row 1"),
    "links, controls and smart tags": (
        (
            f"<w:sdt><w:sdtContent>{_p('<w:hyperlink>' + _run('Row 1') + '</w:hyperlink>')}"
            "</w:sdtContent></w:sdt>"
        ),
        "Row 1",
    ),
    "a field's result, not its code": (
        _p(f"<w:r><w:instrText>PAGE</w:instrText></w:r>{_run('Row 1')}"),
        "Row 1",
    ),
    "hyphens and symbols": (
        _p(
            "<w:r><w:t>ch</w:t><w:noBreakHyphen/><w:t>2 sp</w:t><w:softHyphen/>"
            "<w:sym w:font='Symbol' w:char='F02A'/>"
            "<w:sym w:font='Wingdings' w:char='F04A'/>"
            "<w:sym w:char='00BD'/><w:sym w:char='x'/></w:r>"
        ),
        "ch-2 sp*½",
    ),
    "a table's row is a line": (
        (
            f"<w:tbl><w:tr>{_cell('Size')}{_cell('S')}</w:tr>"
            f"<w:tr>{_cell('Row 1')}{_cell('ch 3,', 'turn')}{_cell('')}</w:tr></w:tbl>"
        ),
        "Size\tS\nRow 1\tch 3, turn",
    ),
    "a deleted row of a table": (
        (
            f"<w:tbl><w:tr><w:trPr><w:del/></w:trPr>{_cell('x')}</w:tr>"
            f"<w:tr>{_cell('Row 1')}</w:tr></w:tbl>"
        ),
        "Row 1",
    ),
    "a table that lays out the page": (
        f"<w:tbl><w:tr>{_cell('Row 1: sc', 'Row 2: dc')}{_cell('')}</w:tr></w:tbl>",
        "Row 1: sc\nRow 2: dc",
    ),
    "a text box once, after its paragraph": (
        _p(
            "<w:r><mc:AlternateContent>"
            f"<mc:Choice><w:drawing>{_BOX}</w:drawing></mc:Choice>"
            f"<mc:Fallback><w:pict>{_BOX}</w:pict></mc:Fallback>"
            "</mc:AlternateContent></w:r>" + _run("Row 1: sc")
        ),
        "Row 1: sc\nRow 9: dc",
    ),
    "a text box of an old document": (
        _p(f"<w:r><w:pict>{_BOX}</w:pict></w:r>{_run('Row 1')}"),
        "Row 1\nRow 9: dc",
    ),
    "lost stars": (
        _p(_run("Row 2: ", "<w:b/>") + _run("ch 1, sk 1", "<w:i/>") + _run("; rep from *")),
        "Row 2: *ch 1, sk 1*; rep from *",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_document_is_read_as_it_is_seen(name: str, make_docx: MakeDocx) -> None:
    body, text = CASES[name]
    assert read_bytes(make_docx(body), "docx", "a.docx").source.text == f"{text}\n"


_NUMBERING = """
<w:abstractNum w:abstractNumId="0">
  <w:lvl w:ilvl="0"><w:start w:val="1"/><w:numFmt w:val="decimal"/>
    <w:lvlText w:val="{}"/></w:lvl>
  <w:lvl w:ilvl="1"><w:numFmt w:val="lowerLetter"/><w:lvlText w:val="%1%2)"/></w:lvl>
  <w:lvl w:ilvl="2"><w:numFmt w:val="bullet"/><w:lvlText w:val="o"/></w:lvl>
  <w:lvl w:ilvl="3"><w:numFmt w:val="upperRoman"/><w:lvlText w:val="%4."/></w:lvl>
</w:abstractNum>
<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num>
<w:num w:numId="2"><w:abstractNumId w:val="0"/>
  <w:lvlOverride w:ilvl="0"><w:startOverride w:val="7"/></w:lvlOverride></w:num>
"""


def _item(text: str, level: int = 0, number: int = 1) -> str:
    place = f"<w:ilvl w:val='{level}'/><w:numId w:val='{number}'/>"
    return _p(_run(text), f"<w:numPr>{place}</w:numPr>")


# How the list is numbered, its items, and the lines that are read.
LISTS = {
    "plain numbers": ("%1.", [("Fold", 0, 1), ("Sew", 0, 1)], "1. Fold\n2. Sew"),
    "rows numbered by the program": (
        "Row %1:",
        [("sc across", 0, 1), ("dc across", 0, 1)],
        "Row 1: sc across\nRow 2: dc across",
    ),
    "levels": (
        "%1.",
        [("A", 0, 1), ("B", 1, 1), ("C", 1, 1), ("D", 0, 1), ("E", 1, 1)],
        "1. A\n1a) B\n1b) C\n2. D\n2a) E",
    ),
    "bullets and Roman numbers": ("%1.", [("A", 2, 1), ("B", 3, 1)], "A\nB"),
    "a list begun again": (
        "%1.",
        [("A", 0, 1), ("B", 0, 2), ("C", 0, 2)],
        "1. A\n7. B\n8. C",
    ),
    "a row with its own label": (
        "%1.",
        [("Row 1: sc", 0, 1), ("B", 0, 1)],
        "Row 1: sc\n2. B",
    ),
    "no list of this name": ("%1.", [("A", 0, 5), ("B", 8, 1)], "A\nB"),
}


@pytest.mark.parametrize("name", LISTS)
def test_numbers_that_only_the_program_shows_are_restored(
    name: str, make_docx: MakeDocx
) -> None:
    pattern, items, text = LISTS[name]
    body = "".join(_item(*item) for item in items)
    data = make_docx(body, numbering=_NUMBERING.format(pattern))
    assert read_bytes(data, "docx", "a.docx").source.text == f"{text}\n"


_STYLES = """
<w:style w:styleId="T"><w:name w:val="Title"/></w:style>
<w:style w:styleId="berschrift2"><w:name w:val="heading 2"/></w:style>
<w:style w:styleId="Mine"><w:basedOn w:val="berschrift2"/></w:style>
<w:style w:styleId="Out"><w:pPr><w:outlineLvl w:val="3"/></w:pPr></w:style>
<w:style w:styleId="Ring"><w:basedOn w:val="Ring"/></w:style>
<w:style w:styleId="Steps"><w:pPr><w:numPr><w:numId w:val="1"/></w:numPr></w:pPr></w:style>
"""


def test_headings_and_lists_are_known_by_style_whatever_the_language(
    make_docx: MakeDocx, paragraph: Callable[..., str]
) -> None:
    styles = ("T", "berschrift2", "Mine", "Out", "Ring", "Steps", "Heading1")
    body = "".join(paragraph(f"A {style}", style) for style in styles)
    data = make_docx(body, styles=_STYLES, numbering=_NUMBERING.format("%1."))
    draft = read_bytes(data, "docx", "a.docx")
    found = {draft.source.slice(each.span): each.level for each in draft.headings}
    assert found == {"A T": 1, "A berschrift2": 2, "A Mine": 2, "A Out": 4, "A Heading1": 1}
    assert "1. A Steps" in draft.source.text


def test_places_count_paragraphs_with_words_and_cells_of_tables(
    make_docx: MakeDocx,
) -> None:
    body = _p(_run("Tern")) + _p("") + _p(_run("Row 1"))
    body += f"<w:tbl><w:tr>{_cell('a')}{_cell('b')}</w:tr></w:tbl>{_p(_run('end'))}"
    draft = read_bytes(make_docx(body), "docx", "a.docx")
    places = {
        word: draft.origin_of(draft.source.text.index(word)) for word in ("Row", "b", "end")
    }
    assert places == {
        "Row": ParagraphPlace(2),
        "b": ParagraphPlace(None, table=1, row=1, cell=2),
        "end": ParagraphPlace(3),
    }
    assert places["b"].describe() == "table 1, row 1, cell 2"


def test_footnotes_and_struck_out_words_are_not_read_but_said(make_docx: MakeDocx) -> None:
    body = _p(_run("Row 1") + _run("x", "<w:dstrike/>"))
    data = make_docx(body, footnotes=f"<w:footnote>{_p(_run('Kelp is A.'))}</w:footnote>")
    assert read_bytes(data, "docx", "a.docx").notes == (
        "Words that are struck out were not read.",
        "Footnotes and endnotes were not read.",
    )


def _refused(data: bytes) -> str:
    with pytest.raises(UnreadableDraft) as refusal:
        read_bytes(data, "docx", "a.docx")
    return str(refusal.value).removeprefix("a.docx cannot be read: ")


def _with_document(document: bytes, packing: int = zipfile.ZIP_DEFLATED) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", packing) as archive:
        archive.writestr("word/document.xml", document)
    return file.getvalue()


_TOO_LARGE = "it unpacks to far more than a pattern. Save the pattern alone and try again."


def test_a_bomb_of_entities_is_refused() -> None:
    """The classic one: ten entities, each ten times the one before."""
    entities = "".join(
        f'<!ENTITY a{at} "{f"&a{at - 1};" * 10 if at else "sc"}">' for at in range(10)
    )
    bomb = f"<!DOCTYPE d [{entities}]><document><body>&a9;</body></document>"
    assert _refused(_with_document(bomb.encode())).startswith(
        "it is damaged, or not a Word"
    )


def test_a_part_that_unpacks_to_gigabytes_is_refused() -> None:
    assert _refused(_with_document(b" " * 40_000_000)) == _TOO_LARGE
    assert _refused(_with_document(b"<document>" + b" " * 2_000_000)) == _TOO_LARGE


def test_a_folder_of_endless_entries_is_refused() -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for at in range(4001):
            archive.writestr(f"{at}", b"")
    assert _refused(file.getvalue()) == _TOO_LARGE


def test_a_document_nested_too_deeply_is_refused(make_docx: MakeDocx) -> None:
    deep = "<w:tbl><w:tr><w:tc>" * 40 + "</w:tc></w:tr></w:tbl>" * 40
    assert _refused(make_docx(deep)) == "its tables and text boxes are nested too deeply."


def test_a_locked_folder_is_refused(make_docx: MakeDocx) -> None:
    data = bytearray(make_docx(_p(_run("Row 1"))))
    for mark, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = data.find(mark)
        while at >= 0:
            data[at + flags] |= 1
            at = data.find(mark, at + 1)
    assert _refused(bytes(data)).startswith("it is locked with a password.")


def test_a_folder_that_is_no_document_is_refused() -> None:
    assert _refused(_with_document(b"<book/>")).startswith("it is a packed folder, but not")
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("a.txt", "Row 1")
    assert _refused(file.getvalue()).startswith("it is a packed folder, but not")


@pytest.mark.parametrize(
    "xml", [b"", b"<document>", b"\xff", b"<?xml encoding='none'?><a/>"]
)
def test_a_damaged_document_is_refused(xml: bytes) -> None:
    assert _refused(_with_document(xml)).startswith(
        "it is damaged, or not a Word document."
    )


def test_a_document_cut_short_is_refused(make_docx: MakeDocx) -> None:
    data = make_docx(_p(_run("Row 1")))
    assert _refused(data[: len(data) // 2]).startswith(
        "it is damaged, or not a Word document."
    )


def test_a_document_without_words_is_refused(make_docx: MakeDocx) -> None:
    assert _refused(make_docx("")) == "there are no words in it."
