"""Six fabrics in rounds that break simple counters, each built by hand in the model.

No text is read here. Every count asserted follows from arithmetic done outside the model
and said beside it; trade facts name where they come from.
"""

import pytest
from fabrics_by_hand import (
    CHAIN_3,
    DC,
    INTO_SPACE,
    SC,
    cut,
    places,
    plain_edge,
    rotated,
    row,
    several,
)

from hookwright.working.count import Count, Linear
from hookwright.working.fabric import (
    PASS,
    SKIP,
    SLIP_TO_JOIN,
    WORKED_CHAIN,
    Edge,
    Part,
    Place,
    PlaceKind,
    Row,
    Stitch,
    chains,
    foundation,
    in_space,
    ring,
    row_ends,
    same_place,
    slip_to_travel,
    standings,
    together,
    top,
    underside,
)
from hookwright.working.sequence import Group, Piece, Repeat, Run, every, total

# 1. An oval: both sides of one foundation.
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


# 2. A border: stitches, row ends, the foundation's underside, row ends, four corners.
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


# 3. Two legs joined by chains that are worked from both sides.


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


# 4. A raglan divides for the body.
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


# 5. A granny square whose rounds travel to the corner by slip stitches.
# Pure counting, and printed so in public patterns: round n has n groups of 3 dc a side, so
# 12 n dc, 4 corner spaces and 4 (n - 1) spaces along the sides.

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


# 6. A toy worked in a spiral: no join, no turning chain, the edge goes on.
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
