"""What a row is called, and which rows one label stands for."""

import pytest
from working_texts import checked, errors, flat, made

from hookwright.notation.document import read_pattern
from hookwright.source import Source

PLAIN = "Ch 1, sc in each st across. Turn. (12)"


@pytest.mark.parametrize(
    ("label", "printed"),
    [
        ("Row #2:", "Row #2"),
        ("Row. 2:", "Row. 2"),
        ("Row 2 (RS) WS:", "Row 2 (RS) WS"),
        ("Row 2\n", "Row 2"),
        ("2nd Row:", "2nd Row"),
    ],
)
def test_a_label_may_be_printed_in_many_ways(label: str, printed: str) -> None:
    text = flat(12, f"{label} {PLAIN}")
    line = checked(text).lines[-1]
    assert (line.printed, line.first, line.stitches) == (printed, (2,), (12,))
    assert errors(text) == []


@pytest.mark.parametrize(
    "label", ["2nd to 4th Rows:", "Rows 2-4:", "Rows 2-\n4:", "Rows 2, 3 and 4:"]
)
def test_a_label_stands_for_all_its_rows(label: str) -> None:
    line = checked(flat(12, f"{label} {PLAIN}")).lines[-1]
    assert (line.first, line.last, line.times) == ((2,), (4,), 3)


def test_rows_of_the_other_side_come_between_the_rows_told() -> None:
    """Growth in Row 3, decrease in Row 5; Rows 2 and 4 are plain: 12 12 13 13 12."""
    text = flat(
        12,
        "Row 2 and all WS rows: Ch 1, sc in each st across. Turn.",
        "Row 3: Ch 1, 2 sc in first st, sc in each st across. Turn. (13)",
        "Row 5: Ch 1, sc2tog, sc in each st across. Turn. (12)",
    )
    assert made(text)[1:] == [12, 12, 13, 13, 12]
    assert errors(text) == []


def test_a_marked_heading_is_no_row() -> None:
    assert made("# Gull\n\n" + flat(12)) == [13, 12]


@pytest.mark.parametrize("label", ["2 row:", "2 round -", "2-4 row:", "2-4 rounds."])
def test_a_number_may_stand_before_its_row(label: str) -> None:
    last = 4 if "4" in label else 2
    line = checked(f"1 row: 6 sc in ring;\n{label} 6 sc;\n").lines[1]
    assert (line.first, line.last, line.stitches) == ((2,), (last,), (6,))


def test_so_many_rows_are_no_label() -> None:
    text = flat(12, "Row 2: Ch 1, sc in each st across. Turn. (12)", "4 rows: Slate.")
    assert [line.first for line in checked(text).lines][-1] == (2,)


@pytest.mark.parametrize(
    "words", ["inc * 6", "inc * 6 times", "(inc) * 6", "*inc* 6 times"]
)
def test_a_star_may_stand_for_times(words: str) -> None:
    assert made(f"Rnd 1: 6 sc in ring. (6)\nRnd 2: {words}. (12)\n") == [6, 12]


@pytest.mark.parametrize(
    ("heading", "name", "make"),
    [
        ("Body.", "Body", 1),
        ("Tail (2 details).", "Tail", 2),
        ("Wing (2 pieces)", "Wing", 2),
    ],
)
def test_a_name_set_as_a_sentence_heads_its_rows(
    heading: str, name: str, make: int
) -> None:
    text = f"Toy.\n\n{heading}\n1 row: 6 sc in ring.\n2 row: 6 sc.\n"
    parts = read_pattern(Source(text, "toy.txt")).pattern.parts
    assert [(part.name, part.make) for part in parts] == [(name, make)]


@pytest.mark.parametrize("label", ["Edging", "Edging, all sizes", "Border (all sizes)"])
def test_an_edging_told_on_its_line_is_a_row_of_that_name(label: str) -> None:
    text = (
        "Rnd 1: 12 sc in magic ring, join. (12 sc)\n"
        f"{label}: Ch 1, 2 sc in each st around, join. (24 sc)\n"
    )
    rows = read_pattern(Source(text)).pattern.parts[0].rows
    names = [row.label.name for row in rows if row.label is not None]
    assert names == ["", label.lower().split(",")[0].split()[0]]
