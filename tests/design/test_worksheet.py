"""What a worksheet says, and what is told of one that cannot be taken as it stands.

A case of `cases/worksheet.txt` is a title, a worksheet, and what is said of it beside the
pattern below: "--- nothing", or a line a finding with its loudness, line and column in the
worksheet, the words it stands under, and some words of its message and what to do.
"""

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hookwright.checking import Checked, check
from hookwright.design.facts import State
from hookwright.design.worksheet.keys import TABLES
from hookwright.design.worksheet.lengths import length_in
from hookwright.design.worksheet.reading import read_worksheet
from hookwright.design.worksheet.values import wrong_with
from hookwright.finding import Severity
from hookwright.reading.markdown import markdown_draft
from hookwright.source import Source

PATTERN = """# Eider Strip

US terms. Ch 1 does not count as a stitch.

Sizes: S (M, L)

Ch 21 (25, 29).
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 (24, 28) sc)
"""
UNSAID = """# Eider Strip

Ch 21.
Row 1: Dc in 4th ch from hook and in each ch across. (19 dc)
"""
CASES = Path(__file__).parent / "cases" / "worksheet.txt"
EXPECTED = re.compile(
    r"--- (?P<loud>error|warning|advice) (?P<line>\d+):(?P<column>\d+) "
    r'"(?P<words>.*)": (?P<said>.*)$'
)


def with_worksheet(text: str, pattern: str = PATTERN, terms: str | None = None) -> Checked:
    draft = markdown_draft(pattern, "pattern.md")
    return check(draft, terms, Source(text, "worksheet.toml"))


def cases() -> list[tuple[str, str, list[str]]]:
    """Title, worksheet and lines of what is expected."""
    pieces = re.split(r"^=== ", CASES.read_text("utf-8"), flags=re.MULTILINE)[1:]
    found = []
    for piece in pieces:
        title, _, rest = piece.partition("\n")
        lines = rest.splitlines()
        first = next(at for at, line in enumerate(lines) if line.startswith("--- "))
        text = "".join(f"{line}\n" for line in lines[:first])
        found.append((title, text, [line for line in lines[first:] if line.strip()]))
    return found


@pytest.mark.parametrize(("title", "text", "lines"), cases(), ids=lambda it: str(it)[:60])
def test_what_is_wrong_is_told_at_its_place(
    title: str, text: str, lines: list[str]
) -> None:
    del title
    checked = with_worksheet(text)
    sheet = checked.worksheet
    assert sheet is not None
    told = [
        (
            str(f.severity),
            *map(str, sheet.source.position(f.span.start)),
            " ".join(sheet.source.slice(f.span).split()),
        )
        for f in sheet.findings
    ]
    assert {f.rule for f in sheet.findings} <= {"worksheet"}
    if lines == ["--- nothing"]:
        assert [f.message for f in sheet.findings] == []
        return
    expected = [EXPECTED.match(line) for line in lines]
    assert told == [
        (m["loud"], m["line"], m["column"], m["words"]) for m in expected if m is not None
    ]
    for finding, m in zip(sheet.findings, expected, strict=True):
        assert m is not None
        assert m["said"] in f"{finding.message} {finding.why}"


def test_a_pattern_is_checked_whatever_its_worksheet_is() -> None:
    plain = check(markdown_draft(PATTERN, "pattern.md"))
    for text in ("[design\n", "\x01", "=", "a = " + "[" * 5000, "x" * 300_000):
        checked = with_worksheet(text)
        assert checked.lines == plain.lines
        assert checked.findings == plain.findings
        assert checked.worksheet is not None
        assert [f.severity for f in checked.worksheet.findings] == [Severity.ERROR]
        assert checked.has_errors()


@given(some.text(max_size=200))
def test_no_worksheet_fails(text: str) -> None:
    sheet = read_worksheet(Source(text))
    for finding in sheet.findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(text)


PIECES = some.sampled_from(
    ["[design]", "[[yarn]]", "[yarn.x]", "title", "letter", "a.b", "=", '"A"', "'", '"""',
     "[", "]", "{", "}", "1", "1.5", "true", "\n", "\n", " ", ",", "#", "\\", ".", "é", "-"],
)  # fmt: skip


@given(some.lists(PIECES, max_size=30).map("".join))
def test_no_worksheet_made_of_pieces_fails(text: str) -> None:
    sheet = read_worksheet(Source(text))
    for finding in sheet.findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(text)


@pytest.mark.parametrize("digits", ["9" * 400, "0x" + "f" * 9000, "1e999", "9" * 9000])
def test_a_number_of_any_length_is_told_and_does_no_harm(digits: str) -> None:
    for table, key in (
        ("swatch", "stitches"),
        ("yarn", "weight_class"),
        ("design", "title"),
    ):
        heading = f"[{table}]" if table == "design" else f"[[{table}]]"
        found = read_worksheet(Source(f"{heading}\n{key} = {digits}\n")).findings
        assert len(found) == 1


def test_what_it_says_is_known_with_its_units() -> None:
    checked = with_worksheet(
        '[design]\ntitle = "Eider"\nunits = "in"\n'
        '[[swatch]]\nstitches = 15\nrows = 12\nwidth = "4 in"\nstate = "blocked"\n'
        'hook_mm = 5.5\n[[swatch]]\nrepeats = 2\nwidth = "11,5 cm"\n'
        '[[yarn]]\nname = "Skarrow"\nletter = "A"\ncolour = "Foam"\nball_m = 199.5\n'
        '[[size]]\nname = "S"\nto_fit = "36 in"\nease = "-1 in"\n'
        '[[size]]\nname = "M"\n[[size]]\nname = "L"\n'
    )
    noted = checked.design.noted
    assert noted is not None
    first, second = noted.swatches
    assert first.width is not None
    assert (first.stitches, first.of, first.state) == (Fraction(15), "st", State.BLOCKED)
    assert first.width.mm == (Fraction("101.6"),)  # an inch is 25.4 mm, by agreement
    assert (first.height, first.hook_mm) == (first.width, Fraction("5.5"))
    assert (second.stitches, second.of) == (Fraction(2), "repeat")
    (yarn,) = noted.yarns
    assert (yarn.name, yarn.ball_m) == ("Skarrow", Fraction("199.5"))
    assert [(c.letter, c.name) for c in yarn.colours] == [("A", "Foam")]
    assert noted.sizes[0].ease is not None
    assert noted.sizes[0].ease.mm == (Fraction("-25.4"),)
    assert (noted.title, noted.units) == ("Eider", "in")
    assert checked.design.gauges == check(markdown_draft(PATTERN, "p.md")).design.gauges


def test_its_terms_hold_where_the_text_tells_none() -> None:
    unsaid = with_worksheet('[design]\nterms = "UK"\n', UNSAID)
    assert unsaid.terms == "UK"
    assert with_worksheet('[design]\nterms = "UK"\n', PATTERN).terms == "US"
    assert with_worksheet('[design]\nterms = "UK"\n', UNSAID, "US").terms == "US"


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        ("4 in", "101.6"), ("4 inches", "101.6"), ('4"', "101.6"), ("4 1/2 in", "114.3"),
        ("4½ in", "114.3"), ("1/2 in", "12.7"), ("10cm", "100"), ("10,5 cm", "105"),
        ("-2 in", "-50.8"), ("1 ft", "304.8"), ("2 yd", "1828.8"), ("1.5 m", "1500"),
        ("45 mm", "45"),
    ],
)  # fmt: skip
def test_lengths_in_every_unit(words: str, mm: str) -> None:
    """Source: International yard and pound agreement, 1959: a yard is 0.9144 m exactly."""
    length = length_in(words)
    assert length is not None
    assert length.mm == (Fraction(mm),)


@pytest.mark.parametrize(
    "words", ["4", "in", "four in", "4 in 5 cm", "1/0 in", "4 ells", ""]
)
def test_words_that_tell_no_length(words: str) -> None:
    assert length_in(words) is None


def test_every_example_of_a_key_can_be_taken() -> None:
    for table in TABLES:
        for key in table.keys:
            text = f"{table.heading}\n{key.name} = {key.example}\n"
            found = read_worksheet(Source(text)).findings
            assert [f.message for f in found if f.severity is not Severity.ADVICE] == [], (
                key
            )
            assert all(wrong_with(key, word) is None for word in key.of)
