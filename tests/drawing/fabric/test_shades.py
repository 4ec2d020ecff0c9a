"""Yarns have the colours that the worksheet tells, or stand-ins that are said to be some."""

from __future__ import annotations

from hookwright.checking import check
from hookwright.drawing.fabric.shades import screen_code, yarn_colours
from hookwright.source import Source

ROWS = "US terms.\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"


def test_the_worksheet_counts_first_by_letter_or_name() -> None:
    sheet = (
        '[[yarn]]\nletter = "A"\ncolour = "Rust"\nhex = "#112233"\n\n'
        '[[yarn]]\nletter = "B"\ncolour = "Foam"\nhex = "teal"\n'
    )
    checked = check(Source(ROWS), None, Source(sheet))
    found = yarn_colours(checked, ("A", "foam", "C"))
    assert [colour.code for colour in found[:2]] == ["#112233", "#008080"]
    assert [colour.told for colour in found] == [True, True, False]


def test_a_word_tells_a_colour_and_letters_take_others_that_differ() -> None:
    found = yarn_colours(check(Source(ROWS)), ("Deep Rust", "A", "B", "C"))
    codes = [colour.code for colour in found]
    assert codes[0] == "#a84f2a"
    assert len(set(codes)) == 4
    assert not any(colour.told for colour in found)


def test_a_name_of_the_web_is_a_code() -> None:
    # Source: CSS Color Module Level 4, section 6.1.
    assert screen_code("rebeccapurple") == "#663399"


def test_the_materials_say_what_a_named_colour_looks_like() -> None:
    text = "## Materials\n\n**Yarn:** 3 balls of A (Turnstone, rust), 4 balls of B (Squall, slate blue).\n\n"
    found = yarn_colours(check(Source(text + ROWS)), ("A", "B"))
    assert [colour.code for colour in found] == ["#a84f2a", "#3f6ba5"]


def test_rows_without_a_yarn_are_of_the_only_one_listed() -> None:
    text = (
        "## Materials\n\n**Yarn:** Skarrow Cotton (100% cotton, 85 m in a 50 g ball): "
        "2 balls of Burrow, black; a little Sand Eel, orange, for the bill.\n\n"
    )
    (found,) = yarn_colours(check(Source(text + ROWS)), ("",))
    (black,) = yarn_colours(check(Source(ROWS)), ("black",))
    assert (found.name, found.code) == ("", black.code)


def test_dark_and_pale_tell_how_light_a_colour_is() -> None:
    checked = check(Source(ROWS))
    dark, plain, pale = (
        int(colour.code[1:3], 16)
        for colour in yarn_colours(checked, ("dark gray", "gray", "pale gray"))
    )
    assert dark < plain < pale
