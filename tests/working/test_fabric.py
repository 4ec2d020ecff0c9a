"""Places, stitches, edges, rows: what a row uses, makes, stands on and leaves.

The outside check is counting along a drawn row by hand, or the same row written out.
"""

from itertools import accumulate

from hypothesis import given
from hypothesis import strategies as st

from hookwright.source import Span
from hookwright.working.count import Linear
from hookwright.working.fabric import (
    CHAIN,
    PASS,
    PASS_SPACE,
    PASS_UNCOUNTED,
    SKIP,
    SLIP_TO_JOIN,
    WORKED_CHAIN,
    Edge,
    Foot,
    Into,
    Part,
    Place,
    PlaceKind,
    Row,
    Stitch,
    chains,
    counted_with_chains,
    foundation,
    in_space,
    plain,
    ring,
    row_ends,
    same_place,
    slip_to_travel,
    space,
    standings,
    together,
    top,
    turning_chain,
    underside,
)
from hookwright.working.sequence import Group, Line, Piece, Repeat, Run, every, unrolled

DC = plain("dc")
V_STITCH = Group((Run(in_space("dc")), Run(chains(1)), Run(same_place("dc"))), "V-st")
CABLE = Stitch(
    "cable", 4, (Foot(2), Foot(3), Foot(0), Foot(1)), tuple(top("FPdc") for _ in range(4))
)
STITCHES = st.sampled_from(
    [
        DC,
        same_place("dc"),
        together("dc3tog", 3),
        chains(2),
        in_space("dc"),
        SKIP,
        PASS_SPACE,
        PASS_UNCOUNTED,
        WORKED_CHAIN,
        slip_to_travel(),
        CABLE,
    ]
)
YARNS = st.sampled_from([None, "fog", "kelp"])
RUNS = st.builds(
    lambda stitch, times, yarn: Run(stitch, times, None, yarn),
    STITCHES,
    st.integers(0, 3),
    YARNS,
)


def longer(pieces: st.SearchStrategy[Piece[Stitch]]) -> st.SearchStrategy[Piece[Stitch]]:
    bodies = st.lists(pieces, max_size=3).map(tuple)
    return st.builds(Repeat, bodies, st.integers(0, 4)) | st.builds(Group, bodies)


PIECES: st.SearchStrategy[Piece[Stitch]] = st.recursive(RUNS, longer, max_leaves=8)
ROWS: st.SearchStrategy[Row] = st.lists(PIECES, max_size=5).map(
    lambda line: Row(tuple(line))
)


def row(*pieces: Piece[Stitch]) -> Row:
    return Row(pieces)


def feet(of: Row) -> list[int]:
    return [standing.foot for standing in standings(of)]


def heads(of: Row) -> list[int]:
    return [standing.head for standing in standings(of)]


def places(edge: Edge) -> list[Place]:
    return list(unrolled(edge.line, 1_000_000))


# Feet.


def test_each_stitch_of_a_plain_row_stands_on_its_own_place() -> None:
    assert feet(row(Run(DC, 4))) == heads(row(Run(DC, 4))) == [0, 1, 2, 3]


def test_stitches_in_one_place_share_their_foot() -> None:
    shell = row(Run(DC), Group((Run(DC), Run(same_place("dc"), 2))), Run(DC))
    assert feet(shell) == [0, 1, 1, 1, 2]
    assert heads(shell) == [0, 1, 2, 3, 4]


def test_stitches_worked_together_share_their_head() -> None:
    valley = row(Run(DC), Run(together("dc3tog", 3)), Run(DC))
    assert feet(valley) == [0, 1, 2, 3, 4]
    assert heads(valley) == [0, 1, 1, 1, 2]


def test_a_cable_gives_every_leg_its_own_head() -> None:
    assert feet(row(Run(DC), Run(CABLE))) == [0, 3, 4, 1, 2]
    assert heads(row(Run(DC), Run(CABLE))) == [0, 1, 2, 3, 4]


def test_a_group_in_a_space_stands_on_the_place_of_the_space() -> None:
    # Below: dc, ch-1 space, dc; the V-stitch passes the first dc by.
    v_row = row(Run(PASS), V_STITCH, Run(DC))
    assert feet(v_row) == [1, 1, 2]
    assert heads(v_row) == [0, 2, 3]


def test_skipped_and_passed_places_move_the_next_foot_on() -> None:
    assert feet(row(Run(SKIP, 2), Run(PASS_SPACE), Run(DC))) == [3]


def test_a_turning_chain_that_does_not_count_is_still_stepped_over() -> None:
    over = row(Run(PASS_UNCOUNTED), Run(DC, 2))
    assert feet(over) == [1, 2]
    assert over.uses == 2


def test_chains_and_joins_stand_on_nothing() -> None:
    assert standings(row(Run(chains(3)), Run(WORKED_CHAIN, 5), Run(SLIP_TO_JOIN))) == ()


def test_a_foot_knows_its_words_and_how_far_down_it_goes() -> None:
    spike = plain("spike sc", Into.WHOLE, down=2)
    (foot,) = standings(row(Run(spike, 1, Span(7, 15))))
    assert (foot.stitch, foot.down, foot.span) == (spike, 2, Span(7, 15))


# Windows of a row.


@given(ROWS, st.integers(0, 30), st.integers(0, 30))
def test_a_window_shows_what_the_whole_row_shows_there(
    whole: Row, start: int, limit: int
) -> None:
    movements = list(unrolled(whole.line, 1_000_000))
    ends = [0, *accumulate(len(stitch.feet) for stitch in movements)]
    first = ends[min(start, len(movements))]
    last = ends[min(start + limit, len(movements))]
    assert standings(whole, limit, start) == standings(whole)[first:last]


def test_a_window_in_the_middle_of_nine_hundred_million_repeats_costs_nothing_more() -> (
    None
):
    long_row = row(Repeat((Run(DC, 3), Run(together("dc2tog", 2))), 900_000_000))
    # A repeat is 4 movements, uses 5 and makes 4: repeat 500 million begins there.
    third, decrease, *_ = standings(long_row, 2, 4 * 500_000_000 + 2)
    assert (third.head, third.foot) == (2_000_000_002, 2_500_000_002)
    assert (decrease.head, decrease.foot) == (2_000_000_003, 2_500_000_003)


def test_a_window_shows_nothing_of_a_repeat_without_a_number() -> None:
    growing = row(Run(DC, 2), Repeat((Run(DC), Run(SKIP)), Linear(0, 1)))
    assert feet(growing) == [0, 1]
    nested = row(Repeat((Run(DC, Linear(0, 1)), Run(SKIP)), 2))
    assert standings(nested, 5, 5) == ()


# Rows.


@given(ROWS)
def test_what_a_row_uses_and_makes_is_the_sum_over_its_movements(whole: Row) -> None:
    movements = list(unrolled(whole.line, 1_000_000))
    made = [head for stitch in movements for head in stitch.heads]
    assert whole.uses == sum(stitch.passes for stitch in movements)
    assert whole.uses_spaces == sum(stitch.spaces for stitch in movements)
    assert whole.makes == sum(head.counts for head in made)
    assert whole.spaces == sum(head.kind is PlaceKind.SPACE for head in made)


@given(ROWS)
def test_the_edge_of_a_row_is_its_heads_in_working_order(whole: Row) -> None:
    movements = unrolled(whole.line, 1_000_000)
    edge = whole.edge()
    assert places(edge) == [head for stitch in movements for head in stitch.heads]
    assert (edge.stitches, edge.spaces) == (whole.makes, whole.spaces)


@given(ROWS)
def test_every_stitch_made_is_made_with_one_yarn(whole: Row) -> None:
    by_yarn = dict(whole.yarns())
    assert len(by_yarn) == len(whole.yarns())
    assert sum(count for count in by_yarn.values() if isinstance(count, int)) == whole.makes


def test_yarns_come_in_the_order_they_are_worked() -> None:
    striped = row(
        Run(DC, 2, yarn="kelp"),
        Run(SKIP, 1, yarn="oilskin"),
        Repeat((Run(DC, 3, yarn="fog"), Group((Run(DC, yarn="kelp"),))), 4),
        Run(chains(2), 1, yarn="oilskin"),
    )
    assert striped.yarns() == (("kelp", 6), ("fog", 12))


def test_kinds_leave_spaces_and_skips_out() -> None:
    mixed = row(Run(DC, 3), Run(chains(2)), Run(SKIP, 2), Run(together("dc2tog", 2)))
    assert mixed.kinds() == {"dc": 3, "dc2tog": 1}


def test_a_row_closes_when_it_uses_every_stitch() -> None:
    edge = foundation(20)
    assert row(Run(SKIP, 3), Run(DC, 17)).closes_over(edge)
    assert not row(Run(DC, 19)).closes_over(edge)
    assert not row(Run(DC, 21)).closes_over(edge)


def test_a_row_may_leave_spaces_but_never_use_more_than_there_are() -> None:
    mesh = row(Repeat((Run(DC), Run(chains(1))), 4), Run(DC)).edge().turned()
    assert row(Run(DC, 5)).closes_over(mesh)
    fits = row(Repeat((Run(PASS), Run(in_space("dc"))), 4), Run(PASS))
    assert fits.closes_over(mesh)
    assert not row(Repeat((Run(PASS), Run(in_space("dc"))), 5)).closes_over(mesh)


def test_a_row_over_growing_chains_closes_for_every_repeat_count() -> None:
    ripple = row(Run(SKIP), Repeat((Run(DC, 12),), Linear(0, 1)), Run(DC))
    assert ripple.closes_over(foundation(Linear(2, 12)))
    assert not ripple.closes_over(foundation(Linear(3, 12)))
    assert ripple.makes == Linear(1, 12)


def test_any_number_of_stitches_goes_into_a_ring() -> None:
    into_ring = Stitch("dc", 0, (Foot(0, 0, Into.WHOLE),), (top("dc"),))
    first = row(Run(into_ring, 12))
    assert first.closes_over(ring())
    assert feet(first) == [0] * 12
    assert first.edge(closed=True).stitches == 12


# Edges.


def test_chains_of_a_space_are_counted_or_not_as_the_pattern_has_it() -> None:
    mesh = row(Repeat((Run(DC), Run(chains(2))), 6), Run(DC)).edge()
    assert (mesh.stitches, mesh.spaces) == (7, 6)
    assert Edge(mesh.line + (Run(space(2, counts=2)),)).stitches == 9
    assert sum(map(counted_with_chains, places(mesh))) == 7 + 2 * 6


def test_a_turning_chain_counts_only_where_it_stands_for_a_stitch() -> None:
    counts = Stitch("ch 3", 1, (Foot(),), (turning_chain(3, "dc", counts=True),))
    is_none = Stitch("ch 3", 0, (), (turning_chain(3, "dc", counts=False),))
    assert row(Run(counts), Run(DC, 9)).makes == 10
    assert row(Run(is_none), Run(DC, 9)).makes == 9
    assert len(places(row(Run(is_none), Run(DC, 9)).edge())) == 10


def test_row_ends_and_undersides_are_places_to_work_into() -> None:
    assert row_ends(15, 2).stitches == 30
    assert underside(Linear(0, 16)).stitches == Linear(0, 16)
    around = foundation(20).then(row_ends(5)).then(underside(20)).round()
    assert (around.stitches, around.closed) == (45, True)
    assert places(around)[0] == CHAIN


EDGES = ROWS.map(lambda whole: whole.edge(closed=True))


@given(EDGES)
def test_turning_an_edge_twice_changes_nothing(edge: Edge) -> None:
    assert edge.turned().turned() == edge
    assert places(edge.turned()) == places(edge)[::-1]
    assert (edge.turned().stitches, edge.turned().spaces) == (edge.stitches, edge.spaces)


@given(EDGES, st.integers(0, 40))
def test_the_two_parts_of_a_cut_edge_make_the_edge(edge: Edge, count: int) -> None:
    parts = edge.cut(count)
    assert parts is not None
    first, rest = parts
    assert places(first) + places(rest) == places(edge)
    assert first.stitches == min(count, edge.stitches)
    assert not first.closed
    assert not rest.closed


@given(EDGES, st.integers(0, 40))
def test_a_round_begun_elsewhere_keeps_its_places_in_order(edge: Edge, count: int) -> None:
    turned_on = edge.rotated(count, every)
    assert turned_on is not None
    assert places(turned_on) == places(edge)[count:] + places(edge)[:count]
    assert (turned_on.stitches, turned_on.closed) == (edge.stitches, True)


def test_a_cut_that_depends_on_the_repeat_count_is_refused() -> None:
    line: Line[Place] = (Repeat((Run(top("dc"), 3), Run(top("sc"))), Linear(0, 1)),)
    assert Edge(line).cut(Linear(0, 2)) is None
    assert Edge(line).rotated(Linear(0, 2)) is None


def test_a_part_gives_its_open_edges_by_name() -> None:
    sleeve = Edge((Run(top("dc"), 32),))
    yoke = Part("Yoke", (row(Run(DC, 144)),), (("first sleeve", sleeve),))
    assert yoke.open_edge("first sleeve") == sleeve
    assert yoke.open_edge("hood") is None
