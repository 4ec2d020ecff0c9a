"""Waves closed straight and followed, against published rows and plane geometry."""

import math
from fractions import Fraction
from pathlib import Path

import pytest
from edged_texts import FOLLOWING, STRAIGHT, edgings, offered, read, ripple, words

from hookwright.sizing.edging import Side, Wish
from hookwright.sizing.edging.closing import slope_of
from hookwright.sizing.edging.facts import Shape, Verdict
from hookwright.sizing.edging.piece import Edged, pieces_of
from hookwright.sizing.edging.wave import Wave, wave_on_top, wave_under

CHEVRON_SQUARE = """\
Ch 1 does not count as a stitch.

Ch 38.

Row 1: Sc in 2nd ch from hook, *sc in next 2 ch, sk next ch, 3 dc in next ch, sk next ch, sc
in next 2 ch; rep from * 4 more times, sc in last ch. Turn. (37 sts)

Row 2: Ch 1, sc in first st, sk next st, *sc in next 2 sts, 5 sc in next st, sc in next 2
sts, sk next 2 sts; rep from * 3 more times, sc in next 2 sts, 5 sc in next st, sc in next 2
sts, sk next st, sc in last st. Turn. (47 sts)

Row 3: Ch 1, sc in first st, sk next st, *sc in next 3 sts, 3 sc in next st, sc in next 3
sts, sk next 2 sts; rep from * 3 more times, sc in next 3 sts, 3 sc in next st, sc in next 3
sts, sk next st, sc in last st. Turn. (47 sts)
"""


def test_a_chevron_square_is_closed_by_the_row_that_others_have_printed() -> None:
    """Source: sites.google.com/site/hazel3crochetsmore, ripple afghan square: its straight
    row is a decrease and then (hdc, 2 sc, skip, 2 sc, hdc, decrease) five times, 36 sts."""
    row = offered(CHEVRON_SQUARE, Side.TOP, STRAIGHT).rows[0]
    assert (
        "hdc in next st, sc in next 2 sts, sk next st, sc in next 2 sts, hdc in next st"
        in row
    )
    assert "*dc2tog over next 2 sts, hdc in next st" in row
    assert row.endswith("rep from * 4 more times, dc2tog over last 2 sts. Turn. (36 sts)")


def test_without_a_gauge_of_the_waves_two_are_dropped_and_that_is_said() -> None:
    found = offered(CHEVRON_SQUARE, Side.TOP, STRAIGHT)
    assert "9, 2 dropped" in found.flatness[0].how
    assert any("No gauge of the waves is known" in note for note in found.notes)


SC_WAVE = """\
Ch 1 does not count as a stitch.

Ch 30.

Row 1: Sc2tog over 2nd and 3rd ch from hook, sc in next 5 ch, 3 sc in next ch, sc in next 5
ch, sc3tog over next 3 ch, sc in next 5 ch, 3 sc in next ch, sc in next 5 ch, sc2tog over last
2 ch. Turn. (29 sts)

Rows 2-9: Ch 1, sc2tog over first 2 sts, sc in next 5 sts, 3 sc in next st, sc in next 5 sts,
sc3tog over next 3 sts, sc in next 5 sts, 3 sc in next st, sc in next 5 sts, sc2tog over last 2
sts. Turn. (29 sts)
"""


def test_what_custom_drops_is_not_kept_where_it_would_ruffle() -> None:
    """Plane geometry: at 46 degrees 14 sc are 9.7 wide, so 4 have to go and not 2."""
    found = offered(SC_WAVE, Side.TOP, STRAIGHT)
    assert "14, 4 dropped" in found.flatness[0].how
    assert found.flatness[0].verdict is Verdict.FLAT
    assert "by the proportions of its stitches" in found.notes[0]


PEAKS_OF_CHAINS = """\
Ch 3 at the start of a row counts as a dc.

Ch 37.

Row 1: Sk first 4 ch, dc in next 4 ch, (dc, ch 2, dc) in next ch, dc in next 4 ch, *sk next 2
ch, dc in next 4 ch, (dc, ch 2, dc) in next ch, dc in next 4 ch; rep from * once more, sk next
ch, dc in last ch. Turn. (32 dc, 3 ch-2 sps)

Rows 2-9: Ch 3, sk first 2 sts, dc in next 4 sts, (dc, ch 2, dc) in next ch-2 sp, dc in next 4
sts, *sk next 2 sts, dc in next 4 sts, (dc, ch 2, dc) in next ch-2 sp, dc in next 4 sts; rep
from * once more, sk next st, dc in last st. Turn. (32 dc, 3 ch-2 sps)
"""


def test_peaks_of_chains_are_skipped_or_filled() -> None:
    assert "sk next ch-2 sp" in offered(PEAKS_OF_CHAINS, Side.TOP, STRAIGHT).rows[0]
    assert "3 sc in next ch-2 sp" in offered(PEAKS_OF_CHAINS, Side.TOP, FOLLOWING).rows[0]


def test_a_row_that_follows_the_wave_keeps_its_number() -> None:
    """Source: the same page: 47 stitches in every row of the waves."""
    found = offered(CHEVRON_SQUARE, Side.TOP, FOLLOWING)
    assert all(row.endswith("(47 sc)") for row in found.rows)
    assert found.flatness[0].excess == 0


TRADE_GAUGE = "Gauge: One wave of 16 sts is 3 1/2 in wide, and 4 rows are 2 in high."


def test_a_ripple_lies_by_the_closed_form() -> None:
    """Plane geometry: sin 2th = P / ((k + 2) V), w = V sin th; the trade's own ripple of
    k = 6, 3 1/2 in a wave and 4 rows to 2 in, gives th = 30.52 degrees, w = 0.2539 in, and
    so 13.8 of 16 stitches straight across, 1.03 in deep."""
    wave = (Fraction(889, 10), Fraction(127, 10))
    slope = slope_of(Wave((), 16, ()), Fraction(19, 10), wave)
    assert slope.width_mm == pytest.approx(0.2539 * 25.4, rel=1e-3)
    assert slope.width == pytest.approx(13.8, abs=0.05)
    assert slope.width_mm is not None
    assert slope.depth * slope.width_mm == pytest.approx(1.03 * 25.4, abs=0.1)
    assert slope.pitch * slope.width_mm == pytest.approx(12.7)


def test_the_decrease_stands_in_the_valley_and_drops_two_of_sixteen() -> None:
    """13.8 of 16: two are dropped, which is 1 1/2 in 100 too many stitches."""
    found = offered(ripple(6, 5, 10, TRADE_GAUGE), Side.TOP, STRAIGHT)
    assert "tr3tog over next 3 sts" in found.rows[0]
    assert "14 stitches over a wave of 16, 2 dropped; straight across it takes 13.8" in (
        found.flatness[0].how
    )
    assert found.flatness[0].verdict is Verdict.FLAT
    assert float(found.flatness[0].excess) == pytest.approx(14 / 13.783 - 1, abs=1e-3)


def test_what_a_graded_row_leaves_of_the_depth_is_said_in_both_units() -> None:
    """1.03 in are 2.6 cm; from sc to tr is 1.55 widths, 0.39 in, and two rows of it 0.79."""
    found = offered(ripple(6, 5, 10, TRADE_GAUGE), Side.TOP, STRAIGHT)
    told = " ".join(found.notes)
    assert "2.6 cm (1.03 in) deep" in told
    assert "2.0 cm (0.79 in) of it" in told
    assert "6.2 mm (0.24 in) is left" in told


def test_short_stitches_lie_on_the_peaks_and_tall_ones_in_the_valleys() -> None:
    row = offered(ripple(6, 5, 10, TRADE_GAUGE), Side.TOP, STRAIGHT).rows[0]
    assert row.startswith(
        "Row 1 (RS): Ch 3, tr2tog over first 2 sts, *dc in next 2 sts, hdc in "
    )
    assert "hdc in next 2 sts, sc in next 5 sts, hdc in next 2 sts" in row


def _piece(text: str) -> Edged:
    pieces = pieces_of(read(text))
    assert isinstance(pieces, tuple)
    return pieces[0]


def test_at_the_foundation_peaks_and_valleys_change_places() -> None:
    """The chain under a peak lies in a valley when the piece is held upside down."""
    piece = _piece(ripple(6, 5, 10))
    top, under = wave_on_top(piece), wave_under(piece)
    assert top is not None
    assert under is not None
    peaks = [bend.at for bend in top.bends if bend.is_peak]
    assert peaks == [8, 24, 40, 56, 72]
    # the first dc of Row 1 stands for two that would lie in one more chain
    assert [bend.at + 1 for bend in under.bends if not bend.is_peak] == peaks


def test_the_foundation_of_a_wave_is_closed_too() -> None:
    found = offered(ripple(6, 5, 10), Side.FOUNDATION, STRAIGHT)
    # 80 chains hold stitches; 2 are dropped in each of 5 valleys
    assert found.stitches == (80 - 2 * 5,)
    assert "tr3tog over next 3 ch" in found.rows[0]


def test_both_shapes_are_offered_and_a_round() -> None:
    found = edgings(ripple(4, 4, 8))
    assert [(o.side, str(o.shape)) for o in found.offered] == [
        (Side.TOP, "straight"),
        (Side.TOP, "wave"),
        (Side.FOUNDATION, "straight"),
        (Side.FOUNDATION, "wave"),
        (Side.LEFT, "plain"),
        (Side.RIGHT, "plain"),
        (Side.ALL, "plain"),
    ]


@pytest.mark.parametrize("slope", [3, 4, 6, 9])
def test_a_round_closes_both_ends_and_turns_the_corners(slope: int) -> None:
    """By hand, k plain a slope and 4 waves: 4 (2k + 4) + 1 stitches, of which the three inner
    valleys and their peaks lose what the straight row does; the half valleys at the ends
    stay, for a corner stands there. Each corner of three adds 2 to both of its sides."""
    text = ripple(slope, 4, 8)
    found, straight = offered(text, Side.ALL), offered(text, Side.TOP, STRAIGHT)
    first, second = found.rows
    assert "tog over next" in first
    assert first.count("3 sc in next foundation ch") == 2
    top = straight.stitches[0] + 2  # a stitch more for each half valley
    assert f"*sc in next {top}" in second or f"sc in next {top} sts, 3 sc" in second
    assert second.endswith("Fasten off. (" + str(found.stitches[0]) + " sc)")


THROW = Path(__file__).parents[2] / "examples" / "turnstone-wave-throw.md"


def test_a_deep_wave_is_closed_by_graded_rounds_on_both_ends() -> None:
    """The wave of the throw is 1.50 in deep, by the formulas above from its printed gauge;
    from sc to tr is 0.42 in, so two rounds take 0.84 in of it, and a round of sc steadies."""
    found = offered(THROW.read_text("utf-8"), Side.ALL)
    first, second, third = found.rows
    assert first.count("tr3tog over next 3") == 3  # on top in one repeat, below in two
    assert "tr in next 3 sts" in second
    assert "tr" not in third.replace("Round", "")
    assert "2.1 cm (0.84 in) of it" in " ".join(found.notes)
    assert all(abs(lies.excess) <= Fraction(8, 100) for lies in found.flatness)


def test_a_round_that_would_be_long_with_its_corners_drops_the_least_that_lies_flat() -> (
    None
):
    """Nine waves of 20 close to 18 a wave, and 3 more at the corners: 165 on 151 are 9 %
    long. A stitch less on each peak, the next way, is 156, 3 %."""
    found = offered(THROW.read_text("utf-8"), Side.ALL)
    assert "sk next st" in found.rows[0]
    assert "156 stitches along the top of 151 stitches" in found.flatness[0].how


SHELLS = """\
Ch 1 does not count as a stitch.

Ch 26.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (25 sc)

Row 2: Ch 1, sc in first st, *sk next 2 sts, 5 dc in next st, sk next 2 sts, sc in next st; rep
from * 3 more times. Turn. (25 sts)
"""


def test_shells_are_no_waves() -> None:
    found = offered(SHELLS, Side.TOP)
    assert "sc in each st across" in words(found)
    assert str(found.shape) == "plain"


def test_the_sides_of_waves_are_edged_behind_their_ends() -> None:
    sides = (Side.TOP, Side.FOUNDATION, Side.LEFT, Side.RIGHT)
    found = edgings(SC_WAVE, Wish(sides, shape=Shape.STRAIGHT))
    assert tuple(one.side for one in found.offered) == sides
    assert not found.refused
    assert {one.shape for one in found.offered[:2]} == {Shape.STRAIGHT}


def test_the_last_row_is_edged_before_the_foundation_however_they_are_asked_for() -> None:
    found = edgings(SC_WAVE, Wish((Side.FOUNDATION, Side.TOP)))
    assert [one.side for one in found.offered] == [Side.TOP, Side.FOUNDATION]


FEATHER = """\
US terms. The ch 1 at the start of a row does not count as a stitch. The ch 3 counts as a dc.

Ch 39.

Row 1 (WS): Sc in 2nd ch from hook and in each ch across. Turn. (38 sc)

Row 2 (RS): Ch 3, sk first st, *(dc2tog over next 2 sts) 3 times, 2 dc in each of next 6 sts,
(dc2tog over next 2 sts) 3 times; rep from * to last st, dc in last st. Turn. (38 sts)

Row 3 (WS): Ch 1, sc in each st across. Turn. (38 sc)

Rows 4-13: Rep Rows 2 and 3 five more times. (38 sc)
"""


def test_a_feather_ripple_is_a_wave_under_its_plain_rows() -> None:
    """By hand: 6 added lean three stitches to either side at most, half as many on average,
    in two rows, and 9 of 18 stitches lie within a bend: 3 x 1/2 / 2 = 3/4 a row."""
    (piece,) = pieces(FEATHER)
    wave = wave_on_top(piece)
    assert wave is not None
    assert (wave.in_one, wave.lean, wave.rests) == (18, Fraction(3, 4), True)
    peaks = [bend.at for bend in wave.bends if bend.is_peak]
    assert peaks == [Fraction(19, 2), Fraction(55, 2)]


def test_a_feather_ripple_lies_by_the_closed_form() -> None:
    """tan th = 3/4 over the mean of dc 1.9 and sc 0.95: 27.8 degrees, 15.9 of 18 across."""
    (piece,) = pieces(FEATHER)
    wave = wave_on_top(piece)
    assert wave is not None
    slope = slope_of(wave, Fraction(1425, 1000), None)
    assert slope.width == pytest.approx(18 * math.cos(math.atan(0.75 / 1.425)))
    assert slope.depth == pytest.approx(9 * math.sin(math.atan(0.75 / 1.425)))


@pytest.mark.parametrize("side", [Side.TOP, Side.FOUNDATION])
def test_a_feather_ripple_is_closed_straight_or_followed_plainly(side: Side) -> None:
    closed, followed = offered(FEATHER, side, STRAIGHT), offered(FEATHER, side, FOLLOWING)
    assert "dc2tog" in closed.rows[0]
    assert closed.stitches == (33,)  # 38 less two in each of two waves, and one at an end
    assert followed.stitches == (38,)
    assert "2 sc in" not in words(followed)


def test_more_plain_rows_than_lie_between_are_no_wave() -> None:
    text = FEATHER + "\nRow 14: Ch 1, sc in each st across. (38 sc)\n"
    text += "\nRows 15-17: Ch 1, turn, sc in each st across. (38 sc)\n"
    (piece,) = pieces(text)
    assert wave_on_top(piece) is None


def pieces(text: str) -> tuple[Edged, ...]:
    """The pieces of a text that can be edged."""
    found = pieces_of(read(text))
    assert isinstance(found, tuple)
    return found
