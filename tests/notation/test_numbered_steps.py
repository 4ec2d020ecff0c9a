"""Rows told within the numbered steps of a pattern: "7. 6th to 10th rounds: ..."."""

from working_texts import checked, errors

STEPS = """UK terms. ch, chain; dc, double crochet; ss, slip stitch.

1. Make a magic ring.
2. 1st round: 6 dc into the ring. (6 dc)
3. 2nd round: 2 dc into each st. (12 dc)
4. 3rd to 5th rounds: 1 dc into each st. (12 dc)
5. Fasten off and run in the ends.
"""


def test_a_step_is_named_by_the_rows_it_tells() -> None:
    lines = checked(STEPS).lines
    assert [line.printed for line in lines] == [
        "1st round",
        "2nd round",
        "3rd to 5th rounds",
    ]
    assert lines[-1].stitches == (12,)


def test_the_number_of_a_step_is_no_count_of_the_row_before() -> None:
    assert errors(STEPS) == []


def test_numbered_notes_that_speak_of_rows_are_no_rows() -> None:
    notes = "1. Round 1 is worked into a ring.\n2. Rows 3-6 form the pattern.\n"
    body = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st. (12)\n"
    text = f"US terms.\n\nNotes\n{notes}\nBody\n{body}"
    assert [line.printed for line in checked(text).lines] == ["Rnd 1", "Rnd 2"]


def test_a_gauge_of_rounds_behind_its_heading_is_no_row() -> None:
    text = "GAUGE: Rounds 1 and 2 = 1 inch across.\n\nRnd 1: 6 sc in a magic ring. (6)\n"
    assert [line.printed for line in checked(text).lines] == ["Rnd 1"]
    assert errors(text) == []
