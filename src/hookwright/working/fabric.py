"""The fabric: places, stitches, edges, rows and parts.

A *place* is somewhere a hook can go. A *stitch* uses up places of the edge it is worked
over, sets its feet, and leaves heads that are the places of the next row. An *edge* is an
ordered list of places that a row can be worked into, however it came about: by turning, by
not turning, by joining, along the underside of the foundation, along row ends, over
stitches left unworked, or by putting other edges together.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import force_setattr

from hookwright.source import Span
from hookwright.working.count import Count, parts_of
from hookwright.working.sequence import (
    Group,
    Line,
    Piece,
    Repeat,
    Run,
    convert,
    join,
    reverse,
    split,
    tally,
    total,
    unrolled,
)


class PlaceKind(StrEnum):
    """What a place is, apart from which stitch it belongs to."""

    STITCH = "stitch"
    CHAIN = "chain"
    TURNING_CHAIN = "turning chain"
    SPACE = "space"
    RING = "ring"
    ROW_END = "row end"
    UNDERSIDE = "underside"
    SPENT = "spent"


class Place(Struct, frozen=True, cache_hash=True):
    """Somewhere a hook can go.

    Attributes:
        kind: What it is.
        stitch: The stitch whose top it is, in the words of the pattern ("dc"); "" if none.
        chains: How many chains a space, or a turning chain, is made of.
        counts: How many stitches it counts as: 0 for a space or a chain that is not one.
    """

    kind: PlaceKind
    stitch: str = ""
    chains: int = 0
    counts: int = 1


CHAIN = Place(PlaceKind.CHAIN, "ch")
UNDERSIDE = Place(PlaceKind.UNDERSIDE, "ch")
RING = Place(PlaceKind.RING, counts=0)
GAP = Place(PlaceKind.SPENT, "gap", counts=0)
"""The gap between stitches, or any place that is used up and worked into once more."""
ROW_END = Place(PlaceKind.ROW_END)


def top(stitch: str) -> Place:
    """The top of a stitch."""
    return Place(PlaceKind.STITCH, stitch)


def space(chains: int, *, counts: int = 0) -> Place:
    """A space under `chains` chains; in filet and moss its chains may count as stitches."""
    return Place(PlaceKind.SPACE, "", chains, counts)


EDGE_LOOP = "edge loop"


def edge_loop(chains: int, *, counts: bool = False) -> Place:
    """A beginning chain that is a space at the edge, for the last stitch of a later row."""
    return Place(PlaceKind.SPACE, EDGE_LOOP, chains, int(counts))


def turning_chain(chains: int, stitch: str, *, counts: bool) -> Place:
    """The top of a beginning chain that does or does not stand for a stitch."""
    return Place(PlaceKind.TURNING_CHAIN, stitch, chains, int(counts))


class Into(StrEnum):
    """Which part of a place the hook goes under."""

    BOTH_LOOPS = "both loops"
    FRONT_LOOP = "front loop"
    BACK_LOOP = "back loop"
    THIRD_LOOP = "third loop"
    FRONT_POST = "front post"
    BACK_POST = "back post"
    WHOLE = "whole"
    BEFORE = "before"


class Foot(Struct, frozen=True, cache_hash=True):
    """Where one leg of a stitch stands.

    Attributes:
        step: Places from the next unused one of the working edge: 0 is the next, -1 the one
            just used, 2 the third ahead.
        down: How many rows below the working edge, followed along the feet of the stitches
            that stand on it.
        into: The part of the place. BEFORE is the gap in front of the place.
    """

    step: int = 0
    down: int = 0
    into: Into = Into.BOTH_LOOPS


class Stitch(Struct, frozen=True, cache_hash=True):
    """What one movement of the hook uses and makes.

    Attributes:
        kind: Its name in the words of the pattern: "dc", "dc3tog", "ch", "skip".
        passes: How many stitches of the working edge it uses up.
        feet: Where the hook goes, in working order.
        heads: The tops and spaces it leaves, in working order.
        spaces: How many chain spaces of the working edge it uses up.
        places: How many places it moves along the working edge. None where every place it
            uses up is one stitch or one space that counts as none: then passes and spaces
            say it. A turning chain that does not count is a place but passes nothing; a
            space of 2 chains that count is one place and passes 2.
    """

    kind: str
    passes: int = 1
    feet: tuple[Foot, ...] = (Foot(),)
    heads: tuple[Place, ...] = ()
    spaces: int = 0
    places: int | None = None

    @property
    def along(self) -> int:
        """How many places it moves along the working edge."""
        return self.passes + self.spaces if self.places is None else self.places


def plain(kind: str, into: Into = Into.BOTH_LOOPS, down: int = 0) -> Stitch:
    """One stitch in one place: 1, that place, 1."""
    return Stitch(kind, 1, (Foot(0, down, into),), (top(kind),))


def same_place(kind: str, into: Into = Into.BOTH_LOOPS) -> Stitch:
    """One more stitch in the place just used: 0, the last foot, 1."""
    return Stitch(kind, 0, (Foot(-1, 0, into),), (top(kind),))


def together(kind: str, legs: int, into: Into = Into.BOTH_LOOPS) -> Stitch:
    """Several places drawn into one top: n, n places, 1."""
    feet = tuple(Foot(step, 0, into) for step in range(legs))
    return Stitch(kind, legs, feet, (top(kind),))


def in_space(kind: str) -> Stitch:
    """A stitch in the next chain space; the space is used up."""
    return Stitch(kind, 0, (Foot(0, 0, Into.WHOLE),), (top(kind),), spaces=1)


def chains(number: int, *, counts: int = 0) -> Stitch:
    """Chains between stitches: no place used, one space made."""
    return Stitch("ch", 0, (), (space(number, counts=counts),))


def slip_to_travel(kind: str = "sl st") -> Stitch:
    """A slip stitch on the way to somewhere: its top is a place but counts as no stitch."""
    return Stitch(kind, 1, (Foot(),), (Place(PlaceKind.STITCH, kind, counts=0),))


SLIP_TO_JOIN = Stitch("sl st", 0, (), ())
WORKED_CHAIN = Stitch("ch", 0, (), (CHAIN,))
"""One chain of an underarm or a bridge between legs: the next round is worked into it."""
SKIP = Stitch("skip", 1, (), ())
PASS = Stitch("pass", 1, (), ())
PASS_SPACE = Stitch("pass", 0, (), (), spaces=1)
PASS_UNCOUNTED = Stitch("pass", 0, (), (), places=1)
"""A turning chain or slip stitch that counts as no stitch, left behind."""


def counted(place: Place) -> int:
    """How many stitches a place counts as."""
    return place.counts


def counted_with_chains(place: Place) -> int:
    """How many stitches a place counts as where the chains of a space are counted too."""
    return max(place.counts, place.chains) if is_space(place) else place.counts


# To look a member up in its enumeration takes as long as a call: it is asked for at
# every place.
_SPACE = PlaceKind.SPACE


def is_space(place: Place) -> int:
    """1 for a chain space, else 0."""
    return int(place.kind is _SPACE)


def extent(place: Place) -> int:
    """What a place adds to the passes and spaces of a row: 0 for one that is no stitch."""
    return place.counts + is_space(place)


class Edge(Struct, frozen=True, cache_hash=True):
    """What a row is worked into.

    Attributes:
        line: The places in the order they will be worked.
        closed: Whether the last place is followed by the first, as in a round.
        stitches: How many stitches it counts.
        spaces: How many chain spaces lie along it.
    """

    line: Line[Place]
    closed: bool = False
    stitches: Count = 0
    spaces: Count = 0

    def __post_init__(self) -> None:
        stitches, spaces = _counted_along(self.line)
        force_setattr(self, "stitches", stitches)
        force_setattr(self, "spaces", spaces)

    def turned(self) -> Edge:
        """The edge as it lies after turning: read from its other end."""
        return Edge(reverse(self.line), self.closed)

    def then(self, other: Edge) -> Edge:
        """This edge followed by another one."""
        return Edge(join(self.line + other.line), self.closed)

    def round(self) -> Edge:
        """The edge closed into a round."""
        return Edge(self.line, closed=True)

    def cut(
        self, count: Count, weight: Callable[[Place], int] = counted
    ) -> tuple[Edge, Edge] | None:
        """The first `count` stitches and the rest, both open; see `split` for None.

        With `every` as weight the cut falls after `count` places instead of stitches.
        """
        halves = split(self.line, count, weight)
        return halves and (Edge(halves[0]), Edge(halves[1]))

    def rotated(
        self, count: Count, weight: Callable[[Place], int] = counted
    ) -> Edge | None:
        """The same places begun `count` stitches further on; the first ones come last."""
        halves = split(self.line, count, weight)
        return halves and Edge(join(halves[1] + halves[0]), self.closed)

    def kinds(self) -> dict[str, Count]:
        """Stitches by the name of their stitch."""
        return tally(self.line, lambda place: place.stitch if place.counts else "")


def _counted_along(line: Line[Place]) -> tuple[Count, Count]:
    """How many stitches and chain spaces some places are, in one go through them."""
    stitches: Count = 0
    spaces: Count = 0
    for piece in line:
        if isinstance(piece, Run):
            place = piece.item
            stitches = stitches + place.counts * piece.times
            if place.kind is _SPACE:
                spaces = spaces + piece.times
            continue
        times = piece.times if isinstance(piece, Repeat) else 1
        inner, between = _counted_along(piece.body)
        stitches, spaces = stitches + inner * times, spaces + between * times
    return stitches, spaces


def foundation(number: Count) -> Edge:
    """A foundation chain, from the hook's end. The loop on the hook is never counted."""
    return Edge((Run(CHAIN, number),))


def underside(number: Count) -> Edge:
    """The unused loops along the other side of a foundation chain."""
    return Edge((Run(UNDERSIDE, number),))


def row_ends(rows: Count, each: int = 1) -> Edge:
    """The ends of `rows` rows, with `each` places in every one of them."""
    return Edge((Run(ROW_END, rows * each),))


def ring() -> Edge:
    """The centre of a ring: one place that takes any number of stitches."""
    return Edge((Run(RING),), closed=True)


class Row(Struct, frozen=True):
    """A row or round as worked: its stitches in order, never unrolled.

    Attributes:
        line: The stitches, skips and passes, with their words and yarn.
        uses: Stitches of the edge below worked into, skipped and passed.
        uses_spaces: Chain spaces of the edge below used or passed.
        makes: Stitches made.
        spaces: Chain spaces made.
    """

    line: Line[Stitch]
    uses: Count = 0
    uses_spaces: Count = 0
    makes: Count = 0
    spaces: Count = 0

    def __post_init__(self) -> None:
        put = force_setattr
        uses, uses_spaces, makes, spaces = _used_and_made(self.line)
        put(self, "uses", uses)
        put(self, "uses_spaces", uses_spaces)
        put(self, "makes", makes)
        put(self, "spaces", spaces)

    def edge(self, *, closed: bool = False) -> Edge:
        """The tops and spaces the row leaves, in working order: turn it to work back."""
        return Edge(convert(self.line, _heads), closed)

    def closes_over(self, edge: Edge) -> bool:
        """Whether it uses the stitches of an edge up, no more and no less."""
        return bool(self.uses == edge.stitches and self.uses_spaces <= edge.spaces)

    def kinds(self) -> dict[str, Count]:
        """Stitches made, by kind."""
        return self.edge().kinds()

    def yarns(self) -> tuple[tuple[str | None, Count], ...]:
        """Stitches made with each yarn, in the order the yarns come into play."""
        result: dict[str | None, Count] = {}
        _yarns_into(result, self.line, 1)
        return tuple(result.items())


def _used_and_made(line: Line[Stitch]) -> tuple[Count, Count, Count, Count]:
    """Stitches and spaces used, stitches and spaces made, in one go through a row."""
    uses: Count = 0
    uses_spaces: Count = 0
    makes: Count = 0
    spaces: Count = 0
    for piece in line:
        if isinstance(piece, Run):
            stitch, times = piece.item, piece.times
            uses = uses + stitch.passes * times
            uses_spaces = uses_spaces + stitch.spaces * times
            for head in stitch.heads:
                makes = makes + head.counts * times
                if head.kind is _SPACE:
                    spaces = spaces + times
            continue
        times = piece.times if isinstance(piece, Repeat) else 1
        inner = _used_and_made(piece.body)
        uses, uses_spaces = uses + inner[0] * times, uses_spaces + inner[1] * times
        makes, spaces = makes + inner[2] * times, spaces + inner[3] * times
    return uses, uses_spaces, makes, spaces


def _heads(run: Run[Stitch]) -> Line[Place]:
    heads = run.item.heads
    if len(heads) == 1:
        return (Run(heads[0], run.times),)
    if not heads:
        return ()
    return join([Repeat(tuple(Run(head) for head in heads), run.times)])


def _yarns_into(result: dict[str | None, Count], line: Line[Stitch], times: Count) -> None:
    for piece in line:
        if isinstance(piece, Run):
            made = piece.times * times * sum(head.counts for head in piece.item.heads)
            if made:
                result[piece.yarn] = result.get(piece.yarn, 0) + made
        elif isinstance(piece, Repeat):
            _yarns_into(result, piece.body, piece.times * times)
        else:
            _yarns_into(result, piece.body, times)


class Standing(Struct, frozen=True):
    """One foot of one stitch, found again in a row.

    Attributes:
        stitch: The stitch.
        head: The number of a head along the row, from 0: the foot's own where the stitch
            has as many heads as feet, as in a cable; else the stitch's first.
        foot: The number of the place it stands on along the edge below, from 0.
        down: How many rows below the edge.
        span: The words it comes from.
    """

    stitch: Stitch
    head: int
    foot: int
    down: int
    span: Span | None


def standings(row: Row, limit: int = 10_000, start: int = 0) -> tuple[Standing, ...]:
    """Every foot of `limit` movements of a row, from number `start`, for charts.

    Feet are not stored with the fabric; they follow from the passes before them. A window
    far along a row costs no more than one at its beginning.
    """
    before, line = split(row.line, start) or (row.line, ())
    # What lies before a numbered movement never grows with k.
    head, _ = parts_of(total(before, lambda stitch: len(stitch.heads)))
    place, _ = parts_of(total(before, lambda stitch: stitch.along))
    result: list[Standing] = []
    for run, stitch in _movements(line, limit):
        paired = len(stitch.feet) == len(stitch.heads)
        result.extend(
            Standing(stitch, head + number * paired, place + foot.step, foot.down, run.span)
            for number, foot in enumerate(stitch.feet)
        )
        head += len(stitch.heads)
        place += stitch.along
    return tuple(result)


def _movements(line: Line[Stitch], limit: int) -> list[tuple[Run[Stitch], Stitch]]:
    marked: Line[Run[Stitch]] = _mark(line)
    return [(run, run.item) for run in unrolled(marked, limit)]


def _mark(line: Line[Stitch]) -> Line[Run[Stitch]]:
    result: list[Piece[Run[Stitch]]] = []
    for piece in line:
        if isinstance(piece, Run):
            result.append(Run(piece, piece.times))
        elif isinstance(piece, Repeat):
            result.append(Repeat(_mark(piece.body), piece.times))
        else:
            result.append(Group(_mark(piece.body), piece.name))
    return tuple(result)


class Part(Struct, frozen=True):
    """What is worked in one go: a body, an edging, a sleeve.

    Attributes:
        name: Its heading in the pattern; "" for a pattern in one part.
        rows: Its rows in working order.
        open_edges: Edges left for later, by name: "last row", "left of Row 12",
            "underside of the foundation".
        make: How many of it are made.
    """

    name: str
    rows: tuple[Row, ...]
    open_edges: tuple[tuple[str, Edge], ...] = ()
    make: int = 1

    def open_edge(self, name: str) -> Edge | None:
        """An open edge by its name."""
        return next((edge for own, edge in self.open_edges if own == name), None)
