"""Definitions told with whole stitches. Loops counted by hand, one for each stitch held."""

from __future__ import annotations

import pytest

from hookwright.notation.hook_motions import read_motions


@pytest.mark.parametrize(
    ("text", "passes", "heads"),
    [
        ("Work dc 2 together in next 2 sts.", 2, 1),
        ("Dc 3 tog over next 3 sts.", 3, 1),
        ("2 dc, ch 1, 2 dc in next st.", 1, 4),
        ("Dc, hdc, dc in next st.", 1, 3),
        ("(2 dc, ch 1) twice in next st.", 1, 4),
        ("Insert hook in next st and next st, yo and pull through all loops.", 2, 1),
        ("5 incomplete dc in next st, yo and through all 6 loops.", 1, 1),
        (
            "Dc in next 3 sts until 1 loop of each st is left, yo, through 4 loops.",
            3,
            1,
        ),
        ("Dc in next st, skip st behind.", 1, 1),
        ("(twice) 2 dc in next st.", 1, 2),
        ("Yo, insert hook in next st, finish as a dc.", 1, 1),
        ("3 dc all in next 3 sts.", 3, 3),
    ],
)
def test_a_definition_uses_places_and_leaves_tops(
    text: str, passes: int, heads: int
) -> None:
    motions = read_motions(text)
    assert motions is not None
    assert (motions.passes, motions.heads) == (passes, heads)
    assert motions.problems == ()


@pytest.mark.parametrize(
    ("yarn_overs", "height"), [("yo", "dc"), ("yo twice", "tr"), ("yo 3 times", "dtr")]
)
def test_loops_drawn_off_until_one_is_left_make_the_height(
    yarn_overs: str, height: str
) -> None:
    """Published rule: each yarn over more is one step of two loops more."""
    rest = "pull up a loop in next st, yo and draw through 2 loops until 1 loop remains."
    motions = read_motions(f"{yarn_overs}, {rest}")
    assert motions is not None
    assert (motions.height, motions.passes, motions.heads) == (height, 1, 1)


def test_a_loop_slipped_off_the_hook_is_dropped() -> None:
    text = (
        "5 dc in next st, drop loop, insert hook in first dc, slip loop off the hook, pull "
        "dropped loop through."
    )
    motions = read_motions(text)
    assert motions is not None
    assert (motions.passes, motions.heads) == (1, 1)


@pytest.mark.parametrize(
    "text", ["Until 3 loops are on hook.", "Skip the st behind the dc."]
)
def test_words_that_make_nothing_are_no_definition(text: str) -> None:
    assert read_motions(text) is None
