"""Rules that cannot all hold: the fewest of them are named."""

from __future__ import annotations

from itertools import combinations

import pytest
from colour_texts import FIVE, planned, worksheet
from hypothesis import given
from hypothesis import strategies as some

from hookwright.colour.clashes import Rules, smallest_clash

MANY = tuple(
    f"#{at * 9:02X}{(at * 37) % 256:02X}{(at * 91) % 256:02X}" for at in range(1, 21)
)


def clash(wishes: str, codes: tuple[str, ...] = FIVE) -> list[str]:
    return [rule.says for rule in planned(worksheet(codes, wishes), orders=1).clash]


def test_rules_that_all_hold_clash_nowhere() -> None:
    assert clash('keep_apart = [["A", "B"]]\nfirst_equals_last = true\n') == []


@pytest.mark.parametrize("codes", [FIVE, MANY])
def test_a_pair_both_apart_and_together(codes: tuple[str, ...]) -> None:
    wishes = 'keep_apart = [["A", "B"], ["C", "D"]]\nkeep_together = [["B", "A"]]\n'
    assert clash(f"{wishes}first_equals_last = true\n", codes) == [
        "A and B do not touch.", "A and B lie side by side.",
    ]  # fmt: skip


@pytest.mark.parametrize("codes", [FIVE, MANY])
def test_a_stripe_has_two_neighbours_only(codes: tuple[str, ...]) -> None:
    assert clash('keep_together = [["A", "B"], ["A", "C"], ["A", "D"]]\n', codes) == [
        "A and B lie side by side.", "A and C lie side by side.", "A and D lie side by side.",
    ]  # fmt: skip


def test_three_colours_that_close_touch_each_other() -> None:
    # By hand: in A B C A every two touch; without the last one A and C do not.
    wishes = 'keep_apart = [["A", "C"]]\n'
    assert clash(wishes, FIVE[:3]) == []
    assert clash(f"{wishes}first_equals_last = true\n", FIVE[:3]) == [
        "A and C do not touch.", "The last stripe is of the first colour.",
    ]  # fmt: skip


def test_a_mirrored_sequence_has_one_stripe_between_two_of_a_colour() -> None:
    assert clash("mirrored = true\nleast_gap = 2\n") == [
        "Between two stripes of one colour lie 2 others at least.",
        "The second half is the first one backwards.",
    ]


def test_an_odd_ring_cannot_go_up_and_down() -> None:
    assert clash("light_dark = true\nrepeated = true\n") == ["Light and dark take turns."]
    assert clash("light_dark = true\nrepeated = true\n", FIVE[:4]) == []


def test_odd_stripes_cannot_be_carried() -> None:
    assert clash("rows = 3\ncarry = true\n") == [
        "Stripes are even, so that colours can be carried up the side.",
        "A stripe has 3 rows.",
    ]


def test_two_colours_repeat_themselves() -> None:
    assert clash("looks_random = true\nstripes = 8\n", FIVE[:2])[-1:] == [
        "No sequence of stripes is followed by itself."
    ]


CLASHES = some.lists(
    some.frozensets(some.integers(0, 6), min_size=1), min_size=1, max_size=4
)


@given(CLASHES)
def test_the_set_that_is_named_is_the_smallest(clashes: list[Rules]) -> None:
    # Against every subset: rules hold together if they contain none of the clashes.
    everything = frozenset(range(7))

    def holds(rules: Rules) -> bool:
        return not any(clash <= rules for clash in clashes)

    def broken_under(chosen: Rules) -> Rules | None:
        if not holds(chosen):
            return None
        for rule in sorted(everything - chosen):
            if holds(chosen | {rule}):
                chosen |= {rule}
        return everything - chosen

    first = broken_under(frozenset())
    assert first
    found = smallest_clash(first, broken_under)
    sizes = [
        size
        for size in range(1, 8)
        for rules in map(frozenset, combinations(range(7), size))
        if not holds(rules)
    ]
    if min(sizes) <= 5:
        assert len(found) == min(sizes)
        assert not holds(found)
    else:
        assert found == frozenset()
