"""Runs, repeats and groups, held against the same items written out one by one.

The outside check is counting by hand: whatever is done to a line without unrolling it must
leave the items that unrolling it would show.
"""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from hookwright.working.count import Count, Linear
from hookwright.working.sequence import (
    Group,
    Line,
    Piece,
    Repeat,
    Run,
    convert,
    every,
    join,
    piece_times,
    reverse,
    split,
    tally,
    total,
    unrolled,
)

WEIGHTS = {"sc": 1, "dc": 1, "space": 0}
ITEMS = st.sampled_from(sorted(WEIGHTS))
RUNS = st.builds(Run, ITEMS, st.integers(0, 3))


def longer(pieces: st.SearchStrategy[Piece[str]]) -> st.SearchStrategy[Piece[str]]:
    bodies = st.lists(pieces, max_size=3).map(tuple)
    repeats = st.builds(Repeat, bodies, st.integers(0, 4))
    names = st.sampled_from(["", "shell"])
    return repeats | st.builds(Group, bodies, names)


PIECES: st.SearchStrategy[Piece[str]] = st.recursive(RUNS, longer, max_leaves=8)
LINES: st.SearchStrategy[Line[str]] = st.lists(PIECES, max_size=5).map(tuple)


def weight(item: str) -> int:
    return WEIGHTS[item]


def written_out(line: Line[str]) -> list[str]:
    return list(unrolled(line, 1_000_000))


@given(LINES)
def test_joining_keeps_every_item_in_its_place(line: Line[str]) -> None:
    assert written_out(join(line)) == written_out(line)


@given(LINES)
def test_a_joined_line_cannot_be_joined_further(line: Line[str]) -> None:
    assert join(join(line)) == join(line)


@given(LINES)
def test_nothing_in_a_joined_line_stands_no_times(line: Line[str]) -> None:
    assert all(piece_times(piece) for piece in join(line))


@given(LINES)
def test_reversing_reads_the_items_from_the_other_end(line: Line[str]) -> None:
    assert written_out(reverse(line)) == written_out(line)[::-1]
    assert reverse(reverse(line)) == line


@given(LINES)
def test_a_total_is_the_sum_over_the_items(line: Line[str]) -> None:
    items = written_out(line)
    assert total(line, every) == len(items)
    assert total(line, weight) == sum(map(weight, items))


@given(LINES)
def test_a_tally_counts_each_kind_in_order_of_appearance(line: Line[str]) -> None:
    items = written_out(line)
    counts = tally(line, str)
    assert counts == Counter(items)
    assert list(counts) == list(dict.fromkeys(items))


@given(LINES)
def test_a_tally_leaves_out_what_has_no_name(line: Line[str]) -> None:
    named = tally(line, lambda item: item if weight(item) else "")
    assert "space" not in named
    assert sum(count for count in named.values() if isinstance(count, int)) == total(
        line, weight
    )


def tall_and_short(run: Run[str]) -> Line[str]:
    """Two items for every dc, the item itself for sc, nothing for a space."""
    if run.item == "dc":
        return (Repeat((Run("ch"), Run("tr")), run.times),)
    return (run,) if run.item == "sc" else ()


@given(LINES)
def test_converting_changes_each_item_where_it_stands(line: Line[str]) -> None:
    changes = {"dc": ["ch", "tr"], "sc": ["sc"], "space": []}
    expected = [new for item in written_out(line) for new in changes[item]]
    assert written_out(convert(line, tall_and_short)) == expected


@given(LINES, st.integers(-2, 40))
def test_a_cut_loses_nothing_and_falls_where_it_was_asked_for(
    line: Line[str], count: int
) -> None:
    halves = split(line, count, weight)
    assert halves is not None
    left, right = map(written_out, halves)
    items = written_out(line)
    assert left + right == items
    assert sum(map(weight, left)) == max(0, min(count, sum(map(weight, items))))


@given(LINES, st.integers(1, 40))
def test_spaces_after_a_cut_go_with_the_second_half(line: Line[str], count: int) -> None:
    left, right = split(line, count, weight) or ((), ())
    if any(map(weight, written_out(right))):
        assert written_out(left)[-1] != "space"


@given(LINES, st.integers(0, 40))
def test_a_cut_by_items_is_a_slice(line: Line[str], count: int) -> None:
    left, right = split(line, count) or ((), ())
    assert written_out(left) == written_out(line)[:count]
    assert written_out(right) == written_out(line)[count:]


GROWING = st.builds(Linear.of, st.integers(0, 3), st.integers(0, 2))
BODIES: st.SearchStrategy[Line[str]] = st.lists(RUNS, max_size=3).map(tuple)
GROWING_PIECES: st.SearchStrategy[Piece[str]] = st.one_of(
    st.builds(Run, ITEMS, GROWING),
    st.builds(Repeat, BODIES, GROWING),
    st.builds(Group, BODIES),
)
GROWING_LINES: st.SearchStrategy[Line[str]] = st.lists(GROWING_PIECES, max_size=3).map(
    tuple
)


def at(line: Line[str], repeats: int) -> Line[str]:
    """The line for one repeat count."""
    return tuple(_piece_at(piece, repeats) for piece in line)


def _piece_at(piece: Piece[str], repeats: int) -> Piece[str]:
    if isinstance(piece, Group) or isinstance(piece.times, int):
        return piece
    times = piece.times.at(repeats)
    return Run(piece.item, times) if isinstance(piece, Run) else Repeat(piece.body, times)


def number(count: Count, repeats: int) -> int:
    return count.at(repeats) if isinstance(count, Linear) else count


@given(GROWING_LINES, st.integers(0, 6))
def test_a_growing_line_adds_up_as_its_plain_lines_do(
    line: Line[str], repeats: int
) -> None:
    items = written_out(at(line, repeats))
    assert number(total(line, weight), repeats) == sum(map(weight, items))
    counts = {kind: number(count, repeats) for kind, count in tally(line, str).items()}
    assert {kind: count for kind, count in counts.items() if count} == Counter(items)


@given(GROWING_LINES, st.integers(0, 6))
def test_joining_and_reversing_do_not_ask_how_often(line: Line[str], repeats: int) -> None:
    items = written_out(at(line, repeats))
    assert written_out(at(join(line), repeats)) == items
    assert written_out(at(reverse(line), repeats)) == items[::-1]


@given(GROWING_LINES, GROWING)
def test_a_cut_of_a_growing_line_is_the_cut_of_its_plain_lines(
    line: Line[str], count: Count
) -> None:
    halves = split(line, count, weight)
    if halves is None:
        return
    # Large enough: a form with one more k is the greater one from here on.
    repeats = number(total(line, weight), 0) + number(count, 0) + 1
    left, right = (written_out(at(half, repeats)) for half in halves)
    items = written_out(at(line, repeats))
    assert left + right == items
    assert sum(map(weight, left)) == min(number(count, repeats), sum(map(weight, items)))


SHELL = Group((Run("dc", 3), Run("space"), Run("dc", 3)), "shell")


def test_a_shell_cut_in_two_is_whole_on_neither_side() -> None:
    left, right = split((SHELL, SHELL), 9, weight) or ((), ())
    assert left == (SHELL, Group((Run("dc", 3),), "shell", whole=False))
    assert right == (Group((Run("space"), Run("dc", 3)), "shell", whole=False),)


def test_like_groups_side_by_side_become_one_repeat() -> None:
    four = (Repeat((SHELL,), 4),)
    assert join((SHELL, Repeat((SHELL,), 3))) == four
    assert join((Repeat((SHELL,), 3), SHELL)) == four
    assert join((SHELL,) * 4) == four


def test_a_cut_between_shells_leaves_both_whole() -> None:
    assert split((SHELL, SHELL), 6, weight) == ((SHELL,), (SHELL,))


def test_a_cut_through_a_space_that_counts_two_is_refused() -> None:
    mesh: Line[str] = (Repeat((Run("ch 2 space"), Run("dc")), 5),)
    weights = {"ch 2 space": 2, "dc": 1}
    assert split(mesh, 4, weights.__getitem__) is None
    assert split(mesh, 5, weights.__getitem__) == (
        (Run("ch 2 space"), Run("dc"), Run("ch 2 space")),
        (Run("dc"), Repeat((Run("ch 2 space"), Run("dc")), 3)),
    )


def test_a_cut_through_such_a_space_inside_a_group_is_refused_too() -> None:
    shell: Line[str] = (Group((Run("dc"), Run("ch 2 space"), Run("dc"))),)
    assert split(shell, 2, {"ch 2 space": 2, "dc": 1}.__getitem__) is None


def test_a_cut_that_moves_about_in_the_repeat_is_refused() -> None:
    wave: Line[str] = (Repeat((Run("dc", 15), Run("sc")), Linear(0, 1)),)
    assert split(wave, Linear(0, 8)) is None
    assert split(wave, Linear(-1, 16)) == (
        (Repeat((Run("dc", 15), Run("sc")), Linear(-1, 1)), Run("dc", 15)),
        (Run("sc"),),
    )


def test_a_repeat_worked_nine_hundred_million_times_is_cut_without_unrolling() -> None:
    body: Line[str] = (Run("dc", 5), Run("sc"))
    left, right = split((Repeat(body, 900_000_000),), 5_000_000_002) or ((), ())
    assert total(left, every) == 5_000_000_002
    assert total(right, every) == 6 * 900_000_000 - 5_000_000_002
    assert len(left) + len(right) <= 6


def test_a_repeat_of_nothing_is_gone_after_joining() -> None:
    line: Line[str] = (Repeat((), 900_000_000), Run("sc"))
    assert join(line) == (Run("sc"),)
