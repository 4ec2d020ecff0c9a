"""The multiple of a pattern follows from its rows; the numbers are those of others."""

from __future__ import annotations

import pytest
from working_texts import checked

from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.multiples import multiples_of


def first(text: str) -> PartMultiple:
    """How the first part of a text grows."""
    return multiples_of(checked(text))[0]


def family(multiple: Multiple | None) -> tuple[int, int]:
    """A multiple as (each, what is left): 4 k + 5 is the family of 4 k + 1."""
    assert multiple is not None
    return multiple.each, multiple.extra % multiple.each


ROWS = {
    # Source: stitchwhisperdesigns.com 2021/03, multiples: 5 and 1 is 11, 56 or 101.
    (5, 1): (
        (
            "Sc in 2nd ch from hook, sc in next 3 ch, dc in next ch, *sc in next 4 ch, dc in next "
            "ch; rep from * across."
        ),
        (11, 56, 101),
    ),
    # Source: forum.knittinghelp.com, neat ripple questions: 14 k + 3 is 31, 255 and 283.
    (14, 3): (
        (
            "Dc in 4th ch from hook, dc in next 4 ch, (dc2tog) twice, dc in next 4 ch, 2 dc in next "
            "ch, *2 dc in next ch, dc in next 4 ch, (dc2tog) twice, dc in next 4 ch, 2 dc in next "
            "ch; rep from * across."
        ),
        (31, 255, 283),
    ),
    # Source: oombawkadesigncrochet.com, using stitch multiples: 6 k + 2 near 70 is 68.
    (6, 2): (
        (
            "Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; "
            "rep from * across."
        ),
        (68,),
    ),
    # Source: theblogofteresa.com, blanket beginnings: 36 repeats of 4 k + 1 are 145 chains.
    (4, 1): (
        (
            "Sc in 2nd ch from hook, sk next ch, dc in next ch, ch 1, sc in next ch, *sc in next "
            "ch, sk next ch, dc in next ch, ch 1, sc in next ch; rep from * across."
        ),
        (145,),
    ),
    # Source: staceydaze.blogspot.com 2011: 15 k + 3 is 123 or 138.
    (15, 3): (
        (
            "Sc in 2nd ch from hook, *sc in next 6 ch, 3 sc in next ch, sc in next 6 ch, sk next 2 "
            "ch; rep from * to last ch, sc in last ch."
        ),
        (123, 138),
    ),
    # Source: crochetcabana.com, ripples: 12 + 3.
    (12, 3): (
        (
            "Dc in 4th ch from hook, dc in next 2 ch, (dc2tog) twice, dc in next 3 ch, 2 dc in each "
            "of next 2 ch, *dc in next 3 ch, (dc2tog) twice, dc in next 3 ch, 2 dc in each of next "
            "2 ch; rep from * across."
        ),
        (27, 135),
    ),
}
"""A first row in our own words that has a published multiple, and published chains of it."""

CHAINS = [(each, row, n) for each, (row, chains) in ROWS.items() for n in chains]


@pytest.mark.parametrize(("multiple", "row", "chain"), CHAINS)
def test_a_published_multiple_follows_from_the_row(
    multiple: tuple[int, int], row: str, chain: int
) -> None:
    part = first(f"Ch {chain}.\n\nRow 1: {row} Turn.\n")
    assert family(part.chains) == multiple
    assert part.chains is not None
    assert part.chains.at(part.repeats) == chain


def wave(plain: int, peaks: int) -> str:
    """A sc wave: so many plain stitches on each side of peaks of 3 in 1 and of gaps of 2."""
    chain = (2 * plain + 3) * peaks + 3
    return (
        f"Ch {chain}.\n\nRow 1: Sc in 2nd ch from hook, *sc in next {plain} ch, 3 sc in next "
        f"ch, sc in next {plain} ch, sk next 2 ch; rep from * to last ch, sc in last ch. Turn.\n"
    )


@pytest.mark.parametrize(("plain", "peaks", "chain"), [(7, 10, 173), (6, 8, 123)])
def test_a_wave_of_2_n_and_3(plain: int, peaks: int, chain: int) -> None:
    """Source: chattyspatterns.blogspot.com 2011/02, single crochet ripple: 2 n + 3 chains a
    wave and 3 beside; 10 peaks of 7 are 173. The other pair is arithmetic."""
    part = first(wave(plain, peaks))
    assert family(part.chains) == (2 * plain + 3, 3)
    assert part.chains is not None
    assert part.chains.at(part.repeats) == chain


@pytest.mark.parametrize(("plain", "each"), [(3, 14), (6, 20)])
def test_a_wave_with_two_stitches_twice_is_2_n_and_8(plain: int, each: int) -> None:
    """Source: charitycrochets.blogspot.com 2013/03, trinity ripple: 2 n + 8 where peak and
    valley use 8; n 3 is 14, n 6 is 20."""
    chain = each * 4 + 3
    text = (
        f"Ch {chain}.\n\nRow 1: Dc in 4th ch from hook, *dc in next {plain} ch, (dc2tog over "
        f"next 2 ch) twice, dc in next {plain} ch, 2 dc in each of next 4 ch; rep from * 2 more "
        f"times, dc in next {plain} ch, (dc2tog over next 2 ch) twice, dc in next {plain} ch, 2 "
        "dc in each of next 3 ch.\n"
    )
    part = first(text)
    assert part.chains is not None
    assert part.chains.each == each


def test_13_and_12_chains_make_one_stitch_more() -> None:
    """Source: crochetbug.com, scrap yarn ripple afghan: 25 and 233 ch, 26 and 234 sc."""
    text = (
        "Ch 233.\n\nRow 1: Sc in 2nd ch from hook, sc in next 4 ch, *3 sc in next ch, sc in next "
        "5 ch, sk next 2 ch, sc in next 5 ch; rep from * to last 6 ch, 3 sc in next ch, sc in "
        "last 5 ch. Turn.\n"
    )
    part = first(text)
    assert part.chains is not None
    assert part.stitches is not None
    assert (part.chains.each, part.chains.extra) == (13, 12)
    assert [part.chains.at(k) for k in (1, 17)] == [25, 233]
    assert [part.stitches.at(k) for k in (1, 17)] == [26, 234]


def test_12_and_2_chains_make_9_more_and_keep_them() -> None:
    """Source: serendipity.gpvm.com, easter egg afghan: 134 ch, 143 sts."""
    text = """\
Ch 134.

Row 1: Sc2tog starting in 2nd ch from hook, sc in next 4 ch, *3 sc in next ch, sc in next 5
ch, sk next ch, sc in next 5 ch; rep from * to last 7 ch, 3 sc in next ch, sc in next 4 ch,
sc2tog. Turn. (143 sc)

Rows 2-9: Ch 1, working in back loops only, sc2tog, sc in next 4 sts, *3 sc in next st, sc in
next 5 sts, sk 2 sts, sc in next 5 sts; rep from * to last 7 sts, 3 sc in next st, sc in next
4 sts, sc2tog. Turn. (143 sc)
"""
    part = first(text)
    assert (family(part.chains), family(part.stitches)) == ((12, 2), (13, 0))
    assert part.rows == Multiple(1, 1)


def test_rows_of_two_kinds_share_a_multiple() -> None:
    """Arithmetic: what closes over groups of 4 and over groups of 6 closes every 12."""
    text = """\
Ch 26.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (25 sc)

Row 2: Ch 1, sc in first st, *ch 3, sk next 3 sts, sc in next st; rep from * across. Turn.

Row 3: Ch 1, sc in first sc, *3 sc in next ch-3 sp, sc in next sc; rep from * across. Turn.

Row 4: Ch 1, sc in first st, *sk next 2 sts, 5 dc in next st, sk next 2 sts, sc in next st;
rep from * across. Turn. (25 sts)
"""
    assert family(first(text).chains) == (12, 2)


def test_the_16_stitch_wave_in_dc() -> None:
    """Common practice, no source: 16 k + 2 chains make 16 k + 1 stitches."""
    text = """\
Ch 178.

Row 1: Dc in 3rd ch from hook, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch, *dc3tog
over next 3 ch, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch; rep from * to last 2 ch,
dc2tog over last 2 ch. Turn. (177 sts)

The ch 2 is not a stitch.
"""
    part = first(text)
    assert (part.chains, part.stitches) == (Multiple(16, 2), Multiple(16, 1))
    assert part.repeats == 11


OVAL = """\
Ch 11.

Rnd 1: Sc in 2nd ch from hook, sc in next 8 ch, 3 sc in last ch; working along the other side
of the chain, sc in next 8 ch, 2 sc in last ch. (22 sc)
"""


def test_an_oval_gains_two_stitches_for_each_chain() -> None:
    """Arithmetic: both sides of the chain are worked into."""
    part = first(OVAL)
    assert part.chains is not None
    assert part.stitches is not None
    assert (part.chains.each, part.stitches.each) == (1, 2)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        (
            "Rnd 1: 6 sc in a magic ring. (6)\n\nRnd 2: 2 sc in each st around. (12)\n",
            "ring",
        ),
        ("Ch 4, join with sl st in first ch.\n\nRnd 1: Ch 1, 8 sc in ring. (8)\n", "ring"),
        ("Ch 2.\n\nRnd 1: 6 sc in 2nd ch from hook. (6)\n", "one chain"),
        (
            (
                "Ch 12.\n\nRow 1: Sc in 2nd ch from hook, sc in next 2 ch, ch 1, sk next ch, sc "
                "in next 3 ch, ch 1, sk next ch, sc in last 3 ch. Turn.\n"
            ),
            "Row 1 has no repeat",
        ),
        ("Ch 12.\n\nRow 1: Sc in 2nd ch from hook and in next 12 ch. Turn.\n", "mend"),
    ],
)
def test_what_has_no_multiple_says_why(text: str, reason: str) -> None:
    part = first(text)
    assert reason in part.reason
    assert part.chains is None


def test_rows_out_of_the_middle_have_no_multiple() -> None:
    """Arithmetic: a gap 9 stitches from one end is met 9 from the other once it is turned."""
    text = """\
Ch 32.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (31 sc)

Row 2: Ch 1, sc in first 15 sts, ch 1, sk next st, sc in each st across. Turn.

Row 3: Ch 1, sc in first 15 sts, sc in next ch-1 sp, sc in each st across. Turn.
"""
    assert "Row 3" in first(text).reason


def test_an_edging_that_spells_out_its_sides_grows_with_them() -> None:
    text = """\
Ch 36.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (35 sc)

Rows 2-37: Ch 1, sc in each st across. Turn. (35 sc)

## Edging

Rnd 1: Ch 1, sc in the end of each of the 37 rows, ch 2, sc in the underside of each of the
35 foundation ch, ch 2, sc in the end of each of the 37 rows, ch 2, sc in each of the 35 sts
of Row 37, ch 2; join with sl st in first sc. (144 sc, 4 ch-2 sps)
"""
    body, edging = multiples_of(checked(text))
    assert body.chains is not None
    assert edging.stitches is not None
    assert (body.chains.each, edging.chains, edging.stitches.each) == (1, None, 2)


def test_sets_of_rows() -> None:
    text = """\
Ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)

Row 2: Ch 1, sc in each st across. Turn.

Row 3: Ch 1, hdc in each st across. Turn.

Rows 4-23: Rep Rows 2 and 3.

Row 24: Ch 1, sc in each st across. Fasten off.
"""
    part = first(text)
    assert part.rows == Multiple(2, 2)
    assert part.set_repeats == 11
