"""Lengths as designers write them, against the exact inch and against themselves."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.design.facts import Measure
from hookwright.design.lengths import MM, lengths_in


def measures(text: str) -> list[Measure]:
    return [m for told in lengths_in(text, 0, len(text)) for m in told.measures]


def in_mm(text: str) -> list[list[float | None]]:
    return [[None if mm is None else float(mm) for mm in m.mm] for m in measures(text)]


def test_an_inch_is_25_4_mm() -> None:
    # Source: international yard and pound agreement, 1959: 1 yd = 0.9144 m exactly.
    assert MM["yd"] == Fraction(9144, 10)
    assert MM["in"] * 36 == MM["ft"] * 3 == MM["yd"]
    assert in_mm("1 in") == [[25.4]]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("4 1/2 in", [[114.3]]),
        ("4½ in", [[114.3]]),
        ("4-1/2 inches", [[114.3]]),
        ("4.5 in", [[114.3]]),
        ("4,5 cm", [[45.0]]),
        ('9"', [[228.6]]),
        ("ten cm", [[100.0]]),
        ("4-inch square", [[101.6]]),
        ("1,200 yds", [[1097280.0]]),
        ("27 (29, 32) in", [[685.8, 736.6, 812.8]]),
        ('27" (29", 32")', [[685.8, 736.6, 812.8]]),
        ("80[85:90] cm", [[800.0, 850.0, 900.0]]),
        ("18-20-22 cm", [[180.0, 200.0, 220.0]]),
        ("20/22/24 cm", [[200.0, 220.0, 240.0]]),
        ("31 (33, 36) [38, 40] cm", [[310.0, 330.0, 360.0, 380.0, 400.0]]),
        ("9 (–, 11) cm", [[90.0, None, 110.0]]),
        ("30-32 (34-36) cm", [[310.0, 350.0]]),
        ("20 x 30 cm", [[200.0], [300.0]]),
        ('36"x48"', [[914.4], [1219.2]]),
        ("30 x 36 (40 x 50, 50 x 60) cm", [[300.0, 400.0, 500.0], [360.0, 500.0, 600.0]]),
        ("2 in next st", []),
        ("5 in the ring", []),
        ("12 sts", []),
        ("41/2 in", []),
    ],
)
def test_a_length_is_read_however_it_is_written(
    text: str, wanted: list[list[float | None]]
) -> None:
    assert in_mm(text) == wanted


@pytest.mark.parametrize(
    "text",
    [
        "10 cm (4 in)",
        "10 cm / 4 in",
        '10cm/4" square',
        "27 (29, 32) in / 69 (74, 81) cm",
        "27 (29, 32) in [69 (74, 81) cm]",
        "27 in/69 cm (29 in/74 cm, 32 in/81 cm)",
        '36" x 48" (91 x 122 cm)',
    ],
)
def test_the_same_in_other_units_is_no_length_of_its_own(text: str) -> None:
    for measure in measures(text):
        assert measure.also is not None
        assert len(measure.also.mm) == len(measure.mm)
        for own, other in zip(measure.mm, measure.also.mm, strict=True):
            assert own is not None
            assert other is not None
            assert abs(own - other) < Fraction(6)


@pytest.mark.parametrize("text", ["4 in / 5 mm hook", "27 in, 69 cm", "4 in (5 mm eyes)"])
def test_another_length_is_not_the_same_in_other_units(text: str) -> None:
    assert all(measure.also is None for measure in measures(text))


@given(st.text(alphabet='0123456789 ½/,.()[]x-–:"incm', max_size=60))
def test_any_text_is_read(text: str) -> None:
    for told in lengths_in(text, 0, len(text)):
        assert 0 <= told.span.start < told.span.end <= len(text)
