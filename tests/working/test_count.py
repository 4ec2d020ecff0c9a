"""Counts that grow with the repeats, held against plain numbers.

The outside check is evaluation: at any repeat count large enough, arithmetic on forms and
arithmetic on the numbers they stand for must agree.
"""

import operator
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hookwright.working.count import Count, Linear, parts_of, whole_times

NUMBERS = st.integers(-10_000, 10_000)
COUNTS = NUMBERS | st.builds(Linear.of, NUMBERS, NUMBERS)
LARGE = 1_000_000_007
"""Larger than any two of these forms differ in their fixed parts, so order is settled."""


def at(count: Count, repeats: int) -> int:
    return count.at(repeats) if isinstance(count, Linear) else count


@given(COUNTS, COUNTS, NUMBERS)
def test_sums_and_differences_agree_at_every_repeat_count(
    left: Count, right: Count, repeats: int
) -> None:
    assert at(left + right, repeats) == at(left, repeats) + at(right, repeats)
    assert at(left - right, repeats) == at(left, repeats) - at(right, repeats)


@given(COUNTS, NUMBERS, NUMBERS)
def test_multiples_and_negatives_agree_at_every_repeat_count(
    count: Count, factor: int, repeats: int
) -> None:
    assert at(count * factor, repeats) == at(count, repeats) * factor
    assert at(factor * count, repeats) == at(count, repeats) * factor
    assert at(-count, repeats) == -at(count, repeats)


COMPARISONS: list[Callable[[Any, Any], bool]] = [
    operator.lt,
    operator.le,
    operator.eq,
    operator.ne,
    operator.ge,
    operator.gt,
]


@given(COUNTS, COUNTS, st.sampled_from(COMPARISONS))
def test_forms_compare_as_their_numbers_do_at_a_large_repeat_count(
    left: Count, right: Count, compares: Callable[[Any, Any], bool]
) -> None:
    assert compares(left, right) == compares(at(left, LARGE), at(right, LARGE))


@given(COUNTS, COUNTS)
def test_equal_counts_have_equal_hashes(left: Count, right: Count) -> None:
    assert hash(left + right) == hash(right + left)
    assert (left == right) == (parts_of(left) == parts_of(right))


@given(COUNTS, COUNTS)
def test_what_no_longer_grows_is_a_plain_number(left: Count, right: Count) -> None:
    difference = left - right
    assert isinstance(difference, int) == (parts_of(left)[1] == parts_of(right)[1])
    assert left - left == 0
    assert left * 0 == 0


@given(COUNTS, st.integers(1, 60), NUMBERS)
def test_whole_times_leaves_a_remainder_below_the_size(
    count: Count, size: int, repeats: int
) -> None:
    whole = whole_times(count, size)
    if whole is None:
        assert at(count, 1) % size != at(count, 0) % size
    else:
        assert divmod(at(count, repeats), size)[0] == at(whole, repeats)
        assert count - whole * size in range(size)


def test_a_foundation_of_sixteen_a_wave_goes_by_eights_but_not_by_fives() -> None:
    assert whole_times(Linear(2, 16), 8) == Linear(0, 2)
    assert whole_times(Linear(2, 16), 5) is None
    assert whole_times(178, 16) == 11


def test_a_count_that_would_grow_twice_over_is_refused() -> None:
    with pytest.raises(TypeError, match="not linear"):
        Linear(0, 1) * Linear(2, 16)


@pytest.mark.parametrize(
    ("count", "written"),
    [
        (Linear(2, 16), "16k + 2"),
        (Linear(-3, 16), "16k - 3"),
        (Linear(0, 1), "k"),
        (Linear(1, 1), "k + 1"),
        (Linear(4, -1), "-k + 4"),
    ],
)
def test_a_form_is_written_as_a_designer_writes_a_multiple(
    count: Linear, written: str
) -> None:
    assert str(count) == written
