"""The middle stitch of each corner takes more than the stitches beside it.

Arithmetic: a side of n stitches and a corner of three, the middle one of which takes three,
grow by two a corner and round: 24, 32, 40. Common practice, no source.
"""

import pytest
from working_texts import checked

from hookwright.checking import check
from hookwright.source import Source

SQUARE = """\
US terms.

Ch 4, join with sl st in first ch to form a ring.
Round 1: Ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (12 dc)
Round 2: Ch 1, sc in same st and in each dc around, working 3 sc in each ch-2 sp; join. (24 sc)
"""


@pytest.mark.parametrize(
    "words",
    [
        "sc in each sc around, working 3 sc in centre sc of each corner",
        "sc in each sc around and 3 sc in the middle sc of each corner",
        "sc in each st around, 3 sc in center st of each corner",
    ],
)
def test_a_square_grows_by_two_a_corner(words: str) -> None:
    rounds = (
        f"Round 3: Ch 1, {words}; join. (32 sc)\nRound 4: Ch 1, {words}; join. (40 sc)\n"
    )
    checked = check(Source(SQUARE + rounds, "square.txt"))
    assert [line.stitches for line in checked.lines[-2:]] == [(32,), (40,)]
    assert checked.findings == ()


ROUND_ROWS = """US terms. Ch 1 does not count.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20)
Rows 2-20: Ch 1, sc in each st across, turn. (20)

Border
Rnd 1: Ch 1, sc evenly around, working 3 sc in each corner, join. (88)
Rnd 2: Ch 1, sc in each st around, join. (88)
Rnd 3: Ch 1, sc in each st around, join. ({})
"""


def test_a_round_evenly_around_rows_has_as_many_as_it_says() -> None:
    """How many lie flat along the row ends is the maker's to choose: it is not proven."""
    assert not checked(ROUND_ROWS.format(88)).findings
    slip = checked(ROUND_ROWS.format(89)).findings
    assert [(f.rule, f.numbers) for f in slip] == [("stated-count", (3, 3))]
