"""Hooks as designers write them, and which letters may mean which millimetres."""

from fractions import Fraction

import pytest

from hookwright.design.hooks import hooks_in, meant_by
from hookwright.source import Span

Named = list[tuple[float | None, str]]


def named(text: str, *, of_hooks: bool = False) -> Named:
    hooks = hooks_in(text, Span(0, len(text)), all_of_it=of_hooks)
    return [(float(hook.mm) if hook.mm is not None else None, hook.name) for hook in hooks]


@pytest.mark.parametrize(
    ("text", "hooks"),
    [
        ("5 mm (US H-8) hook", [(5.0, "US H-8")]),
        ("size H/8 (5 mm) hook", [(5.0, "size H/8")]),
        ("an H/8-5.00mm hook", [(5.0, "H/8")]),
        ("a UK 6 hook (5 mm)", [(5.0, "UK 6")]),
        ("K-10½ (6.5 mm) hook", [(6.5, "K-10½")]),
        ("K-10 1/2 (6.5mm) hook", [(6.5, "K-10 1/2")]),
        ("US 7 (4.5 mm) crochet hook", [(4.5, "US 7")]),
        ("4 mm (G-6) and 5 mm (H-8) hooks", [(4.0, "G-6"), (5.0, "H-8")]),
        ("5 mm, 4 mm and 3.5 mm hooks", [(5.0, ""), (4.0, ""), (3.5, "")]),
        ("4 or 4.5 mm hook", [(4.0, ""), (4.5, "")]),
        ("a 4,5 mm hook", [(4.5, "")]),
        ("hook: 4 (4.5, 5) mm", [(4.0, ""), (4.5, ""), (5.0, "")]),
        ("3.5 mm (UK 9, US E-4) hook", [(3.5, "UK 9"), (3.5, "US E-4")]),
        ("cotton DK, 5mm hook, a darning needle", [(5.0, "")]),
        ("2 balls of cotton, 5.0mm hook, 1 stitch marker", [(5.0, "")]),
        ("6 mm safety eyes, 3.5 mm hook", [(3.5, "")]),
        ("light fingering, size F hook", [(None, "size F")]),
        ("steel hook No. 11", []),
        ("size B steel hook", []),
        ("I hook the loop over the button", []),
        ("a ch-3 hook", []),
    ],
)
def test_a_hook_is_read_as_it_is_written(text: str, hooks: Named) -> None:
    assert named(text) == hooks


def test_a_line_that_speaks_of_hooks_needs_no_further_word() -> None:
    assert named("hook: I or J, go up if it curls", of_hooks=True) == [
        (None, "I"),
        (None, "J"),
    ]


# Source: matifs.com/crochet-hooks-size-chart (metric, US, UK and Canada).
PUBLISHED = [
    ("2.25", "B-1", "UK 13"), ("3.25", "D-3", "UK 10"), ("3.5", "E-4", "UK 9"),
    ("4.0", "G-6", "UK 8"), ("4.5", "US 7", "UK 7"), ("5.0", "H-8", "UK 6"),
    ("5.5", "I-9", "UK 5"), ("6.0", "J-10", "UK 4"), ("6.5", "K-10.5", "UK 3"),
    ("8.0", "L-11", "UK 0"), ("9.0", "M/N-13", "UK 00"), ("10.0", "N/P-15", "UK 000"),
]  # fmt: skip


@pytest.mark.parametrize(("mm", "us", "uk"), PUBLISHED)
def test_names_mean_what_the_published_chart_says(mm: str, us: str, uk: str) -> None:
    for name in (us, uk):
        meant = meant_by(name)
        assert meant is not None
        assert Fraction(mm) in meant.all


def test_uk_numbers_fall_and_us_numbers_grow_with_the_hook() -> None:
    """Source: the same chart, and sysclp.wordpress.com/2018/09/04/1072/."""
    uk = [meant_by(f"UK {number}") for number in range(14, -1, -1)]
    us = [
        meant_by(f"US {number}") for number in (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15)
    ]
    for names in (uk, us):
        sizes = [name.usual for name in names if name is not None]
        assert sizes == sorted(sizes)
        assert len(sizes) == len(names)


def test_what_no_table_shows_is_never_held_against_a_text() -> None:
    for name in ("O", "T", "U", "X", "UK 11", "UK 2"):
        meant = meant_by(name)
        assert meant is None or not meant.published


@pytest.mark.parametrize("name", ["", "steel 7", "Z", "aluminium", "99"])
def test_other_names_mean_nothing(name: str) -> None:
    assert meant_by(name) is None
