"""A chain at the end of a row: the next row's beginning, or new chains to work into."""

from working_texts import checked, flat, last_row, numbers

from hookwright.working.left_open import left_open


def test_a_long_chain_before_the_turn_widens_the_next_row() -> None:
    """Eight chains, the first passed: 7 sc on chains and 12 on stitches."""
    wider = "Row 2: Ch 1, sc in next 12 sts, ch 8, turn. (12)"
    row = "Row 3: Sc in 2nd ch from hook and in next 6 ch, sc in next 12 sts. Turn. (19)"
    assert last_row(flat(12, wider, row)).made == 7 + 12


def test_a_long_chain_without_a_turn_stays_in_its_row() -> None:
    row = "Row 2: Ch 1, sc in next 11 sts, sc in last st, ch 8. (12)"
    assert last_row(flat(12, row)) == (12, 12, 1)


def test_a_chain_at_the_end_means_what_the_next_row_says_of_it() -> None:
    """Chains of two that count: eleven hdc and one chain are twelve in both rows."""
    text = (
        "Ch 13.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, ch 2. Turn. (12)\n\n"
        "Row 2: (Counts as first hdc) Hdc in next 11 sts, ch 2 (counts as hdc), turn. "
        "(12)\n\n"
        "Row 3: Ch 2, hdc in next 11 sts. (12)\n"
    )
    rows = [numbers(line) for line in checked(text).lines[1:]]
    assert [row.made for row in rows] == [12, 12, 12]
    assert not checked(text).has_errors()


def test_no_chains_are_no_chains() -> None:
    assert last_row(flat(12, "Row 2: Ch 0, sc in next 12 sts. Turn. (12)")) == (12, 12, 0)


def test_an_sc_in_the_first_chain_uses_every_chain() -> None:
    text = "Ch 13.\n\nRow 1: Sc in 1st ch from hook and in each ch across. Turn. (13)\n"
    assert last_row(text)[:2] == (13, 13)


LEGS = """\
US terms. Worked in a spiral.

Leg (make 2)
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each sc around. (12)

Body
Rnd 1: Ch 3, sc in each of the 12 sts of the first leg, sc in each of the 3 ch, sc in each of
the 12 sts of the second leg, sc in the other side of each of the 3 ch. (30)
"""


def test_a_chain_between_two_legs_is_no_beginning_chain() -> None:
    pattern = checked(LEGS)
    open_now = left_open(pattern.reading.pattern, pattern.worked.sizes[0])
    assert (open_now.counted, open_now.not_counted) == ((), ())


def test_a_chain_that_begins_rounds_as_well_is_told() -> None:
    text = LEGS + "Rnd 2: Ch 3, dc in next st and in each st around. (30 dc)\n"
    pattern = checked(text)
    open_now = left_open(pattern.reading.pattern, pattern.worked.sizes[0])
    assert 3 in open_now.counted + open_now.not_counted
