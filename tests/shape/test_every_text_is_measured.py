"""A sample of all texts is measured: nothing fails, and no figure is absurd."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.reading import read_draft
from hookwright.shape.facts import Degree, Lie, Measured, Measures
from hookwright.shape.measures import measures_of
from hookwright.shelf.facts import Fabric
from hookwright.shelf.starter import starter
from hookwright.shelf.stock import fabrics
from hookwright.source import Source

TESTS = Path(__file__).parent.parent
PLACES = ("cases/*/*.txt", "editing/drafts/*/*.md")
FILES = sorted(path for place in PLACES for path in TESTS.glob(place))[::67]
EXAMPLES = [
    path
    for name in ("kelp-square", "petrel-cap", "puffling")
    if (path := TESTS.parent / "examples" / f"{name}.md").exists()
]


def absurd(found: Measured) -> Iterator[str]:
    """What no fabric can be."""
    figures = [found.width_mm, found.height_mm, found.verdict.surplus, found.angle_deg]
    figures += [found.repeat_width_mm or 1.0, found.row_pitch_mm or 1.0]
    if not all(math.isfinite(figure) for figure in figures):
        yield "a figure that is no number"
    if min(found.width_mm, found.height_mm) < 2:
        yield f"{found.width_mm} x {found.height_mm} mm"
    if max(found.width_mm, found.height_mm) > 5_000:
        yield "larger than any bed"
    if found.row_pitch_mm is not None and found.row_pitch_mm <= 0:
        yield "rows that take up nothing"
    if found.rows < 8 and not found.rounds and found.verdict.lie is not Lie.FLAT:
        yield "a verdict on a few rows"
    across = found.standing.across_mm if found.standing else 0.0
    if found.standing and not across / 2 < found.width_mm < 2 * across:
        yield "another width standing than laid double"


def problems(measures: Measures) -> list[str]:
    return [
        f"{part.part}, {size.size}: {what}"
        for part in measures.parts
        for size in part.sizes
        for what in absurd(size)
    ]


@pytest.mark.parametrize("path", [*FILES, *EXAMPLES], ids=lambda path: path.stem)
def test_a_text_is_measured_without_anything_absurd(path: Path) -> None:
    assert problems(measures_of(check(read_draft(path)))) == []


@pytest.mark.parametrize("fabric", fabrics()[::6], ids=lambda fabric: fabric.name)
def test_a_fabric_of_the_shelf_is_measured(fabric: Fabric) -> None:
    measures = measures_of(check(Source(starter(fabric))))
    assert problems(measures) == []
    assert any(part.sizes for part in measures.parts)


def test_flat_circles_of_every_usual_stitch_are_flat() -> None:
    # Source: 6 sc, 8 hdc, 12 dc a round lie flat (garturstitchfarmshop.com, flat circle).
    for stitch, each, chain in (("sc", 6, 1), ("hdc", 8, 2), ("dc", 12, 3)):
        lines = [
            "US terms. The ch at the start of a round does not count as a stitch.\n",
            f"Rnd 1: Ch {chain}, {each} {stitch} in a magic ring; join with sl st in first {stitch}. ({each})",
        ]
        for number in range(2, 9):
            plain = f"{stitch} in next {number - 2} sts, " if number > 2 else ""
            lines.append(
                f"Rnd {number}: Ch {chain}, *{plain}2 {stitch} in next st; rep from * around; "
                f"join with sl st in first {stitch}. ({each * number})"
            )
        (part,) = measures_of(check(Source("\n".join(lines)))).parts
        (size,) = part.sizes
        assert (size.verdict.lie, size.verdict.degree) == (Lie.FLAT, Degree.NONE), stitch
