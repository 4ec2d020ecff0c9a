"""Usual sizes by their names."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sizing_texts import STRIP, sized

from hookwright.sizing.named_sizes import (
    also_of,
    caution,
    eases,
    kinds,
    likeliest,
    sizes_named,
    usual_sizes,
)

INCH = Fraction(254, 10)
FEET = ("4-5", "5-6.5", "6-7.5", "7-8.5", "8-9.5")


def named(words: str, likely: tuple[str, ...] = ()) -> str:
    return ", ".join(f"{size.kind} {size.name}" for size in sizes_named(words, likely))


@pytest.mark.parametrize(
    ("words", "size"),
    [
        ("throw", "blanket throw"),
        ("Throw blanket", "blanket throw"),
        ("cot", "blanket crib"),
        ("bed queen", "bed queen"),
        ("queen bed", "bed queen"),
        ("single", "blanket twin"),
        ("child hat", "hat child"),
        ("hat, child", "hat child"),
        ("beanie for a man", "hat man"),
        ("woman's hat", "hat woman"),
        ("woman M", "body woman M"),
        ("body woman m", "body woman M"),
        ("sock man", "sock man"),
        (
            "socks",
            ", ".join(
                f"sock {name}"
                for name in (*(f"child {foot}" for foot in FEET), "woman", "man")
            ),
        ),
        ("sock child 6-7.5", "sock child 6-7.5"),
        ("zzz", ""),
        ("", ""),
    ],
)
def test_a_name_is_told_with_its_kind_or_alone(words: str, size: str) -> None:
    assert named(words) == size


def test_a_name_of_two_kinds_is_taken_for_what_the_pattern_is() -> None:
    assert named("toddler") == "blanket toddler"
    assert named("toddler", ("hat",)) == "hat toddler"
    (taken,) = sizes_named("toddler")
    assert {other.kind for other in also_of("toddler", taken)} == {"hat", "mitten"}


@pytest.mark.parametrize(
    ("words", "meant"),
    [("trow", "throw"), ("qeen", "queen"), ("tohddler", "toddler"), ("hatt", "hat")],
)
def test_a_misspelt_name_is_told_the_likeliest(words: str, meant: str) -> None:
    assert likeliest(words) == meant


@given(st.text(max_size=30))
def test_no_name_raises(words: str) -> None:
    assert isinstance(sizes_named(words), tuple)
    assert isinstance(likeliest(words), str)


def test_every_size_can_be_asked_for_by_its_kind_and_name() -> None:
    for size in usual_sizes():
        assert sizes_named(f"{size.kind} {size.name}") == (size,)


def test_every_size_has_lengths_that_are_possible() -> None:
    assert len(kinds()) >= 10
    for size in usual_sizes():
        told = [size.width, size.length, size.around, size.height, *(size.chest or ())]
        known = [mm for mm in told if mm is not None]
        assert known
        assert all(2 * INCH <= mm <= 120 * INCH for mm in known), size


# Source: beginning chain counts worksheet, thecrochetcrowd.com: beds with drape, in inches.
@pytest.mark.parametrize(
    ("bed", "width", "length"),
    [("crib", 36, 54), ("twin", 69, 90), ("full", 84, 90), ("queen", 90, 95), ("king", 106, 95)],
)  # fmt: skip
def test_beds_have_their_drape(bed: str, width: int, length: int) -> None:
    (size,) = sizes_named(f"bed {bed}")
    assert (size.width, size.length) == (width * INCH, length * INCH)
    assert size.mattress is not None
    assert size.mattress[0] < width * INCH


def test_a_throw_is_fifty_by_sixty() -> None:
    # Source: three pages agree (bettereatinghabits.com, how.edu.vn, edinyarnfest.com).
    (size,) = sizes_named("throw")
    assert (size.width, size.length) == (50 * INCH, 60 * INCH)


def test_hats_are_under_the_head_and_four_tenths_of_it_high() -> None:
    # Source: hookthatyarn.wordpress.com 2016/06/09: height = head x 4 / 10, about an inch
    # smaller than the head.
    for size in sizes_named("hats"):
        assert size.fits is not None
        assert size.around is not None
        assert size.height is not None
        head = sum(size.fits) / 2
        assert INCH / 2 <= head - size.around <= 2 * INCH
        assert Fraction(3, 10) <= size.height / head <= Fraction(44, 100)


@pytest.mark.parametrize(
    ("name", "foot"),
    [("4-5", 4.5), ("5-6.5", 5.75), ("6-7.5", 6.75), ("7-8.5", 7.75), ("8-9.5", 8.75)],
)
def test_childrens_socks_are_as_around_as_the_foot(name: str, foot: float) -> None:
    """Foot lengths of children's sock sizes: a reader's note of a child's table,
    mindingmyownstitches.blogspot.com/2009/02. Foot around = 0.95 of its length:
    knitty.com/sizing.php.
    """
    (size,) = sizes_named(f"child sock {name}")
    assert size.height is not None
    assert size.around is not None
    assert float(size.height / INCH) == foot
    assert float(size.around / size.height) == pytest.approx(0.95)


def test_a_name_that_several_sizes_share_stands_for_all_of_them() -> None:
    assert len(sizes_named("child socks")) == 5
    assert named("child", ("hat", "sock")) == "hat child"
    assert len(sizes_named("child", ("sock",))) == 5


def test_eases_follow_one_another() -> None:
    fits = eases()
    assert [fit.fit for fit in fits] == [
        "very close",
        "close",
        "classic",
        "loose",
        "oversized",
    ]
    assert all(a.most == b.least for a, b in pairwise(fits))


def test_a_size_for_a_baby_is_told_with_its_cautions_once() -> None:
    found = sized(STRIP, sizes=("cot", "baby", "throw"))
    assert found.cautions == (caution("sleep"), caution("openings"))
    assert re.search("12 months.*final", found.cautions[0])
    assert sized(STRIP, sizes=("throw",)).cautions == ()
    assert sized(STRIP, sizes=("hat newborn",)).cautions == (caution("openings"),)
