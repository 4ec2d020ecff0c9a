"""A text at another size: parts that belong together, and numbers that are told in words."""

from __future__ import annotations

from working_texts import checked

from hookwright.sizing.rewriting import Rewritten, SizeWritten, rewritten

TUNIC = """\
# Skua Tunic

US terms. Ch 1 does not count as a stitch.

## Front

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (20 sc)

## Back

Chain 21 for the back.
Row 1: Sc in 2nd ch from hook and each ch across. (20 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (20 sc)

## Strap

Ch 6.
Row 1: Sc in 2nd ch from hook and in each ch across. (5 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (5 sc)
"""
CRESTS = """\
# Turnstone Lap Blanket

A repeat is 12 sts; 1 for balance and 2 to turn on. My four crests took 12 x 4 + 1 + 2 = 51 chains.

Row 1: Skip 2 ch (not a stitch, here or later), dc2tog, *dc in next 4 ch, 3 dc in next ch, dc in next 4 ch, dc3tog; rep from * twice more, dc in next 4 ch, 3 dc in next ch, dc in next 4 ch, dc2tog. So much for the 51 chains. (49)
Row 2: Ch 2, turn, dc2tog, *dc in next 4 sts, 3 dc in next st, dc in next 4 sts, dc3tog; rep from * twice more, dc in next 4 sts, 3 dc in next st, dc in next 4 sts, dc2tog. (49)
"""
PANES = """\
Window Runner

The numbers in [ ] are windows, not stitches. A window is ch 2 and the dc that closes it; a pane is a filled window, 2 dc and the dc that closes it.

Ch 35

Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. Turn. [10 windows]
Row 2: Ch 5 (counts as dc + ch 2), dc in next dc, *ch 2, dc in next dc; rep from * 8 more times, putting the last dc in the 3rd ch of the turning ch. Turn. [10 windows]
Row 3: Ch 5, dc in next dc, (2 dc in ch-2 sp, dc in next dc) 8 times, ch 2, dc in 3rd ch of turning ch. Turn. [2 windows, 8 panes]
"""


def at(text: str, repeats: int, sets: int | None = None) -> Rewritten:
    """A text with so many repeats and sets of rows."""
    return rewritten(checked(text), [SizeWritten("", repeats, sets)])


def test_pieces_as_wide_as_one_another_change_together() -> None:
    result = at(TUNIC, 25)
    assert "Ch 26." in result.text
    assert "Chain 26 for the back." in result.text
    assert result.text.count("(25 sc)") == 4


def test_a_piece_of_another_width_stays_and_is_named() -> None:
    result = at(TUNIC, 25)
    assert result.text.count("(5 sc)") == 2
    assert (
        "What stands on a chain of its own stays as wide as it was: Strap." in result.notes
    )


def test_a_part_that_counts_its_rows_anew_keeps_its_labels() -> None:
    """More rows of the front and the back are none of the strap."""
    text = at(TUNIC, 20, 29).text
    assert text.count("Rows 2-30: Ch 1, turn, sc in each st across. (20 sc)") == 2
    assert "Rows 2-20: Ch 1, turn, sc in each st across. (5 sc)" in text


def test_a_chain_that_is_worked_out_is_worked_out_anew() -> None:
    # 12 a repeat and 3 beside: 12 x 6 = 72, and 3 are 75; 72 + 1 stitches.
    result = at(CRESTS, 6)
    assert "My six crests took 12 x 6 + 1 + 2 = 75 chains." in result.text
    assert "A repeat is 12 sts; 1 for balance and 2 to turn on." in result.text
    assert result.text.count("(73)") == 2


def test_a_sum_that_could_mean_two_things_is_left_alone() -> None:
    """Of 12 x 12, nobody can tell which is the number of repeats."""
    long = at(CRESTS, 12)
    assert long.checked is not None
    refused = rewritten(long.checked, [SizeWritten("", 4)])
    assert refused.text == long.text
    assert refused.open


def test_a_count_said_in_passing_is_told() -> None:
    (note,) = at(CRESTS, 6).notes
    assert '"much for the 51 chains"' in note


def test_windows_and_panes_follow_what_the_row_shows() -> None:
    # Two windows more: a window is 3 chains, so 41; the panes are as many as the repeats.
    text = at(PANES, 13).text
    assert "Ch 41" in text
    assert "[12 windows]" in text
    assert "(2 dc in ch-2 sp, dc in next dc) 10 times" in text
    assert "[2 windows, 10 panes]" in text


MAT = """\
# Skua Mat

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (20 sc)
"""
BORDER = "Rnd 1: Ch 1, 20 sc along the top, ch 2, 15 sc along the side, ch 2, {} sc along the foundation, ch 2, 15 sc along the other side, ch 2, join. ({} sc)\n"


def test_stitches_along_an_edge_follow_that_edge() -> None:
    """One in each of 20 is one in each of 24; the sides are as long as they were."""
    result = at(f"{MAT}\n## Border\n\n{BORDER.format(20, 70)}", 24)
    assert "24 sc along the top" in result.text
    assert "15 sc along the side" in result.text
    assert "24 sc along the foundation" in result.text
    assert "(78 sc)" in result.text
    assert result.notes == ()


def test_a_rate_along_an_edge_is_kept_to_the_nearest_stitch_and_told() -> None:
    # 15 on 20 are 3 on 4; on 25 that is 18.75.
    result = at(f"{MAT}\n## Border\n\n{BORDER.format(15, 65)}", 25)
    assert "19 sc along the foundation" in result.text
    assert 'to the nearest stitch: what was "15".' in " ".join(result.notes)


def test_what_goes_round_all_edges_in_one_number_is_named() -> None:
    text = f"{MAT}\n## Border\n\nRnd 1: Ch 1, 80 sc evenly around, join. (80 sc)\n"
    result = at(text, 24)
    assert (result.text, result.checked) == (text, None)
    assert '"80 sc evenly around"' in result.open[0].message


FLAPS = """\
FIRST FLAP
Row 21: Ch 1, turn, sc in each of first 6 sc, leave the rest for now. (6 sc)
Row 22: Ch 1, turn, sc in each sc. (6 sc) Fasten off.

SECOND FLAP
Go back to row 20. Skip 8 sc next to the first flap and join yarn with a sl st in the next sc.
Row 21: Ch 1, sc in the same sc, sc in each sc to end. (6 sc)
"""


def test_a_row_that_divides_the_stitches_is_named_with_its_reason() -> None:
    result = at(f"{MAT}\n{FLAPS}", 25)
    assert result.checked is None
    assert "divides the stitches by number" in result.open[0].why


def test_a_list_of_sizes_that_the_chain_is_not_read_in_is_not_written() -> None:
    """A chain told in passing is read in one size: the counts would all be the first's."""
    text = (
        "# Sandpiper Lace\n\nUS terms. Make a chain the length you need, any multiple of 6 ch plus"
        " 2 (38 ch for the piece shown).\n\nRow 1: Sc in 2nd ch from hook, *skip 2 ch, 5 dc in"
        " next ch, skip 2 ch, sc in next ch; rep from * across. (6 shells)\n"
    )
    sizes = [SizeWritten("Short", 6), SizeWritten("Long", 9)]
    result = rewritten(checked(text), sizes)
    counts = "(6 (9) shells)" in result.text
    assert counts or (result.text == text and result.open)
