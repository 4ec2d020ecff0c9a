"""A pattern's text at another size: only its numbers change, and every row of it comes out."""

from __future__ import annotations

import pytest
from working_texts import checked

from hookwright.checking import Checked, check
from hookwright.sizing.alike import main_part
from hookwright.sizing.facts import Grown
from hookwright.sizing.multiples import growth_of
from hookwright.sizing.rewriting import Rewritten, SizeWritten, rewritten
from hookwright.source import Source

SHELLS = """\
# Gannet Shelf Edging

Finished size: about 13 cm wide and 10 cm long (5 x 4 in).

Gauge: 24 sts and 16 rows = 10 cm in the shell pattern, as worked.

Ch 32.

Row 1: Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch;
rep from * 4 more times. Turn. (5 shells, 6 sc)

Row 2: Ch 3 (counts as dc), 2 dc in same st, *sk next 2 dc, sc in next dc, sk next 2 dc, 5 dc
in next sc; rep from * three more times, sk next 2 dc, sc in next dc, sk next 2 dc, 3 dc in
last sc. Turn. (31 sts)

Row 3: Ch 1, sc in first dc, *sk next 2 dc, 5 dc in next sc, sk next 2 dc, sc in next dc; rep
from * across. Turn. (31 sts)

Rows 4-15: Rep Rows 2 and 3 six times.

Row 16: Ch 1, sc in each st across. Fasten off. (31 sc)
"""


def at(text: str, repeats: int, sets: int | None = None) -> Rewritten:
    """A text with so many repeats and sets of rows."""
    return rewritten(checked(text), [SizeWritten("", repeats, sets)])


def repeats_of(result: Checked) -> int:
    """How many repeats a text has."""
    part = main_part(growth_of(result, 0))
    assert part is not None
    return part.repeats


def test_at_its_own_size_a_text_stays_as_it_is() -> None:
    result = at(SHELLS, 5)
    assert (result.text, result.edits, result.open) == (SHELLS, (), ())


def test_chain_repeats_counts_and_width_follow() -> None:
    text = at(SHELLS, 9).text
    assert "Ch 56." in text
    assert "rep from * 8 more times. Turn. (9 shells, 10 sc)" in text
    assert "rep from * seven more times" in text
    assert text.count("(55 sts)") == 2
    assert "(55 sc)" in text
    # 24 stitches more at 24 to 10 cm are 10 cm, or 3.94 in.
    assert "about 23 cm wide and 10 cm long (9 x 4 in)" in text


def test_all_else_stays_byte_for_byte() -> None:
    result = at(SHELLS, 8)
    was, now, at_end = SHELLS, result.text, 0
    for edit in result.edits:
        assert now.startswith(was[at_end : edit.span.start])
        now = now[edit.span.start - at_end :]
        assert now.startswith(edit.replacement)
        now = now[len(edit.replacement) :]
        at_end = edit.span.end
    assert now == was[at_end:]


def test_there_and_back_restores_the_text() -> None:
    there = at(SHELLS, 9)
    assert there.checked is not None
    back = rewritten(there.checked, [SizeWritten("", 5)])
    assert back.text == SHELLS


def test_what_is_worded_otherwise_is_listed() -> None:
    """A number in words, once or twice, and the plural behind it are more than figures."""
    result = at(SHELLS, 3)
    said = [edit.replacement for edit in result.wording]
    assert "one" in said
    assert "time" in " ".join(said)


def test_more_rows_move_the_labels_behind_them() -> None:
    text = at(SHELLS, 5, 8).text
    assert "Rows 4-17: Rep Rows 2 and 3 seven times." in text
    assert "Row 18: Ch 1" in text
    assert "13 cm wide and 11 cm long" in text  # 2 rows at 16 to 10 cm


STRIPED = """\
Striped sample

Stripe sequence: 2 rows A, 4 rows B. Work this sequence 3 times in all, then 2 rows A: 20 rows.

With A, ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)

Rows 2-20: Ch 1, sc in each st across. Turn. (20 sc)
"""


def test_whole_stripe_sequences_come_and_go() -> None:
    text = at(STRIPED, 20, 31).text
    assert "Work this sequence 5 times in all, then 2 rows A: 32 rows." in text
    assert "Rows 2-32" in text


def test_rows_that_are_no_whole_sequences_are_named() -> None:
    result = at(STRIPED, 20, 24)
    assert result.text == STRIPED
    assert "20 or 26" in result.open[0].message


def test_several_sizes_are_written_as_lists() -> None:
    sizes = [SizeWritten("Small", 5), SizeWritten("Large", 7, 9)]
    result = rewritten(checked(SHELLS), sizes)
    assert result.open == ()
    assert "Sizes: Small (Large)." in result.text
    assert "Ch 32 (44)." in result.text
    assert "(5 (7) shells, 6 (8) sc)" in result.text
    assert "Rows 4-15 (19)" in result.text
    assert result.checked is not None
    assert [repeats_of_size(result.checked, size) for size in (0, 1)] == [5, 7]


def repeats_of_size(result: Checked, size: int) -> int:
    """How many repeats one of the sizes of a text has."""
    part = main_part(growth_of(result, size))
    assert part is not None
    return part.repeats


def test_one_size_of_a_list_is_changed_alone() -> None:
    both = rewritten(checked(SHELLS), [SizeWritten("Small", 5), SizeWritten("Large", 7)])
    assert both.checked is not None
    wanted = [SizeWritten("Small", 5, source=0), SizeWritten("Large", 9, source=1)]
    result = rewritten(both.checked, wanted)
    assert "Ch 32 (56)." in result.text


def test_too_few_repeats_say_what_is_possible() -> None:
    result = at(SHELLS, 0)
    assert result.text == SHELLS
    assert "the least" in result.open[0].message


def test_a_line_that_does_not_follow_is_named_and_nothing_written() -> None:
    text = SHELLS + "\n## Initials\n\nRow 1: Ch 1, sc in next 4 sts, hdc in next 3 sts, sc "
    text += (
        "in next 5 sts, dc in next 3 sts, sc in next 4 sts, hdc in next 3 sts, sc in next "
    )
    text += "5 sts, dc in next 4 sts. Fasten off. (31 sts)\n"
    result = at(text, 8)
    assert result.text == text
    assert "Row 1" in result.open[0].message


def test_a_text_with_a_slip_is_not_resized() -> None:
    result = at(SHELLS.replace("(31 sc)", "(30 sc)"), 8)
    assert "Mend" in result.open[0].message


@pytest.mark.parametrize("repeats", [4, 6, 7, 10, 13])
def test_every_other_size_has_the_same_multiple(repeats: int) -> None:
    result = at(SHELLS, repeats)
    assert result.checked is not None
    part = main_part(growth_of(result.checked, 0))
    assert part is not None
    assert part.chains is not None
    assert (part.chains.each, part.chains.extra, part.repeats) == (6, 2, repeats)


NAMED = [SizeWritten("Adult scarf", 5), SizeWritten("Stole", 9)]


def test_a_list_is_read_back_by_its_names_and_every_count_of_it_is_written() -> None:
    result = rewritten(checked(SHELLS), NAMED)
    assert result.checked is not None
    assert result.checked.sizes == ("Adult scarf", "Stole")
    assert "(31 (55) sc)" in result.text
    assert result.text.count("(31 (55) sts)") == 2


def test_names_that_are_read_back_otherwise_are_refused() -> None:
    result = rewritten(checked(SHELLS), [SizeWritten("13 cm", 5), SizeWritten("23 cm", 9)])
    assert result.text == SHELLS
    assert "are read back as" in result.open[0].message


TUBE = """\
# Skua Tube

US terms. Ch 1 does not count as a stitch.

## Size

32 cm around, which lies 16 cm wide; a hood of 20 to 30 cm (8 to 12 in) goes with it.

## Materials

**Yarn:** about 60 g of any yarn.

## Rounds

Ch 48; join with sl st in first ch to form a ring.

Rnd 1: Ch 1, hdc in each ch around; join with sl st in first hdc. (48 hdc)

Rnds 2-16: Ch 1, hdc in each st around; join with sl st in first hdc. (48 hdc)
"""


def test_a_tube_that_lies_flat_is_half_as_wide_as_around() -> None:
    result = at(TUBE, 96)
    # No gauge is told: twice as many stitches are twice as far around.
    assert "64 cm around, which lies 32 cm wide" in result.text


def test_what_could_not_follow_is_told() -> None:
    lengths, amounts = at(TUBE, 96).notes
    assert '"20 to 30 cm (8 to 12 in)"' in lengths
    assert "32 cm" not in lengths
    assert "amounts of yarn stand as they were" in amounts
    assert at(TUBE, 48).notes == ()


def test_measurements_follow_the_gauge_of_the_worksheet() -> None:
    sheet = '[[swatch]]\nstitches = 16\nrows = 12\nwidth = "10 cm"\nheight = "10 cm"\n'
    text = SHELLS.replace("Gauge: 24 sts and 16 rows = 10 cm", "Look: worked tight")
    pattern = check(Source(text), worksheet=Source(sheet, "worksheet.toml"))
    result = rewritten(pattern, [SizeWritten("", 9)])
    # 24 stitches more at 16 to 10 cm are 15 cm, or 5.9 in.
    assert "about 28 cm wide and 10 cm long (11 x 4 in)" in result.text


SQUARE = SHELLS.replace("13 cm wide and 10 cm long (5 x 4 in)", "13 cm (5 in) square")


def test_what_is_nearly_square_stays_square() -> None:
    result = rewritten(checked(SQUARE), [SizeWritten("", 9, 15)])
    # 24 sts more are 10 cm; 16 rows more, at 16 to 10 cm, are 10 cm as well.
    assert "about 23 cm (9 in) square" in result.text
    (refused,) = rewritten(checked(SQUARE), [SizeWritten("", 9, 7)]).open
    assert "9 in (23 cm) one way" in refused.message or "23 cm (9 in)" in refused.message


def test_what_is_called_square_gets_the_rows_that_keep_it_so() -> None:
    """The repeats alone are asked for: the rows follow."""
    assert at(SQUARE, 9).text == at(SQUARE, 9, 15).text


def test_a_number_of_two_words_is_written_in_figures() -> None:
    text = SHELLS.replace(
        "Rows 4-15: Rep Rows 2 and 3 six times.",
        "Rows 4-49: Rep Rows 2 and 3 twenty-three times.",
    )
    text = text.replace("Row 16:", "Row 50:")
    assert "Rows 4-51: Rep Rows 2 and 3 24 times." in at(text, 5, 25).text


def test_words_that_tell_of_the_old_size_are_named() -> None:
    text = SHELLS + "\nThe 16 rows measure 10 cm. Of the 31 sts none is left; mark 5 sts.\n"
    lengths, words = at(text, 9, 9).notes
    assert lengths == 'These lengths stand as they were: "10 cm".'
    assert words == ('These words tell of the size it was written in: "16 rows", "31 sts".')


EDGED = """\
# Merganser Mat

Finished size: 27 cm wide and 22 cm long.

Gauge: 16 sts and 18 rows = 10 cm in sc.

## Mat

Ch 41.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (40 sc)

Rows 2-36: Ch 1, sc in each st across. Turn. (40 sc)

## Border

Rnd 1: Ch 1, 32 sc evenly down the side, 3 sc in corner, 38 sc along the foundation chain, 3
sc in corner, 32 sc evenly up the other side, 3 sc in first sc of Row 36, sc in each of next
38 sts, 3 sc in last sc; join with sl st in first sc. (152 sc)
"""


def test_a_side_of_other_rows_keeps_its_rate() -> None:
    """32 in 36 rows are 8 in 9: 48 in 54 rows. By hand: 2 x 48 + 2 x 58 + 4 x 3 = 224."""
    text = at(EDGED, 60, 53).text  # one row before the first set
    assert text.count("48 sc evenly") == 2
    assert "58 sc along the foundation chain" in text
    assert "first sc of Row 54, sc in each of next\n58 sts" in text
    assert "(224 sc)" in text


def test_a_border_is_not_left_behind_by_the_row_ends_it_passes() -> None:
    """A long run of row ends lay before the hook, and hid two stitches left over."""
    (growth,) = growth_of(checked(EDGED), 0).solved
    assert isinstance(growth.found, Grown)
    assert [amount.values for amount in growth.found.amounts] == [(41,), (38,), (38,)]


@pytest.mark.parametrize("repeats", [5, 6, 7, 8, 10, 11, 12, 13])
def test_lengths_come_back_from_the_half_centimetre(repeats: int) -> None:
    """A repeat of 2.5 cm: every other one ends on a half."""
    there = at(SHELLS, repeats)
    assert there.checked is not None
    back = rewritten(there.checked, [SizeWritten("", 5)])
    assert "about 13 cm wide and 10 cm long (5 x 4 in)" in back.text


BY_ROW = SHELLS.replace(
    "Ch 32.",
    "## Stripes\n\n| Rows | Color |\n|---|---|\n| 1-8 | Sand |\n| 9-16 | Foam |\n\n## Edging\n\nCh 32.",
)


def test_a_table_of_colours_that_ends_before_the_rows_is_told() -> None:
    sets = at(BY_ROW, 5).checked
    assert sets is not None
    longer = at(BY_ROW, 5, 9)
    assert any("goes to row 16" in note for note in longer.notes)
    assert not any("table" in note for note in at(BY_ROW, 6).notes)


SLEEVE = """\
Sizes: 2 (4, 6) years.

Ch 31 (33, 37).
Row 1: Hdc in 3rd ch from hook (2 skipped ch count as hdc) and in each ch to end. 30 (32, 36) hdc.
Row 2: Ch 1 (does not count as a st), turn, hdc2tog, hdc in each st to last 2 sts, hdc2tog. 28 (30, 34) hdc.
Rows 3-8 (9, 11): Rep Row 2. 16 (16, 16) hdc.
"""


def test_a_list_of_sizes_whose_numbers_are_the_same_stays_a_list() -> None:
    """Two decreases a row: 28 - 6 x 2 = 16, 30 - 7 x 2 = 16, 34 - 9 x 2 = 16."""
    pattern = checked(SLEEVE)
    names = pattern.sizes
    parts = [main_part(growth_of(pattern, size)) for size in range(3)]
    now = [part.repeats for part in parts if part is not None]
    wider = [
        SizeWritten(name, repeats + 2, source=size)
        for size, (name, repeats) in enumerate(zip(names, now, strict=True))
    ]
    result = rewritten(pattern, wider)
    assert "Rep Row 2. 18 (18, 18) hdc." in result.text


def test_a_leaf_after_a_ring_is_not_measured_by_the_ring() -> None:
    """The short runs of a leaf are its shape, whatever ring was worked before it."""
    text = """\
US terms.

Ch 5, join with sl st to form a ring.
Rnd 1: Ch 1, 15 sc in ring, join with sl st to first sc. (15 sc)
Fasten off.

Leaf
Ch 9. Sl st in 2nd ch from hook, sc in next ch, hdc in next ch, dc in next 3 ch, hdc in next
ch, 3 sc in last ch; working along the other side of the chain, hdc in next ch, dc in next
3 ch, hdc in next ch, sc in next ch, sl st in last ch. Fasten off.
"""
    parts = growth_of(checked(text), 0).parts.values()
    assert all(part.reason for part in parts)


def test_a_bust_that_its_pieces_no_longer_make_is_noted() -> None:
    """72 + 72 at 16 to 4 in are 36 in; 96 + 96 are 48, and the text still says 36."""
    piece = """\
Ch 73.
Row 1: Sc in 2nd ch from hook and in each ch across. (72 sc)
Rows 2-40: Ch 1, turn, sc in each sc across. (72 sc)

"""
    head = "US terms.\n\nFinished bust: 36 in.\n\nGauge: 16 sc and 18 rows = 4 in\n\n"
    result = at(f"{head}## Back\n\n{piece}## Front\n\n{piece}", 96)
    assert result.open == ()
    assert "Ch 97." in result.text
    assert any("the bust is printed as 36 in" in note for note in result.notes)
