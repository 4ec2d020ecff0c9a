"""Prints: columns in reading order, running lines dropped, wrapped rows joined."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from hookwright.reading import Draft, PagePlace, UnreadableDraft, read_bytes, read_draft

MakePdf = Callable[..., bytes]
At = Callable[..., bytes]

LEFT = (
    "Row 1: Ch 24, dc in 4th ch from",
    "hook and in each ch across,",
    "turn. (22 dc)",
    "Row 2: Ch 3, *sk 1, dc in next st,",
    "ch 1; rep from * to last 2 sts, dc",
    "in last 2 sts, turn. (22 sts)",
)
RIGHT = (
    "Row 3: Rep Row 2 and work over",
    "the chain spaces of the row below",
    "it. (22 sts)",
    "Row 4: Ch 1, sc in each st across",
    "and in each ch-1 sp, turn. Cut the",
    "yarn. (22 sc)",
)
JOINED = (
    "Row 1: Ch 24, dc in 4th ch from hook and in each ch across, turn. (22 dc)",
    (
        "Row 2: Ch 3, *sk 1, dc in next st, ch 1; rep from * to last 2 sts, dc in last 2"
        " sts, turn. (22 sts)"
    ),
    "Row 3: Rep Row 2 and work over the chain spaces of the row below it. (22 sts)",
    "Row 4: Ch 1, sc in each st across and in each ch-1 sp, turn. Cut the yarn. (22 sc)",
)


def _lines(data: bytes) -> list[str]:
    return [line for line in _read(data).source.text.split("\n") if line]


def _read(data: bytes) -> Draft:
    return read_bytes(data, "pdf", "a.pdf")


def test_two_columns_are_read_one_after_the_other(make_pdf: MakePdf, column: At) -> None:
    page = column(40, 480, LEFT) + column(220, 480, RIGHT)
    assert _lines(make_pdf([page])) == list(JOINED)


def test_columns_are_read_from_the_left_whichever_was_drawn_first(
    make_pdf: MakePdf, column: At
) -> None:
    page = column(220, 480, RIGHT) + column(40, 480, LEFT)
    assert _lines(make_pdf([page])) == list(JOINED)


def test_columns_drawn_line_by_line_across_both_are_parted(
    make_pdf: MakePdf, at: At
) -> None:
    page = at(40, 520, "Kittiwake Shawl", 18, "F2")
    for number, (left, right) in enumerate(zip(LEFT, RIGHT, strict=True)):
        y = 480 - 14 * number
        page += at(40, y, left) + at(220, y, right)
    assert _lines(make_pdf([page])) == ["Kittiwake Shawl", *JOINED]


def test_words_across_both_columns_come_first_and_do_not_widen_them(
    make_pdf: MakePdf, column: At
) -> None:
    intro = (
        "An easy shawl that grows from its narrow end, worked in two colours of a soft",
        "wool, with an edging of small shells round all its sides and no seams.",
    )
    page = column(40, 508, intro) + column(40, 480, LEFT) + column(220, 480, RIGHT)
    assert _lines(make_pdf([page])) == [" ".join(intro), *JOINED]


def test_a_table_of_labels_and_rows_is_read_row_by_row(make_pdf: MakePdf, at: At) -> None:
    cells = [
        ("Row 1", "Ch 24, dc in 4th ch from hook and in each ch"),
        ("", "across, turn. (22 dc)"),
        *(
            (f"Row {number}", "Ch 3, dc in each st across, turn. (22 dc)")
            for number in range(2, 8)
        ),
    ]
    page = b"".join(
        at(40, 480 - 14 * number, label) + at(120, 480 - 14 * number, words)
        for number, (label, words) in enumerate(cells)
    )
    assert _lines(make_pdf([page])) == [
        "Row 1\tCh 24, dc in 4th ch from hook and in each ch across, turn. (22 dc)",
        *(
            f"Row {number}\tCh 3, dc in each st across, turn. (22 dc)"
            for number in range(2, 8)
        ),
    ]


@pytest.mark.parametrize(
    ("label", "x", "between"), [("Row {}:", 78, " "), ("Row {}", 100, "\t")]
)
def test_labels_drawn_before_all_rows_find_their_rows(
    make_pdf: MakePdf, at: At, label: str, x: int, between: str
) -> None:
    heights = {number: 480 - 14 * number for number in range(1, 5)}
    words = "Ch 3, dc in each st across, turn. (22 dc)"
    page = b"".join(
        at(40, y, label.format(number), 10, "F2") for number, y in heights.items()
    )
    page += b"".join(at(x, y, words) for y in heights.values())
    assert _lines(make_pdf([page])) == [
        f"{label.format(number)}{between}{words}" for number in heights
    ]


def test_running_lines_and_page_numbers_are_left_out_and_said(
    make_pdf: MakePdf, at: At, column: At
) -> None:
    def page(number: int, lines: Sequence[str]) -> bytes:
        corner = 300 if number % 2 else 40
        head = at(40, 535, f"Kittiwake Shawl - page {number} of 3", 8)
        return head + at(corner, 20, f"{number}", 8) + column(40, 500, lines)

    draft = _read(make_pdf([page(1, LEFT), page(2, RIGHT), page(3, ["Fasten off."])]))
    assert [line for line in draft.source.text.split("\n") if line] == [
        *JOINED,
        "Fasten off.",
    ]
    head = '"Kittiwake Shawl - page 1 of 3"'
    assert draft.notes == (
        f'Left out, since it stands at one height on the pages: {head}; "1".',
    )


def test_rows_at_one_height_on_every_page_are_never_left_out(
    make_pdf: MakePdf, at: At
) -> None:
    pages = [
        at(40, 540, f"Row {number}: Sc across. (20)")
        + at(40, 20, f"Cut yarn {number * 7}.")
        for number in (1, 2, 3)
    ]
    assert _lines(make_pdf(pages)) == [
        line
        for number in (1, 2, 3)
        for line in (f"Row {number}: Sc across. (20)", f"Cut yarn {number * 7}.")
    ]


def test_a_row_goes_on_over_the_page(make_pdf: MakePdf, column: At) -> None:
    pages = [column(40, 480, LEFT[:5]), column(40, 480, [LEFT[5], *RIGHT])]
    assert _lines(make_pdf(pages)) == list(JOINED)


# Lines as printed, and as they are read.
JOINS = {
    "hyphens of the typesetter go, hyphens of the trade stay": (
        [
            "Row 1: Sc in each st across the founda-",
            "tion edge, 2 sc in the last st, ch 2, work-",
            "ing along the other side, dc in next ch-",
            "2 sp, V-st in each V-",
            "st, turn. The foundation is done.",
        ],
        [
            (
                "Row 1: Sc in each st across the foundation edge, 2 sc in the last st,"
                " ch 2, working along the other side, dc in next ch-2 sp, V-st in each"
                " V-st, turn. The foundation is done."
            )
        ],
    ),
    "a number of another row is no label": (
        [
            "Row 5: With B, sc in each st across, turn, then rep",
            "Rows 2 and 3 once more. (22)",
        ],
        [
            (
                "Row 5: With B, sc in each st across, turn, then rep Rows 2 and 3 once"
                " more. (22)"
            )
        ],
    ),
    "a number inside a sentence begins no item": (
        ["Row 6: Sc in each st across and work into Row", "4. Turn. (22 sc)"],
        ["Row 6: Sc in each st across and work into Row 4. Turn. (22 sc)"],
    ),
    "short lines stay lines": (
        ["Cotton in Kelp", "Cotton in Foam", "Hook of 5 mm, or what gives the gauge"],
        ["Cotton in Kelp", "Cotton in Foam", "Hook of 5 mm, or what gives the gauge"],
    ),
    "labels begin lines however full": (
        ["Row 7: Ch 1, sc in each st across.", "Row 8: Ch 1, sc in each st across."],
        ["Row 7: Ch 1, sc in each st across.", "Row 8: Ch 1, sc in each st across."],
    ),
    "a list keeps its items": (
        ["\u2022 soft cotton for the cloth", "\u2022 small scissors and a nee-", "dle"],
        ["\u2022 soft cotton for the cloth", "\u2022 small scissors and a needle"],
    ),
}


@pytest.mark.parametrize("name", JOINS)
def test_wrapped_rows_are_joined_and_no_others(
    name: str, make_pdf: MakePdf, column: At
) -> None:
    printed, read = JOINS[name]
    assert _lines(make_pdf([column(40, 480, printed)])) == read


def test_a_wider_gap_begins_a_paragraph(make_pdf: MakePdf, column: At) -> None:
    page = column(40, 480, ["A cloth for the galley, worked in", "rows."])
    page += column(40, 442, ["Wash it cold and dry it in the wind,", "flat."])
    assert _read(make_pdf([page])).source.text == (
        "A cloth for the galley, worked in rows.\n\n"
        "Wash it cold and dry it in the wind, flat.\n"
    )


TURNS = {
    "scaled": "0.5 0 0 0.5 0 0",
    "turned left": "0 1 -1 0 560 0",
    "upside down": "-1 0 0 -1 560 560",
    "turned right": "0 -1 1 0 0 560",
}


@pytest.mark.parametrize("name", TURNS)
def test_a_page_is_read_however_it_is_turned_or_scaled(
    name: str, make_pdf: MakePdf, column: At
) -> None:
    page = f"q {TURNS[name]} cm\n".encode() + column(40, 480, LEFT) + b"Q\n"
    draft = _read(make_pdf([page], 560, 560))
    assert [line for line in draft.source.text.split("\n") if line] == list(JOINED[:2])
    first = draft.origin_of(0)
    assert isinstance(first, PagePlace)
    scale = 0.5 if name == "scaled" else 1
    # Row 1 is drawn at (40, 480); the box reaches from a descender to an ascender.
    assert first.box.left == pytest.approx(40 * scale, abs=1)
    assert first.box.bottom < 480 * scale < first.box.top
    assert first.box.top - first.box.bottom == pytest.approx(10 * scale)


def test_words_that_run_another_way_than_the_page_are_said(
    make_pdf: MakePdf, at: At, column: At
) -> None:
    page = column(40, 480, LEFT) + b"q 0 1 -1 0 390 0 cm\n" + at(40, 0, "a draft") + b"Q\n"
    draft = _read(make_pdf([page]))
    assert "a draft" not in draft.source.text
    assert draft.notes == ("Words that run up, down or across the page were not read.",)


def test_words_drawn_twice_to_look_bold_are_read_once(make_pdf: MakePdf, at: At) -> None:
    page = at(40, 480, "Row 1: Ch 3, turn.") + at(40.3, 480, "Row 1: Ch 3, turn.")
    assert _lines(make_pdf([page])) == ["Row 1: Ch 3, turn."]


def test_a_small_raised_number_is_no_more_digit(make_pdf: MakePdf, at: At) -> None:
    page = at(40, 480, "Hook of 5") + at(82, 484, "1", 6) + at(85.5, 480, "/2 mm")
    assert _lines(make_pdf([page])) == ["Hook of 5 1/2 mm"]


def test_larger_and_bold_lines_are_headings(make_pdf: MakePdf, at: At, column: At) -> None:
    page = at(40, 540, "Tern", 20) + at(40, 510, "Body", 14) + at(40, 494, "Edge", 10, "F2")
    draft = _read(make_pdf([page + column(40, 480, LEFT)]))
    found = [(draft.source.slice(each.span), each.level) for each in draft.headings]
    assert found == [("Tern", 1), ("Body", 2), ("Edge", 3)]


def test_a_place_is_told_with_its_page_and_height(make_pdf: MakePdf, at: At) -> None:
    data = make_pdf([at(40, 480, "Row 1: sc."), at(40, 351, "Row 2: sc.")])
    draft = _read(data)
    # 560 - (351 + 7.8) = 201.2 points = 71 mm, at 72 points and 25.4 mm an inch.
    assert draft.origin_of(draft.source.text.index("Row 2")).describe() == (
        "page 2, 71 mm from the top"
    )


def test_a_page_without_text_is_said(make_pdf: MakePdf, at: At) -> None:
    draft = _read(make_pdf([at(40, 480, "Row 1: sc."), b"0 0 9 9 re f", b""]))
    assert draft.notes == ("Without any text, so not read: page 2, 3.",)


def _refused(data: bytes) -> str:
    with pytest.raises(UnreadableDraft) as refusal:
        _read(data)
    return str(refusal.value).removeprefix("a.pdf cannot be read: ")


def test_a_print_of_pictures_alone_is_refused(make_pdf: MakePdf) -> None:
    assert _refused(make_pdf([b"0 0 9 9 re f"])).startswith("it has no text in it, only")


def test_letters_that_cannot_be_told_are_refused(make_pdf: MakePdf, at: At) -> None:
    """A font may say that each of its letters means a character of private use."""
    data = make_pdf([at(40, 480, "Row 1: sc.")])
    names = b" ".join(b"/uniE0%02X" % code for code in range(32, 127))
    told = b"/Encoding<</Differences[32 %s]>>" % names
    assert _refused(data.replace(b"/Encoding/WinAnsiEncoding", told)).startswith(
        "its letters cannot be told"
    )


def test_a_locked_print_is_refused(files: Path) -> None:
    """Locked with pikepdf 10.18 and a password to open it."""
    with pytest.raises(UnreadableDraft, match="it is locked with a password"):
        read_draft(files / "locked.pdf")


def test_a_print_that_only_forbids_copying_is_read(
    files: Path, rows: tuple[str, ...]
) -> None:
    """Encrypted with pikepdf 10.18 without a password to open it."""
    assert read_draft(files / "no-copying.pdf").source.text == f"{rows[0]}\n"


def test_a_print_of_too_many_pages_is_refused(make_pdf: MakePdf) -> None:
    assert _refused(make_pdf([b""] * 401)) == (
        "it has 401 pages, more than any pattern. Cut out the pattern."
    )


def test_a_print_of_too_many_letters_is_refused(make_pdf: MakePdf, at: At) -> None:
    page = b"".join(at(40, 480 - row, "x" * 5_000, 0.1) for row in range(105))
    assert _refused(make_pdf([page])).startswith("it holds far more text than a pattern.")


def test_a_damaged_print_is_refused() -> None:
    assert _refused(b"%PDF-1.7\n" + b"x" * 100).startswith("it is damaged.")


def test_a_print_with_its_table_of_objects_lost_is_still_read(
    make_pdf: MakePdf, column: At
) -> None:
    data = re.sub(rb"startxref\n\d+", b"startxref\n3", make_pdf([column(40, 480, LEFT)]))
    assert _lines(data) == list(JOINED[:2])
