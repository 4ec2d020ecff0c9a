"""A band along one side of a piece, and then one along the other."""

from working_texts import errors, flat, made

BOTH_SIDES = flat(
    9,
    "Rows 2-10: Ch 1, sc in each st across. Turn. (9 sc)",
    "Left band",
    "Row 1 (RS): Ch 1, sc in each of next 10 row ends. Turn. (10 sc)",
    "Rows 2-4: Ch 1, sc in each st across. Turn. (10 sc)",
    "Right band",
    "Row 1 (RS): Ch 1, sc in each of next {} row ends. Turn. (10 sc)",
    "Row 2 (WS): Ch 1, sc in each st across. Fasten off. (10 sc)",
)


def test_the_second_side_is_as_long_as_the_first() -> None:
    """Arithmetic: the rows of a band lie across the ends of the piece and add none."""
    assert made(BOTH_SIDES.format(10))[-2:] == [10, 10]
    assert errors(BOTH_SIDES.format(10)) == []


def test_a_side_that_is_not_worked_to_its_end_is_told() -> None:
    assert [rule for rule, _ in errors(BOTH_SIDES.format(9))] == ["stitches-left"]


def test_row_ends_may_be_skipped_at_the_beginning_of_a_side() -> None:
    """Of ten row ends one is skipped and nine are worked into."""
    band = (
        "Band",
        "Row 1 (RS): Ch 1, sk next row end, sc in next 9 row ends. Turn. (9 sc)",
    )
    text = flat(9, "Rows 2-10: Ch 1, sc in each st across. Turn. (9 sc)", *band)
    assert made(text)[-1] == 9
    assert errors(text) == []
