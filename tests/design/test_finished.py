"""Finished measurements and to-fit lines in the wordings that designers use."""

import pytest

from hookwright.checking import check
from hookwright.design.facts import Along, Finished
from hookwright.source import Source

WIDTH, LENGTH, AROUND, ACROSS = Along.WIDTH, Along.LENGTH, Along.AROUND, Along.ACROSS


def finished(lines: str) -> tuple[Finished, ...]:
    text = f"Cloth\n\n{lines}\n\nRnd 1: 6 sc in magic ring (6)\n"
    return check(Source(text, "pattern.md")).design.finished


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        (
            "Size: About 104 cm wide and 142 cm long (41 x 56 in)",
            [(WIDTH, 1040), (LENGTH, 1420)],
        ),
        ("Finished size: 36 x 48 in", [(WIDTH, 914.4), (LENGTH, 1219.2)]),
        ('Finished size: 9" (23 cm) x 60" (152 cm)', [(WIDTH, 228.6), (LENGTH, 1524)]),
        ("Finished size: approx 20 cm square", [(WIDTH, 200), (LENGTH, 200)]),
        ("Finished size: 6 in across", [(ACROSS, 152.4)]),
        ("Finished size: 30 cm in diameter", [(ACROSS, 300)]),
        ("Width: 20 cm, length: 150 cm", [(WIDTH, 200), (LENGTH, 1500)]),
        ("Measurements: circumference 50 cm, height 20 cm", [(AROUND, 500), (LENGTH, 200)]),
        ('Blanket measures 36" wide by 48" long', [(WIDTH, 914.4), (LENGTH, 1219.2)]),
        ("Strip shown measures approx 22cm wide.", [(WIDTH, 220)]),
    ],
)
def test_the_way_of_a_length_is_read(line: str, wanted: list[tuple[Along, float]]) -> None:
    found = [(f.along, float(f.measure.mm[0] or 0)) for f in finished(line)]
    assert [way for way, _ in found] == [way for way, _ in wanted]
    assert [mm for _, mm in found] == pytest.approx([mm for _, mm in wanted])


def test_both_units_of_a_size_are_one_measurement() -> None:
    (found,) = finished("Finished chest: 31 (33, 36 1/2) in / 78 (84, 93) cm.")
    assert (found.along, found.of, found.to_fit) == (AROUND, "chest", False)
    assert found.measure.also is not None
    assert len(found.measure.mm) == len(found.measure.also.mm) == 3


def test_a_body_that_is_fitted_is_not_the_piece() -> None:
    fitted, made = finished(
        "To fit a head of 15 (17, 19) in, with about 1 in (2.5 cm) of negative ease.\n"
        "Finished measurements: 14 (16, 18) in around"
    )
    assert (fitted.to_fit, fitted.of) == (True, "head")
    assert not made.to_fit


def test_a_list_with_too_few_numbers_is_kept_as_it_stands() -> None:
    (found,) = finished("Sizes: S (M, L, XL)\nTo fit chest: 81 (86, 91) cm")
    assert len(found.measure.mm) == 3
    assert found.measure.at(3) is None


def test_a_line_a_size_is_a_list() -> None:
    across, up = finished(
        "Sizes: Baby (Child, Adult)\n\nFinished size\nBaby: 30 x 36 cm\nChild: 40 x 50 cm\n"
        "Adult: 60 x 80 cm"
    )
    assert [float(mm or 0) for mm in across.measure.mm] == [300, 400, 600]
    assert [float(mm or 0) for mm in up.measure.mm] == [360, 500, 800]


@pytest.mark.parametrize(
    "line",
    [
        "Hook: size 5 mm",
        "Buttons: 3, size 2 cm",
        "Fits 3-6 m.",
        "Work until it measures 20 cm.",
    ],
)
def test_other_lengths_are_no_measurements(line: str) -> None:
    assert finished(line) == ()


def test_a_size_in_two_units_is_no_list_of_sizes() -> None:
    text = "## Size\n\nAbout 15 cm (6 in) square.\n\nRnd 1: 6 sc in magic ring (6)\n"
    assert check(Source(text, "pattern.md")).sizes == ()
