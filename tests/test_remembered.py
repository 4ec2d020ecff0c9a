"""What is kept from text to text changes nothing but the time that a text takes."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import check
from hookwright.reading import read_draft
from hookwright.remembered import Numbered, Remembered
from hookwright.source import Source
from hookwright.working.conventions import Conventions
from hookwright.working.hook import Effort
from hookwright.working.worked_before import WorkedBefore

EXAMPLES = Path(__file__).parent.parent / "examples"
PATTERN = (
    "US terms. Ch 1 does not count as a stitch.\n\nCh 21.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)\n"
    "Rows 2-9: Ch 1, sc in each st across. Turn. ({count} sc)\n"
)


@settings(max_examples=25)
@given(st.lists(st.integers(0, 30), max_size=60), st.integers(1, 9))
def test_the_newest_are_kept_and_never_too_many(keys: list[int], most: int) -> None:
    kept: Remembered[int, int] = Remembered(most)
    for key in keys:
        assert kept.keep(key, 2 * key) == 2 * key
        assert kept.get(key) == 2 * key
    assert sum(kept.get(key) is not None for key in range(31)) <= most


def test_numbers_of_keys_are_never_given_again() -> None:
    numbered: Numbered[str] = Numbered(2)
    first = numbered.of("sc")
    assert numbered.of("sc") == first
    assert len({first, numbered.of("hdc"), numbered.of("dc"), numbered.of("tr")}) == 4
    assert numbered.of("sc") != first  # it was forgotten


def told(text: str) -> list[str]:
    return [finding.message for finding in check(Source(text)).findings]


def test_a_text_comes_to_the_same_whatever_was_worked_before() -> None:
    slip = PATTERN.format(count=19)
    fresh = told(slip)
    told(PATTERN.format(count=20))
    assert told(slip) == fresh
    assert any("19" in message for message in fresh)


def test_a_known_text_is_told_as_when_it_was_new() -> None:
    path = EXAMPLES / "kelp-square-slip.md"
    first, again = (check(read_draft(path)) for _ in range(2))
    assert first.findings == again.findings
    assert [line.stitches for line in first.lines] == [
        line.stitches for line in again.lines
    ]


def test_another_definition_of_a_word_is_another_word() -> None:
    text = (
        "US terms. Ch 1 does not count as a stitch.\nSpecial stitch: {fan}.\n\n"
        "Ch 20.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, shell in next ch, sk 2 ch, sc in next "
        "ch; rep from * across. ({count} dc, 4 sc)\n"
    )
    assert told(text.format(fan="Shell: 5 dc in one stitch", count=15)) == told(
        text.format(fan="Shell: 3 dc in one stitch", count=9)
    )


def test_where_fewer_movements_may_be_tried_a_row_is_worked_anew() -> None:
    kept: WorkedBefore[str] = WorkedBefore(10)
    custom = kept.custom({}, Conventions(frozenset()), "US")
    kept.keep(custom, "row", "worked", 5)
    effort = Effort()
    assert kept.get(custom, "row", effort, ()) == "worked"
    assert effort.left == Effort().left - 5  # counted as if it had been worked
    kept.keep(custom, "row", "worked", 10**9)
    assert kept.get(custom, "row", effort, ()) is None
    assert kept.get(custom, "other", effort, ()) is None
