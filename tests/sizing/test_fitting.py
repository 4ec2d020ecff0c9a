"""Numbers about a wish: nearest, below and above."""

from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st
from sizing_texts import STRIP, checked, of_multiple

from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.fitting import bracket, is_too_small
from hookwright.sizing.long_chain import long_chain
from hookwright.sizing.row_family import row_families

LENGTHS = st.fractions(min_value=1, max_value=5000, max_denominator=16)
EACH = st.fractions(min_value=Fraction(1, 2), max_value=300, max_denominator=16)


@given(LENGTHS, EACH, st.fractions(min_value=0, max_value=60, max_denominator=16))
def test_the_wish_lies_between_below_and_above(
    wanted: Fraction, each: Fraction, beside: Fraction
) -> None:
    found = bracket(wanted, each, beside, 0)
    assume(found.below is not None)
    assert found.below is not None
    assert found.below * each + beside <= wanted <= found.above * each + beside
    assert found.above - found.below <= 1
    assert found.nearest in {found.below, found.above}
    off = abs(found.nearest * each + beside - wanted)
    assert off <= each / 2


def test_of_two_that_differ_alike_the_smaller_is_taken() -> None:
    assert bracket(Fraction(325, 2), Fraction(1)).nearest == 162


def test_the_least_is_never_gone_below() -> None:
    found = bracket(Fraction(10), Fraction(20), least=3)
    assert (found.below, found.nearest, found.above) == (None, 3, 3)
    assert is_too_small(Fraction(10), Fraction(60))
    assert not is_too_small(Fraction(58), Fraction(60))


@given(
    each=st.integers(1, 12), extra=st.integers(0, 20), sets=st.integers(1, 60),
    is_round=st.booleans(), wanted=st.integers(1, 900),
)  # fmt: skip
def test_rows_stay_in_sets_and_on_their_side(
    each: int, extra: int, sets: int, wanted: int, *, is_round: bool
) -> None:
    part = of_multiple((1, 0), rows=(each, extra), sets=sets, is_round=is_round)
    now = each * sets + extra
    (family, *_) = row_families(part, checked(STRIP))
    found = bracket(
        Fraction(wanted), Fraction(family.rows.each), Fraction(family.rows.extra),
        family.rows.least,
    )  # fmt: skip
    rows = family.rows.at(found.nearest)
    assert (rows - extra) % each == 0
    assert rows >= each + extra
    if not is_round and now >= 4:
        assert rows % 2 == now % 2


STRIPED = STRIP.replace(
    "Ch 21.",
    "Stripe sequence: 2 rows A, 3 rows B. Work this sequence 3 times, then 2 rows A.\n\nCh 21.",
)


def test_rows_end_the_stripes_as_they_end_now() -> None:
    part = of_multiple((1, 0), sets=17)
    striped, plain = row_families(part, checked(STRIPED))
    # 17 = 3 sequences of 5 and 2 more; rows that stay odd and end alike differ by 10.
    assert (striped.rows.each, striped.rows.extra) == (10, 7)
    assert (striped.sequence, striped.rest) == (5, 2)
    assert "stripe sequences of 5 and 2 more" in striped.said
    assert plain.rows.each == 2
    assert "cut short" in plain.said


@given(each=st.integers(1, 60), extra=st.integers(0, 9), repeats=st.integers(1, 60))
def test_markers_part_a_chain_into_whole_repeats(
    each: int, extra: int, repeats: int
) -> None:
    chain = long_chain(Multiple(each, extra), repeats)
    assert chain.chains == each * repeats + extra
    if chain.every:
        assert chain.every % each == 0
        assert chain.every * chain.markers + chain.behind == chain.chains
        assert 0 <= chain.behind < chain.every
        assert 14 <= chain.every <= 30 or chain.every == each


def test_a_part_without_rows_has_no_family() -> None:
    assert row_families(PartMultiple("", stitches=Multiple(1, 0)), checked(STRIP)) == ()
