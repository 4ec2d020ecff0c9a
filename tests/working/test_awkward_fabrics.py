"""Twelve fabrics that break simple counters, each built by hand in the model.

No text is read here. Every count asserted follows from arithmetic done outside the model
and said beside it; trade facts name where they come from.
"""

from itertools import pairwise

import pytest

from hookwright.working.count import Count, Linear
from hookwright.working.fabric import (
    PASS,
    PASS_SPACE,
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
    counted,
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
from hookwright.working.sequence import Group, Piece, Repeat, Run, every, total, unrolled

SC = plain("sc")
DC = plain("dc")
BACK = Into.BACK_LOOP
FRONT = Into.FRONT_LOOP


def row(*pieces: Piece[Stitch]) -> Row:
    return Row(pieces)


def several(kind: str, number: int, into: Into = Into.BOTH_LOOPS) -> Group[Stitch]:
    """A number of stitches in one place."""
    return Group((Run(plain(kind, into)), Run(same_place(kind, into), number - 1)))


def plain_edge(kind: str, number: Count) -> Edge:
    """The edge that a row of plain stitches leaves."""
    return row(Run(plain(kind), number)).edge()


def cut(edge: Edge, number: Count) -> tuple[Edge, Edge]:
    parts = edge.cut(number)
    assert parts is not None
    return parts


def rotated(edge: Edge, places: int) -> Edge:
    result = edge.rotated(places, every)
    assert result is not None
    return result


def places(edge: Edge) -> list[Place]:
    return list(unrolled(edge.line, 10_000))


def reached(rows: list[Row], number: int, step: int, *, turned: bool) -> tuple[int, int]:
    """The row, and the head along it, that foot `step` of row `number` stands on.

    Down the feet, never by index; a turned row meets the one below from its other end.
    """
    foot = standings(rows[number])[step]
    place = foot.foot
    for below in range(number - 1, number - 1 - foot.down, -1):
        head = _head(rows[below], place, turned=turned)
        place = next(s.foot for s in standings(rows[below]) if s.head == head)
    last = number - 1 - foot.down
    return last, _head(rows[last], place, turned=turned)


def _head(below: Row, place: int, *, turned: bool) -> int:
    return len(places(below.edge())) - 1 - place if turned else place


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


# 3. An oval: both sides of one foundation.
# A flat disc of sc gains 6 a round (published rule: 6 sc, 8 hdc, 12 dc). An oval is that
# disc cut in two, with two straight sides between: 6 r + 2 (chains worked - 2).

OVALS: list[Count] = [11, Linear(0, 1)]


def oval_start(worked: Count) -> Row:
    """Three in the last chain, back along the other side, two more in the first chain."""
    sides = (Run(SC, worked - 1), several("sc", 3), Run(SC, worked - 2), several("sc", 2))
    return row(Run(SKIP), *sides)


def oval_round(number: int, worked: Count) -> Row:
    grow = (Run(SC, number - 2), several("sc", 2))
    side = Run(SC, worked - 2)
    return row(*grow, side, Repeat(grow, 3), side, Repeat(grow, 2))


@pytest.mark.parametrize("worked", OVALS)
def test_an_oval_grows_as_a_disc_with_two_straight_sides(worked: Count) -> None:
    around = foundation(worked + 1).then(underside(worked - 1))
    first = oval_start(worked)
    assert first.closes_over(around)
    assert first.makes == 6 + (worked - 2) * 2
    edge = first.edge(closed=True)
    for number in range(2, 7):
        later = oval_round(number, worked)
        assert later.closes_over(edge)
        assert later.makes == 6 * number + (worked - 2) * 2
        edge = later.edge(closed=True)


# 4. A border: stitches, row ends, the foundation's underside, row ends, four corners.
# Published rules: one sc a row end of sc, two of dc; three sc in a corner, so 2 more at
# each corner and 8 more a round.

SIDES = [(40, 30, 1), (40, 15, 2), (Linear(2, 6), 15, 2)]
CORNER = several("sc", 3)


def border_start(width: Count, ends: int) -> Row:
    along = (CORNER, Run(SC, width - 2), CORNER, Run(SC, ends))
    return row(*along, *along)


def border_round(width: Count, ends: int) -> Row:
    """The centre stitch of a corner takes the three."""
    top_side, row_side = Run(SC, width), Run(SC, ends + 1)
    along = (CORNER, top_side, CORNER, row_side)
    return row(Run(SC), *along, Run(SC), *along)


@pytest.mark.parametrize(("width", "rows", "each"), SIDES)
def test_a_border_goes_round_all_four_sides_and_gains_eight(
    width: Count, rows: int, each: int
) -> None:
    last_row = plain_edge("dc", width)
    side = row_ends(rows, each)
    around = last_row.then(side).then(underside(width)).then(side).round()
    first = border_start(width, rows * each)
    assert first.closes_over(around)
    assert first.makes == width * 2 + 2 * rows * each + 8
    second = border_round(width, rows * each)
    assert second.closes_over(first.edge(closed=True))
    assert second.makes == first.makes + 8


def test_the_second_border_round_turns_in_the_centre_of_every_corner() -> None:
    first, second = border_start(6, 4), border_round(6, 4)
    on = [foot.foot for foot in standings(second)]
    corners = {place for place in on if on.count(place) == 3}
    # Corners of three begin at 0; 4 along the top, 4 row ends, and once more.
    assert corners == {1, 1 + 3 + 4, 1 + 3 + 4 + 3 + 4, 1 + 3 + 4 + 3 + 4 + 3 + 4}
    assert max(on) == len(places(first.edge())) - 1


# 5. Two legs joined by chains that are worked from both sides.


@pytest.mark.parametrize("between", [0, 3, 5])
def test_two_legs_become_a_body_that_counts_the_chains_twice(between: int) -> None:
    leg = Part("Leg", (row(Run(SC, 24)),), (("last round", plain_edge("sc", 24)),), make=2)
    rounds = leg.open_edge("last round")
    assert rounds is not None
    # The first leg is entered at its inside, five stitches after its own beginning.
    inside = rotated(rounds.round(), 5)
    bridge, back_again = foundation(between), underside(between)
    around = inside.then(bridge).then(rounds).then(back_again).round()
    body = row(Run(SC, 2 * 24 + 2 * between))
    assert body.closes_over(around)
    assert body.makes == around.stitches == 48 + 2 * between


def test_the_chains_between_two_legs_lie_opposite_each_other() -> None:
    leg = plain_edge("sc", 24)
    around = leg.then(foundation(3)).then(leg).then(underside(3)).round()
    kinds = [place.kind for place in places(around)]
    assert kinds[24:27] == [PlaceKind.CHAIN] * 3
    assert kinds[51:54] == [PlaceKind.UNDERSIDE] * 3
    assert around.kinds() == {"sc": 48, "ch": 6}


# 6. A raglan divides for the body.
# Two increases at each of four lines: 8 a round, 2 a section (pure counting). Sections:
# back, sleeve, front, sleeve.

NECK = (20, 12, 20, 12)
UNDERARM = 4


def raglan_round(sections: tuple[int, ...]) -> Row:
    pieces: list[Piece[Stitch]] = []
    for stitches in sections:
        pieces += [several("dc", 2), Run(DC, stitches - 2), several("dc", 2)]
    return row(*pieces)


def dividing_round(body: Count, sleeve: Count) -> Row:
    """The sleeves are passed by, and chains bridge the gap under each arm."""
    half = (Run(DC, body), Run(PASS, sleeve), Run(WORKED_CHAIN, UNDERARM))
    return row(*half, *half)


def sleeve_edges(yoke: Edge, body: Count, sleeve: Count) -> tuple[Edge, Edge]:
    _, rest = cut(yoke, body)
    first, rest = cut(rest, sleeve)
    _, second = cut(rest, body)
    return first, second


def test_a_raglan_yoke_gains_eight_a_round() -> None:
    sections: tuple[int, ...] = NECK
    edge = plain_edge("dc", sum(NECK)).round()
    for number in range(1, 11):
        increase = raglan_round(sections)
        assert increase.closes_over(edge)
        assert increase.makes == 64 + 8 * number
        sections = tuple(stitches + 2 for stitches in sections)
        edge = increase.edge(closed=True)
    assert sections == (40, 32, 40, 32)
    divided = dividing_round(40, 32)
    assert divided.closes_over(edge)
    assert divided.makes == 88
    assert [part.stitches for part in sleeve_edges(edge, 40, 32)] == [32, 32]


@pytest.mark.parametrize(
    ("body", "sleeve"), [(40, 32), (Linear(20, 2), Linear(12, 2)), (52, 38)]
)
def test_dividing_a_raglan_loses_no_stitch_and_uses_each_underarm_twice(
    body: Count, sleeve: Count
) -> None:
    yoke = plain_edge("dc", (body + sleeve) * 2).round()
    divided = dividing_round(body, sleeve)
    assert divided.closes_over(yoke)
    first, second = sleeve_edges(yoke, body, sleeve)
    part = Part("Yoke", (divided,), (("first sleeve", first), ("second sleeve", second)))
    made = divided.makes
    for name, edge in part.open_edges:
        around = edge.then(underside(UNDERARM)).round()
        assert row(Run(DC, sleeve + UNDERARM)).closes_over(around), name
        made = made + around.stitches
    # Body and sleeves together: the yoke, and both sides of both underarm chains.
    assert made == yoke.stitches + 2 * 2 * UNDERARM


def test_the_body_of_a_raglan_is_worked_into_the_underarm_chains() -> None:
    edge = dividing_round(40, 32).edge(closed=True)
    assert row(Run(DC, 88)).closes_over(edge)
    assert edge.kinds() == {"dc": 80, "ch": 8}


# 7. A cable over four, around posts two rows below.
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


# 8. A granny square whose rounds travel to the corner by slip stitches.
# Pure counting, and printed so in public patterns: round n has n groups of 3 dc a side, so
# 12 n dc, 4 corner spaces and 4 (n - 1) spaces along the sides.

INTO_SPACE = (Foot(0, 0, Into.WHOLE),)
CHAIN_3 = (turning_chain(3, "dc", counts=True),)
GROUP = Group((Run(in_space("dc")), Run(same_place("dc"), 2)), "group")
SLIP_INTO_CORNER = Stitch("sl st", 0, INTO_SPACE, slip_to_travel().heads)


def corner(begin: Stitch) -> Group[Stitch]:
    more = Run(same_place("dc"), 2)
    return Group((Run(begin), more, Run(chains(2)), Run(same_place("dc")), more), "corner")


def granny_start() -> Row:
    begin = Run(Stitch("ch 3", 0, INTO_SPACE, CHAIN_3))
    into_ring = Stitch("dc", 0, INTO_SPACE, (top("dc"),))
    first = (begin, Run(into_ring, 2), Run(chains(2)))
    return row(*first, Repeat((Run(into_ring, 3), Run(chains(2))), 3), Run(SLIP_TO_JOIN))


def granny_round(number: int) -> Row:
    """Over a round whose first place is the top of its beginning chain."""
    travel = (Run(PASS), Run(slip_to_travel(), 2), Run(SLIP_INTO_CORNER))
    begin = corner(Stitch("ch 3", 0, INTO_SPACE, CHAIN_3, spaces=1))
    chain_1, past = Run(chains(1)), Run(PASS, 3)
    side = (chain_1, Repeat((past, GROUP, chain_1), number - 2))
    others = Repeat((past, corner(in_space("dc")), *side), 3)
    return row(*travel, begin, *side, others, Run(SLIP_TO_JOIN))


def granny_edges(rounds: int) -> list[Edge]:
    """The edge of each round as the next one meets it: travelling stitches come last."""
    later = [granny_round(number) for number in range(2, rounds + 1)]
    travelled = [rotated(worked.edge(closed=True), 3) for worked in later]
    return [granny_start().edge(closed=True), *travelled]


def test_a_granny_square_gains_a_group_a_side_every_round() -> None:
    assert granny_start().closes_over(ring())
    for number, edge in enumerate(granny_edges(6), start=1):
        assert edge.stitches == 12 * number
        assert edge.kinds() == {"dc": 12 * number}
        assert edge.spaces == 4 + 4 * (number - 1)
        assert granny_round(number + 1).closes_over(edge)


def test_every_space_of_a_granny_square_is_worked_into() -> None:
    for number, edge in enumerate(granny_edges(6), start=2):
        assert granny_round(number).uses_spaces == edge.spaces


def test_travelling_slip_stitches_are_places_that_count_for_nothing() -> None:
    above = granny_round(4)
    travelled = places(above.edge())[:3]
    assert travelled == [Place(PlaceKind.STITCH, "sl st", counts=0)] * 3
    assert total(above.edge().line, every) == 3 + 12 * 4 + 4 + 4 * 3


def test_after_travelling_a_granny_round_stands_in_spaces_only() -> None:
    for number, edge in enumerate(granny_edges(6), start=2):
        below = places(edge)
        stands = [
            (below[foot.foot].kind, below[foot.foot].chains)
            for foot in standings(granny_round(number))
        ]
        travel, worked = stands[:3], stands[3:]
        assert [kind for kind, _ in travel[:2]] == [PlaceKind.STITCH] * 2
        assert travel[2] == (PlaceKind.SPACE, 2)
        assert {kind for kind, _ in worked} == {PlaceKind.SPACE}
        # Four corners of 6, the rest in the ch-1 spaces of the sides.
        assert worked.count((PlaceKind.SPACE, 2)) == 4 * 6


# 9. Filet: meshes of ch 2 and blocks of 2 dc, the chains of a mesh counted or not.
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


# 10. A heart: the second top joins beside the first, one stitch between them left free.


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


# 11. A toy worked in a spiral: no join, no turning chain, the edge goes on.
# Published rule: 6 sc in the ring and 6 more a round, so round n has 6 n and n rounds have
# 6 n (n + 1) / 2.


def spiral_round(number: int) -> Row:
    if number == 1:
        return row(Run(Stitch("sc", 0, INTO_SPACE, (top("sc"),)), 6))
    return row(Repeat((Run(SC, number - 2), several("sc", 2)), 6))


def test_a_spiral_gains_six_a_round_and_has_no_place_that_is_no_stitch() -> None:
    edge, worked = ring(), 0
    for number in range(1, 9):
        spiral = spiral_round(number)
        assert spiral.closes_over(edge)
        edge = spiral.edge(closed=True)
        worked += len(places(edge))
        assert edge.stitches == len(places(edge)) == 6 * number
        assert worked == 6 * number * (number + 1) // 2


def test_a_spiral_carried_past_its_marker_keeps_its_count() -> None:
    edge = row(Run(SC, 48)).edge(closed=True)
    past = row(Run(SC, 4))
    _, rest = cut(edge, past.uses)
    carried = rest.then(past.edge()).round()
    assert carried == edge
    assert row(Run(SC, 48)).closes_over(carried)


def test_a_decrease_past_the_marker_shortens_the_next_turn_of_a_spiral() -> None:
    edge = row(Run(SC, 48)).edge(closed=True)
    past = row(Run(SC, 2), Run(together("sc2tog", 2)))
    _, rest = cut(edge, past.uses)
    carried = rest.then(past.edge()).round()
    assert carried.stitches == 47
    assert carried.kinds() == {"sc": 46, "sc2tog": 1}


# 12. Crossed double crochets: the second of two first, then the one passed over.
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
