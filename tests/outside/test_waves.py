"""Waves and chevrons whose chains and counts others have published.

The words of every pattern are our own; the numbers are those of the page named beside them.
"""

import pytest
from working_texts import checked, errors, made, told

from hookwright.listing.assumed import assumed

LONG_WAVE = """\
Ch {chains}.

Row 1: Sc in 2nd ch from hook, sc in next 4 ch, *3 sc in next ch, sc in next 5 ch, sk next 2
ch, sc in next 5 ch; rep from * to last 6 ch, 3 sc in next ch, sc in last 5 ch. Turn.
({stitches} sc)

Row 2: Ch 1, sk first st, sc in next 5 sts, *3 sc in next st, sc in next 5 sts, sk next 2
sts, sc in next 5 sts; rep from * to last 7 sts, 3 sc in next st, sc in next 4 sts, sk next
st, sc in last st. Turn. ({stitches} sc)
"""


@pytest.mark.parametrize(("chains", "stitches"), [(25, 26), (233, 234)])
def test_chains_of_13_and_12_make_one_stitch_more_and_keep_them(
    chains: int, stitches: int
) -> None:
    """Source: crochetbug.com, scrap yarn ripple afghan: 25 and 233 ch, 26 and 234 sc."""
    text = LONG_WAVE.format(chains=chains, stitches=stitches)
    assert made(text) == [chains, stitches, stitches]
    assert errors(text) == []


@pytest.mark.parametrize("chains", [26, 24, 232, 234])
def test_a_chain_off_the_multiple_of_13_and_12_is_told(chains: int) -> None:
    text = LONG_WAVE.format(chains=chains, stitches=chains + 1)
    assert [(rule, row) for rule, row, _ in told(text)][:1] == [("stitches-left", "Row 1")]


def test_134_chains_of_12_and_2_make_143_and_keep_them() -> None:
    """Source: serendipity.gpvm.com, easter egg afghan: 1 skipped in the first row, then 2."""
    text = """\
Ch 134.

Row 1: Sc2tog starting in 2nd ch from hook, sc in next 4 ch, *3 sc in next ch, sc in next 5
ch, sk next ch, sc in next 5 ch; rep from * to last 7 ch, 3 sc in next ch, sc in next 4 ch,
sc2tog. Turn. (143 sc)

Rows 2-9: Ch 1, working in back loops only, sc2tog, sc in next 4 sts, *3 sc in next st, sc in
next 5 sts, sk 2 sts, sc in next 5 sts; rep from * to last 7 sts, 3 sc in next st, sc in next
4 sts, sc2tog. Turn. (143 sc)
"""
    assert set(made(text)[1:]) == {143}
    assert errors(text) == []


CHEVRON_SQUARE = """\
Ch 38.

Row 1: Sc in 2nd ch from hook, *sc in next 2 ch, sk next ch, 3 dc in next ch, sk next ch, sc
in next 2 ch; rep from * 4 more times, sc in last ch. Turn. (37 sts)

Row 2: Ch 1, sc in first st, sk next st, *sc in next 2 sts, 5 sc in next st, sc in next 2
sts, sk next 2 sts; rep from * 3 more times, sc in next 2 sts, 5 sc in next st, sc in next 2
sts, sk next st, sc in last st. Turn. (47 sts)

Row 3: Ch 1, sc in first st, sk next st, *sc in next 3 sts, 3 sc in next st, sc in next 3
sts, sk next 2 sts; rep from * 3 more times, sc in next 3 sts, 3 sc in next st, sc in next 3
sts, sk next st, sc in last st. Turn. (47 sts)

Row 4: {begin}, *hdc in next st, sc in next 2 sts, sk next st, sc in next 2 sts, hdc in next
st, dc2tog; rep from * 4 more times. Fasten off. (36 sts)
"""


@pytest.mark.parametrize(
    "begin",
    [
        "Ch 2, dc in next st (counts as dc2tog)",
        "Ch 2, sk first st, dc in next st (counts as dc2tog)",
        "Ch 2, sk first st, dc in next st (the ch and dc stand for a dc2tog)",
        "Ch 2 (does not count), dc2tog",
    ],
)
def test_a_chevron_square_is_closed_by_a_straight_row(begin: str) -> None:
    """Source: sites.google.com/site/hazel3crochetsmore, ripple afghan square: 38 ch, then
    37, 47 and 47, and 36 in the straight row at the end."""
    text = CHEVRON_SQUARE.format(begin=begin)
    assert made(text) == [38, 37, 47, 47, 36]
    assert errors(text) == []


def test_28_chains_of_9_and_1_make_33_and_keep_them() -> None:
    """Source: tinashandicraft.blogspot.com 2015/11: 28 ch, 33 sc, and 33 sc after that."""
    text = """\
Ch 28.

Row 1: Sc in 2nd ch from hook, sc in next 3 ch, 3 sc in next ch, sc in next 4 ch, *sc in next
4 ch, 3 sc in next ch, sc in next 4 ch; rep from * across. Turn. (33 sc)

Row 2: Ch 1, *sk next st, sc in next 4 sts, 3 sc in next st, sc in next 4 sts, sk next st;
rep from * across. Turn. (33 sc)
"""
    assert made(text) == [28, 33, 33]
    assert errors(text) == []


@pytest.mark.parametrize("repeats", [1, 3, 9])
def test_nine_dc_a_slope_and_two_skipped_use_21(repeats: int) -> None:
    """Source: forum.lettucecraft.com, simple chevron: 9 dc a slope, 3 in one, 2 skipped."""
    text = f"""\
Ch {21 * repeats + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. ({21 * repeats} sc)

Row 2: Ch 3 (does not count), *dc in next 9 sts, 3 dc in next st, dc in next 9 sts, sk next 2
sts; rep from * across. Turn. ({21 * repeats} dc)
"""
    assert made(text)[-1] == 21 * repeats
    assert errors(text) == []


def test_three_drawn_together_and_two_with_chains_between_use_14() -> None:
    """Source: blog.lionbrand.com, wavy chevron: 14 and 4, *5, 3 together, 5, (dc, ch 2, dc)*."""
    text = """\
The skipped chains do not count as a stitch.

Ch 32.

Row 1: Dc in 4th ch from hook, *dc in next 5 ch, dc3tog over next 3 ch, dc in next 5 ch, (dc,
ch 2, dc) in next ch; rep from * across. Turn. (27 sts, 2 ch-2 sps)
"""
    # 1 at the edge, and 5 + 1 + 5 + 2 a repeat.
    assert made(text) == [32, 1 + 2 * 13]
    assert errors(text) == []


@pytest.mark.parametrize(("slope", "chains"), [(7, 173), (4, 113)])
def test_ten_peaks_of_a_back_loop_wave(slope: int, chains: int) -> None:
    """Source: chattyspatterns.blogspot.com 2011/02: 2 n + 3 and 3; n = 7, 10 peaks: 173 ch."""
    stitches = chains - 1
    text = f"""\
Ch {chains}.

Row 1: Sc in 2nd ch from hook, sk next ch, *sc in next {slope} ch, 3 sc in next ch, sc in next
{slope} ch, sk next 2 ch; rep from * 8 more times, sc in next {slope} ch, 3 sc in next ch, sc
in next {slope} ch, sk next ch, sc in last ch. Turn. ({stitches} sc)

Row 2: Ch 1, working in back loops only, sc in first st, sk next st, *sc in next {slope} sts, 3
sc in next st, sc in next {slope} sts, sk next 2 sts; rep from * 8 more times, sc in next
{slope} sts, 3 sc in next st, sc in next {slope} sts, sk next st, sc in last st. Turn.
({stitches} sc)
"""
    assert made(text) == [chains, stitches, stitches]
    assert errors(text) == []


TO_LAST_TWO = """\
Ch 173.

Row 1: Sc in 2nd ch from hook, sk next ch, *sc in next 7 ch, 3 sc in next ch, sc in next 7 ch,
sk next 2 ch; rep from * {times}, sk next ch, sc in last ch. Turn.
"""
"""172 chains are 2 + 9 x 17 + 15 + 2: the last group has lost its own skip.

Source: chattyspatterns.blogspot.com 2011/02, which does not say so.
"""


def test_ten_whole_groups_of_17_run_two_past_172_chains() -> None:
    assert told(TO_LAST_TWO.format(times="9 more times")) == [
        (
            "past-the-end",
            "Row 1",
            "Row 1 needs 175 stitches but only 173 are there: 2 too few.",
        )
    ]


def test_a_last_group_that_has_to_be_cut_short_is_said() -> None:
    found = checked(TO_LAST_TWO.format(times="across to last 2 ch"))
    assert not found.has_errors()
    assert (
        "the last repeat of Row 1 stopped before the end of its words" in assumed(found)[1]
    )


def test_260_chains_are_four_too_many_for_17_points() -> None:
    """Source: a wave pattern kept at restorativland.org (Heartland/Falls/7861): 260 ch, 17
    points of 15. The row needs 2 + 254 = 256."""
    text = """\
Ch {}.

Row 1: Sc in 3rd ch from hook, sc in next 5 ch, 3 sc in next ch, sc in next 6 ch, *sk next 2
ch, sc in next 6 ch, 3 sc in next ch, sc in next 6 ch; rep from * 15 more times, sc in last
ch. Turn.
"""
    assert told(text.format(260)) == [
        (
            "stitches-left",
            "Row 1",
            "Row 1 uses 256 stitches but 260 are there: 4 are left over.",
        )
    ]
    assert errors(text.format(256)) == []


def test_eight_where_only_six_close_is_told() -> None:
    """The same pattern: its second row says 8 where the account closes with 6."""
    text = """\
Ch 258.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (257 sc)

Row 2: Ch 1, sc in first st, sk next st, *sc in next 6 sts, 3 sc in next st, sc in next {} sts,
sk next 2 sts; rep from * 15 more times, sc in next 6 sts, 3 sc in next st, sc in next 6 sts,
sk next st, sc in last st. Turn.
"""
    assert errors(text.format(6)) == []
    assert [(rule, row) for rule, row, _ in told(text.format(8))] == [
        ("past-the-end", "Row 2")
    ]


WAVE = """\
Tern Wave

US terms. Ch 3 counts as a dc.

With Slate, ch 178.

Row 1: Dc in 3rd ch from hook, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch, *dc3tog
over next 3 ch, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch; rep from * to last 2 ch,
dc2tog over last 2 ch. Turn. (177 dc)

Rows 2-40: Ch 2, sk first st, dc in blo of next st, dc in blo of next 6 sts, 3 dc in blo of
next st, dc in blo of next 6 sts, *dc3tog in blo over next 3 sts, dc in blo of next 6 sts, 3 dc
in blo of next st, dc in blo of next 6 sts; rep from * to last 2 sts, dc2tog in blo over last
2 sts. Turn. (177 dc)

Row 41: Ch 1, sc in each st across. Fasten off. (177 sc)

Foundation edging

Row 1: Join with sl st in first ch of the foundation, ch 1, sc in each ch along the underside
of the foundation chain. Fasten off.
"""


def test_a_wave_of_sixteen_over_178_chains_stays_at_177() -> None:
    """Common practice, no source: eleven waves of 16, first and last stitch a half valley."""
    assert made(WAVE)[1:4] == [177, 177, 177]
    assert errors(WAVE) == []


def test_a_straight_edging_fits_the_underside_of_a_wave() -> None:
    last = checked(WAVE).lines[-1]
    assert last.stitches[0] in (176, 177, 178)
    assert last.uses == last.below
