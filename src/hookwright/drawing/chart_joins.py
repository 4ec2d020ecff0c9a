"""Where do the dots of joins and slip stitches stand, and picots, which leave no top?"""

from __future__ import annotations

from hookwright.drawing.chart_row import ChartRow, Mark, foot_of_first, outwards
from hookwright.drawing.movements import Move, travelled
from hookwright.drawing.stitch_symbols import Symbol
from hookwright.drawing.strokes import dot_at, picot_at

JOIN = Symbol("sl st", "slip stitch", "dot")
PICOT = Symbol("picot", "picot")


def join(row: ChartRow) -> Mark:
    """The slip stitch that joins a round."""
    first, last = row.course.first, row.course.first + row.course.number - 1
    one, other = row.point(last), row.point(first)
    way = other - one
    at = one + min(0.5, 0.55 * row.sheet.unit / max(abs(way), 1e-9)) * way
    radius = min(0.12 * row.sheet.unit, 0.2 * abs(way))
    return Mark(JOIN, dot_at(at, radius), at, last, row.number, whole=False)


def join_beyond(row: ChartRow) -> Mark:
    """The slip stitch that joins a round which is drawn as a row: beyond its end."""
    last = row.course.first + row.course.number - 1
    way = row.point(last) - row.point(last - 1)
    beyond = 0.55 * row.sheet.unit * way / max(abs(way), 1e-9)
    return _dot(row, row.point(last) + beyond, last)


def _dot(row: ChartRow, at: complex, node: int) -> Mark:
    return Mark(JOIN, dot_at(at, 0.1 * row.sheet.unit), at, node, row.number, whole=False)


def slip_within(row: ChartRow, move: Move) -> Mark:
    """A slip stitch that joins a row on its way: between what it made before and next."""
    node, unit = move.first - 1, row.sheet.unit
    following = row.next_to(node, 1)
    here = row.point(node)
    way = row.point(following) - here if following is not None else unit * row.along(node)
    return _dot(row, here + 0.5 * way, node)


def slip_at_start(row: ChartRow, move: Move, number: int) -> Mark:
    """A slip stitch on the way to where a row goes on: on the edge, a little above it."""
    node, unit = row.course.first, row.sheet.unit
    if not row.course.number:
        return _slip_last(row, number)
    below = travelled(row.sheet.piece.graph, row.number, move)
    if below is not None:
        chain = bool(row.sheet.piece.graph.is_chain[below])
        beside = 0.38 * unit * outwards(row, node) if chain else 0j
        return _dot(row, row.point(below) + beside, node)
    foot, top = foot_of_first(row, node), row.point(node)
    following = row.next_to(node, 1)
    way = top - row.point(following) if following is not None else 1 + 0j
    along = way / abs(way) if abs(way) > 1e-9 else 1 + 0j
    at = foot + (0.32 + 0.3 * number) * unit * along + 0.06 * (top - foot)
    return Mark(JOIN, dot_at(at, 0.1 * unit), at, node, row.number, whole=False)


def _slip_last(row: ChartRow, number: int) -> Mark:
    """A slip stitch of a row of nothing else: on the edge, outside the stitch below."""
    course = row.sheet.piece.graph.courses[row.number - 1]
    under = ChartRow(row.sheet, row.number - 1, course)
    at = number % max(1, course.number)
    turned = course.direction != row.course.direction
    node = course.first + (course.number - 1 - at if turned else at)
    return _dot(
        row, under.point(node) + 0.38 * row.sheet.unit * outwards(under, node), node
    )


def picot(row: ChartRow, move: Move, beside: int = 0) -> Mark:
    """Three chains in a loop on the stitch before, beside so many others on it."""
    node = max(row.course.first, move.first - 1)
    unit, out = row.sheet.unit, outwards(row, node)
    top = row.point(node) + 0.2 * unit * out
    centre = top + 0.3 * unit * out + 0.9 * beside * unit * row.along(node)
    return Mark(PICOT, picot_at(centre, out, unit), centre, node, row.number, whole=False)
