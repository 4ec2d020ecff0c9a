"""The gauge of a piece: from swatches, from the text, as asked for, or guessed."""

from fractions import Fraction
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sizing_texts import STRIP, nearest, of_multiple, only_size, sized

from hookwright.sizing.asked_gauge import gauge_asked
from hookwright.sizing.fabric_gauge import FabricGauge, Origin
from hookwright.sizing.guessing import weights
from hookwright.sizing.lengths import NoLength
from hookwright.sizing.pitch import counted, pitch_of, root

GAUGED = STRIP.replace(
    "Ch 21.", "Gauge: 14 sts and 16 rows = 4 in in single crochet.\n\nCh 21."
)
FOUR_IN = 101.6


def gauge(text: str, sheet: str | None = None, asked: str = "") -> FabricGauge:
    return sized(text, sheet, gauge=asked).parts[0].gauge


def swatch(stitches: str, rows: str, state: str = "", width: str = "4 in") -> str:
    told = f'\nstate = "{state}"' if state else ""
    return (
        f'[[swatch]]\nstitches = {stitches}\nrows = {rows}\nwidth = "{width}"\n'
        f'height = "{width}"{told}\n'
    )


def test_several_swatches_tell_their_mean_and_their_deviation() -> None:
    sheet = swatch("14", "16") + swatch("13.5", "15") + swatch("15", "17")
    found = gauge(STRIP, sheet)
    widths = [FOUR_IN / n for n in (14, 13.5, 15)]
    heights = [FOUR_IN / n for n in (16, 15, 17)]
    assert found.stitch is not None
    assert found.row is not None
    # Against the mean and the sample deviation of Python's statistics.
    assert float(found.stitch.mm) == pytest.approx(mean(widths))
    assert float(found.stitch.spread_mm) == pytest.approx(stdev(widths), abs=1e-4)
    assert float(found.row.spread_mm) == pytest.approx(stdev(heights), abs=1e-4)
    assert found.stitch.measured == 3
    assert "standard deviation of 3 swatches" in " ".join(found.said)


def test_one_swatch_is_as_sure_as_its_count() -> None:
    found = gauge(STRIP, swatch("14", "16"))
    assert found.stitch is not None
    # To the nearest half stitch: a quarter of a stitch off at most, in 14.
    assert found.stitch.spread_mm == found.stitch.mm / 56
    assert found.stitch.from_rounding
    assert "nearest half stitch" in " ".join(found.said)


def test_gauges_that_contradict_each_other_are_told_with_how_far_they_are_apart() -> None:
    # 101.6 / 12 = 8.47 mm and 101.6 / 16 = 6.35 mm: 2.12 of a mean of 7.41 is 29 %.
    said = " ".join(gauge(STRIP, swatch("12", "16") + swatch("16", "16")).said)
    assert "29 % apart in what one stitch takes" in said
    assert "one row" not in said.replace("One row", "")
    assert "apart" not in " ".join(gauge(STRIP, swatch("14", "16") * 2).said)


def test_swatches_all_alike_are_no_surer_than_their_counting() -> None:
    found = pitch_of([counted(Fraction(14), Fraction(100))] * 4)
    assert found is not None
    assert found.from_rounding
    assert found.spread_mm == pytest.approx(float(found.mm / 56 / 2), rel=1e-4)


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**4))
def test_a_root_is_right_to_the_millionth(square: Fraction) -> None:
    found = root(square)
    assert found**2 <= square < (found + Fraction(1, 10**5)) ** 2


def test_the_text_tells_the_gauge_and_the_swatches_its_spread() -> None:
    found = gauge(GAUGED, swatch("13", "16") + swatch("15", "16"))
    assert found.origin is Origin.TEXT
    assert found.stitch is not None
    assert float(found.stitch.mm) == pytest.approx(FOUR_IN / 14)
    assert not found.stitch.from_rounding
    share = stdev([1 / 13, 1 / 15]) / mean([1 / 13, 1 / 15])
    assert float(found.stitch.spread_mm / found.stitch.mm) == pytest.approx(share, rel=1e-3)


def test_a_swatch_of_another_part_is_left_alone() -> None:
    named = STRIP.replace("Ch 21.", "## Panel\n\nCh 21.")
    other = swatch("10", "10").replace("[[swatch]]", '[[swatch]]\npart = "Sleeve"')
    found = gauge(named, swatch("14", "16") + other)
    assert found.stitch is not None
    assert float(found.stitch.mm) == pytest.approx(FOUR_IN / 14)


def test_blocked_and_as_worked_tell_how_far_to_work() -> None:
    sheet = swatch("16", "20", "as worked") + swatch("15", "18", "blocked")
    found = sized(STRIP, sheet, width="30 in", height="40 in")
    across, up = found.parts[0].gauge.blocking
    # 16 stitches to the width of 15: blocked it is 16/15 as wide, and 20/18 as high.
    assert across == Fraction(16, 15)
    assert up == Fraction(20, 18)
    made = nearest(found)
    assert made.height is not None
    # Worked until it measures wanted / b_h: 40 / (20/18) = 36 in.
    told = " ".join(only_size(found).said)
    assert "work until it measures 36 in" in told
    assert made.height.mm == Fraction(40 * 254, 10)


def test_a_gauge_asked_for_goes_before_all_others() -> None:
    found = gauge(GAUGED, swatch("15", "17"), "12 sts and 14 rows = 10 cm")
    assert found.origin is Origin.ASKED
    assert found.stitch is not None
    assert found.row is not None
    assert found.stitch.mm == Fraction(100, 12)
    assert found.row.mm == Fraction(100, 14)


def test_what_an_asked_gauge_leaves_out_stays_as_it_is() -> None:
    found = gauge(GAUGED, asked="12 sts = 4 in")
    assert found.row is not None
    assert float(found.row.mm) == pytest.approx(FOUR_IN / 16)
    assert "No rows are told with it" in " ".join(found.said)


def test_a_repeat_is_measured_from_peak_to_peak() -> None:
    part = of_multiple((16, 1), (16, 3), repeats=3)
    found = sized(STRIP, gauge="one repeat 3 1/2 in, 4 rows 2 in", multiples=[part])
    own = found.parts[0].gauge
    assert own.repeat is not None
    assert own.row is not None
    assert own.repeat.mm == Fraction(889, 10)
    assert own.row.mm == Fraction(127, 10)
    # To half a stitch of 16.
    assert own.repeat.spread_mm == own.repeat.mm / 64


def test_the_weight_and_the_hook_make_a_guess_that_says_so() -> None:
    text = STRIP.replace(
        "Ch 21.",
        "## Materials\n\nYarn: Skarrow Worsted, worsted weight, 200 m per 100 g: 1 ball.\n\n"
        "Hook: 5.5 mm.\n\n## Instructions\n\nCh 21.",
    )
    found = gauge(text)
    assert found.origin is Origin.GUESS
    assert found.stitch is not None
    assert found.row is not None
    # Source: trade's yarn weight table, 222handspun.com: weight 4 is 11 to 14 sc to 4 in
    # with hooks of 5.5 to 6.5 mm; the smallest hook makes the most stitches.
    assert float(found.stitch.mm) == pytest.approx(FOUR_IN / 14)
    assert float(found.stitch.spread_mm) == pytest.approx((FOUR_IN / 11 - FOUR_IN / 14) / 2)
    # Source: craftymaria.blogspot.com 2009/06: a circle of sc grows by 6, 2 pi h / w.
    assert float(found.row.mm / found.stitch.mm) * 6.2832 == pytest.approx(6, abs=0.1)
    assert "guessed" in found.said[0]
    assert "swatch" in found.said[0]


def test_without_any_word_of_yarn_the_guess_is_for_medium_yarn() -> None:
    assert "no yarn or hook" in gauge(STRIP).said[0]


def test_the_yarn_weights_follow_one_another() -> None:
    assert [weight.number for weight in weights()] == list(range(8))
    for thin, thick in zip(weights(), weights()[1:], strict=False):
        assert thin.most > thick.most
        assert thin.hooks[1] <= thick.hooks[1]


@pytest.mark.parametrize(
    "words",
    ["14 sts and 8 rows = 4 in", "14 sts x 8 rows to 10 cm", "4 in = 14 sts and 8 rows",
     "13.5 sts, 8 rows = 10 cm", '14 sts and 8 rows = 4"', "14 dc and 8 rows = 4 inches",
     "3.5 sts per inch", "1 repeat = 3 1/2 in, 4 rows = 2 in", "8 rows = 4 in"],
)  # fmt: skip
def test_gauges_are_read_as_a_pattern_writes_them(words: str) -> None:
    assert isinstance(gauge_asked(words), tuple)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("foo", "cannot be read"),
        ("14 x 8", "cannot be read"),
        ("0 sts and 8 rows = 4 in", "more than 0"),
        ("14 sts and 0 rows = 4 in", "more than 0"),
        ("14 sts = 0 in", "more than 0"),
        ("-14 sts = 4 in", "below 0"),
        ("14 sts = -4 in", "below 0"),
        ("99999999999 sts = 4 in", "cannot be read"),
        ("14 sts = 4 in " * 60, "longer than a gauge"),
    ],
)
def test_what_is_no_gauge_says_so_and_what_to_write(words: str, said: str) -> None:
    found = gauge_asked(words)
    assert isinstance(found, NoLength)
    assert said in found.message
    assert "14 sts and 8 rows = 4 in" in found.why


@given(st.text(max_size=60))
def test_no_words_of_a_gauge_raise(words: str) -> None:
    assert isinstance(gauge_asked(words), (tuple, NoLength))
