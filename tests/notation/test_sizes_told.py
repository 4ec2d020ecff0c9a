"""Which sizes a pattern is told in: with the word or without, in ages, letters and words."""

import pytest

from hookwright.notation import parse_text

ROUND = "\n\nRnd 1: 8 (9, 10) hdc in magic ring. 8 (9, 10) hdc\n"


@pytest.mark.parametrize(
    ("line", "sizes"),
    [
        ("Sizes: 0 to 3 months (3 to 6 months, 6 to 12 months)", "0-3 3-6 6-12"),
        ("0 to 3 months (3 to 6 months, 6 to 12 months)", "0-3 3-6 6-12"),
        ("0-3 (3-6, 6-9) months", "0-3 3-6 6-9"),
        ("Cap for newborn (3 months, 6 months)", "newborn 3 6"),
        ("Newborn (3 months, 6 months)", "Newborn 3 6"),
        ("Sizes newborn, 0-3 months, 3-6 months", "newborn 0-3 3-6"),
        ("Sizes: S, M, L", "S M L"),
        ("Sizes: baby, child and adult", "baby child adult"),
        ("SIZES Small/Medium/Large", "Small Medium Large"),
        ("Sizes 2-4-6 years", "2 4 6"),
        ("Sizes 1/2/3 years", "1 2 3"),
        ("Fits ages 2, 4, 6", "2 4 6"),
        ("Size 3 months [6, 9 months]", "3 6 9"),
        ("Size:\nS (M, L)", "S M L"),
        ("Sizes: XS (S, M, L) [XL, 2X]", "XS S M L XL 2X"),
        (
            "A quick hat for windy days, written for Toddler (Child, Adult).",
            "Toddler Child Adult",
        ),
    ],
)
def test_sizes_are_known_by_their_names(line: str, sizes: str) -> None:
    assert parse_text(line + ROUND).pattern.sizes == tuple(sizes.split())


def test_a_name_may_be_of_several_words() -> None:
    text = "Sizes: Toddler (Child, Adult S/M, Adult L)\n\nRnd 1: 8 (9, 10, 11) hdc in ring."
    only = "\nSize Child: go on to Body.\nRnd 2 (Adult S/M and Adult L only): 2 hdc in each st."
    pattern = parse_text(text + only + "\nRnd 3: Hdc in each st.\n").pattern
    assert pattern.sizes == ("Toddler", "Child", "Adult S/M", "Adult L")
    labels = [row.label for row in pattern.parts[0].rows if row.label]
    assert [label.sizes for label in labels] == [(), ("Adult S/M", "Adult L"), ()]


@pytest.mark.parametrize(
    "line", ["Rounds 3, 4 and 5", "Gauge: 14 (15) sts in 10 cm", "Sizes M and L only:"]
)
def test_other_lists_are_no_sizes(line: str) -> None:
    assert parse_text(line + ROUND).pattern.sizes == ()


def test_ages_in_months_and_years_keep_their_units() -> None:
    line = "Sizes: 6 to 12 months (1 to 2 years, 3 to 4 years)"
    assert parse_text(line + ROUND).pattern.sizes == (
        "6-12 months",
        "1-2 years",
        "3-4 years",
    )


@pytest.mark.parametrize(
    ("line", "numbers", "sizes"),
    [
        ("Slippers, women's S/M (L/XL)", "8 (9)", "S/M L/XL"),
        ("2 sizes: child, adult (numbers for adult in brackets)", "8 (9)", "child adult"),
        ("Sizes (child): 1-2 yrs, 3-5 yrs", "8 (9)", "1-2 3-5"),
        ("Women's XS, S, M, L. Numbers are given as XS/S/M/L.", "8/9/10/11", "XS S M L"),
    ],
)
def test_sizes_told_in_passing(line: str, numbers: str, sizes: str) -> None:
    row = f"\n\nRnd 1: {numbers} hdc in magic ring. {numbers} hdc\n"
    assert parse_text(line + row).pattern.sizes == tuple(sizes.split())


@pytest.mark.parametrize(
    ("line", "sizes"),
    [
        ("Bootees, 3 (6, 9) months. UK.", ("3 months", "6 months", "9 months")),
        ("A top\n\nTwo hours, 2 (4, 6) yrs.", ("2 yrs", "4 yrs", "6 yrs")),
        ("Bootees, 3 (6) months.", ()),
        ("Bootees for 30 (45, 60) minutes of work.", ("1", "2", "3")),
    ],
)
def test_ages_in_passing_name_the_sizes(line: str, sizes: tuple[str, ...]) -> None:
    """As many of them as the lists have numbers; without any the sizes are numbered."""
    assert parse_text(line + ROUND).pattern.sizes == sizes
