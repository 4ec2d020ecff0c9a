"""Colours are measured as the published figures have them."""

from __future__ import annotations

from itertools import combinations

import pytest
from coloraide import Color
from coloraide.css.color_names import name2val_map

from hookwright.colour.facts import Vision
from hookwright.colour.seeing import differences, differences_seen, measured
from hookwright.design.worksheet.colour_names import NAMES, code_of

# Source: Sharma, Wu and Dalal 2005, "The CIEDE2000 Color-Difference Formula:
# Implementation Notes, Supplementary Test Data, and Mathematical Observations", Table 1:
# two colours in CIE Lab (D65), and their difference.
PAIRS = """
50.0000 2.6772 -79.7751 50.0000 0.0000 -82.7485 2.0425
50.0000 3.1571 -77.2803 50.0000 0.0000 -82.7485 2.8615
50.0000 2.8361 -74.0200 50.0000 0.0000 -82.7485 3.4412
50.0000 -1.3802 -84.2814 50.0000 0.0000 -82.7485 1.0000
50.0000 -1.1848 -84.8006 50.0000 0.0000 -82.7485 1.0000
50.0000 -0.9009 -85.5211 50.0000 0.0000 -82.7485 1.0000
50.0000 0.0000 0.0000 50.0000 -1.0000 2.0000 2.3669
50.0000 -1.0000 2.0000 50.0000 0.0000 0.0000 2.3669
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0009 7.1792
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0010 7.1792
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0011 7.2195
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0012 7.2195
50.0000 -0.0010 2.4900 50.0000 0.0009 -2.4900 4.8045
50.0000 -0.0010 2.4900 50.0000 0.0010 -2.4900 4.8045
50.0000 -0.0010 2.4900 50.0000 0.0011 -2.4900 4.7461
50.0000 2.5000 0.0000 50.0000 0.0000 -2.5000 4.3065
50.0000 2.5000 0.0000 73.0000 25.0000 -18.0000 27.1492
50.0000 2.5000 0.0000 61.0000 -5.0000 29.0000 22.8977
50.0000 2.5000 0.0000 56.0000 -27.0000 -3.0000 31.9030
50.0000 2.5000 0.0000 58.0000 24.0000 15.0000 19.4535
50.0000 2.5000 0.0000 50.0000 3.1736 0.5854 1.0000
50.0000 2.5000 0.0000 50.0000 3.2972 0.0000 1.0000
50.0000 2.5000 0.0000 50.0000 1.8634 0.5757 1.0000
50.0000 2.5000 0.0000 50.0000 3.2592 0.3350 1.0000
60.2574 -34.0099 36.2677 60.4626 -34.1751 39.4387 1.2644
63.0109 -31.0961 -5.8663 62.8187 -29.7946 -4.0864 1.2630
61.2901 3.7196 -5.3901 61.4292 2.2480 -4.9620 1.8731
35.0831 -44.1164 3.7933 35.0232 -40.0716 1.5901 1.8645
22.7233 20.0904 -46.6940 23.0331 14.9730 -42.5619 2.0373
36.4612 47.8580 18.3852 36.2715 50.5065 21.2231 1.4146
90.8027 -2.0831 1.4410 91.1528 -1.6435 0.0447 1.4441
90.9257 -0.5406 -0.9208 88.6381 -0.8985 -0.7239 1.5381
6.7747 -0.2908 -2.4247 5.8714 -0.0985 -2.2286 0.6377
2.0776 0.0795 -1.1350 0.9033 -0.0636 -0.5514 0.9082
"""


def pairs() -> list[list[float]]:
    return [
        [float(number) for number in line.split()] for line in PAIRS.split("\n") if line
    ]


def test_there_are_34_pairs() -> None:
    assert len(pairs()) == 34


@pytest.mark.parametrize("pair", pairs(), ids=str)
def test_a_difference_is_the_published_one(pair: list[float]) -> None:
    one, other = Color("lab-d65", pair[:3]), Color("lab-d65", pair[3:6])
    assert one.delta_e(other, method="2000") == pytest.approx(pair[6], abs=1e-4)
    assert other.delta_e(one, method="2000") == pytest.approx(pair[6], abs=1e-4)


def test_the_table_of_differences_has_the_same_ones() -> None:
    codes = ["#5b7c99", "#a1442a", "teal"]
    table = differences(codes)
    for a, b in combinations(range(3), 2):
        labs = [Color(codes[at]).convert("lab-d65") for at in (a, b)]
        apart = labs[0].delta_e(labs[1], method="2000")
        assert table[a][b] == table[b][a] == round(apart * 100)
    assert [table[at][at] for at in range(3)] == [0, 0, 0]


def test_lightness_goes_from_black_to_white() -> None:
    # CIE 15: L* of black is 0 and of white 100. sRGB (IEC 61966-2-1) 119 is about L* 50.
    assert [measured(code).lightness for code in ("black", "white")] == [0, 10_000]
    assert measured("#777777").lightness == pytest.approx(50_00, abs=10)
    assert measured("#777777").hue is None


def test_the_grey_of_a_colour_has_its_lightness() -> None:
    for code in ("#5b7c99", "#a1442a", "teal", "yellow"):
        seen = measured(code)
        assert measured(seen.grey).lightness == pytest.approx(seen.lightness, abs=25)
        assert measured(seen.grey).hue is None


def test_oklch_of_red_is_the_published_one() -> None:
    # CSS Color Module Level 4, example 23: red is oklch(62.8% 0.25768 29.234).
    seen = measured("red")
    assert seen.ok_lightness == pytest.approx(0.62796, abs=1e-3)
    assert seen.chroma == pytest.approx(0.25768, abs=1e-3)
    assert seen.hue == pytest.approx(29.234, abs=0.1)


def test_red_and_green_of_one_lightness_are_parted_by_blue_blind_eyes_only() -> None:
    # Vienot, Brettel and Mollon 1999: to those without the cones for long or middle waves,
    # reds and greens lie on one line from yellow to blue.
    table = differences(["#B05050", "#6F7F3F"])
    seen = dict(differences_seen(["#B05050", "#6F7F3F"]))
    assert seen[Vision.DEUTAN][0][1] < table[0][1] / 2
    assert seen[Vision.TRITAN][0][1] > table[0][1] / 2
    assert set(seen) == set(Vision)


def test_greys_are_seen_alike_by_all() -> None:
    table = differences(["#333333", "#CCCCCC"])
    for _, seen in differences_seen(["#333333", "#CCCCCC"]):
        assert seen[0][1] == pytest.approx(table[0][1], abs=60)


def test_the_names_are_those_of_web_pages() -> None:
    # CSS Color Module Level 4 has 148 names.
    assert set(name2val_map) - {"transparent"} == NAMES
    assert len(NAMES) == 148


@pytest.mark.parametrize(
    ("words", "code"),
    [("#5B7C99", "#5b7c99"), ("Sea Green", "seagreen"), ("TEAL", "teal"),
     ("#5B7", ""), ("squall", ""), ("", ""), ("#GGGGGG", ""), ("transparent", "")],
)  # fmt: skip
def test_a_colour_is_six_hex_digits_or_a_name(words: str, code: str) -> None:
    assert code_of(words) == code
