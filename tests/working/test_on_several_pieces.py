"""A border round pieces that have been put together: no row tells how long their edge is."""

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

SQUARES = """US terms. Make 24 squares.

Square

Rnd 1: In a magic ring work ch 3 (counts as dc), 2 dc, ch 2, *3 dc, ch 2; rep from * twice
more, sl st in top of ch 3. (12 dc, 4 ch-2 sps)

{joining}

Border

Rnd 1: Ch 1, *3 sc in corner ch-2 sp, sc in each dc along the edge; rep from * 3 more times,
sl st in first sc. ({count} sc)
"""
TOGETHER = (
    "Joining\n\nLay the squares out, six by four, and join them with sc along the rows."
)


def test_its_count_is_not_accused() -> None:
    checked = check(Source(SQUARES.format(joining=TOGETHER, count=132)))
    loud = [f.message for f in checked.findings if f.severity is not Severity.ADVICE]
    assert loud == []
    assert not checked.lines[-1].agrees


def test_round_one_square_it_is_proven() -> None:
    checked = check(Source(SQUARES.format(joining=TOGETHER, count=24)))
    assert checked.lines[-1].agrees


def test_without_a_joining_it_goes_round_the_square() -> None:
    checked = check(Source(SQUARES.format(joining="", count=132)))
    assert [f.rule for f in checked.findings] == ["stated-count"]


def test_numbers_that_come_to_its_count_prove_nothing_over_one_square() -> None:
    text = SQUARES.replace(
        "sc in each dc along the edge;",
        "sc in each of the 18 dc along the edge and 1 sc in each of the 4 corner sps at the joins;",
    )
    checked = check(Source(text.format(joining=TOGETHER, count=100)))
    loud = [f.message for f in checked.findings if f.severity is not Severity.ADVICE]
    assert loud == []
    assert not checked.lines[-1].agrees


TEE = """US terms. Ch 3 counts as dc.

Back

Ch 32.
Row 1: Dc in 4th ch from hook and in each ch across. (30 dc)
Fasten off.

{joining}

Sleeves (make 2)

Rnd 1: Join yarn at the underarm, ch 1, work 40 sc evenly around armhole, join. (40 sc)
Fasten off.

Neckband

With RS facing, join yarn at the right shoulder seam.

Rnd 1: Ch 1, sc in each of 14 sts of back neck, 8 sc down the left side of front neck, sc in
each of 10 sts at centre front, 8 sc up the right side, sl st in first sc. (40 sc)
Rnd 2: Ch 1, sc in each sc around, sl st in first sc. (40 sc)
"""


def test_a_neckband_after_the_sleeves_is_on_the_same_pieces() -> None:
    checked = check(Source(TEE.format(joining="Sew the 8 sts of each shoulder together.")))
    assert not [f for f in checked.findings if f.severity is not Severity.ADVICE]
    assert [line.agrees for line in checked.lines[-2:]] == [False, True]


FOLDED = """US terms. Ch 1 never counts.

Bonnet

Ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Rows 2-12: Ch 1, sc in each st across, turn. (20 sc)
Fasten off.

{sewing}

Neck

Row 1: With RS facing, sc in each row end, {around} sc in all, then ch 20. Fasten off. ({around} sc)
"""


def test_the_edge_of_a_piece_folded_and_sewn_is_not_accused() -> None:
    sewn = "Fold the last row in half and whip stitch its two halves for the back seam."
    checked = check(Source(FOLDED.format(sewing=sewn, around=24)))
    loud = [f.message for f in checked.findings if f.severity is not Severity.ADVICE]
    assert loud == []
    assert not checked.lines[-1].agrees


def test_the_edge_of_a_piece_that_lies_flat_is_counted() -> None:
    checked = check(Source(FOLDED.format(sewing="", around=24)))
    assert [f.rule for f in checked.findings if f.severity is not Severity.ADVICE] == [
        "stated-count"
    ]
    assert check(Source(FOLDED.format(sewing="", around=12))).lines[-1].agrees


def test_a_piece_begun_anew_behind_a_joining_is_counted() -> None:
    ears = "\nEars\n\nRnd 1: 6 sc in magic ring. ({count})\n"
    text = SQUARES.partition("Border")[0].format(joining=TOGETHER) + ears
    assert check(Source(text.format(count=6))).lines[-1].agrees
    checked = check(Source(text.format(count=7)))
    assert [f.rule for f in checked.findings if f.severity is not Severity.ADVICE] == [
        "stated-count"
    ]


IN_FINISHING = """US terms. Ch 1 does not count.

Back

Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, sc in each st across. (10 sc)
Fasten off.

Finishing

Sew the shoulder seams. With RS facing, join yarn at the lower edge of the Right Front.

Row 1: Ch 1, 36 sc up the Right Front edge, 22 sc around the neck, 36 sc down the Left Front edge. (94 sc)
Row 2: Ch 1, turn, sc in each st across. (94 sc)
"""


def test_a_band_told_among_the_finishing_is_on_the_sewn_pieces() -> None:
    checked = check(Source(IN_FINISHING))
    assert [part.name for part in checked.reading.pattern.parts] == ["Back", "Finishing"]
    assert not [f for f in checked.findings if f.severity is not Severity.ADVICE]


HELD = """UK terms. 3ch counts as 1 tr.

Front

9ch.
Row 1: 1 dc in 2nd ch from hook and in each ch to end. (8 dc)
Fasten off.

Back

9ch.
Row 1: 1 dc in 2nd ch from hook and in each ch to end. (8 dc)
Fasten off.

Joining

{how}
Round 1: 1ch, *1 dc in each of 8 dc, 8 dc along the side, 2ch; rep from * once more, ss in first dc. (32 dc)
"""


def test_a_round_through_two_pieces_held_together_is_not_accused() -> None:
    text = HELD.format(how="Hold front and back with wrong sides together.")
    loud = [
        f.message for f in check(Source(text)).findings if f.severity is not Severity.ADVICE
    ]
    assert loud == []


OPEN_CORNERS = """US terms.

Square

Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc, ch 2) 3 times in ring, join in top of ch-3. (12 dc)
Fasten off.

All other squares

Work as the Square, joining one side, until there are 8 rows of 6 squares.

Border

Rnd 1: Join yarn in a corner, *3 sc in corner, 76 sc along the short side, 3 sc in corner, 102 sc along the long side; rep from * once more, join. (368 sc)
Rnd 2: Ch 1, sc in each sc around, 3 sc in the middle sc of each corner, join. (376 sc)
"""


def test_corners_of_a_round_that_is_not_worked_are_left_open() -> None:
    checked = check(Source(OPEN_CORNERS))
    loud = [f.message for f in checked.findings if f.severity is not Severity.ADVICE]
    assert loud == []


BANDS = """US terms. Ch 1 at the start of a row or round is not a st.

Back

Ch 25.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (24 sc)
Row 2: Ch 1, sc in each sc across. (24 sc) Fasten off.

Front

Ch 25.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (24 sc)
Row 2: Ch 1, sc in each sc across. (24 sc) Fasten off.

Making up

Sew the shoulders and the side seams.

**Collar.** Join yarn with a sl st at a shoulder.
Rnd 1: Ch 1, sc in each st around, sl st in first sc. (30 sc) Fasten off.

**Hem.** Join yarn with a sl st at a side seam.
Rnd 1: Ch 1, sc in each foundation ch around, sl st in first sc. (48 sc)
Rnd 2: Ch 1, sc in each sc around, sl st in first sc. (48 sc) Fasten off.
"""


def test_a_second_band_below_one_heading_goes_round_all_pieces_too() -> None:
    checked = check(Source(BANDS))
    loud = [f.message for f in checked.findings if f.severity is not Severity.ADVICE]
    assert loud == []
