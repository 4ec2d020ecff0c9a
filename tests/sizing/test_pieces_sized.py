"""Pieces that change by rounds, motifs, garments, girths: each is sized in its own way."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sizing_texts import STRIP, checked, inches, nearest, of_multiple, only_size, sized

from hookwright.sizing.pieces import Growth, pieces_of


def in_rounds(counts: list[int], before: str = "", stitch: str = "sc") -> str:
    """A pattern in a spiral with these counts, its changes spread evenly."""
    rounds = [f"Rnd 1: {counts[0]} {stitch} in magic ring. ({counts[0]})"]
    for number, (below, above) in enumerate(pairwise(counts), start=2):
        if above > below:
            each = below // (above - below)
            words = f"*{stitch} in next {each - 1} sts, 2 {stitch} in next st; rep from * around"
            if each == 1:
                words = f"2 {stitch} in each st around"
        elif above < below:
            each = below // (below - above)
            words = f"*{stitch} in next {each - 2} sts, {stitch}2tog; rep from * around"
        else:
            words = f"{stitch} in each st around"
        rounds.append(f"Rnd {number}: {words}. ({above})")
    body = "\n\n".join(rounds)
    return f"US terms. Work in a spiral; do not join.\n\n{before}\n\n{body}\n"


GAUGE = "Gauge: 16 sts and 12 rnds = 4 in."
CIRCLE = [8, 16, 24, 32, 40, 48]
CAP = [8, 16, 24, 32, 40, 40, 40, 40, 40]
BALL = [6, 12, 18, 18, 18, 12, 6]


@pytest.mark.parametrize(
    ("counts", "growth"),
    [(CIRCLE, Growth.FLAT_ROUND), (CAP, Growth.CAP), (BALL, Growth.BALL),
     ([12, 12, 12, 12], Growth.STEADY)],
)  # fmt: skip
def test_how_a_piece_grows_is_told_by_its_counts(counts: list[int], growth: Growth) -> None:
    (piece,) = pieces_of(checked(in_rounds(counts)))
    assert piece.growth is growth


def test_a_circle_changes_its_rounds() -> None:
    found = sized(in_rounds(CIRCLE, GAUGE), width="12 in")
    made = nearest(found)
    # 12 in over twice 1/3 in a round: 18 rounds of 8 more.
    assert (made.rows, made.stitches, made.chain) == (18, 144, None)
    assert inches(made) == 12
    # 2 pi h / w with h = 1/3 in and w = 1/4 in.
    assert "circle lies flat with 8.4" in " ".join(only_size(found).said)


def test_a_cap_changes_its_crown_and_its_sides() -> None:
    found = sized(in_rounds(CAP, GAUGE), sizes=("hat woman",))
    made = nearest(found)
    # Hat of a woman: 20.75 in around are 83 sts; 80 in 10 rounds of 8 is nearest. 8.75 in
    # from the middle of the crown are 26.25 rounds.
    assert (made.stitches, made.rows) == (80, 26)
    assert "10 rounds of crown and 16 rounds even" in " ".join(only_size(found).said)


def test_a_ball_is_told_round_by_round() -> None:
    found = sized(in_rounds(BALL, "Gauge: 20 sts and 20 rnds = 4 in."), width="4 in")
    made = nearest(found)
    # 4 in across: 2 pi 2 in x 5 = 62.8 at its widest, half a great circle of rounds.
    assert made.stitches == 63
    assert made.rows in {30, 31}
    assert inches(made) == pytest.approx(4, abs=0.05)
    assert "round(2 pi R sin(r h / R) / w)" in " ".join(only_size(found).said)


def test_an_oval_changes_its_chain_and_its_rounds() -> None:
    text = (
        "US terms. Gauge: 12 sts and 12 rnds = 4 in.\n\nCh 21.\n\n"
        "Rnd 1: Sc in 2nd ch from hook, sc in next 18 ch, 3 sc in last ch; working along the "
        "other side of the chain, sc in next 18 ch, 2 sc in last ch; join with sl st in first "
        "sc. (42)\n\n"
        "Rnd 2: Ch 1, 2 sc in first st, sc in next 18 sts, 2 sc in each of next 3 sts, sc in "
        "next 18 sts, 2 sc in each of next 2 sts; join with sl st in first sc. (48)\n\n"
        + "\n\n".join(
            f"Rnd {n}: Ch 1, sc in each st around, increasing 6 sts evenly; join with sl st in "
            f"first sc. ({36 + 6 * n})"
            for n in range(3, 7)
        )
    )
    (piece,) = pieces_of(checked(text))
    assert piece.chain == 21
    if piece.growth is Growth.OVAL:
        made = nearest(sized(text, width="30 in", height="36 in"))
        # 3 chains an inch of length less width, and one that is skipped.
        assert (made.rows, made.chain) == (45, 19)


def test_motifs_are_counted() -> None:
    square = in_rounds([8, 16, 24, 32], GAUGE).replace(
        "US terms.", "Size: each square is 5 in square.\n\nUS terms."
    )
    text = square.replace("Rnd 1:", "## Square (make 12)\n\nRnd 1:")
    found = sized(text, width="50 in", height="60 in")
    assert found.parts[0].multiple.make == 12
    assert nearest(found).repeats == 10 * 12
    assert nearest(found).stitches is None


def test_worked_in_rounds_a_width_is_the_way_around() -> None:
    tube = of_multiple((4, 0), (4, 0), is_round=True)
    gauge = "16 sts and 16 rows = 4 in"
    girth = sized(STRIP, sizes=("cowl",), gauge=gauge, multiples=[tube])
    assert nearest(girth).stitches == 26 * 4  # 13 in flat are 26 in around
    flat = sized(
        STRIP, sizes=("cowl",), gauge=gauge, multiples=[of_multiple((4, 0), (4, 0))]
    )
    assert nearest(flat).stitches == 26 * 4
    assert "worked flat and sewn" in " ".join(only_size(flat).said)


def test_worked_sideways_the_rows_lie_along_its_length() -> None:
    sideways = STRIP.replace("Ch 21.", "The strip is worked sideways.\n\nCh 21.")
    gauge = "16 sts and 12 rows = 4 in"
    found = sized(sideways, width="6 in", height="60 in", gauge=gauge)
    assert (nearest(found).stitches, nearest(found).rows) == (240, 18)


TEE = """\
# Skua Tee

US terms. Gauge: 16 sts and 16 rnds = 4 in in single crochet.

Sizes: S (M, L)

Finished chest: 34 (38, 42) in. To fit chest: 32 (36, 40) in.

## Body

Ch 60 (70, 80); join with sl st in first ch.
Rnd 1: Ch 1, sc in each ch around; join. (60 (70, 80) sc)
Rnds 2-6: Ch 1, sc in each st around, increasing 16 sts evenly; join.
"""


def test_a_garment_is_met_by_the_nearest_of_its_own_sizes() -> None:
    found = sized(TEE, width="39 in")
    assert [round(float(fit.girth) / 25.4) for fit in found.fits] == [34, 38, 42]
    # Source: yayforyarn.com, to-fit bust 30, 34, 38, 42 in for XS to L: the upper ends.
    assert [fit.body.name for fit in found.fits if fit.body] == [
        "woman S",
        "woman M",
        "woman L",
    ]
    assert [fit.fit for fit in found.fits] == ["classic"] * 3


HEADS = """\
[[size]]
name = "Adult"
to_fit = "22 in"

[[size]]
name = "Roomy"
to_fit = "22 in"
ease = "1 in"
"""


def test_a_hat_is_sized_by_the_head_and_its_ease() -> None:
    hat = "# Knot Cap\n\n" + in_rounds(CAP, GAUGE)
    adult, roomy = sized(hat, HEADS).parts[0].sizes
    # Source: windrosefiberstudio.blogspot.com 2012/02: a hat an inch under the head; here
    # the middle of one and two.
    assert adult.wish.around == Fraction(41 * 254, 20)
    assert roomy.wish.around == 23 * Fraction(254, 10)
    assert adult.nearest is not None
    assert adult.nearest.stitches == 80  # 82 sts, in steps of 8
    assert "as usual for a hat" in " ".join(adult.said)


def test_two_parts_of_one_name_are_two_parts() -> None:
    part = (
        "## Panel\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
    )
    rows = "Rows 2-8: Ch 1, turn, sc in each st across. (20 sc)\n\n"
    found = sized(f"US terms.\n\n{part}{rows}{part}{rows}", width="10 in")
    assert [p.multiple.part for p in found.parts] == ["Panel", "Panel"]
    assert [len(p.now) for p in found.parts] == [1, 1]
    assert [len(p.sizes) for p in found.parts] == [1, 1]


@given(st.integers(2, 40), st.integers(1, 40), st.integers(0, 10))
def test_a_larger_wish_is_never_made_smaller(wide: int, each: int, extra: int) -> None:
    part = of_multiple((each, extra), (each, extra + 1))
    gauge = "16 sts and 16 rows = 4 in"
    made = [
        only_size(sized(STRIP, width=f"{w} in", gauge=gauge, multiples=[part])).nearest
        for w in (wide, wide + 3)
    ]
    if made[0] is not None:
        assert made[1] is not None
        assert (made[0].repeats or 0) <= (made[1].repeats or 0)


@pytest.mark.parametrize(
    "told", ["4 rounds = 10 cm across", "10 cm square after 4 rounds", "Rnds 1-4 = 10 cm"]
)
def test_rounds_that_are_told_across_lie_twice_in_it(told: str) -> None:
    """By hand: 4 rounds on both sides of the centre are 8 in 100 mm."""
    made = sized(f"Gauge: {told}.\n\n{COASTER}", width="15 cm").parts[0].sizes[0].nearest
    assert made is not None
    assert made.rows == 6


SQUARE = """\
Size: 20 cm square.

Gauge: 20 sts and 20 rows = 10 cm.

US terms. Ch 1 does not count as a stitch.

Ch 41.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (40 sc)

Rows 2-40: Ch 1, sc in each st across. Turn. (40 sc)
"""


@pytest.mark.parametrize("way", ["width", "height"])
def test_one_length_of_a_square_is_both(way: str) -> None:
    """By hand: 30 cm at 20 to 10 cm are 60 stitches and 60 rows."""
    wide, high = ("30 cm", None) if way == "width" else (None, "30 cm")
    made = sized(SQUARE, width=wide, height=high).parts[0].sizes[0].nearest
    assert made is not None
    assert (made.stitches, made.rows) == (60, 60)


def test_both_lengths_of_a_square_stay_two() -> None:
    made = sized(SQUARE, width="30 cm", height="20 cm").parts[0].sizes[0].nearest
    assert made is not None
    assert (made.stitches, made.rows) == (60, 40)


@pytest.mark.parametrize("way", ["width", "height"])
def test_one_length_of_motifs_is_both(way: str) -> None:
    """By hand: three squares of 20 cm by three are 60 cm both ways."""
    wide, high = ("60 cm", None) if way == "width" else (None, "60 cm")
    square = in_rounds([8, 16, 24, 32], GAUGE).replace(
        "US terms.", "Size: each square is 20 cm square.\n\nUS terms."
    )
    text = square.replace("Rnd 1:", "## Square (make 12)\n\nRnd 1:")
    assert nearest(sized(text, width=wide, height=high)).repeats == 9


COASTER = """\
US terms. Ch 3 counts as a dc.

Rnd 1: Ch 3, 11 dc in magic ring; join with sl st in top of ch-3. (12 dc)

Rnd 2: Ch 3, dc in same st, 2 dc in each st around; join. (24 dc)

Rnd 3: Ch 3, 2 dc in next st, *dc in next st, 2 dc in next st; rep from * around; join. (36 dc)

Rnd 4: Ch 3, dc in next st, 2 dc in next st, *dc in next 2 sts, 2 dc in next st; rep from * around;
join. (48 dc)
"""


PULLOVER = """\
# Gannet Pullover

US terms. Ch 2 does not count as a stitch.

Sizes: S (M, L)

Finished chest: 36 (42, 48) in. To fit chest: 32 (38, 44) in.

Gauge: 12 hdc and 10 rows = 4 in.

## Front

Ch 56 (65, 74).
Row 1: Hdc in 3rd ch from hook and in each ch across. Turn. (54 (63, 72) hdc)
Rows 2-55 (57, 59): Ch 2, hdc in each st across. Turn. (54 (63, 72) hdc)

## Back

Ch 56 (65, 74).
Row 1: Hdc in 3rd ch from hook and in each ch across. Turn. (54 (63, 72) hdc)
Rows 2-59 (61, 63): Ch 2, hdc in each st across. Turn. (54 (63, 72) hdc)

## Sleeve (make 2)

Ch 32 (35, 38).
Row 1: Hdc in 3rd ch from hook and in each ch across. Turn. (30 (33, 36) hdc)
Rows 2-40: Ch 2, hdc in each st across. Turn. (30 (33, 36) hdc)
"""


@pytest.mark.parametrize(
    ("wish", "name"), [({"width": "44 in"}, "As asked: M"), ({"sizes": ("m",)}, "m")]
)
def test_every_piece_of_a_garment_is_told_in_the_nearest_of_its_own_sizes(
    wish: dict[str, Any], name: str
) -> None:
    """44 in lies nearest to 42, which is M; its lists give each piece its numbers."""
    found = sized(PULLOVER, **wish)
    made = [part.sizes[0].nearest for part in found.parts]
    assert [part.sizes[0].wish.name for part in found.parts] == [name] * 3
    assert [(one.chain, one.stitches, one.rows) for one in made if one] == [
        (65, 63, 57),
        (65, 63, 61),
        (35, 33, 40),
    ]


def test_a_body_outside_of_the_sizes_of_a_garment_is_told_what_they_reach() -> None:
    found = sized(PULLOVER, sizes=("man 5X",))
    (finding,) = found.findings
    assert "outside of the sizes of the text" in finding.message
    assert finding.why == "They reach from 36 in (91.4 cm) to 48 in (121.9 cm)."


def test_a_name_that_is_none_tells_the_sizes_of_the_text() -> None:
    (finding,) = sized(PULLOVER, sizes=("Q",)).findings
    assert finding.message == 'There is no size "Q". The text has S, M and L.'


HAT = """\
# Fulmar Beanie

US terms. Ch 1 does not count as a stitch. Gauge: 16 hdc and 12 rnds = 4 in.

## Crown

Ch 4; join with sl st in first ch to form a ring.
Rnd 1: Ch 1, 8 hdc in ring; join. (8 hdc)
Rnd 2: Ch 1, 2 hdc in each st around; join. (16 hdc)
Rnd 3: Ch 1, *hdc in next st, 2 hdc in next st; rep from * around; join. (24 hdc)

## Sides

Rnd 4: Ch 1, hdc in each st around; join. (24 hdc)
"""


def test_a_hat_is_round_a_head_though_one_round_only_keeps_its_count() -> None:
    found = sized(HAT)
    # 24 stitches at 4 to the inch are 6 in around; as a flat piece it would be 2.7 across.
    assert inches(found.parts[0].now[0]) == 6
    assert found.parts[1].multiple.reason.startswith("It goes on from Crown")


def test_a_flat_circle_is_told_with_the_stitches_that_it_has() -> None:
    flat = HAT.replace("Beanie", "Coaster").replace("*hdc in next st, 2", "*hdc in next, 2")
    assert sized(flat).parts[0].now[0].stitches == 24
