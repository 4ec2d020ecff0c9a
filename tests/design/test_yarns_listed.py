"""Yarns and colours as designers list them."""

from fractions import Fraction

import pytest

from hookwright.checking import check
from hookwright.design.facts import YarnListed
from hookwright.design.yarns import weight_names
from hookwright.source import Source

ROWS = "\n\nRow 1: 6 sc in magic ring. (6)\n"


def yarns(text: str) -> tuple[YarnListed, ...]:
    return check(Source(text + ROWS)).design.yarns


def colours(text: str) -> str:
    """Letters with names: "A Ink, B Butter"."""
    found = check(Source(text + ROWS)).design.colours
    return ", ".join(f"{colour.letter} {colour.name}".strip() for colour in found)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("A = Slate, B = Foam, C = Rust", "A Slate, B Foam, C Rust"),
        ("A: Shingle, B: Beak Orange. Change at the end.", "A Shingle, B Beak Orange"),
        ("Colors: A = Ink, B = Butter. Hook 3.5 mm.", "A Ink, B Butter"),
        ("Colors: A gorse yellow, B leaf, C stone", "A gorse yellow, B leaf, C stone"),
        ("Colours: Kelp, Foam and Slate", "Kelp, Foam, Slate"),
        ("Yarn: Headland DK in Slate (A) and Rust (C)", "A Slate, C Rust"),
        ("Yarn: A (cloud), B (gorse), about 100 m of each", "A cloud, B gorse"),
        ("Yarn: DK in two shades (A and B)", "A, B"),
        ("Yarn A: slate. Yarn B: chalk.", "A slate, B chalk"),
        ("Color A: Midnight\nColor B: Sea Glass", "A Midnight, B Sea Glass"),
        ("Materials\n- MC - Slate, 3 balls\n- CC: Butter, 1 ball", "MC Slate, CC Butter"),
        (
            "Materials\nCroft DK\nA (Rust): 3 balls\nB (Old Rose): 1 ball",
            "A Rust, B Old Rose",
        ),
        ("You need: 3 mm hook; DK in Soot, Snow and Ember; filling", "Soot, Snow, Ember"),
        ("Materials\n- **Colour A:** Ink, 4 balls\n- **Colour B:** Oat", "A Ink, B Oat"),
        ("Yarn used: Lugger Aran: Tar (col A), Kelp (col B)", "A Tar, B Kelp"),
        ("MC = main color\nCC = contrasting color", "MC, CC"),
        ("Yarn: 3 balls of A (Turnstone, rust), 1 ball of B (Foam)", "A Turnstone, B Foam"),
        ("Materials: 2 balls of cotton in White", ""),
        ("Yarn: one ball of anything", ""),
        ("Hook: D (3.25 mm) or E (3.5 mm)", ""),
        ("Shell = 5 dc in one st", ""),
        ("Group A: begin at the corner.", ""),
    ],
)
def test_colours_are_read_in_many_dresses(text: str, told: str) -> None:
    assert colours(text) == told


def test_balls_are_told_of_each_colour_and_size() -> None:
    text = "Yarn: 3 (4, 5) balls of A (Slate), two balls of B (Foam)"
    found = check(Source(text + ROWS)).design.colours
    assert [colour.balls for colour in found] == [(3, 4, 5), (2,)]
    text = "Materials\nA - Slate, 3 (4, -) balls\nB - Foam"
    found = check(Source(text + ROWS)).design.colours
    assert [colour.balls for colour in found] == [(3, 4, None), ()]


@pytest.mark.parametrize(
    ("text", "metres", "grams"),
    [
        ("Yarn: Skarrow Worsted (100% wool, 200 m in a 100 g ball)", "200", "100"),
        ("Yarn: Croft DK (100 g / 220 m)", "220", "100"),
        ("Yarn: 8-ply cotton, 50g (115 m)", "115", "50"),
        ("Yarn: Lugger Aran, 160 metres per 100 grams", "160", "100"),
        # By definition a yard is 0.9144 m and an ounce 28.349523125 g.
        ("Yarn: Croft DK, 240 yd per 3.5 oz", "219.456", "99.2233309375"),
    ],
)
def test_a_ball_has_its_length_and_weight(text: str, metres: str, grams: str) -> None:
    (yarn,) = yarns(text)
    assert yarn.ball_m == Fraction(metres)
    assert yarn.ball_g == Fraction(grams)


@pytest.mark.parametrize(
    ("words", "weight"),
    [
        ("lace weight", 0), ("4-ply", 1), ("fingering weight", 1), ("sport weight", 2),
        ("DK", 3), ("light worsted", 3), ("8-ply", 3), ("worsted weight", 4), ("aran", 4),
        ("chunky", 5), ("bulky", 5), ("super chunky", 6), ("jumbo", 7),
        ("category 4", 4), ("weight 5", 5), ("#3", 3),
    ],
)  # fmt: skip
def test_a_weight_is_known_by_its_names(words: str, weight: int) -> None:
    """Source: the trade body's table (222handspun.com), UK and AU names (skeinqueenyarns)."""
    (yarn,) = yarns(f"Yarn: any {words} yarn, 100 g (200 m)")
    assert yarn.weight == weight


def test_two_weights_are_none() -> None:
    (yarn,) = yarns("Yarn: DK or aran, 100 g (200 m)")
    assert yarn.weight is None


def test_every_class_of_the_trade_has_a_name() -> None:
    """Source: the yarn weight system has the classes 0 to 7."""
    assert set(weight_names().values()) == set(range(8))


@pytest.mark.parametrize(
    ("text", "weight"),
    [
        ("Yarn: 50 g of a smooth medium weight yarn (4) in a light color", 4),
        ("Yarn: 100 g of worsted yarn in light gray", 4),
        ("Yarn: 100 g of light yarn", 3),
        ("Yarn: any wool in light blue", None),
    ],
)
def test_a_light_color_is_no_light_yarn(text: str, weight: int | None) -> None:
    told = [yarn.weight for yarn in yarns(text)]
    assert told == ([weight] if weight is not None else [])
