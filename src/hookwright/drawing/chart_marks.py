"""Which symbol stands where on a chart, for every stitch of a piece?

A symbol goes from the places its stitch is worked into to its top, so that increases fan
out and decreases meet by themselves. A chart shows the right side: on rows worked on the
wrong side, front and back change places. Points are those of the page, in mm, y down.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

from hookwright.drawing.chart_feet import IN_RING, Feet, feet_of
from hookwright.drawing.chart_joins import (
    join,
    join_beyond,
    picot,
    slip_at_start,
    slip_within,
)
from hookwright.drawing.chart_row import (
    ChartRow,
    ChartSheet,
    Mark,
    foot_of_first,
    without_feet,
)
from hookwright.drawing.glyphs import glyph_of
from hookwright.drawing.lying import Lying
from hookwright.drawing.movements import Move, moves_of
from hookwright.drawing.signs import loop_mark, post_hook
from hookwright.drawing.stitch_symbols import CROSSED, Symbol, Symbols
from hookwright.drawing.strokes import (
    Glyph,
    Place,
    chain_at,
    chain_ring,
    chains_up,
)

_OTHER = {"front": "back", "back": "front", "third": "third", "": ""}
ROOM = 0.44
"""How far a bar may reach on the way to the next stitch."""
BESIDE = 0.62
"""How far beside the first stitch a chain stands that counts for nothing."""
RING = 0.36
"""The radius of a ring, in widths of a stitch."""

CHAIN = Symbol("ch", "chain", "oval")
RING_SYMBOL = Symbol("ring", "ring")


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
    sheet = ChartSheet(piece, symbols, points, unit, feet)
    found: list[Mark] = []
    outcomes = iter(piece.outcomes)
    for number, course in enumerate(piece.graph.courses):
        row = ChartRow(sheet, number, course)
        outcome = next(outcomes) if course.row else None
        if number not in rows:
            continue
        if outcome is None:
            found.extend(_beginning(row))
            continue
        moves = moves_of(outcome, course)
        found.extend(_marks_in(row, moves))
        assert outcome.worked is not None
        if outcome.worked.closed and course.number > 1:
            found.append(join(row) if course.closed else join_beyond(row))
    return found


def _beginning(row: ChartRow) -> Iterator[Mark]:
    """A foundation chain, or the ring that rounds begin in."""
    course, unit = row.course, row.sheet.unit
    if course.number == 1:
        centre = row.point(course.first)
        # Of a tube that is drawn opened flat there is no middle.
        drawn = chain_ring(centre, RING * unit) if course.closed else Glyph()
        yield Mark(RING_SYMBOL, drawn, centre, course.first, row.number)
        return
    for node in range(course.first, course.first + course.number):
        yield _chain(row, node)


def _chain(row: ChartRow, node: int) -> Mark:
    at, unit = row.point(node), row.sheet.unit
    drawn = chain_at(at, row.along(node), unit, 0.5 * row.apart(node))
    return Mark(CHAIN, drawn, at, node, row.number)


def _marks_in(row: ChartRow, moves: Sequence[Move]) -> Iterator[Mark]:
    graph = row.sheet.piece.graph
    main = _main(row, moves)
    _cross(row, moves, main)
    slips = 0
    picots: dict[int, int] = {}
    for move in moves:
        if move.is_slip_on_the_way and not move.nodes:
            at_start = move.first == row.course.first
            yield slip_at_start(row, move, slips) if at_start else slip_within(row, move)
            slips += at_start
        if move.is_beginning and move.standing and not _counts(move):
            yield _beside(row, move)
        if move.stitch.kind == "picot":
            beside = picots.get(move.first, 0)
            picots[move.first] = beside + 1
            yield picot(row, move, beside)
        for node in range(move.first, move.first + move.nodes):
            if graph.is_chain[node]:
                yield _chain(row, node)
            elif graph.stands[node] and move.standing:
                yield _standing(row, node, move.standing)
            else:
                yield _stitch(row, node, move, main)


def _cross(row: ChartRow, moves: Sequence[Move], main: str) -> None:
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


def _main(row: ChartRow, moves: Sequence[Move]) -> str:
    """The usual plain stitch of a row, by its name."""
    often: dict[str, int] = {}
    for move in moves:
        kind = move.stitch.kind
        if move.nodes and not move.is_beginning and kind not in ("ch", "inc", "dec"):
            often[kind] = often.get(kind, 0) + 1
    plain = {k: n for k, n in often.items() if row.sheet.symbol(k, "", "").stands}
    return max(plain, key=lambda kind: plain[kind], default="")


def _stitch(row: ChartRow, node: int, move: Move, main: str) -> Mark:
    sheet, stitch = row.sheet, move.stitch
    tops = [head.stitch for head in stitch.heads if not _is_space(head.kind)]
    symbol = sheet.symbol(stitch.kind, tops[0] if tops else "", main)
    feet = sheet.feet.get(node) or without_feet(row, node)
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


def _upright(row: ChartRow, node: int, feet: Feet) -> complex:
    """The way of the row at a top, to the right of who looks from the foot up."""
    along = row.along(node)
    up = row.point(node) - sum(feet.at) / len(feet.at)
    return along if (along * (1j * up).conjugate()).real >= 0 else -along


def _standing(row: ChartRow, node: int, number: int) -> Mark:
    """A beginning chain that counts as a stitch."""
    foot, top = foot_of_first(row, node), row.point(node)
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


def _beside(row: ChartRow, move: Move) -> Mark:
    """A beginning chain that counts as nothing: beside the first stitch of the row."""
    node, unit = row.course.first, row.sheet.unit
    if not row.course.number:
        return Mark(CHAIN, Glyph(), 0j, node, row.number, whole=False)
    foot, top = foot_of_first(row, node), row.point(node)
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
