"""Colours add up to the whole, and a larger size never takes less of any colour."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from yarn_texts import checked, plain, planned, sheet

from hookwright.checking import check
from hookwright.design.stripes import Stripe
from hookwright.reading import read_draft
from hookwright.sizing.multiples import growth_of
from hookwright.sizing.rewriting import SizeWritten, rewritten
from hookwright.yarn.counting import counted_rows
from hookwright.yarn.facts import RowUsed, SizeCounted
from hookwright.yarn.known import known_yarns
from hookwright.yarn.needing import Terms, need_of
from hookwright.yarn.planning import yarn_plan
from hookwright.yarn.resizing import Resizer, resizer_of
from hookwright.yarn.stripes import Stripes, in_stripes

EXAMPLES = Path(__file__).parents[2] / "examples"
LETTERS = "ABCD"
READ = checked(plain(20, 24), sheet(LETTERS))
KNOWN = known_yarns(READ)
RESIZER = resizer_of(READ, growth_of(READ, 0), 0)
LAWS = dict(yarn_plan(READ).laws)
TERMS = Terms(KNOWN, LAWS, Fraction(1, 10), Fraction(150))

ROWS = some.lists(
    some.tuples(some.integers(1, 6), some.sampled_from(LETTERS)), min_size=1, max_size=6
)


def needs(stripes: Stripes, repeats: int, rows: int) -> dict[str, Fraction]:
    """The likeliest length of each colour."""
    made = in_stripes(RESIZER.sized(repeats, rows), stripes, KNOWN, 0)
    need = need_of(SizeCounted("", made), TERMS)
    assert need.length.mid == sum(colour.length.mid for colour in need.colours)
    assert need.length.low == sum(colour.length.low for colour in need.colours)
    loops = sum(use.loops * use.number for row in made for use in row.uses)
    assert loops == sum(u.loops * u.number for c in need.colours for u in c.uses)
    return {colour.yarn.label: colour.length.mid for colour in need.colours}


@settings(max_examples=60)
@given(
    ROWS, some.integers(0, 6), some.integers(2, 40), some.integers(8, 90),
    some.integers(0, 20), some.integers(0, 40),
)  # fmt: skip
def test_under_one_sequence_no_colour_takes_less_in_a_larger_size(
    told: list[tuple[int, str]],
    after: int,
    repeats: int,
    rows: int,
    wider: int,
    higher: int,
) -> None:
    first = told[0][1]
    stripes = Stripes(
        tuple(Stripe(n, colour) for n, colour in told),
        (Stripe(after, first),) if after else (),
    )
    small = needs(stripes, repeats, rows)
    large = needs(stripes, repeats + wider, rows + higher)
    for label, length in small.items():
        assert large[label] >= length


def loops_of(rows: tuple[RowUsed, ...]) -> list[Fraction | int]:
    """The loops of each row."""
    return [sum(use.loops * use.number for use in row.uses) for row in rows]


def of_example(name: str) -> tuple[Resizer, SizeWritten, tuple[RowUsed, ...]]:
    """A pattern that can be resized, a size of it, and the rows of its text in that size."""
    read = check(read_draft(EXAMPLES / name))
    growth = growth_of(read, 0)
    part = next(n for n, own in growth.parts.items() if not own.reason)
    own = growth.parts[part]
    wanted = SizeWritten("", own.repeats + 3, own.set_repeats + 40)
    text = rewritten(read, [wanted], {0: growth})
    if text.checked is None:
        wanted = SizeWritten("", own.repeats + 3)
        text = rewritten(read, [wanted], {0: growth})
    assert text.checked is not None
    rows = counted_rows(text.checked, text.checked.worked.sizes[0].outcomes).rows
    return resizer_of(read, growth, part), wanted, rows


@pytest.mark.parametrize(
    "name",
    ["turnstone-wave-throw.md", "fulmar-lace-scarf.md", "low-water-blanket/pattern.md"],
)
def test_a_size_that_nobody_made_has_the_stitches_of_its_text(name: str) -> None:
    # The other way to the same: the text is written with the numbers of the size, read and
    # worked anew, and its stitches are counted.
    resizer, wanted, rows = of_example(name)
    high = None
    if wanted.set_repeats is not None:
        others = len(resizer.rows) - len(resizer.body)
        high = len(rows) - others
    found = resizer.sized(wanted.repeats, high)
    assert loops_of(found) == loops_of(rows)


def test_an_edging_along_the_ends_of_rows_grows_with_them() -> None:
    read = check(read_draft(EXAMPLES / "shingle-cloth.md"))
    resizer = resizer_of(read, growth_of(read, 0), 0)
    edging = resizer.sized(None, 2 * 37)[-1]
    many = {use.kind: use.number for use in edging.uses}
    # By hand: 37 + 35 + 37 + 35 stitches round 37 rows, 74 + 35 + 74 + 35 round 74 of them.
    assert many["sc"] == 218


def test_a_row_in_its_own_yarn_keeps_it_and_the_foundation_goes_with_its_row() -> None:
    line = "2 rows B, 2 rows A. Work this sequence 2 times in all: 8 rows."
    (size,) = planned(plain(20, 8, line), sheet("AB")).sizes
    uses = {c.yarn.label: {u.kind: int(u.number) for u in c.uses} for c in size.colours}
    assert uses["B"]["foundation ch"] == 21
    assert "foundation ch" not in uses["A"]
    assert uses["A"]["sc"] == uses["B"]["sc"] == 4 * 20


def test_sizes_of_a_text_are_counted_each_as_they_are_worked() -> None:
    pattern = (EXAMPLES / "petrel-cap.md").read_text("utf-8")
    sizes = planned(pattern).sizes
    assert [size.counted.name for size in sizes] == [
        "Baby", "Toddler", "Child", "Adult", "Large",
    ]  # fmt: skip
    lengths = [size.length.mid for size in sizes]
    assert lengths == sorted(lengths)


def test_from_a_row_on_is_the_whole_less_what_is_worked() -> None:
    from hookwright.yarn.planning import Request  # noqa: PLC0415 - of this test alone

    (whole,) = planned(plain(20, 24), sheet("A")).sizes
    (rest,) = planned(plain(20, 24), sheet("A"), Request(from_row=13)).sizes
    loop = dict(planned(plain(20, 24), sheet("A")).laws)["A"].at("sc").mm
    turning = dict(planned(plain(20, 24), sheet("A")).laws)["A"].at("turning ch").mm
    done = turning * (21 + 11) + loop * 12 * 20 * 2
    assert whole.length.mid - rest.length.mid == done
    assert rest.counted.rows[0].label == "Row 13"


@settings(max_examples=20)
@given(some.integers(1, 24))
def test_what_is_left_to_work_grows_less_from_row_to_row(row: int) -> None:
    from hookwright.yarn.planning import Request  # noqa: PLC0415 - of this test alone

    (rest,) = planned(plain(20, 25), sheet("A"), Request(from_row=row)).sizes
    (less,) = planned(plain(20, 25), sheet("A"), Request(from_row=row + 1)).sizes
    assert less.length.mid < rest.length.mid
