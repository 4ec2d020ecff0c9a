"""Pieces of blocks worked from corner to corner: a row uses the blocks of the row below."""

from __future__ import annotations

from working_texts import checked, errors, made

SQUARE = """\
Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch. (1 block)

Row 2: Ch 6, turn, dc in 4th ch from hook and in next 2 ch, sl st in ch-3 sp of next block,
ch 3, 3 dc in same sp. (2 blocks)

Row 3: Ch 6, turn, dc in 4th ch from hook and in next 2 ch, (sl st in ch-3 sp of next
block, ch 3, 3 dc in same sp) across. (3 blocks)

Row 4: Turn, sl st in next 3 dc, (sl st in ch-3 sp of next block, ch 3, 3 dc in same sp)
twice, sl st in ch-3 sp of last block. (2 blocks)
"""


def test_rows_of_blocks_use_blocks() -> None:
    """The first row uses its six chains, then one, two and three blocks are worked into."""
    assert errors(SQUARE) == []
    assert [line.uses[0] for line in checked(SQUARE).lines] == [6, 1, 2, 3]


def test_a_wrong_number_of_blocks_is_told() -> None:
    wrong = SQUARE.replace("(3 blocks)", "(4 blocks)")
    assert errors(wrong) == [("stated-count", "(4 blocks)")]


def test_a_lacy_row_uses_stitches() -> None:
    text = (
        "Ch 12.\n\nRow 1: Sc in 2nd ch from hook, *ch 3, sk 1 ch, sc in next ch; rep from *"
    )
    lace = f"{text} across, turn. (6 sc)\n\nRow 2: Ch 1, *3 sc in next ch-3 sp; rep from *."
    assert [line.uses[0] for line in checked(lace).lines][-1] == 6


BROKEN_OVER_LINES = """\
Gorse Mat

US terms.

Row 1: Ch 6, dc in 4th ch from hook and in the 2 ch after it. This makes one block.

Row 2: Ch 6, turn, dc in 4th ch from hook and in the 2 ch after it (an edge block); into the
ch-3 sp of the block below: sl st, ch 3, 3 dc (a block). 2 blocks.

Rows 3-6: Turn, edge block, then a block into every ch-3 sp to the end of the row. 6 blocks
when Row 6 is done.
"""


def test_a_block_is_named_in_a_sentence_that_is_broken_over_lines() -> None:
    assert errors(BROKEN_OVER_LINES) == []
    assert made(BROKEN_OVER_LINES)[-1] == 18
