"""A count that is off: what each slip leaves, and how it is told back."""

from __future__ import annotations

from functools import cache, partial

import pytest
from examples_checked import NAMES, example
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from hookwright.answers.counting import TwoRows, two_rows, what_slips_leave
from hookwright.answers.diagnosis import diagnosed
from hookwright.answers.facts import Scope, Told
from hookwright.answers.halving import stitches_up_to, stretch_of
from hookwright.answers.motions import counted, course_of, worked_again
from hookwright.answers.off_count import off_count
from hookwright.answers.slips import Where, slips_in
from hookwright.checking import Checked
from hookwright.working.outcome import Outcome


def rows_that_differ(checked: Checked) -> list[tuple[int, TwoRows]]:
    outcomes = checked.worked.sizes[0].outcomes
    found: dict[object, tuple[int, TwoRows]] = {}
    for at in range(len(outcomes)):
        rows = two_rows(outcomes, at)
        if rows is not None:
            found.setdefault((rows.course.motions, rows.turned), (at, rows))
    return list(found.values())


@pytest.mark.parametrize("name", NAMES)
def test_a_row_without_a_slip_counts_as_the_pattern_does(name: str) -> None:
    for working in example(name).worked.sizes:
        for outcome in working.outcomes:
            course = course_of(outcome.worked) if outcome.worked is not None else None
            if course is not None and outcome.worked is not None:
                tops = worked_again(course, course.motions, course.places)
                assert counted(tops) == outcome.worked.row.makes


def told_for(
    outcomes: tuple[Outcome, ...], at: int, off: int, off_after: int | None
) -> list[Told]:
    made = outcomes[at].worked
    assert made is not None
    assert isinstance(made.row.makes, int)
    told = [Told(at, "", "", made.row.makes + off, made.row.makes, "")]
    after = outcomes[at + 1].worked if at + 1 < len(outcomes) else None
    if off_after is not None and after is not None and isinstance(after.row.makes, int):
        right = after.row.makes
        told.append(Told(at + 1, "", "", right + off_after, right, ""))
    return told


def told_back(
    outcomes: tuple[Outcome, ...], at: int, off: int, off_after: int | None
) -> set[Where]:
    """The classes of the first two suspects, of slips that are made once."""
    found = diagnosed(outcomes, told_for(outcomes, at, off, off_after))
    first_two = [one for one in found.suspects[:2] if one.scope is Scope.ONCE]
    return {where for suspect in first_two for where in suspect.where}


@pytest.mark.parametrize("name", NAMES)
def test_every_slip_is_among_the_first_two_suspects(name: str) -> None:
    # Each slip at every twentieth place; all places stand in benchmarks/bench_slips.py.
    checked = example(name)
    outcomes = checked.worked.sizes[0].outcomes
    by_chain = by_us = tried = 0
    for at, rows in rows_that_differ(checked)[:4]:
        known = cache(partial(told_back, outcomes, at))
        slips = tuple(slips_in(rows.course, first_row=rows.into_chain))
        for left in what_slips_leave(rows, slips[::20]):
            if not left.off:
                continue
            tried += 1
            by_us += left.slip.where in known(left.off, left.off_after)
            by_chain += left.slip.where in {Where.FIRST, Where.LAST}
    assert by_us == tried
    assert by_us > by_chain


def test_a_stitch_lost_in_every_row_is_an_end_of_it() -> None:
    # Common practice, no source: one more lost each row is the first stitch or the chain.
    reply = off_count(example("shingle-cloth"), "row 3: 34, row 4: 33", 0)
    assert any("In each row the last stitch" in line for line in reply.answer)


def test_one_lost_at_every_peak_is_told_as_such() -> None:
    # 9 waves: 181 less 9 is 172, less two at each of them 163.
    reply = off_count(example("turnstone-wave-throw"), "row 12: 163", 0)
    assert any("very peak was worked as a single stitch" in line for line in reply.answer)


def test_a_repeat_left_out_is_told_by_its_stitches() -> None:
    # A fan and the sc behind it are 6 dc and 1 sc: 36 less 7.
    reply = off_count(example("fulmar-lace-scarf"), "row 6: 29", 0)
    assert any("One repeat was left out" in line for line in reply.answer)


def test_a_stitch_lost_in_plain_rows_may_be_mended_where_one_is() -> None:
    plain = off_count(example("skerry-yoke-tee"), "body round 5: 107, body round 6: 107", 0)
    waves = off_count(example("turnstone-wave-throw"), "row 12: 180", 0)
    assert any(line.startswith("Or leave it") for line in plain.answer)
    assert not any(line.startswith("Or leave it") for line in waves.answer)


def test_a_row_is_halved_to_find_the_place() -> None:
    # By hand: 1 and 8 and 3 and 8 before the repeats, 1 and 8 and 3 and 8 in each of them.
    reply = off_count(example("turnstone-wave-throw"), "row 4: 182, row 5: 182", 0)
    assert any("end of repeat 4 of 8 there are 100 stitches" in a for a in reply.answer)
    assert any("repeat 2: 60, repeat 6: 140" in a for a in reply.answer)


def test_halving_leads_to_the_stretch_that_a_slip_lies_in() -> None:
    outcomes = example("turnstone-wave-throw").worked.sizes[0].outcomes
    rows = two_rows(outcomes, 3)
    assert rows is not None
    course = rows.course
    for slip in tuple(slips_in(course))[::7]:
        at = stretch_of(course.motions, slip.at)
        ends = stitches_up_to(course)
        before = [n for n in range(len(ends)) if n < at]
        made = stitches_up_to(replace(course, motions=slip.motions))
        if slip.where is not Where.REPEAT:
            assert [made[n] for n in before] == [ends[n] for n in before]


def test_a_right_count_is_told_right() -> None:
    reply = off_count(example("petrel-cap"), "rnd 7: 56", 0)
    assert reply.answer[0].endswith("your count is right.")


@pytest.mark.parametrize("words", ["", "row twelve", "row 999: 3", "yoke row 2: 5"])
def test_what_tells_no_count_says_what_to_write(words: str) -> None:
    reply = off_count(example("puffling"), words, 0)
    assert not reply.answered
    assert "row 12: 176" in reply.answer[1]


@settings(max_examples=8)
@given(st.integers(1, 110), st.integers(0, 999_999), st.integers(0, 400))
def test_any_counts_are_answered(row: int, first: int, second: int) -> None:
    reply = off_count(
        example("turnstone-wave-throw"), f"row {row}: {first}, row {row + 1}: {second}", 0
    )
    assert reply.answer
