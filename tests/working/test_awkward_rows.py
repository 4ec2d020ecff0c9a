"""Six fabrics in rows that break simple counters, each built by hand in the model.

No text is read here. Every count asserted follows from arithmetic done outside the model
and said beside it; trade facts name where they come from.
"""

from itertools import pairwise

import pytest
from fabrics_by_hand import (
    BACK,
    CHAIN_3,
    DC,
    FRONT,
    INTO_SPACE,
    SC,
    cut,
    places,
    plain_edge,
    reached,
    row,
    several,
)

from hookwright.working.count import Count, Linear
from hookwright.working.fabric import (
    PASS_SPACE,
    SKIP,
    SLIP_TO_JOIN,
    Foot,
    Into,
    Part,
    Row,
    Stitch,
    chains,
    counted,
    counted_with_chains,
    foundation,
    plain,
    same_place,
    space,
    standings,
    together,
    top,
    underside,
)
from hookwright.working.sequence import Piece, Repeat, Run, total

# 1. A back-loop wave, straight at both ends.
# Common practice, no source: 16 stitches a wave, the edges decrease by one. A wave is
# 6 + 3 in 1 + 6 + 3 together: 6 + 1 + 6 + 3 = 16 used, 6 + 3 + 6 + 1 = 16 made.

WAVES = [(11, 178, 177), (Linear(0, 1), Linear(2, 16), Linear(1, 16))]
BEGIN_IN_THIRD_CHAIN = Stitch("dc2tog", 3, (Foot(2),), (top("dc2tog"),))
"""The two chains skipped at the hook and the first dc stand for a dc2tog."""
EDGE_DECREASE = together("dc2tog", 2, BACK)


def wave_row(begin: Stitch, waves: Count) -> Row:
    leg = Run(plain("dc", BACK), 6)
    peak = several("dc", 3, BACK)
    valley = Run(together("dc3tog", 3, BACK))
    repeat = Repeat((leg, peak, leg, valley), waves - 1)
    return row(Run(begin), repeat, leg, peak, leg, Run(EDGE_DECREASE))


def straight_row(waves: Count) -> Row:
    """Short over the peaks, tall and drawn together in the valleys."""
    slope = (Run(plain("dc", BACK), 2), Run(plain("hdc", BACK), 2))
    middle = (*slope, Run(plain("sc", BACK), 5), *slope[::-1])
    half_valley = Run(together("tr2tog", 2, BACK))
    valley = Run(together("tr3tog", 3, BACK))
    repeat = Repeat((*middle, valley), waves - 1)
    return row(half_valley, repeat, *middle, half_valley)


def straight_row_below(waves: Count) -> Row:
    """Along the foundation, where peaks and valleys have changed places."""
    slope = (Run(SC), Run(plain("hdc"), 2), Run(DC, 2))
    valley = (*slope, Run(together("tr3tog", 3)), *slope[::-1])
    repeat = Repeat((*valley, Run(SC, 3)), waves - 1)
    return row(Run(SC, 2), repeat, *valley, several("sc", 2))


@pytest.mark.parametrize(("waves", "chain", "stitches"), WAVES)
def test_a_back_loop_wave_keeps_its_count_from_the_first_row_on(
    waves: Count, chain: Count, stitches: Count
) -> None:
    first = wave_row(BEGIN_IN_THIRD_CHAIN, waves)
    later = wave_row(EDGE_DECREASE, waves)
    assert first.closes_over(foundation(chain))
    assert first.makes == stitches
    assert later.closes_over(first.edge().turned())
    assert later.makes == stitches


def test_a_wave_of_eleven_has_a_peak_more_than_valleys() -> None:
    # 11 peaks of 3 and 22 legs of 6 are 165 dc; 10 valleys lie between them; 2 edges.
    assert wave_row(EDGE_DECREASE, 11).kinds() == {"dc2tog": 2, "dc": 165, "dc3tog": 10}


def test_a_wave_does_not_fit_one_chain_more() -> None:
    assert not wave_row(BEGIN_IN_THIRD_CHAIN, 11).closes_over(foundation(179))


@pytest.mark.parametrize(("waves", "chain", "stitches"), WAVES)
def test_both_straight_rows_of_a_wave_hold_the_same_count(
    waves: Count, chain: Count, stitches: Count
) -> None:
    first = wave_row(BEGIN_IN_THIRD_CHAIN, waves)
    # The two chains skipped at the hook have no underside left to work into.
    below = underside(chain - 2)
    part = Part("", (first,), (("last row", first.edge()), ("underside", below)))
    last, under = part.open_edge("last row"), part.open_edge("underside")
    assert last is not None
    assert under is not None
    assert last.stitches == stitches
    assert straight_row(waves).closes_over(last.turned())
    assert straight_row_below(waves).closes_over(under)
    # Each of the 16 of a wave but the two drawn in at its valley: 14 a wave and 1.
    assert straight_row(waves).makes == straight_row_below(waves).makes == waves * 14 + 1


# 2. Overlay mosaic: never turned, each row cut, dc in the front loop two rows below.
# Outside: a front loop two rows below is only there if the row between took the back loop,
# and it holds one stitch.


def mosaic_row(number: int) -> Row:
    """Odd and even rows drop their dc over every other stitch, in turn; 21 stitches."""
    yarn = ("slate", "foam")[number % 2]
    edge = Run(SC, yarn=yarn)
    over = Run(plain("sc", BACK), yarn=yarn)
    drop = Run(plain("dc", FRONT, down=1) if number > 1 else plain("sc", BACK), yarn=yarn)
    pair = (over, drop) if number % 2 else (drop, over)
    return row(edge, Repeat(pair, 9), over, edge)


MOSAIC = [mosaic_row(number) for number in range(8)]


def test_a_mosaic_row_is_worked_over_the_row_before_without_turning() -> None:
    for below, above in pairwise(MOSAIC):
        assert above.closes_over(below.edge())
        assert above.makes == 21
    # Nine dropped dc a row in the six rows that have two rows below them.
    assert [mosaic.kinds().get("dc", 0) for mosaic in MOSAIC] == [0, 0, 9, 9, 9, 9, 9, 9]


def test_a_mosaic_dc_finds_a_free_front_loop_in_its_own_column() -> None:
    taken = set()
    for number, mosaic in enumerate(MOSAIC):
        for step, foot in enumerate(standings(mosaic)):
            if foot.stitch.kind != "dc":
                continue
            loop = reached(MOSAIC, number, step, turned=False)
            assert loop == (number - 2, foot.head)
            between = standings(MOSAIC[number - 1])[foot.foot]
            assert between.stitch.feet[0].into is BACK
            taken.add(loop)
    assert len(taken) == 6 * 9


def test_each_colour_of_a_mosaic_holds_half_its_stitches() -> None:
    by_yarn = {"slate": 0, "foam": 0}
    for mosaic in MOSAIC:
        ((yarn, count),) = mosaic.yarns()
        assert isinstance(count, int)
        by_yarn[yarn or ""] += count
    assert by_yarn == {"slate": 4 * 21, "foam": 4 * 21}


# 3. A cable over four, around posts two rows below.
# Two rows below the row being worked is one row below its working edge.

POST = plain("FPdc", Into.FRONT_POST, down=1)
CABLE = Stitch(
    "cable",
    4,
    tuple(Foot(step, 1, Into.FRONT_POST) for step in (2, 3, 0, 1)),
    (top("FPdc"),) * 4,
)
CABLED = [
    row(Run(SC, 18)),
    row(Run(SC, 18)),
    row(Run(SC, 3), Run(POST, 4), Run(SC, 4), Run(POST, 4), Run(SC, 3)),
    row(Run(SC, 18)),
    row(Run(SC, 3), Run(CABLE), Run(SC, 4), Run(CABLE), Run(SC, 3)),
]


def test_a_cable_uses_four_and_makes_four() -> None:
    for below, above in pairwise(CABLED):
        assert above.closes_over(below.edge().turned())
        assert above.makes == 18
    assert CABLED[4].kinds() == {"sc": 10, "FPdc": 8}


def test_a_cable_crosses_the_four_posts_two_rows_below() -> None:
    crossed = standings(CABLED[4])
    legs = [step for step, foot in enumerate(crossed) if foot.stitch is CABLE]
    assert [crossed[step].head for step in legs] == [3, 4, 5, 6, 11, 12, 13, 14]
    on = [reached(CABLED, 4, step, turned=True) for step in legs]
    # Row 3 has its posts at 3-6 and 11-14; the last two of each are worked first.
    assert on == [(2, head) for head in (5, 6, 3, 4, 13, 14, 11, 12)]


def test_the_posts_under_a_cable_stand_around_the_first_row() -> None:
    posts = [n for n, foot in enumerate(standings(CABLED[2])) if foot.stitch is POST]
    assert [reached(CABLED, 2, step, turned=True) for step in posts] == [
        (0, head) for head in (3, 4, 5, 6, 11, 12, 13, 14)
    ]


# 4. Filet: meshes of ch 2 and blocks of 2 dc, the chains of a mesh counted or not.
# A square is 3 wide and one more dc closes the row, so 3 n + 1 with the chains (common
# practice, no source); without them n + 1, and 2 more for every block.

FILET = ("mmmmmmm", "mmbbbmm", "mbmmbbm", "mmbbbbm", "mmmmmmm")
OPENING = Run(Stitch("ch 3", 1, (Foot(),), CHAIN_3))


def filet_row(squares: str, below: str, counts: int) -> Row:
    """`below` is the row beneath as it lies after turning."""
    pairs = zip(squares, below, strict=True)
    return row(OPENING, *(piece for pair in pairs for piece in square(*pair, counts)))


def square(kind: str, below: str, counts: int) -> tuple[Piece[Stitch], ...]:
    if kind == "m":
        return Run(chains(2, counts=counts)), *left_open(below, counts), Run(DC)
    return *filled(below, counts), Run(DC)


def left_open(below: str, counts: int) -> tuple[Piece[Stitch], ...]:
    if below == "b":
        return (Run(SKIP, 2),)
    return (Run(Stitch("skip", counts, (), (), 1, 1) if counts else PASS_SPACE),)


def filled(below: str, counts: int) -> tuple[Piece[Stitch], ...]:
    if below == "b":
        return (Run(DC, 2),)
    first = Stitch("dc", counts, INTO_SPACE, (top("dc"),), 1, 1)
    return Run(first), Run(same_place("dc"))


@pytest.mark.parametrize("counts", [0, 2])
def test_a_filet_row_counts_with_or_without_its_chains(counts: int) -> None:
    edge = plain_edge("dc", 3 * 7 + 1)
    below = "bbbbbbb"
    for squares in FILET:
        filet = filet_row(squares, below[::-1], counts)
        blocks = squares.count("b")
        meshes = 7 - blocks
        assert filet.closes_over(edge.turned())
        assert filet.makes == 7 + 1 + 2 * blocks + counts * meshes
        assert filet.spaces == meshes
        edge, below = filet.edge(), squares
        assert edge.kinds() == {"dc": 8 + 2 * blocks}
        assert total(edge.line, counted_with_chains) == 3 * 7 + 1
        assert total(edge.line, counted) == filet.makes


@pytest.mark.parametrize("counts", [0, 2])
def test_the_last_dc_of_a_filet_row_stands_on_the_last_place(counts: int) -> None:
    below = filet_row(FILET[1], "bbbbbbb", counts)
    above = filet_row(FILET[2], FILET[1][::-1], counts)
    # Seven squares and the opening stitch: a block is 3 places, a mesh 2.
    assert len(places(below.edge())) == 1 + 3 * 3 + 4 * 2
    assert standings(above)[-1].foot == 3 * 3 + 4 * 2


def test_a_counting_mesh_is_one_space_of_two_chains() -> None:
    mesh = filet_row("mm", "bb", 2).edge()
    assert places(mesh)[1] == space(2, counts=2)
    assert (mesh.stitches, mesh.spaces) == (7, 2)


# 5. A heart: the second top joins beside the first, one stitch between them left free.


def heart_top(width: int) -> list[Row]:
    """From the row after the first of a top: 1 less at each end until 3 are left."""
    narrowing = range(width, 3, -2)
    ends = Run(together("sc2tog", 2))
    return [row(ends, Run(SC, stitches - 4), ends) for stitches in narrowing]


def test_the_two_tops_of_a_heart_share_no_stitch() -> None:
    body = plain_edge("sc", 15).turned()
    first = row(Run(SC, 7))
    assert not first.closes_over(body)
    _, rest = cut(body, first.uses)
    part = Part("Heart", (first, *heart_top(7)), (("left of Row 11", rest),))
    left = part.open_edge("left of Row 11")
    assert left is not None
    assert left.stitches == 15 - 7
    second = row(Run(SKIP), Run(SLIP_TO_JOIN), Run(SC, 7))
    assert second.closes_over(left)
    assert second.makes == first.makes == 7
    on = [foot.foot for foot in standings(first)]
    on += [7 + foot.foot for foot in standings(second)]
    assert sorted({*range(15)} - {*on}) == [7]
    assert len(set(on)) == len(on) == 14


def test_the_top_of_a_heart_narrows_by_two_a_row() -> None:
    edge = row(Run(SC, 7)).edge()
    for narrower, stitches in zip(heart_top(7), [5, 3], strict=True):
        assert narrower.closes_over(edge.turned())
        assert narrower.makes == stitches
        edge = narrower.edge()


# 6. Crossed double crochets: the second of two first, then the one passed over.
# Published stitch tables: uses 2, makes 2.

CROSSED = Stitch("crossed dc", 2, (Foot(1), Foot(0)), (top("dc"), top("dc")))


@pytest.mark.parametrize("pairs", [1, 8, Linear(0, 1)])
def test_crossed_stitches_use_two_and_make_two(pairs: Count) -> None:
    crossed = row(Run(DC), Run(CROSSED, pairs), Run(DC))
    assert crossed.closes_over(plain_edge("dc", pairs * 2 + 2))
    assert crossed.kinds() == {"dc": pairs * 2 + 2}


def test_every_place_under_crossed_stitches_is_used_once() -> None:
    stands = standings(row(Run(DC), Run(CROSSED, 8), Run(DC)))
    assert sorted(foot.foot for foot in stands) == list(range(18))
    assert [foot.head for foot in stands] == list(range(18))
    crossings = [(foot.head, foot.foot) for foot in stands[1:5]]
    assert crossings == [(1, 2), (2, 1), (3, 4), (4, 3)]


def test_crossing_in_three_movements_is_the_same_fabric() -> None:
    # "Skip 1, dc in next, dc in skipped": the last goes back over what is used up.
    back = Stitch("dc", 0, (Foot(-2),), (top("dc"),))
    spelled = row(Run(DC), Repeat((Run(SKIP), Run(DC), Run(back)), 8), Run(DC))
    crossed = row(Run(DC), Run(CROSSED, 8), Run(DC))
    assert spelled.edge().stitches == crossed.edge().stitches
    assert (spelled.uses, spelled.makes) == (crossed.uses, crossed.makes)
    assert [(foot.head, foot.foot) for foot in standings(spelled)] == [
        (foot.head, foot.foot) for foot in standings(crossed)
    ]
