"""Which symbol stands where on a chart, for every stitch of a piece?

A symbol goes from the places its stitch is worked into to its top, so that increases fan
out and decreases meet by themselves. A chart shows the right side: on rows worked on the
wrong side, front and back change places. Points are those of the page, in mm, y down.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.drawing.chart_feet import IN_RING, Feet, feet_of
from hookwright.drawing.glyphs import glyph_of
from hookwright.drawing.lying import Lying
from hookwright.drawing.movements import Move, moves_of, travelled
from hookwright.drawing.signs import loop_mark, post_hook
from hookwright.drawing.stitch_symbols import CROSSED, Symbol, Symbols
from hookwright.drawing.strokes import (
    Glyph,
    Place,
    chain_at,
    chain_ring,
    chains_up,
    dot_at,
    picot_at,
    shifted,
)
from hookwright.shape.graph import Laid

_OTHER = {"front": "back", "back": "front", "third": "third", "": ""}
ROOM = 0.44
"""How far a bar may reach on the way to the next stitch."""
BESIDE = 0.62
"""How far beside the first stitch a chain stands that counts for nothing."""
RING = 0.36
"""The radius of a ring, in widths of a stitch."""


class Mark(Struct, frozen=True):
    """A symbol on a chart.

    Attributes:
        symbol: Its symbol.
        glyph: What is drawn.
        at: The middle of it.
        node: The stitch of the graph that it stands for, or belongs to.
        row: The number of its course.
        loop: The loop it is worked into as the chart shows it; "" for both.
        post: The post it goes round as the chart shows it.
        whole: Whether it is a stitch of its own, not a join or a chain that counts as none.
    """

    symbol: Symbol
    glyph: Glyph
    at: complex
    node: int
    row: int
    loop: str = ""
    post: str = ""
    whole: bool = True

    def moved(self, by: complex) -> Mark:
        """The symbol elsewhere on the page."""
        if not by:
            return self
        return replace(self, glyph=shifted(self.glyph, by), at=self.at + by)


CHAIN = Symbol("ch", "chain", "oval")
JOIN = Symbol("sl st", "slip stitch", "dot")
RING_SYMBOL = Symbol("ring", "ring")
PICOT = Symbol("picot", "picot")


class _Sheet(Struct):
    """What a chart is drawn from.

    Attributes:
        piece: The piece.
        symbols: The symbols of its pattern.
        points: Where each node lies, in mm.
        unit: The width of a stitch, in mm.
        feet: The feet of each top; those of crossed stitches are changed for one another.
        known: Symbols found so far.
    """

    piece: Lying
    symbols: Symbols
    points: Sequence[complex]
    unit: float
    feet: dict[int, Feet]
    known: dict[tuple[str, str, str], Symbol] = field(default_factory=dict)

    def symbol(self, kind: str, top: str, main: str) -> Symbol:
        """The symbol of a stitch, looked up once."""
        key = (kind, top, main)
        if key not in self.known:
            self.known[key] = self.symbols.of(*key)
        return self.known[key]


def marks_of(
    piece: Lying,
    symbols: Symbols,
    points: Sequence[complex],
    unit: float,
    rows: Container[int],
    again: Sequence[complex] | None = None,
) -> list[Mark]:
    """The symbols of a piece in working order.

    Args:
        piece: The piece.
        symbols: The symbols of its pattern.
        points: Where each of its nodes lies, in mm on the page.
        unit: The width of a stitch, in mm.
        rows: The numbers of the courses that are drawn.
        again: The points with the rim of a second disc on it, where there is one.
    """
    feet = feet_of(piece.graph, points, unit)
    if again is not None:
        on_rim = piece.graph.courses[piece.closing].nodes.tolist()
        other = feet_of(piece.graph, again, unit)
        feet.update({top: other[top] for top in on_rim if top in other})
    sheet = _Sheet(piece, symbols, points, unit, feet)
    found: list[Mark] = []
    outcomes = iter(piece.outcomes)
    for number, course in enumerate(piece.graph.courses):
        row = _Row(sheet, number, course)
        outcome = next(outcomes) if course.row else None
        if number not in rows:
            continue
        if outcome is None:
            found.extend(_beginning(row))
            continue
        moves = moves_of(outcome, course)
        found.extend(_marks_in(row, moves))
        assert outcome.worked is not None
        if course.closed and outcome.worked.closed and course.number > 1:
            found.append(_join(row))
    return found


class _Row(Struct, frozen=True):
    """A row or round on the sheet."""

    sheet: _Sheet
    number: int
    course: Laid

    def point(self, node: int) -> complex:
        return self.sheet.points[node]

    def next_to(self, node: int, step: int) -> int | None:
        """The node beside one along the row; None past an end."""
        at = node - self.course.first + step
        if 0 <= at < self.course.number:
            return self.course.first + at
        if self.course.closed and self.course.number > 1:
            return self.course.first + at % self.course.number
        return None

    def along(self, node: int) -> complex:
        """The way of the row at a node, of length 1."""
        before, after = self.next_to(node, -1), self.next_to(node, 1)
        one = self.point(node if before is None else before)
        other = self.point(node if after is None else after)
        way = other - one
        return way / abs(way) if abs(way) > 1e-9 else 1 + 0j

    def apart(self, node: int) -> float:
        """How far the nearer neighbour lies, at most a width."""
        here = self.point(node)
        beside = (self.next_to(node, -1), self.next_to(node, 1))
        ways = [abs(self.point(n) - here) for n in beside if n is not None and n != node]
        return min([self.sheet.unit, *ways])


def _beginning(row: _Row) -> Iterator[Mark]:
    """A foundation chain, or the ring that rounds begin in."""
    course, unit = row.course, row.sheet.unit
    if course.number == 1:
        centre = row.point(course.first)
        drawn = chain_ring(centre, RING * unit)
        yield Mark(RING_SYMBOL, drawn, centre, course.first, row.number)
        return
    for node in range(course.first, course.first + course.number):
        yield _chain(row, node)


def _chain(row: _Row, node: int) -> Mark:
    at, unit = row.point(node), row.sheet.unit
    drawn = chain_at(at, row.along(node), unit, 0.5 * row.apart(node))
    return Mark(CHAIN, drawn, at, node, row.number)


def _marks_in(row: _Row, moves: Sequence[Move]) -> Iterator[Mark]:
    graph = row.sheet.piece.graph
    main = _main(row, moves)
    _cross(row, moves, main)
    slips = 0
    for move in moves:
        if move.is_slip_on_the_way and not move.nodes:
            at_start = move.first == row.course.first
            yield _slip(row, move, slips) if at_start else _slip_within(row, move)
            slips += at_start
        if move.is_beginning and move.standing and not _counts(move):
            yield _beside(row, move)
        if move.stitch.kind == "picot":
            yield _picot(row, move)
        for node in range(move.first, move.first + move.nodes):
            if graph.is_chain[node]:
                yield _chain(row, node)
            elif graph.stands[node] and move.standing:
                yield _standing(row, node, move.standing)
            else:
                yield _stitch(row, node, move, main)


def _cross(row: _Row, moves: Sequence[Move], main: str) -> None:
    """Gives stitches that a definition crosses each other's feet, half of them each."""
    group: list[int] = []
    for move in moves:
        symbol = row.sheet.symbol(move.stitch.kind, "", main) if move.nodes else None
        if symbol is None or not symbol.id.endswith(CROSSED):
            group = []
            continue
        group.extend(range(move.first, move.first + move.nodes))
        if len(group) >= symbol.legs:
            feet = row.sheet.feet
            own = [feet[node] for node in group if node in feet]
            half = len(own) // 2
            if len(own) == len(group):
                feet.update(zip(group, own[half:] + own[:half], strict=True))
            group = []


def _counts(move: Move) -> bool:
    return any(head.counts for head in move.stitch.heads if not _is_space(head.kind))


def _is_space(kind: object) -> bool:
    return str(kind) == "space"


def _main(row: _Row, moves: Sequence[Move]) -> str:
    """The usual plain stitch of a row, by its name."""
    often: dict[str, int] = {}
    for move in moves:
        kind = move.stitch.kind
        if move.nodes and not move.is_beginning and kind not in ("ch", "inc", "dec"):
            often[kind] = often.get(kind, 0) + 1
    plain = {k: n for k, n in often.items() if row.sheet.symbol(k, "", "").stands}
    return max(plain, key=lambda kind: plain[kind], default="")


def _stitch(row: _Row, node: int, move: Move, main: str) -> Mark:
    sheet, stitch = row.sheet, move.stitch
    tops = [head.stitch for head in stitch.heads if not _is_space(head.kind)]
    symbol = sheet.symbol(stitch.kind, tops[0] if tops else "", main)
    feet = sheet.feet.get(node) or _without_feet(row, node)
    top, front = row.point(node), bool(sheet.piece.front[row.number])
    loop, post = (name if front else _OTHER[name] for name in (feet.loop, feet.post))
    keep = max(feet.keep, (0.26 if feet.marked else 0.4) * sheet.unit if feet.loop else 0.0)
    room = ROOM * row.apart(node)
    place = Place(feet.at, top, _upright(row, node, feet), sheet.unit, room, keep, feet.fan)
    drawn = glyph_of(symbol, place)
    for foot in feet.at:
        if post:
            drawn = drawn + post_hook(post, foot, _up(foot, top), place)
        if loop and feet.marked:
            drawn = drawn + loop_mark(loop, foot, _up(foot, top), place)
    middle = (sum(feet.at) / len(feet.at) + top) / 2
    return Mark(symbol, drawn, middle, node, row.number, loop, post)


def _up(foot: complex, top: complex) -> complex:
    way = top - foot
    return way / abs(way) if abs(way) > 1e-9 else -1j


def _upright(row: _Row, node: int, feet: Feet) -> complex:
    """The way of the row at a top, to the right of who looks from the foot up."""
    along = row.along(node)
    up = row.point(node) - sum(feet.at) / len(feet.at)
    return along if (along * (1j * up).conjugate()).real >= 0 else -along


def _without_feet(row: _Row, node: int) -> Feet:
    """A stitch that stands on nothing laid: straight down from its row."""
    high = (row.course.height or 1.0) * row.sheet.unit
    return Feet((row.point(node) - high * _outwards(row, node),))


def _outwards(row: _Row, node: int) -> complex:
    """Square to the row, away from the rows before it."""
    piece = row.sheet.piece
    way = 1j * row.along(node)
    return way if bool(piece.front[row.number]) != piece.mirrored else -way


def _standing(row: _Row, node: int, number: int) -> Mark:
    """A beginning chain that counts as a stitch."""
    foot, top = _foot_of_first(row, node), row.point(node)
    unit = row.sheet.unit
    way = top - foot
    graph = row.sheet.piece.graph
    in_ring = row.course.row == 1 and graph.courses[0].number == 1
    long = max(abs(way), 1e-9)
    feet = row.sheet.feet.get(node)
    least = 0.26 if feet is not None and feet.fan and not in_ring else 0.08
    low = foot + max(least, min(0.5, IN_RING * unit / long) if in_ring else 0.0) * way
    high = top - 0.03 * way
    drawn = chains_up(number, low, high, unit)
    return Mark(CHAIN, drawn, (foot + top) / 2, node, row.number)


def _foot_of_first(row: _Row, node: int) -> complex:
    """Where a row's first stitch stands: as the next one does, if nothing tells it."""
    feet = row.sheet.feet.get(node)
    if feet is not None:
        return sum(feet.at) / len(feet.at)
    following = row.next_to(node, 1)
    if following is not None and (other := row.sheet.feet.get(following)):
        if row.sheet.piece.graph.courses[0].number == 1 and row.course.row == 1:
            return other.at[0]
        return row.point(node) + other.at[0] - row.point(following)
    return _without_feet(row, node).at[0]


def _beside(row: _Row, move: Move) -> Mark:
    """A beginning chain that counts as nothing: beside the first stitch of the row."""
    node, unit = row.course.first, row.sheet.unit
    if not row.course.number:
        return Mark(CHAIN, Glyph(), 0j, node, row.number, whole=False)
    foot, top = _foot_of_first(row, node), row.point(node)
    following = row.next_to(node, 1)
    way = top - row.point(following) if following is not None else 1 + 0j
    aside = BESIDE * unit * way / abs(way) if abs(way) > 1e-9 else 0j
    up = top - foot
    long = abs(up)
    number = move.standing
    wanted = min(long * 0.86, number * 0.8 * unit)
    low = foot + aside + max(0.1, min(0.3, 0.24 * unit / max(long, 1e-9))) * up
    high = low + (wanted / long * up if long > 1e-9 else 0j)
    drawn = chains_up(number, low, high, unit)
    return Mark(CHAIN, drawn, (low + high) / 2, node, row.number, whole=False)


def _join(row: _Row) -> Mark:
    """The slip stitch that joins a round."""
    first, last = row.course.first, row.course.first + row.course.number - 1
    one, other = row.point(last), row.point(first)
    way = other - one
    at = one + min(0.5, 0.55 * row.sheet.unit / max(abs(way), 1e-9)) * way
    radius = min(0.12 * row.sheet.unit, 0.2 * abs(way))
    return Mark(JOIN, dot_at(at, radius), at, last, row.number, whole=False)


def _dot(row: _Row, at: complex, node: int) -> Mark:
    return Mark(JOIN, dot_at(at, 0.1 * row.sheet.unit), at, node, row.number, whole=False)


def _slip_within(row: _Row, move: Move) -> Mark:
    """A slip stitch that joins a row on its way: between what it made before and next."""
    node, unit = move.first - 1, row.sheet.unit
    following = row.next_to(node, 1)
    here = row.point(node)
    way = row.point(following) - here if following is not None else unit * row.along(node)
    return _dot(row, here + 0.5 * way, node)


def _slip(row: _Row, move: Move, number: int) -> Mark:
    """A slip stitch on the way to where a row goes on: on the edge, a little above it."""
    node, unit = row.course.first, row.sheet.unit
    below = travelled(row.sheet.piece.graph, row.number, move)
    if below is not None:
        chain = bool(row.sheet.piece.graph.is_chain[below])
        beside = 0.38 * unit * _outwards(row, node) if chain else 0j
        return _dot(row, row.point(below) + beside, node)
    foot, top = _foot_of_first(row, node), row.point(node)
    following = row.next_to(node, 1)
    way = top - row.point(following) if following is not None else 1 + 0j
    along = way / abs(way) if abs(way) > 1e-9 else 1 + 0j
    at = foot + (0.32 + 0.3 * number) * unit * along + 0.06 * (top - foot)
    return Mark(JOIN, dot_at(at, 0.1 * unit), at, node, row.number, whole=False)


def _picot(row: _Row, move: Move) -> Mark:
    """Three chains in a loop on the stitch before."""
    node = max(row.course.first, move.first - 1)
    unit, out = row.sheet.unit, _outwards(row, node)
    top = row.point(node) + 0.2 * unit * out
    centre = top + 0.3 * unit * out
    return Mark(PICOT, picot_at(centre, out, unit), centre, node, row.number, whole=False)
