"""Borders with a repeat round motifs with corners: every side is whole, and fits by itself."""

import pytest
from edged_texts import HEXAGON, edgings, offered

from hookwright.sizing.edging import Side, Wish
from hookwright.sizing.facts import Multiple

GRANNY = """\
US terms. Ch 3 at the start of a round counts as a dc. Do not turn.

Ch 4; join with sl st in first ch to form a ring.

Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3.
(12 dc, 4 ch-2 sps)

Rnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3
dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times; join with sl st in top of beg ch-3.
(24 dc, 4 ch-2 sps, 4 ch-1 sps)

Rnd 3: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *3 dc
in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, 3 dc in
last ch-1 sp, ch 1; join with sl st in top of beg ch-3. Fasten off. (36 dc, 4 ch-2 sps, 8 ch-1 sps)
"""
"""A side of 3 + 1 + 3 + 1 + 3 = 11 between two corner spaces."""


def test_the_round_begins_in_a_corner_of_the_lace() -> None:
    """By hand: 11 and one of either corner are 13 = 2 x 6 + 1; 13 + 7 dc in 4 corners: 80."""
    found = offered(GRANNY, Side.ALL, Wish(kind="shell"))
    assert found.lines[0].endswith("in any corner ch-2 sp of Rnd 3.")
    assert "2 sc in first ch-2 sp" in found.rows[0]
    assert found.rows[0].endswith("first sc. (56 sc)")
    assert found.stitches == (4 * (1 + 2 * 6 + 7),)
    (told,) = found.notes
    assert told == (
        "Between two corners each side has 13 sts: 2 repeats of 6 + 1, with no stitch more or"
        " fewer."
    )


def test_a_side_that_does_not_fit_gets_a_round_that_makes_it() -> None:
    """By hand: 13 + 2 = 15 in the next round, and two more are 17 = 2 x 8 + 1, 12 % longer."""
    found = offered(GRANNY, Side.ALL, Wish(repeat=Multiple(8, 1)))
    assert found.stitches == (4 * (17 + 1),)
    assert found.flatness[-1].how.startswith("17 stitches between two corners where 15")


@pytest.mark.parametrize("corners", [3, 4])
@pytest.mark.parametrize("kind", ["picot", "scallop", "shell"])
def test_every_polygon_has_its_border(corners: int, kind: str) -> None:
    """Each round of sc adds two in a corner; what is offered is proven with the piece."""
    found = offered(polygon(corners), Side.ALL, Wish(kind=kind))
    assert "in any corner st" in found.lines[0]


def polygon(corners: int, last: int = 7) -> str:
    """Rounds of sc, three in each corner."""
    rounds = [
        f"Rnd {n}: Ch 1, *sc in next {2 * n - 3} st{'s' * (n > 2)}, 3 sc in next st; rep from *"
        f" {corners - 1} more times; join with sl st in first sc. ({2 * n * corners} sc)\n"
        for n in range(2, last + 1)
    ]
    begun = f"Rnd 1: {2 * corners} sc in magic ring; join with sl st in first sc."
    return (
        "US terms. Ch 1 does not count as a stitch. Do not turn.\n\n"
        f"{begun} ({2 * corners} sc)\n\n" + "\n".join(rounds)
    )


def test_a_hexagon_gets_three_in_its_corners_for_a_border_to_turn_on() -> None:
    """By hand: 4 dc a side and one of either corner's three are 6; 9 are 2 x 4 + 1."""
    found = offered(HEXAGON, Side.ALL, Wish(kind="scallop"))
    assert found.rows[0].count("3 sc in next ch-1 sp") == 1
    assert "each side has 9 sts: 2 repeats of 4 + 1, with 1 stitch more" in found.notes[0]


def test_a_side_that_is_too_short_is_told() -> None:
    wish = Wish((Side.ALL,), repeat=Multiple(40, 1))
    reasons = [own.reason.message for own in edgings(polygon(4, 3), wish).refused]
    assert reasons == ["A side is too short for the repeat of the border."]
