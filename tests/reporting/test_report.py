"""A report can be handed on: whole, true, and nothing of the pattern taken for a mark."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as some
from msgspec.structs import replace

from hookwright import __version__
from hookwright.checking import Checked, check
from hookwright.cli import main
from hookwright.finding import Edit, Finding, Related, Severity
from hookwright.reading.markdown import markdown_draft
from hookwright.reporting import as_markdown, as_page, report_of
from hookwright.source import Source, Span

ROOT = Path(__file__).parents[2]
STYLE = (ROOT / "src" / "hookwright" / "reporting" / "page.css").read_text("utf-8")
STRIP = """# Eider Strip

US terms. Ch 1 does not count as a stitch.

## Materials

Hook: 5 mm

## Strip

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Row 2: Ch 1, sc in each st across, turn. (19 sc)
Row 3: Ch 1, sc in each st across, turn.
"""
VOID = {"meta", "br", "hr", "img", "link", "input"}


class Page(HTMLParser):
    """What a browser would make of a page: tags that open and close, and its words."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[tuple[str, str]] = []
        self._open: list[str] = []
        self.feed(page)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.words.append((self._open[-1] if self._open else "", data.strip()))

    def of(self, tag: str) -> Iterator[str]:
        return (words for name, words in self.words if name == tag)


def strip(
    text: str = STRIP, *findings: tuple[str, Severity, str], name: str = "eider/strip.md"
) -> Checked:
    """A pattern with further findings by hand: words, loudness, message."""
    checked = check(markdown_draft(text, name), worksheet=Source('[design]\ntitel = "x"\n'))
    more = []
    for words, severity, message in findings:
        at = checked.source.text.index(words)
        span = Span(at, at + len(words))
        related = (Related(Span(0, 1), "look here."),)
        more.append(
            Finding("side", severity, span, message, "Look.", related, Edit(span, "RS"))
        )
    return replace(checked, findings=(*checked.findings, *more))


def page_of(checked: Checked) -> Page:
    return Page(as_page(report_of(checked)))


def test_a_report_has_its_sections_in_order() -> None:
    checked = strip(STRIP, ("Hook", Severity.ADVICE, "A word."))
    page = page_of(checked)
    assert list(page.of("h1")) == ["Eider Strip"]
    assert list(page.of("h2")) == [
        "To mend and to look at", "What was proven", "Advice", "Row by row",
    ]  # fmt: skip
    assert list(page.of("h3")) == ["Worksheet", "Rows", "Terms", "Materials"]
    assert "3 rows, 2 findings: 1 to mend, 1 to look at." in list(page.of("p"))


def test_findings_stand_under_their_words_with_what_to_do() -> None:
    page = page_of(strip())
    assert list(page.of("mark"))[1] == "(19 sc)"
    words = list(page.of("p"))
    assert "Row 2 makes 20 stitches, not 19 sc." in words
    assert 'Write "20" in place of "19".' in words


def test_what_was_proven_and_assumed_is_said() -> None:
    report = report_of(strip(STRIP.replace("US terms. ", "").replace("(19", "(20")))
    assert report.proven[0].startswith("2 rows proven: ")
    assert report.proven[1].startswith("1 row without a printed number: ")
    assert any("US terms" in sentence for sentence in report.assumed)


def test_a_report_tells_no_folder_and_no_version() -> None:
    checked = strip(STRIP, name="/home/ann/secret/strip.md")
    for text in (as_page(report_of(checked)), as_markdown(report_of(checked))):
        assert "strip.md" in text
        assert "secret" not in text
        assert __version__ not in text


def test_the_page_needs_nothing_else_and_runs_nothing() -> None:
    page = page_of(strip())
    names = {tag for tag, _ in page.tags}
    assert not names & {"script", "link", "img", "iframe", "object", "form", "a"}
    attributes = {name for _, attrs in page.tags for name in attrs}
    assert not {name for name in attributes if name.startswith("on")} | attributes & {
        "src",
        "href",
        "style",
    }
    policy = next(attrs for tag, attrs in page.tags if attrs.get("http-equiv"))
    assert policy["content"] == "default-src 'none'; style-src 'unsafe-inline'"
    assert "url(" not in STYLE
    assert "@import" not in STYLE


def test_the_page_can_be_found_one_s_way_in_without_seeing_it() -> None:
    """Source: WCAG 2.2: 1.3.1 information and relationships, 2.4.2 page titled, 3.1.1 language."""
    page = page_of(strip())
    assert dict(page.tags)["html"] == {"lang": "en"}
    assert next(page.of("title")) == "Eider Strip: report of the check"
    levels = [int(tag[1]) for tag, _ in page.tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    heads = [attrs for tag, attrs in page.tags if tag == "th"]
    assert {attrs["scope"] for attrs in heads} == {"col", "row"}
    tables = sum(tag == "table" for tag, _ in page.tags)
    assert tables == sum(tag == "caption" for tag, _ in page.tags)
    regions = [attrs for _, attrs in page.tags if attrs.get("role") == "region"]
    names = {attrs["id"] for _, attrs in page.tags if "id" in attrs}
    assert {attrs["aria-labelledby"] for attrs in regions} <= names
    assert {"header", "main"} <= {tag for tag, _ in page.tags}


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("name", ["ink", "quiet", "red", "blue"])
def test_every_colour_of_words_can_be_read_on_the_paper(name: str) -> None:
    """Source: WCAG 2.2, 1.4.6: 7 to 1 for words, by its formula of relative luminance."""
    colours = dict(re.findall(r"--(\w+): (#[0-9A-F]{6})", STYLE))
    lighter, darker = luminance(colours["paper"]), luminance(colours[name])
    assert (lighter + 0.05) / (darker + 0.05) >= 7


HOSTILE = '<script>alert("1")</script> & <b onclick=x> \x1b[31m \u202e -->'


def test_a_pattern_is_never_taken_for_marks_of_the_page() -> None:
    text = STRIP.replace("Eider Strip", HOSTILE).replace(
        "turn. (19 sc)", f"{HOSTILE} turn. (19 sc)"
    )
    text = text.replace("Row 3:", "Row 3 (<i>RS</i>):")
    checked = strip(text, ("alert", Severity.WARNING, HOSTILE), name=f"{HOSTILE}.md")
    page = page_of(checked)
    plain = page_of(strip(STRIP, ("Hook", Severity.WARNING, "A word.")))
    assert {tag for tag, _ in page.tags} <= {tag for tag, _ in plain.tags}
    assert '<script>alert("1")</script> & <b onclick=x>' in next(page.of("h1"))
    assert "\x1b" not in as_page(report_of(checked))
    assert "\u202e" not in as_page(report_of(checked))


def test_a_pattern_is_never_taken_for_marks_of_markdown() -> None:
    title = "The *Eider* [Strip](x) <b> | `a` # _b_ ~c~ d"
    text = as_markdown(report_of(strip(STRIP.replace("Eider Strip", title))))
    assert "\\*Eider\\* \\[Strip\\](x) \\<b\\> \\| \\`a\\` \\# \\_b\\_ \\~c\\~" in text
    assert "<" not in text.replace("<!--", "").replace("\\<", "")


def test_a_table_in_markdown_has_as_many_cells_in_every_line() -> None:
    text = as_markdown(report_of(strip(STRIP.replace("Row 3:", "Row 3 (a|b):"))))
    lines = [line for line in text.splitlines() if line.startswith("|")]
    assert len(lines) == 2 + 4
    assert len({len(re.findall(r"(?<!\\)\|", line)) for line in lines}) == 1


@given(some.text(min_size=1, max_size=200))
def test_any_text_makes_a_page(text: str) -> None:
    checked = check(Source(f"{text}\nCh 9.\nRow 1: sc in each ch. (7 sc)\n", text))
    page_of(checked)
    as_markdown(report_of(checked))


def called(*words: str, piped: str = "") -> Result:
    return CliRunner().invoke(main, ["check", *words], input=piped)


@pytest.mark.parametrize("name", ["report.html", "report.md", "REPORT.HTML"])
def test_a_report_is_written_beside_the_listing(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    first = called("--report", str(path), "-", piped=STRIP)
    assert first.exit_code == 1
    assert "3 rows, 1 finding" in first.stdout
    assert first.stderr == f"The report is in {path}.\n"
    before = path.read_bytes()
    assert called("--report", str(path), "-", piped=STRIP).exit_code == 1
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


def test_a_report_never_takes_the_place_of_a_pattern(tmp_path: Path) -> None:
    path = tmp_path / "strip.md"
    path.write_text(STRIP, encoding="utf-8")
    result = called("--report", str(path), str(path))
    assert result.exit_code == 2
    assert "Choose another name" in result.stderr
    assert path.read_text("utf-8") == STRIP


@pytest.mark.parametrize(
    "words",
    [
        ["--report", "a.pdf", "-"],
        ["--report", "a.md", "-", "-"],
        ["--report", "a.md", "--text", "-"],
    ],
)
def test_a_report_is_of_one_pattern_and_of_a_kind_that_is_made(words: list[str]) -> None:
    result = called(*words, piped=STRIP)
    assert result.exit_code == 2
    assert "Usage" in result.stderr


def test_the_report_of_every_example_is_whole() -> None:
    for path in sorted((ROOT / "examples").glob("*-slip.md")):
        checked = check(markdown_draft(path.read_text("utf-8"), path.name))
        report = report_of(checked)
        page = page_of(checked)
        told = sum(len(group.entries) for group in (*report.findings, *report.advice))
        assert (
            told
            == len(checked.all_findings)
            == sum(tag == "article" for tag, _ in page.tags)
        )
        as_markdown(report)
