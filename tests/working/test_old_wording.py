"""Wordings of old needlework books, and of chatty pages, with sums that anyone can do."""

from hookwright.checking import check
from hookwright.source import Source


def made(text: str) -> list[object]:
    lines = check(Source(text, "pattern.txt")).lines
    return [line.stitches[0] for line in lines if line.printed]


TEN_CHAINS = (
    "Chain 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10)\n"
)


def test_a_chain_of_so_many_stitches_is_a_foundation() -> None:
    text = "Make a chain of 11 stitches.\nRow 1: Sc in 2nd ch from hook, sc in each ch.\n"
    assert made(text) == [10]


def test_a_name_in_capitals_with_a_stop_and_a_dash_heads_what_follows_it() -> None:
    text = "EDGING.--Chain 11.\n\n1st row.--Sc in 2nd chain from hook and in each chain.\n"
    assert made(text) == [10]


def test_an_ordinal_with_a_stop_and_a_dash_is_a_label() -> None:
    text = TEN_CHAINS + "\n2d.--1 chain, 1 sc in each st, turn.\n\n3d.--As the 2d.\n"
    assert made(text) == [10, 10, 10]


def test_in_the_fourth_stitch_of_a_chain_means_from_the_hook() -> None:
    text = "Chain 12.\n\n1st row.--One dc in the fourth stitch, one dc in each ch across.\n"
    assert made(text) == [10]


def test_a_place_may_be_told_by_its_number_alone() -> None:
    text = (
        TEN_CHAINS
        + "\nRow 2: Ch 1, miss the first 3, 1 sc in the 4th, sc in each st across.\n"
    )
    assert made(text) == [10, 7]


def test_under_the_chains_is_into_their_space() -> None:
    text = (
        "Ch 3 counts as a dc.\n\n"
        + TEN_CHAINS
        + "\nRow 2: Ch 3, *ch 2, miss 2, dc in the next; rep from * across, turn.\n\n"
        "Row 3: Ch 1, sc in first dc, *2 sc under the 2 ch, sc in next dc; rep from *."
    )
    assert made(text) == [10, 4, 10]


def test_rows_may_be_done_one_after_another_as_a_list_tells_them() -> None:
    text = TEN_CHAINS + (
        "\nRow 2: Ch 1, sc in each st across to last 2 sts, sc2tog, turn.\n\n"
        "Row 3: Ch 1, sc in each st across to last st, 2 sc in last st, turn.\n\n"
        "Rows 4 to 7: do Row 2, then Row 3, then Row 3, then Row 2.\n"
    )
    assert made(text) == [10, 9, 10, 9, 10, 11, 10]


def test_a_sign_for_times_is_read_like_the_letter() -> None:
    assert made("Chain 11.\n\nRow 1: Sk 1 ch, sc 5\u00d7, hdc \u00d7 5.\n") == [10]


def test_the_chain_that_a_sample_used_goes_before_any_other_chain_told() -> None:
    text = (
        "Ch 3 at the beginning of a row counts as a dc.\n\nCh a multiple of 3 plus 2; the "
        "sample used 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
    )
    assert made(text) == [10]
