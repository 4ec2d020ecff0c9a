"""A chain at the end of a row: the next row's beginning, or new chains to work into."""

from working_texts import checked, flat, last_row, numbers


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
