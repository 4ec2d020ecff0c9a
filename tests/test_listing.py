"""What a checked pattern looks like as text: its table, its marks, its last lines."""

from __future__ import annotations

import re
import shlex
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as some
from msgspec.structs import replace

from hookwright.checking import Checked, check
from hookwright.finding import Edit, Finding, Related, Severity
from hookwright.listing import Layout, listing
from hookwright.listing.columns import columns_of, writable
from hookwright.listing.excerpt import excerpt
from hookwright.reading import Box, Draft, PagePlace
from hookwright.reading.draft import Stretch, Stretches
from hookwright.source import Source, Span
from hookwright.terminal import Ink

HEAD = """Eider Strip

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
"""
STRIP = (
    HEAD
    + """Rows 2-9: Ch 1, sc in each st across, turn. (20 sc)
Row 10: Ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * to last st, sc in last st, turn. (11 sc, 9 ch-1 sps)
Row 11: Ch 1, sc in each sc and in each ch-1 sp across, turn. (20 sc)
Rows 12-19: Rep Rows 10 and 11.
Row 20: Ch 1, 2 sc in first st, sc in each st across, turn. (21 sc)
Rows 21-25: Rep Row 20.
"""
)
CUFF = """Skerry Cuff

US terms. Ch 1 does not count as a stitch.

Sizes: S (M, L)

Ch 31 (37, 43).
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (30 (36, 42) sc)
Row 2: Ch 1, sc in each st across, turn. (30 (36, 42) sc)
"""


def checked(text: str) -> Checked:
    return check(Source(text, "strip.md"))


def lines_of(text: str, layout: Layout = Layout()) -> list[str]:  # noqa: B008 - a value
    return listing(checked(text), layout).splitlines()


def cells(line: str) -> list[str]:
    return re.split(r"\s{2,}", line.strip())


def row_called(label: str, lines: list[str]) -> list[str]:
    return next(cells(line) for line in lines if cells(line)[0] == label)


def with_finding(text: str, words: str, **more: object) -> Checked:
    """A pattern with one finding, by hand, of these words of it."""
    at = text.index(words)
    finding = Finding(
        "stated-count", Severity.ERROR, Span(at, at + len(words)), "Row 1 makes 20, not 19."
    )
    return replace(checked(text), findings=(replace(finding, **more),))


def test_a_printed_label_is_one_line_with_what_it_uses_and_makes() -> None:
    lines = lines_of(STRIP)
    assert cells(lines[0]) == ["row", "uses", "makes", "spaces", "printed"]
    assert row_called("Row 1", lines) == ["Row 1", "21", "20", "0", "20", "proven"]
    assert row_called("Rows 2-9", lines) == ["Rows 2-9", "20", "20", "0", "20", "proven"]
    assert row_called("Row 10", lines) == ["Row 10", "20", "11", "9", "11", "proven"]


def test_figures_stand_below_one_another() -> None:
    lines = [
        line for line in lines_of(STRIP) if line.startswith(("row", "Row 1 ", "Row 10"))
    ]
    ends = [[found.end() for found in re.finditer(r"\S+", line[8:])] for line in lines]
    assert ends[0][:4] == ends[1][:4] == ends[2][:4]


def test_the_foundation_chain_makes_but_uses_nothing() -> None:
    assert row_called("foundation", lines_of(STRIP)) == ["foundation", "21"]


def test_chain_spaces_have_a_column_only_where_there_are_some() -> None:
    assert cells(lines_of(HEAD)[0]) == ["row", "uses", "makes", "printed"]


def test_rows_that_come_round_again_are_one_line_each() -> None:
    lines = lines_of(STRIP)
    assert row_called("Rows 12, 14 ... 18", lines)[1:] == ["20", "11", "9", "closes"]
    assert row_called("Rows 13, 15 ... 19", lines)[1:] == ["11", "20", "0", "closes"]


def test_rows_that_grow_evenly_are_told_from_the_first_to_the_last() -> None:
    assert row_called("Rows 21-25", lines_of(STRIP))[1:4] == ["21 to 25", "22 to 26", "0"]


def test_all_rows_have_a_line_each_if_wanted() -> None:
    lines = lines_of(STRIP, Layout(all_rows=True))
    labels = [cells(line)[0] for line in lines[: lines.index("")]]
    assert labels == ["row", "foundation", *(f"Row {number}" for number in range(1, 26))]
    assert row_called("Row 23", lines)[1:3] == ["23", "24"]


def test_sizes_stand_in_one_line_as_patterns_print_them() -> None:
    lines = lines_of(CUFF, Layout(width=100))
    assert lines[0] == "Sizes: S (M, L)"
    assert row_called("Row 1", lines)[1:3] == ["31 (37, 43)", "30 (36, 42)"]


def test_sizes_stand_below_each_other_where_a_line_has_no_room() -> None:
    lines = lines_of(CUFF, Layout(width=40))
    at = next(i for i, line in enumerate(lines) if line.startswith("Row 2"))
    assert [cells(line)[:3] for line in lines[at + 1 : at + 3]] == [
        ["M", "36", "36"],
        ["L", "42", "42"],
    ]
    assert max(map(columns_of, lines[: lines.index("")])) <= 60


def test_a_row_with_a_finding_says_in_the_table_what_is_wrong() -> None:
    lines = listing(with_finding(STRIP, "(20 sc)"), Layout()).splitlines()
    assert row_called("Row 1", lines)[-1] == "count differs"
    assert row_called("Row 11", lines)[-1] == "proven"


def test_parts_are_named_where_there_are_several() -> None:
    text = (
        HEAD.replace("Ch 21.", "STRAP\n\nCh 21.")
        + "\nTAB\n\n"
        + HEAD[HEAD.index("Ch 21") :]
    )
    lines = lines_of(text)
    assert lines.index("STRAP") < lines.index("TAB")
    assert "STRIP" not in " ".join(lines_of(HEAD))


def test_carets_stand_under_the_exact_words() -> None:
    lines = listing(with_finding(HEAD, "(20 sc)"), Layout()).splitlines()
    at = next(i for i, line in enumerate(lines) if "^" in line)
    assert lines[at - 1].strip() == HEAD.splitlines()[5]
    assert lines[at - 1][lines[at].index("^") :] == "(20 sc)"
    assert lines[at].strip() == "^" * len("(20 sc)")
    assert lines[at + 1] == "  Row 1 makes 20, not 19."


def test_a_finding_says_where_what_and_how_loudly() -> None:
    for severity, loudness in (
        (Severity.ERROR, "to mend"),
        (Severity.WARNING, "to look at"),
        (Severity.ADVICE, "advice"),
    ):
        found = with_finding(
            HEAD, "(20 sc)", severity=severity, row="Row 1", sizes=("Man",)
        )
        heading = f"Row 1, size Man, line 6: {loudness} (stated-count)"
        assert heading in listing(found, Layout(advice=True)).splitlines()


def test_a_finding_on_a_page_is_found_with_a_ruler() -> None:
    """A box whose top is 72 points under the top of the page is 25.4 mm from it.

    Source: an inch is 72 points and 25.4 mm.
    """
    source = Source(HEAD, "strip.pdf")
    place = PagePlace(2, Box(50, 700, 90, 720), 792)
    draft = Draft(source, Stretches((Stretch(0, place),)))
    finding = Finding("side", Severity.WARNING, Span(0, 5), "No side is told.")
    found = replace(check(draft), findings=(finding,))
    assert "Page 2, 25 mm from the top: to look at (side)" in listing(found, Layout())


def test_the_change_is_offered_once() -> None:
    at = HEAD.index("20 sc")
    edit = Edit(Span(at, at + 2), "21")
    told = listing(with_finding(HEAD, "(20 sc)", why="Look again.", edit=edit), Layout())
    assert '\n  Look again.\n  Write "21" in place of "20".\n' in told
    said = listing(with_finding(HEAD, "(20 sc)", why='Write "21".', edit=edit), Layout())
    assert "in place of" not in said
    gone = replace(edit, replacement="")
    assert 'Take out "20".' in listing(with_finding(HEAD, "(20 sc)", edit=gone), Layout())
    new = replace(edit, span=Span(at, at))
    assert 'Put in "21".' in listing(with_finding(HEAD, "(20 sc)", edit=new), Layout())


def test_other_places_that_have_a_part_in_it_are_shown() -> None:
    at = HEAD.index("Ch 21")
    related = (Related(Span(at, at + 5), "The chain was made here."),)
    lines = listing(with_finding(HEAD, "(20 sc)", related=related), Layout()).splitlines()
    at_related = lines.index("  Line 5: The chain was made here.")
    assert lines[at_related + 2 : at_related + 4] == ["  Ch 21.", "  ^^^^^"]


def test_long_lines_are_shown_around_the_words() -> None:
    text = "Row 1: " + "sc in next st, " * 300 + "5 dc in gull, " + "sc in next st, " * 300
    at = text.index("gull")
    shown = excerpt(Source(text), Span(at, at + 4), 60)
    assert shown.words.startswith("... ")
    assert shown.words.endswith(" ...")
    assert shown.marked == "gull"
    assert 40 < columns_of(shown.words) <= 60
    assert shown.words.split()[1] in {"sc", "in", "next", "st,"}


def test_words_longer_than_the_screen_are_marked_from_their_beginning() -> None:
    text = "Row 1: " + "sc in next st, " * 40
    shown = excerpt(Source(text), Span(7, len(text)), 50)
    assert shown.marked.startswith("sc in next st")
    assert shown.carets == "^" * len(shown.marked)
    assert columns_of(shown.words) <= 50


def test_a_tab_takes_the_same_room_above_and_below() -> None:
    text = "Row 1:\tsc\tin 5 sts"
    at = text.index("5")
    shown = excerpt(Source(text), Span(at, at + 1), 60)
    assert "\t" not in shown.words
    assert shown.words[len(shown.margin)] == "5"


def test_wide_letters_take_two_columns_and_marks_over_letters_none() -> None:
    """Source: Unicode Standard Annex 11: Hiragana and ideographs are W, two columns wide.

    A combining acute takes none: common practice of terminals, no source.
    """
    assert columns_of("\u304b\u304e\u91dd") == 6
    assert columns_of("e\u0301") == 1
    text = "\u304b\u304e\u91dd e\u0301 5 sc"
    at = text.index("5")
    shown = excerpt(Source(text), Span(at, at + 1), 60)
    assert len(shown.margin) == 6 + 1 + 1 + 1
    wide = excerpt(Source(text), Span(0, 3), 60)
    assert wide.carets == "^" * 6


def test_nothing_in_a_pattern_moves_or_colours_the_screen() -> None:
    hostile = HEAD.replace("2nd", "\x1b[31m2nd\u202e\x07\x9b")
    told = listing(with_finding(hostile, "2nd", message="\x1b]0;gull\x07 gone."), Layout())
    assert all(letter == "\n" or letter.isprintable() for letter in told)


def test_a_mark_at_the_end_of_the_text_still_has_a_caret() -> None:
    shown = excerpt(Source("Ch 3."), Span(5, 5), 60)
    assert (shown.words, shown.margin, shown.carets) == ("Ch 3.", "     ", "^")


@given(
    some.text(max_size=400),
    some.integers(0, 400),
    some.integers(0, 400),
    some.integers(40, 90),
)
def test_whatever_is_marked_fits_and_can_be_written(
    text: str, start: int, length: int, columns: int
) -> None:
    begin = min(start, len(text))
    shown = excerpt(Source(text), Span(begin, min(begin + length, len(text))), columns)
    assert columns_of(shown.words) <= columns
    assert shown.words == writable(shown.words)
    assert all(unicodedata.category(letter)[0] != "C" for letter in shown.words)
    assert shown.carets


def test_colours_are_only_added_never_needed() -> None:
    found = with_finding(HEAD, "(20 sc)", edit=Edit(Span(0, 5), "Gull"))
    plain = listing(found, Layout())
    coloured = listing(found, Layout(ink=Ink(on=True)))
    assert re.sub("\x1b\\[[0-9]+m", "", coloured) == plain
    assert "\x1b[31m^^^^^^^\x1b[0m" in coloured
    assert '\x1b[94m  Write "Gull" in place of "Eider".\x1b[0m' in coloured


def last_lines(found: Checked) -> str:
    return listing(found, Layout(quiet=True, width=200)).split("\n\n")[-1]


def test_the_last_lines_say_what_it_comes_to() -> None:
    assert last_lines(checked(STRIP)).splitlines()[0] == "25 rows: all counts proven."
    once = with_finding(HEAD, "(20 sc)")
    assert last_lines(once).splitlines()[0] == "1 row, 1 finding: 1 to mend."
    advice = replace(once.findings[0], severity=Severity.ADVICE)
    twice = replace(once, findings=(*once.findings, advice))
    assert last_lines(twice).splitlines() == [
        "1 row, 1 finding: 1 to mend.",
        "1 piece of advice: hookwright check --advice strip.md",
    ]
    shown = listing(twice, Layout(quiet=True, advice=True)).split("\n\n")
    assert shown[-1].splitlines() == ["1 row, 1 finding: 1 to mend.", "1 piece of advice."]


def test_advice_is_listed_where_it_is_asked_for_and_counted_where_not() -> None:
    found = with_finding(HEAD, "(20 sc)", severity=Severity.ADVICE, message="A word.")
    found = replace(found, findings=found.findings * 3)
    quiet = listing(found, Layout())
    assert "A word." not in quiet
    assert last_lines(found).splitlines() == [
        "1 row: all counts proven.",
        "3 pieces of advice: hookwright check --advice strip.md",
    ]
    shown = listing(found, Layout(advice=True))
    assert shown.count("A word.") == 3
    assert shown.splitlines()[-2:] == ["1 row: all counts proven.", "3 pieces of advice."]


def test_the_command_for_advice_can_be_copied() -> None:
    found = with_finding(HEAD, "(20 sc)", severity=Severity.ADVICE)
    named = replace(found.draft, source=Source(HEAD, "Ann's long strip/pattern.md"))
    told = listing(replace(found, draft=named), Layout(width=40)).splitlines()[-1]
    assert shlex.split(told)[-1] == "Ann's long strip/pattern.md"


def test_what_is_wrong_with_a_worksheet_is_told_first_and_in_its_own_lines() -> None:
    sheet = Source('[design]\ntitel = "Eider Strip"\n', "worksheet.toml")
    found = check(Source(HEAD.replace("(20", "(19"), "strip.md"), worksheet=sheet)
    told = listing(found, Layout(quiet=True)).split("\n\n")
    assert told[0] == "worksheet.toml, line 2: to look at (worksheet)"
    assert told[1].splitlines()[:2] == ['  titel = "Eider Strip"', "  ^^^^^"]
    assert told[-1].startswith("1 row, 2 findings: 1 to mend, 1 to look at.")


def test_terms_that_only_the_worksheet_tells_are_told() -> None:
    text = HEAD.replace("US terms. ", "").replace("Sc", "Dc").replace("sc", "dc")
    found = check(Source(text), worksheet=Source('[design]\nterms = "UK"\n'))
    assert "Read in UK terms, as the worksheet says" in last_lines(found)


def test_a_text_without_rows_claims_nothing() -> None:
    assert last_lines(checked("The gulls were loud.\n")) == (
        'No rows were found to work: a row begins with its label, as in "Row 1:", "Rnd 1:" or '
        '"R1:".'
    )


def test_rows_without_counts_close_but_prove_nothing() -> None:
    text = re.sub(r" \(20 sc\)", "", HEAD)
    assert last_lines(checked(text)).startswith(
        "1 row: every row closes; no counts are printed."
    )


def test_what_was_assumed_is_said_with_how_the_counts_bear_it_out() -> None:
    silent = """Strip in US terms.

Ch 22.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)
Row 2: Ch 3, sk first st, dc in each st across and in top of ch-3, turn. (20 dc)
"""
    assert last_lines(checked(silent)).splitlines()[1] == (
        "Read with the turning chain of 3 counted as a stitch: 2 of 2 printed counts agree."
    )


IN_ONE_PLACE = """Cap in US terms.

Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: *2 sc, sc; rep from * around. (18)
Rnd 4: *2 sc, sc in next 2 sts; rep from * around. (24)
"""
ENDING = """Edging in US terms. Ch 1 does not count.

Ch 17.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (16 sc)
Row 2: Sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from *
across, ending with 3 dc in last st. (3 sc, 13 dc)
"""
NO_CHAIN = """Strip in US terms. Ch 1 does not count.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
"""
TIMES = """Strip in US terms. Ch 1 does not count.

Ch 22.
Row 1: Sc in 2nd ch from hook, sc in next 2 ch, *sk 1 ch, 2 sc in next ch, sc in next ch;
rep from * 5 times, turn. (21 sc)
"""
SETTLED = {
    "several in one place": (
        IN_ONE_PLACE,
        'Rounds 3 and 4 read with "2 sc" worked in one place: 2 of 2 printed counts agree.',
    ),
    "what ending means": (
        ENDING,
        (
            'Row 2 read with the words after "ending" in place of the end of its repeat: '
            "1 of 1 printed counts agree."
        ),
    ),
    "a chain that nobody tells": (
        NO_CHAIN,
        "Row 1 read over a chain of 21, which only its count tells.",
    ),
    "times": (
        TIMES,
        'Read with the "times" of a repeat as so many more: 1 of 1 printed counts agree.',
    ),
}


@pytest.mark.parametrize(("text", "told"), SETTLED.values(), ids=SETTLED)
def test_what_counting_settled_is_said_with_its_reason(text: str, told: str) -> None:
    found = checked(text)
    assert not found.has_errors()
    assert last_lines(found).splitlines()[1:] == [told]


def test_a_reading_that_counts_do_not_bear_out_is_not_told() -> None:
    wrong = IN_ONE_PLACE.replace("(18)", "(17)").replace("(24)", "(25)")
    assert "in one place" not in last_lines(checked(wrong))


def test_what_the_pattern_says_itself_is_not_called_assumed() -> None:
    assert last_lines(checked(STRIP)) == "25 rows: all counts proven."


def test_terms_that_were_not_said_are_told() -> None:
    unsaid = HEAD.replace("US terms. ", "")
    assert "US terms" in last_lines(checked(unsaid))
    other = check(Source(HEAD), "UK")
    assert "Read in UK terms, as asked; its own words are US terms." in last_lines(other)


def test_what_was_put_back_while_reading_stands_first() -> None:
    found = checked(HEAD)
    noted = replace(found, draft=replace(found.draft, notes=("Two stars were put back.",)))
    assert listing(noted, Layout()).startswith("Two stars were put back.\n\n")
    assert "stars" not in listing(noted, Layout(quiet=True))


def told_at(text: str, layout: Layout = Layout(quiet=True)) -> str:  # noqa: B008 - a value
    return listing(checked(text), layout)


def test_the_count_of_one_size_is_told_with_its_own_numbers() -> None:
    told = told_at(CUFF.replace("across, turn. (30 (36, 42) sc)\n", "across, turn.\n", 1)
                   + "Row 3: Ch 1, sc in each st across, turn. (30 (37, 42) sc)\n")  # fmt: skip
    assert "Row 3, size M, line 10" in told
    assert "Row 3 makes 36 stitches, not 37 sc.\n" in told
    assert 'Write "36" in place of "37".' in told


def test_the_counts_of_several_sizes_are_told_as_patterns_print_them() -> None:
    told = told_at(CUFF + "Row 3: Ch 1, sc in each st across, turn. (31 (36, 43) sc)\n")
    assert "Row 3, sizes S and L, line 10" in told
    assert "Row 3 makes 30 (42) stitches, not 31 (43) sc.\n" in told
    assert "in place of" not in told


def test_one_stitch_is_told_in_the_singular() -> None:
    told = told_at(HEAD + "Row 2: Ch 1, sc in first st, turn.\n")
    assert "Row 2 uses 1 stitch but 20 are there" in told


def test_the_marks_of_bold_letters_leave_no_gaps() -> None:
    told = told_at(HEAD + "\nRow 2:   Ch 1, sc in each st across, turn. (19 sc)\n")
    assert "  Row 2: Ch 1, sc in each st across, turn. (19 sc)\n" in told


def test_the_word_of_the_other_terms_is_marked_alone_and_told_once() -> None:
    told = told_at("UK terms.\n\n" + HEAD.replace("US terms. ", "").replace("Sc", "Dc")
                   + "Row 2: Ch 1, sc in each st across, turn.\n")  # fmt: skip
    assert "  Row 2: Ch 1, sc in each" in told
    assert f"\n  {' ' * len('Row 2: Ch 1, ')}^^\n" in told
    assert told.count('Write "dc"') == 1


def test_the_chain_skipped_at_the_hook_is_not_called_a_turning_chain() -> None:
    text = "US terms.\n\nRnd 1: Ch 5, sc in 2nd ch from hook and in next 2 ch, 3 sc in last ch, sc in next 3 ch on other side. (9)\n"
    assert "turning chain" not in told_at(text)
    assert "beginning chain" not in told_at(text)


TOY = """{0}
R1: 6 sc in magic ring (6)
R2: inc x 6 (12)

{1}
R1: 5 sc in magic ring (5)
"""


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("Flipper (make 2, grey)", "Flipper (grey)"),
        ("Flipper (grey, make 2)", "Flipper (grey)"),
        ("Flipper (make 2)", "Flipper"),
        ("Flipper and tail (start with grey)", "Flipper and tail (start with grey)"),
    ],
)
def test_parts_are_called_by_their_names(written: str, shown: str) -> None:
    lines = lines_of(TOY.format("Head", written))
    assert "Head" in lines
    assert shown in lines


def test_a_line_that_says_the_terms_names_no_part() -> None:
    parts = {
        line.part for line in checked(TOY.format("SEAL\nUS terminology", "Tail")).lines
    }
    assert parts == {"SEAL", "Tail"}
