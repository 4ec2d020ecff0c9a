"""Gauges in the wordings that designers use."""

from fractions import Fraction

import pytest

from hookwright.checking import check
from hookwright.design.facts import Gauge, State
from hookwright.source import Source


def gauges(line: str) -> tuple[Gauge, ...]:
    text = f"Cloth\n\n{line}\n\nRnd 1: 6 sc in magic ring (6)\n"
    return check(Source(text, "pattern.md")).design.gauges


def gauge(line: str) -> Gauge:
    found = gauges(line)
    assert len(found) == 1
    return found[0]


def in_mm(one: Gauge) -> tuple[float | None, float | None]:
    width, height = one.width, one.height
    return (
        None if width is None else float(width.mm[0] or 0),
        None if height is None else float(height.mm[0] or 0),
    )


@pytest.mark.parametrize(
    ("line", "stitches", "rows", "mm"),
    [
        ("Gauge: 16 sts and 12 rows = 4 in / 10 cm in hdc", 16, 12, (101.6, 101.6)),
        ("Gauge: 4 inches = 14 sts x 9 rows", 14, 9, (101.6, 101.6)),
        ("Tension: 18 tr to 10 cm", 18, None, (100, None)),
        ("Tension over treble: 15 sts and 8 rows to 10 cm", 15, 8, (100, 100)),
        ("GAUGE: 5 d c make 1 inch.", 5, None, (25.4, None)),
        ("Gauge: 4 sts to the inch", 4, None, (25.4, None)),
        ("Gauge: 13 st and 7.5 rows per 4 in", 13, 7.5, (101.6, 101.6)),
        ('Gauge: 15½ hdc and 11 rows = 4"', 15.5, 11, (101.6, 101.6)),
        ("Gauge: 18 sts = 4 in. 20 rows = 4 in.", 18, 20, (101.6, 101.6)),
        ('Gauge: 14 sts/10 rows = 4"', 14, 10, (101.6, 101.6)),
        ("Gauge: 10 cm wide = 14 stitches, 10 cm high = 8.5 rows", 14, 8.5, (100, 100)),
        ("Gauge: 16 sc and 20 rows in 10 x 12 cm", 16, 20, (100, 120)),
        ("Gauge: ten trebles and six rows measure 10 cm", 10, 6, (100, 100)),
        ("Gauge: 14-16 sts and 9 rows = 10 cm", 15, 9, (100, 100)),
        ('Gauge swatch: 4" x 4" = 13 sts by 9 rows of hdc', 13, 9, (101.6, 101.6)),
    ],
)
def test_stitches_and_rows_have_their_lengths(
    line: str, stitches: float, rows: float | None, mm: tuple[float, float | None]
) -> None:
    found = gauge(line)
    assert found.of == "st"
    assert found.stitches == Fraction(stitches)
    assert found.rows == (None if rows is None else Fraction(rows))
    assert in_mm(found) == pytest.approx(mm)


def test_a_repeat_says_how_many_stitches_it_holds() -> None:
    found = gauge(
        "Gauge: One wave of 20 sts from peak to peak is 11.5 cm (4 1/2 in) wide, and 8 rows in "
        "the wave pattern are 10 cm high, after blocking."
    )
    assert (found.of, found.in_one) == ("wave", 20)
    assert (found.stitches, found.rows) == (Fraction(1), Fraction(8))
    assert in_mm(found) == (115, 100)
    assert found.state is State.BLOCKED


@pytest.mark.parametrize(
    ("line", "of"),
    [
        ('Gauge: 4½ V-sts = 4"', "v-st"),
        ("Gauge: 5 fans of Row 2 are 22 cm wide", "fan"),
        ("Gauge: 3 pattern repeats = 4 ins", "pattern repeat"),
        ("Gauge: first 4 rnds = 3 in", "first 4 rnds"),
        ("Gauge: Rnds 1-3 are 8.5 cm across", "Rnds 1-3"),
        ("Gauge: each motif measures 6 in", "motif"),
    ],
)
def test_what_is_no_single_stitch_keeps_its_name(line: str, of: str) -> None:
    assert gauge(line).of == of


@pytest.mark.parametrize(
    ("line", "state"),
    [
        ("Gauge: 16 sts = 4 in, after blocking", State.BLOCKED),
        ("Gauge (blocked): 16 sts = 4 in", State.BLOCKED),
        ("Gauge: 16 sts = 4 in, unblocked", State.AS_WORKED),
        ("Gauge: 16 sts = 4 in before blocking", State.AS_WORKED),
        ("Gauge: 16 sts = 4 in, as worked", State.AS_WORKED),
        ("Gauge: 16 sts = 4 in", State.UNSAID),
    ],
)
def test_the_state_is_told(line: str, state: State) -> None:
    assert gauge(line).state is state


def test_two_states_are_two_gauges() -> None:
    first, second = gauges(
        "Gauge: 16 sts = 4 in before blocking, 15 sts = 4 in after blocking."
    )
    assert (first.state, second.state) == (State.AS_WORKED, State.BLOCKED)


def test_a_hook_is_no_length() -> None:
    found = gauge('Gauge: 14 hdc and 11 rnds = 4" with 5.5 mm hook')
    assert found.hook_mm == Fraction(11, 2)
    assert found.stitch == "hdc"


@pytest.mark.parametrize(
    "line",
    [
        "Gauge isn't crucial.",
        "Tension: not important",
        "No gauge, no swatch, just a big hook and something fluffy.",
        "To save time, take time to check gauge.",
    ],
)
def test_no_numbers_are_no_gauge(line: str) -> None:
    assert gauges(line) == ()


def test_a_gauge_that_does_not_matter_says_so() -> None:
    assert gauge("Gauge: 12 V-sts measure about 19cm. It does not matter very much.").loose
