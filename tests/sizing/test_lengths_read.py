"""Lengths as they are asked for, and as they are printed."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.sizing.lengths import (
    NoLength,
    in_both,
    in_cm,
    in_inches,
    length_told,
    measures_told,
)

INCH = Fraction(254, 10)
"""Source: international yard and pound agreement, 1959: 25.4 mm exactly."""


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        ("45in", 45 * INCH),
        ('45"', 45 * INCH),
        ("45 ”", 45 * INCH),
        ("45 in.", 45 * INCH),
        ("3 1/2 in", INCH * 7 / 2),
        ("3-1/2 in", INCH * 7 / 2),
        ("3½ in", INCH * 7 / 2),
        ("½ in", INCH / 2),
        ("150cm", 1500),
        ("1.5 m", 1500),
        ("1,5 m", 1500),
        ("114 mm", 114),
        ("5 ft", 60 * INCH),
        ("5 ft 3 in", 63 * INCH),
        ("5' 3\"", 63 * INCH),
        ("5′3½″", INCH * 127 / 2),
        ("3'", 36 * INCH),
        ("3''", 3 * INCH),
        ("2 yd", 72 * INCH),
        ("10 cm / 4 in", 100),
    ],
)
def test_lengths_are_read_as_a_pattern_writes_them(words: str, mm: Fraction) -> None:
    assert length_told(words) == mm


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("45", "has no unit"),
        ("0", "more than 0"),
        ("900000000000in", "more figures than"),
        ("0.00000001 in", "more figures than"),
        ("", "cannot be read"),
        ("banana", "cannot be read"),
        ("30-36 in", "cannot be read"),
        ("1 in 2 in", "cannot be read"),
        ("999999999999 in", "more figures than"),
        ("nan in", "cannot be read"),
        ("0 in", "more than 0"),
        ("-3 in", "more than 0"),
        ("−3 in", "more than 0"),
        ("200 m", "longer than 100 m"),
        ("50 x 60 in", "two lengths"),
    ],
)
def test_what_is_no_length_says_so_and_what_to_write(words: str, said: str) -> None:
    found = length_told(words)
    assert isinstance(found, NoLength)
    assert said in found.message
    assert found.why


def test_two_lengths_are_width_and_height() -> None:
    assert measures_told("50 x 60 in") == (50 * INCH, 60 * INCH)


@given(st.fractions(min_value=1, max_value=90_000, max_denominator=1000))
def test_what_is_printed_is_read_as_the_same_length(mm: Fraction) -> None:
    for printed, write in ((in_inches(mm), in_inches), (in_cm(mm), in_cm)):
        read = length_told(printed)
        if isinstance(read, NoLength):
            assert mm < INCH / 16  # too short to be told in eighths
            continue
        assert write(read) == printed
        assert abs(read - mm) <= INCH / 8


@given(st.integers(1, 400), st.sampled_from([1, 2, 4]))
def test_inches_in_quarters_come_back_exactly(whole: int, parts: int) -> None:
    mm = whole * INCH / parts
    assert length_told(in_inches(mm)) == mm


def test_both_units_are_printed() -> None:
    assert in_both(45 * INCH) == "45 in (114.3 cm)"
    assert in_both(Fraction(1500), "cm") == "150 cm (59 in)"


@given(st.text(max_size=40))
def test_no_words_raise(words: str) -> None:
    assert isinstance(measures_told(words), (tuple, NoLength))
