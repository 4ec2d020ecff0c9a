"""Places passed by word are used, and make nothing."""

from working_texts import LACE_OF_FIVES, flat, last_row


def test_whole_shells_are_skipped_at_once() -> None:
    row = (
        "Row 2: Ch 1, sc in first sc, *ch 3, skip next shell, sc in next sc; rep from * "
        "across. Turn. (4 sc)"
    )
    assert last_row(f"{LACE_OF_FIVES}\n{row}\n") == (4, 1 + 3 * (5 + 1), 3)


def test_two_shells_are_skipped_by_number() -> None:
    """Two shells and the sc between them: 11 stitches; then an sc, a shell of 5, an sc."""
    row = "Ch 1, sc in first sc, ch 5, skip next 2 shells, sc in next 7 sts. Turn. (8 sc)"
    assert last_row(f"{LACE_OF_FIVES}\nRow 2: {row}\n")[:2] == (8, 19)


def test_the_rest_of_a_row_may_be_skipped() -> None:
    row = "Row 2: Ch 1, sc in next 3 sts, skip the remaining sts. Turn. (3)"
    assert last_row(flat(12, row))[:2] == (3, 12)
