"""Yarn beside the stitches: lengths that are sums, each worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from yarn_texts import plain, planned, sheet

from hookwright.yarn.beside import Measures, carried_up
from hookwright.yarn.cutting import Stretch
from hookwright.yarn.facts import ColourNeed, Section, SizeNeed

LINE = "2 rows A, 2 rows B. Work this sequence 10 times in all: 40 rows."


def only_size(text: str, worksheet: str) -> SizeNeed:
    (size,) = planned(text, worksheet).sizes
    return size


def needs(text: str, worksheet: str) -> dict[str, ColourNeed]:
    return {need.yarn.label: need for need in only_size(text, worksheet).colours}


def beside(need: ColourNeed) -> float:
    """Metres that are needed beside the rows."""
    return float(dict(need.of_section)[Section.BESIDE].mid / 1000)


def test_a_fringe_is_cut_for_the_width_of_the_size() -> None:
    """40 sc at 20 to 10 cm are 20 cm: 9 bundles at either end, of 3 strands of 30 cm."""
    fringe = (
        '\n[[beside]]\nwhat = "fringe"\nyarn = "A"\nevery = "2.5 cm"\nstrands = 3\n'
        'length = "30 cm"\n'
    )
    found = needs(plain(40, 40), sheet("A") + fringe)["A"]
    assert beside(found) == pytest.approx(2 * 9 * 3 * 0.30)
    assert "18 bundles, one every 2.5 cm along both ends of 20.0 cm" in found.said[0]


def test_a_tassel_has_a_strand_more_to_tie_it() -> None:
    tassels = (
        '\n[[beside]]\nwhat = "tassels"\nyarn = "B"\nnumber = 4\nstrands = 40\n'
        'length = "10 in"\n'
    )
    found = needs(plain(40, 40), sheet("AB") + tassels)["B"]
    assert beside(found) == pytest.approx(4 * 41 * 0.254)
    assert found.rows == 0


def test_what_is_held_along_takes_the_way_of_the_other() -> None:
    held = '\n[[beside]]\nwhat = "held with"\nyarn = "B"\nwith = "A"\n'
    found = needs(plain(40, 40), sheet("AB") + held)
    stitches = sum(
        length.mid for section, length in found["A"].of_section
        if section is not Section.BESIDE
    )  # fmt: skip
    assert beside(found["B"]) == pytest.approx(float(stitches / 1000))


@pytest.mark.parametrize(
    ("words", "times"),
    [
        ("Hold 2 strands held together throughout.", 2),
        ("Work with yarn doubled.", 2),
        ("Three strands held together.", 3),
        ("One strand.", 1),
    ],
)
def test_strands_of_one_yarn_are_told_by_the_words_of_the_pattern(
    words: str, times: int
) -> None:
    alone = needs(plain(40, 40), sheet("A"))["A"]
    found = needs(plain(40, 40).replace("## Strip", f"{words}\n\n## Strip"), sheet("A"))[
        "A"
    ]
    once = alone.length.mid - alone.tails
    assert found.length.mid - found.tails == once * times


def test_two_yarns_held_together_under_one_name_are_both_needed() -> None:
    text = plain(40, 40).replace("With A, ch", "With A and B held together, ch")
    found = needs(text, sheet("AB"))
    assert found["B"].length.mid == pytest.approx(
        float(found["A"].length.mid - found["A"].tails + found["B"].tails)
    )


def test_a_colour_carried_up_the_side_lies_along_the_rows_between() -> None:
    """40 rows in stripes of 2: A passes 9 x 2 rows, B as many, of 100 / 24 mm, and 5 %."""
    carried = needs(plain(40, 40, LINE), sheet("AB") + "\n[stripes]\ncarry = true\n")
    for label in "AB":
        assert beside(carried[label]) == pytest.approx(18 * 100 / 24 * 1.05 / 1000)


def test_what_is_carried_past_rows_of_no_known_height_is_told_as_left_out() -> None:
    (told,) = carried_up([Stretch("A", (0, 1, 4, 5))], Measures())
    assert not told.length.mid
    assert told.said == (
        "Carried up the side past 2 rows: left out, for no gauge tells how high they are."
    )


def test_a_colour_carried_inside_lies_along_its_rows() -> None:
    """20 rows of 20 cm, and 5 %."""
    inside = '\n[[beside]]\nwhat = "carried inside"\nyarn = "B"\nrows = 20\n'
    found = needs(plain(40, 40), sheet("AB") + inside)["B"]
    assert beside(found) == pytest.approx(20 * 0.20 * 1.05)


def test_sums_over_colours_are_the_whole_with_what_lies_beside() -> None:
    fringe = '\n[[beside]]\nwhat = "tassels"\nyarn = "C"\nnumber = 3\nlength = "1 m"\n'
    size = only_size(plain(40, 40, LINE), sheet("AB") + fringe)
    assert sum((c.length.mid for c in size.colours), Fraction(0)) == size.length.mid


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ('what = "fringe"\nyarn = "A"\nlength = "30 cm"', "or how many, is not told"),
        ('what = "fringe"\nyarn = "A"\nnumber = 8', "How long the strands"),
        ('what = "tassels"\nyarn = "Q"\nnumber = 8\nlength = "9 cm"', 'no yarn "Q"'),
        ('yarn = "A"', "not told what yarn beside the rows is for"),
    ],
)
def test_what_cannot_be_reckoned_is_told(keys: str, told: str) -> None:
    plan = planned(plain(40, 40), sheet("A") + f"\n[[beside]]\n{keys}\n")
    assert any(told in finding.message for finding in plan.noted)


def test_fringes_bring_their_caution() -> None:
    fringe = '\n[[beside]]\nwhat = "fringe"\nyarn = "A"\nnumber = 8\nlength = "9 cm"\n'
    assert any(
        "babies" in said for said in planned(plain(40, 40), sheet("A") + fringe).told
    )
