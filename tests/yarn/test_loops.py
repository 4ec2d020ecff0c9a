"""The loops of a stitch are what its motions of the hook come to."""

from __future__ import annotations

import pytest
from yarn_texts import checked

from hookwright.notation.hook_motions import read_motions
from hookwright.working.fabric import Stitch, chains, plain, turning_chain
from hookwright.yarn.loops import looped, named, table, usual

MOTIONS = {
    "sl st": "Insert hook in next st, yo and pull through st and loop on hook.",
    "sc": "Insert hook in next st, pull up a loop, yo and pull through 2 loops.",
    "esc": "Insert hook in next st, pull up a loop, yo and pull through 1 loop, yo and pull through 2 loops.",
    "hdc": "Yo, insert hook in next st, pull up a loop, yo and pull through all 3 loops.",
    "dc": "Yo, insert hook in next st, pull up a loop, (yo and pull through 2 loops) twice.",
    "tr": "Yo twice, insert hook in next st, pull up a loop, (yo and pull through 2 loops) 3 times.",
    "dtr": "Yo 3 times, insert hook in next st, pull up a loop, (yo and pull through 2 loops) 4 times.",
    "trtr": "Yo 4 times, insert hook in next st, pull up a loop, (yo and pull through 2 loops) 5 times.",
}


@pytest.mark.parametrize("stitch", MOTIONS)
def test_the_table_is_what_the_motions_come_to(stitch: str) -> None:
    motions = read_motions(MOTIONS[stitch])
    assert motions is not None
    assert motions.loops == table()[stitch]


@pytest.mark.parametrize(("stitch", "legs"), [("sc", 2), ("hdc", 3), ("dc", 3), ("tr", 5)])
def test_drawn_together_each_leg_lacks_the_last_draw(stitch: str, legs: int) -> None:
    # By hand: every leg is worked but for its last draw, and one draw takes them all.
    assert named(f"{stitch}{legs}tog", "US", {}).loops == legs * (table()[stitch] - 1) + 1


@pytest.mark.parametrize(
    ("uk", "us"), [("dc", "sc"), ("htr", "hdc"), ("tr", "dc"), ("dtr", "tr"), ("trtr", "dtr"),
                   ("fpdc", "sc"), ("dc2tog", "sc2tog"), ("sl st", "sl st")]
)  # fmt: skip
def test_uk_names_are_those_of_other_us_stitches(uk: str, us: str) -> None:
    assert named(uk, "UK", {}).loops == named(us, "US", {}).loops


def test_chains_are_counted_one_by_one_and_skipped_places_take_nothing() -> None:
    five = looped(chains(5), "US", {}, "dc")
    assert five is not None
    assert (five.kind, five.loops) == ("ch", 5)
    assert looped(Stitch("skip", 1, ()), "US", {}, "dc") is None


def test_the_chains_skipped_at_a_foundation_are_part_of_it() -> None:
    top = turning_chain(3, "dc", counts=True)
    assert looped(Stitch("tch", 3, (), (top,)), "US", {}, "dc") is None
    made = looped(Stitch("tch", 1, plain("dc").feet, (top,)), "US", {}, "dc")
    assert made is not None
    assert made.loops == 3


def test_an_increase_and_a_decrease_are_in_the_stitch_of_the_row() -> None:
    text = """# Cap

US terms.

Rnd 1: 6 sc in ring. (6 sc)
Rnd 2: Inc in each st around. (12 sc)
Rnd 3: *Sc in next st, dec over next 2 sts; rep from * around. (8 sc)
"""
    from hookwright.yarn.counting import counted_rows  # noqa: PLC0415 - beside its text

    read = checked(text)
    rows = counted_rows(read, read.worked.sizes[0].outcomes)
    assert rows.unsure == ()
    loops = [sum(use.loops * use.number for use in row.uses) for row in rows.rows]
    assert loops == [12, 24, 4 * 2 + 4 * 3]


def test_a_stitch_that_nobody_defines_is_assumed_and_told() -> None:
    assert not named("bobble", "US", {}).known
    assert not named("no such stitch", "US", {}).known
    assert usual() <= table().keys()
