"""The skill level that a draft states, in the words of both scales."""

import pytest

from hookwright.checking import check
from hookwright.design.level import level_name
from hookwright.source import Source

ROWS = "\n\nRow 1: 6 sc in magic ring. (6)\n"


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("Skill level: Easy", 2),
        ("SKILL LEVEL\nIntermediate", 3),
        ("**Difficulty:** Advanced", 4),
        ("Level – Beginner", 1),
        ("Skill Level: Confident beginner", 2),
        ("Skill level: Easy to Intermediate", 3),
        ("Level: Experienced", 4),
        ("*Experience level:* Confident Beginner", 2),
        ("Difficulty level: ⭐⭐ Easy", 2),
        ("*US terms · 15 cm square · easy*", 2),
        ("A beginner-friendly scarf in plain rows.", 1),
        ("This cap is suitable for adventurous beginners.", 2),
        ("My first intermediate level pattern.", 3),
    ],
)
def test_a_level_is_read_in_either_scale(text: str, step: int) -> None:
    level = check(Source(text + ROWS)).design.level
    assert level is not None
    assert level.step == step


@pytest.mark.parametrize(
    "text",
    [
        "Keep the edges level.",
        "This is easy once you see it.",
        "Basic stitches: ch, sc",
        "Skill level: three pebbles of five",
        "Advanced warning: it is long.",
    ],
)
def test_other_words_state_no_level(text: str) -> None:
    assert check(Source(text + ROWS)).design.level is None


def test_the_four_levels_have_the_names_of_the_newer_scale() -> None:
    """Source: fiatfiberarts.com/2018/04/04, the trade body's project levels."""
    assert [level_name(step) for step in range(1, 5)] == [
        "Basic",
        "Easy",
        "Intermediate",
        "Complex",
    ]
