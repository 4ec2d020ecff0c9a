"""Stitches that a list of abbreviations leaves out though they are made in many ways."""

import pytest

from hookwright.checking import check
from hookwright.finding import Finding, Severity
from hookwright.source import Source

LIST = (
    "ABBREVIATIONS\nch - chain\ndc - double crochet\nsc - single crochet\n{}\nUS terms.\n\n"
)
ROWS = (
    "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (11 sc)\n"
    "Row 2: Ch 1, sc in first st, *{0} in next st, sc in next st; rep from * across, turn. "
    "(11 sts)\nRow 3: Ch 1, sc in each st. (11)\n"
)


def found(text: str) -> list[Finding]:
    findings = check(Source(text, "list.txt")).findings
    return [finding for finding in findings if finding.severity is not Severity.ADVICE]


@pytest.mark.parametrize("word", ["Cl", "puff st", "popcorn", "bobble"])
def test_a_stitch_that_the_list_leaves_out(word: str) -> None:
    (finding,) = found(LIST.format("") + ROWS.format(word))
    assert (finding.rule, finding.row) == ("undefined-abbreviation", "Row 2")
    assert finding.message.startswith(f'"{word.split(maxsplit=1)[0]}"')


@pytest.mark.parametrize(
    "told",
    [
        "Cl - cluster: yo, draw up a loop, yo, draw through 2 loops, 3 times, yo, draw off",
        "cl = dc3tog in one st",
        "A cluster is 3 dc worked together in one stitch.",
    ],
)
def test_a_stitch_that_is_told(told: str) -> None:
    assert found(LIST.format(told) + ROWS.format("Cl")) == []


def test_where_no_list_tells_the_chain_nobody_expects_a_whole_list() -> None:
    assert found("US terms.\n\n" + ROWS.format("bobble")) == []


def test_two_chains_joined_by_comma_and_and() -> None:
    said = "US terms. Ch 3 counts as a dc, and ch 4 counts as a dc and ch 1.\n\n"
    assert found(said + ROWS.format("sc")) == []
