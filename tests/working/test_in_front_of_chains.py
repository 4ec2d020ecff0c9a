"""Inset mosaic: a stitch into one skipped rows below, in front of the chains over it.

Arithmetic: 11 sc, of which 2 are skipped under a chain; the two dc take their places.
"""

import pytest
from working_texts import errors, made

ROWS = """\
US terms. Ch 1 at the start of a row does not count as a st.
Mdc = dc in skipped st 3 rows below, in front of the chains.

Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (11 sc)
Row 2: Ch 1, sc in each sc across. Turn. (11 sc)
Row 3: Ch 1, sc in first 3 sts, *ch 1, sk next st, sc in next 3 sts; rep from * across. Turn.
(9 sc, 2 ch-1 sps)
Row 4: Ch 1, sc in first 3 sts, *ch 1, sk next ch-1 sp, sc in next 3 sts; rep from * across.
Turn.
Row 5: Ch 1, sc in first 3 sts, *{}, sc in next 3 sts; rep from * across. Turn. (9 sc, {} dc)
Row 6: Ch 1, sc in each st across. (11 sc)
"""


@pytest.mark.parametrize(
    "words",
    [
        "dc in skipped st 3 rows below",
        "work a dc into the skipped sc two rows down",
        "dc in front of the ch-1s into the skipped st 3 rows below",
        "dc in the unworked st 3 rows below",
        "dc in skipped sc of Row 2",
        "dc in the skipped st below, in front of both chains",
        "dc down into the skipped st 3 rows below",
        "mdc",
        "mdc in next ch-1 sp",
    ],
)
def test_in_front_of_the_chains(words: str) -> None:
    assert errors(ROWS.format(words, 2)) == []
    assert made(ROWS.format(words, 2))[-2:] == [11, 11]
    assert [rule for rule, _ in errors(ROWS.format(words, 3))] == ["stated-count"]
