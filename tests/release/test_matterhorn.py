"""The copies held to the Matterhorn Protocol, condition by condition, as far as a machine can.

Source: Matterhorn Protocol 1.1, PDF Association, the failure conditions of ISO 14289-1 that
need no human judgement; their numbers are given from memory. What is not here is of things
no copy has (forms, notes, ruby, embedded files are only seen to be absent), or of font
programs from within. Read with pikepdf, which knows nothing of how the files were made.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, Object, Pdf
from released import released

STANDARD = frozenset(
    "Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2"
    " H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference"
    " BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP Figure Formula Form".split()
)
"""Standard structure types of PDF 1.7. Source: ISO 32000-1, 14.8.4."""
PAINTS = frozenset("Tj TJ ' \" f F f* B B* b b* S s Do sh INLINE IMAGE".split())
KIDS = {
    "Table": {"Caption", "TR", "THead", "TBody", "TFoot"},
    "THead": {"TR"}, "TBody": {"TR"}, "TFoot": {"TR"}, "TR": {"TH", "TD"},
    "L": {"Caption", "LI", "L"}, "LI": {"Lbl", "LBody"},
}  # fmt: skip
PARENTS = {
    "TR": {"Table", "THead", "TBody", "TFoot"}, "TH": {"TR"}, "TD": {"TR"},
    "THead": {"Table"}, "TBody": {"Table"}, "LI": {"L"}, "LBody": {"LI"},
}  # fmt: skip


@cache
def copies() -> dict[str, Pdf]:
    files = released("").items()
    return {n: pikepdf.open(io.BytesIO(f.data)) for n, f in files if n.endswith(".pdf")}


def kids(node: Object) -> Iterator[Dictionary]:
    found: object = node.get("/K", [])
    for kid in found if isinstance(found, Array) else [found]:
        if isinstance(kid, Dictionary) and "/S" in kid:
            yield kid


def elements(pdf: Pdf) -> Iterator[tuple[str, Dictionary, str]]:
    """Every structure element with its standard type and that of its parent."""

    def below(node: Object, parent: str) -> Iterator[tuple[str, Dictionary, str]]:
        for kid in kids(node):
            own = standard(pdf, str(kid["/S"])[1:])
            yield own, kid, parent
            yield from below(kid, own)

    yield from below(pdf.Root["/StructTreeRoot"], "")


def role_map(pdf: Pdf) -> dict[str, str]:
    roles: Object = pdf.Root["/StructTreeRoot"].get("/RoleMap", Dictionary())
    return {str(name)[1:]: str(role)[1:] for name, role in roles.items()}


def standard(pdf: Pdf, tag: str) -> str:
    roles, seen = role_map(pdf), set[str]()
    while tag not in STANDARD and tag in roles and tag not in seen:
        seen.add(tag)
        tag = roles[tag]
    return tag


def marks(page: pikepdf.Page) -> Iterator[tuple[list[str], str]]:
    """Every operator of a page with the marks around it: "artifact", "tag" or "other"."""
    around: list[str] = []
    for one in pikepdf.parse_content_stream(page):
        operands, name = one.operands, str(one.operator)
        if name in ("BMC", "BDC"):
            tagged = len(operands) > 1 and "/MCID" in properties(page, operands[1])
            is_artifact = str(operands[0]) == "/Artifact"
            around.append("artifact" if is_artifact else "tag" if tagged else "other")
        elif name == "EMC":
            around.pop()
        yield list(around), name


def properties(page: pikepdf.Page, operand: Object) -> Object:
    if isinstance(operand, Name):
        return page.Resources["/Properties"][operand]
    return operand


def artifact_within_tag(pdf: Pdf) -> Iterator[object]:  # 01-003, 01-004
    for page in pdf.pages:
        yield from (m for m, _ in marks(page) if "artifact" in m and "tag" in m)


def neither_tagged_nor_artifact(pdf: Pdf) -> Iterator[object]:  # 01-005
    for page in pdf.pages:
        for around, name in marks(page):
            if name in PAINTS and not {"artifact", "tag"} & set(around):
                yield name


def not_marked(pdf: Pdf) -> Iterator[object]:  # 01-007 and 09: a tree, and Suspects unset
    info: Object = pdf.Root.get("/MarkInfo", Dictionary())
    if not info.get("/Marked") or info.get("/Suspects"):
        yield info


def tag_of_no_standard_type(pdf: Pdf) -> Iterator[object]:  # 02-001, 02-003
    yield from (tag for tag, _, _ in elements(pdf) if tag not in STANDARD)


def standard_tag_remapped(pdf: Pdf) -> Iterator[object]:  # 02-004
    yield from STANDARD & role_map(pdf).keys()


def metadata_lacking(pdf: Pdf) -> Iterator[object]:  # 06-001, 06-002, 06-003, 06-004
    if "/Metadata" not in pdf.Root:
        yield "no metadata"
    with pdf.open_metadata() as told:
        if told.get("pdfuaid:part") != "1" or not told.get("dc:title"):
            yield dict(told)


def title_not_shown(pdf: Pdf) -> Iterator[object]:  # 07-001, 07-002
    if not pdf.Root.get("/ViewerPreferences", Dictionary()).get("/DisplayDocTitle"):
        yield "DisplayDocTitle"


def table_or_list_out_of_order(pdf: Pdf) -> Iterator[object]:  # 09-004, 09-005
    for tag, _, parent in elements(pdf):
        if tag not in KIDS.get(parent, {tag}) or parent not in PARENTS.get(tag, {parent}):
            yield parent, tag


def fonts(pdf: Pdf) -> Iterator[Dictionary]:
    for one in pdf.objects:
        if isinstance(one, Dictionary) and one.get("/Type") == "/Font":
            yield one


def letters_of_no_character(pdf: Pdf) -> Iterator[object]:  # 10-001
    for font in fonts(pdf):
        if "CIDFont" not in str(font["/Subtype"]) and "/ToUnicode" not in font:
            yield font["/BaseFont"]


def language_not_told(pdf: Pdf) -> Iterator[object]:  # 11-001 to 11-006
    if not str(pdf.Root.get("/Lang", "")).startswith("en-"):
        yield "no language"


def figure_without_words(pdf: Pdf) -> Iterator[object]:  # 13-004
    for tag, one, _ in elements(pdf):
        told = str(one.get("/Alt", "")) + str(one.get("/ActualText", ""))
        if tag in ("Figure", "Formula") and not told.strip():
            yield one


def headings_out_of_order(pdf: Pdf) -> Iterator[object]:  # 14-002, 14-003, 14-007
    tags = [tag for tag, _, _ in elements(pdf) if tag[:1] == "H"]
    levels = [int(tag[1:]) for tag in tags if tag[1:].isdigit()]
    if "H" in tags or levels[0] != 1:
        yield tags
    yield from ((a, b) for a, b in pairwise(levels) if b > a + 1)


def header_cell_without_scope(pdf: Pdf) -> Iterator[object]:  # 15-003
    for tag, one, _ in elements(pdf):
        attributes: Object = one.get("/A", Array())
        each = attributes if isinstance(attributes, Array) else [attributes]
        told = any(isinstance(a, Dictionary) and "/Scope" in a for a in each)
        if tag == "TH" and not told:
            yield one


def tables_without_header_cells(pdf: Pdf) -> Iterator[object]:  # 15-001, 15-002
    for tag, one, _ in elements(pdf):
        if tag == "Table" and not any("TH" in str(n["/S"]) for n in every(one)):
            yield one


def every(node: Dictionary) -> Iterator[Dictionary]:
    for kid in kids(node):
        yield kid
        yield from every(kid)


def of_kinds_no_copy_has(pdf: Pdf) -> Iterator[object]:  # 19, 20, 21, 24, 25, 27
    for key in ("/OCProperties", "/AcroForm", "/Collection", "/AF", "/OpenAction"):
        if key in pdf.Root:
            yield key
    yield from pdf.attachments
    yield from (tag for tag, _, _ in elements(pdf) if tag in ("Note", "Ruby", "Warichu"))


def locked(pdf: Pdf) -> Iterator[object]:  # 26-001, 26-002
    if pdf.is_encrypted:
        yield "encrypted"


def annotation_not_told(pdf: Pdf) -> Iterator[object]:  # 28-002, 28-008, 28-009, 28-012
    for page in pdf.pages:
        notes: Object = page.get("/Annots", Array())
        if notes and str(page.get("/Tabs", "")) != "/S":
            yield "tab order"
        for note in notes:
            if "/StructParent" not in note or not str(note.get("/Contents", "")).strip():
                yield note


def drawn_from_elsewhere(pdf: Pdf) -> Iterator[object]:  # 30-001
    for one in pdf.objects:
        if isinstance(one, pikepdf.Stream) and "/Ref" in one:
            yield one


def font_not_embedded(pdf: Pdf) -> Iterator[object]:  # 31-009
    for one in pdf.objects:
        described = isinstance(one, Dictionary) and one.get("/Type") == "/FontDescriptor"
        if described and not {"/FontFile", "/FontFile2", "/FontFile3"} & set(one.keys()):
            yield one["/FontName"]


def outlines_without_their_order(pdf: Pdf) -> Iterator[object]:  # 31-005, 31-006
    for font in fonts(pdf):
        if str(font["/Subtype"]) == "/CIDFontType2" and "/CIDToGIDMap" not in font:
            yield font["/BaseFont"]
        encoding = font.get("/Encoding")
        composite = str(font["/Subtype"]) == "/Type0"
        if composite and isinstance(encoding, Name) and "Identity-H" not in str(encoding):
            yield encoding


def empty_elements(
    pdf: Pdf,
) -> Iterator[object]:  # 09-001 in part: nothing to be read there
    for tag, one, _ in elements(pdf):
        if tag in ("H1", "H2", "H3", "Table", "Figure") and "/K" not in one:
            yield tag


CONDITIONS: tuple[Callable[[Pdf], Iterator[object]], ...] = (
    artifact_within_tag, neither_tagged_nor_artifact, not_marked, tag_of_no_standard_type,
    standard_tag_remapped, metadata_lacking, title_not_shown, table_or_list_out_of_order,
    letters_of_no_character, language_not_told, figure_without_words, headings_out_of_order,
    header_cell_without_scope, tables_without_header_cells, of_kinds_no_copy_has, locked,
    annotation_not_told, drawn_from_elsewhere, font_not_embedded,
    outlines_without_their_order, empty_elements,
)  # fmt: skip


@pytest.mark.parametrize("condition", CONDITIONS, ids=lambda one: one.__name__)
def test_no_copy_fails(condition: Callable[[Pdf], Iterator[object]]) -> None:
    assert len(copies()) == 12
    assert {name: found for name, pdf in copies().items()
            if (found := list(condition(pdf))[:3])} == {}  # fmt: skip


def test_a_mark_that_is_left_out_is_noticed() -> None:
    data = released("")["ebb-runner-us-a4.pdf"].data
    with pikepdf.open(io.BytesIO(data)) as pdf:
        page = pdf.pages[1]
        kept = [
            one for one in pikepdf.parse_content_stream(page)
            if str(one.operator) not in ("BMC", "BDC", "EMC")
        ]  # fmt: skip
        page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))
        assert list(neither_tagged_nor_artifact(pdf))
        del pdf.Root["/Lang"]
        assert list(language_not_told(pdf))
