"""The structure of the PDF: headings, tables, figures, language and title, for a screen reader.

Held against ISO 14289-1 (PDF/UA-1) in what its clauses ask of tags, with pikepdf, which
knows nothing of how the file was made.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import pairwise

import pikepdf
import pytest
from released import STAMP, released, waves

from hookwright.reading import read_bytes
from hookwright.release.contents import contents_of
from hookwright.release.copies import Edition
from hookwright.release.texts import Text
from hookwright.release.typesetting import Typesetter, as_data, template_of


def opened(data: bytes) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(data))


def elements(node: pikepdf.Object) -> Iterator[pikepdf.Dictionary]:
    """Every structure element below one, in reading order."""
    kids: object = node.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from elements(kid)


def tags(pdf: pikepdf.Pdf) -> list[str]:
    return [str(element["/S"]) for element in elements(pdf.Root["/StructTreeRoot"])]


PDFS = sorted(name for name in released("") if name.endswith(".pdf"))


@pytest.mark.parametrize("name", PDFS)
def test_a_pdf_is_tagged_has_a_language_and_shows_its_title(name: str) -> None:
    with opened(released("")[name].data) as pdf:
        assert pdf.Root["/MarkInfo"]["/Marked"]
        assert str(pdf.Root["/Lang"]).lower() == ("en-gb" if "-uk" in name else "en-us")
        assert pdf.Root["/ViewerPreferences"]["/DisplayDocTitle"]
        with pdf.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert "Ebb Runner" in str(metadata["dc:title"])


@pytest.mark.parametrize("name", PDFS)
def test_headings_begin_at_the_first_level_and_leave_none_out(name: str) -> None:
    with opened(released("")[name].data) as pdf:
        levels = [
            int(tag[2:]) for tag in tags(pdf) if tag[:2] == "/H" and tag[2:].isdigit()
        ]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert len(levels) > 5


def test_the_table_of_balls_has_header_cells_with_a_scope() -> None:
    with opened(released("")["ebb-runner-us-a4.pdf"].data) as pdf:
        heads = [e for e in elements(pdf.Root["/StructTreeRoot"]) if e["/S"] == "/TH"]
    assert len(heads) >= 3
    assert all("Scope" in str(head.get("/A", "")) for head in heads)


def test_every_figure_has_words() -> None:
    with opened(released("")["ebb-runner-us-a4.pdf"].data) as pdf:
        figures = [e for e in elements(pdf.Root["/StructTreeRoot"]) if e["/S"] == "/Figure"]
    assert figures
    assert all(str(figure.get("/Alt", "")).strip() for figure in figures)


def test_the_letter_of_a_stripe_is_said_with_the_name_of_its_yarn() -> None:
    with opened(released("")["ebb-runner-us-a4.pdf"].data) as pdf:
        said = {str(e.get("/Alt", "")) for e in elements(pdf.Root["/StructTreeRoot"])}
    assert {"A, Tide", "B, Sand"} <= said


@pytest.mark.parametrize("terms", ["us", "uk"])
def test_stripes_have_the_colours_of_the_worksheet_in_both_terms(terms: str) -> None:
    from hookwright.release.texts import Texts  # noqa: PLC0415 - one use

    shades = contents_of(Texts(waves()).of(terms.upper(), "short"), STAMP).shades
    assert [shade.code.lower() for shade in shades] == ["#22324a", "#e0c9a0"]
    assert [shade.dark for shade in shades] == [True, False]


def test_all_fonts_are_ours_and_embedded() -> None:
    for name in PDFS:
        with opened(released("")[name].data) as pdf:
            fonts = [
                o for o in pdf.objects
                if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
            ]  # fmt: skip
            assert fonts
            for font in fonts:
                assert any(key in font for key in ("/FontFile", "/FontFile2", "/FontFile3"))
                assert any(
                    own in str(font["/FontName"]) for own in ("Literata", "Atkinson")
                )


def test_the_same_contents_give_the_same_bytes() -> None:
    contents = contents_of(Text(waves()), STAMP)
    inputs = {"edition": "colour", "paper": "a4"}
    template = template_of(Edition.COLOUR)
    with Typesetter({}) as one, Typesetter({}) as other:
        assert one.pdf(contents, template, inputs) == other.pdf(contents, template, inputs)


HOSTILE = (
    '#import "x" *bold* _slant_ `code` $x^2$ <script>alert(1)</script> & @ref \\ // /* */'
    ' [a](b) {c} ~ = - + "q" </script> <!-- ★ 日 \u202e \x07'
)


def hostile() -> Text:
    from hookwright.checking import check  # noqa: PLC0415 - for this text only
    from hookwright.reading.markdown import markdown_draft  # noqa: PLC0415

    text = f"# Net {HOSTILE}\n\n{HOSTILE}\n\n## Notes\n\n{HOSTILE}\n\n## Net\n\nCh 5.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. {HOSTILE} (4 sc)\n"
    return Text(check(markdown_draft(text, "pattern.md")))


@pytest.mark.parametrize("edition", [Edition.COLOUR, Edition.LARGE])
def test_signs_of_every_kind_are_printed_as_they_are(edition: Edition) -> None:
    contents = contents_of(hostile(), STAMP, large=edition is Edition.LARGE)
    with Typesetter({}) as typesetter:
        data = typesetter.pdf(
            contents, template_of(edition), {"edition": edition.value, "paper": "a4"}
        )
    printed = read_bytes(data, ".pdf", "net.pdf").source.text.replace("\u00a0", " ")
    printed = " ".join(printed.split())
    for sign in ("#import", "*bold*", "_slant_", "`code`", "$x^2$", "<script>alert(1)</script>",
                 "&", "@ref", "\\", "// /* */", "[a](b)", "{c}", "[black star]"):  # fmt: skip
        assert sign in printed, sign


def test_the_data_of_a_copy_holds_only_letters_our_fonts_draw() -> None:
    data = as_data(contents_of(hostile(), STAMP))
    assert "★" not in data
    assert "[black star]" in data
    assert "\\u0007" not in data


@pytest.mark.parametrize("name", ["", "petrel-cap", "kelp-square"])
def test_every_page_but_the_cover_has_its_number(name: str) -> None:
    from pypdfium2 import PdfDocument  # type: ignore[import-untyped] # noqa: PLC0415 - one use

    for file, made in released(name).items():
        if not file.endswith(".pdf"):
            continue
        with PdfDocument(made.data) as pdf:
            words = [page.get_textpage().get_text_range() for page in pdf]
        first = 0 if "large" in file else 1  # a cover has none
        lacking = [
            at for at, said in enumerate(words, 1)
            if at > first and f"{at} of {len(words)}" not in said
        ]  # fmt: skip
        assert lacking == [], file
