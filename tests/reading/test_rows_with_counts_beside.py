"""A print that sets counts in a column of their own, or a row with one thing to do a line.

The pages are set here with typst, from words of ours.
"""

from __future__ import annotations

import typst

from hookwright.reading import read_bytes

SET = "#set page(width: 150mm, height: 200mm, margin: 20mm)\n#set text(size: 11pt)\n"


def lines(markup: str) -> list[str]:
    data = typst.compile((SET + markup).encode(), format="pdf")
    assert data is not None
    text = read_bytes(data, ".pdf", "print.pdf").source.text
    return [" ".join(line.split()) for line in text.split("\n") if line.strip()]


ROW = "Ch 2, sk first st, dc in next st, dc in next 8 sts, 3 dc in next st, dc in next 8 sts, dc in last st and in the top of the turning ch. Turn."


def test_a_count_in_a_column_stays_with_its_row_however_short_its_last_line() -> None:
    rows = "".join(
        f"#grid(columns: (1fr, 16mm), [*Row {n}:* {ROW}], grid.cell(align: bottom + right)[*({180 + n} sts)*])\n"
        for n in range(1, 6)
    )
    read = lines(
        rows
        + "\nWeave in every end along stitches of its own colour, and block it well to size."
    )
    assert [line for line in read if line.startswith("Row")] == [
        f"Row {n}: {ROW} ({180 + n} sts)" for n in range(1, 6)
    ]


def test_long_counts_at_the_right_are_no_second_column_of_text() -> None:
    rows = "".join(
        f"#block[*Row {n}:* Ch 3, dc in next st. #h(1fr) *{n + 4} fans, 6 sc, 10 ch-1 sps*]\n"
        for n in range(1, 9)
    )
    read = lines(rows)
    assert read == [
        f"Row {n}: Ch 3, dc in next st. {n + 4} fans, 6 sc, 10 ch-1 sps"
        for n in range(1, 9)
    ]


def test_what_is_set_in_under_a_label_on_its_own_line_is_that_row() -> None:
    said = ("Ch 1,", "sc in next 3 sts,", "turn.", "*(4 sts)*")
    rows = "".join(
        f"#block(above: 20pt, below: 20pt)[*Row {n}, right side:*"
        + "".join(f"#block(inset: (left: 7mm), spacing: 8pt)[{words}]" for words in said)
        + "]\n"
        for n in (1, 2)
    )
    assert lines(rows) == [
        f"Row {n}, right side: Ch 1, sc in next 3 sts, turn. (4 sts)" for n in (1, 2)
    ]
