"""What is known of a row while its symbols are placed: where it lies, which way it goes?

Points are those of the page, in mm, y down.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.drawing.chart_feet import Feet
from hookwright.drawing.lying import Lying
from hookwright.drawing.stitch_symbols import Symbol, Symbols
from hookwright.drawing.strokes import Glyph, shifted
from hookwright.shape.graph import Laid


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


class ChartSheet(Struct):
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


class ChartRow(Struct, frozen=True):
    """A row or round on the sheet."""

    sheet: ChartSheet
    number: int
    course: Laid

    def point(self, node: int) -> complex:
        """Where a node lies, in mm."""
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


def without_feet(row: ChartRow, node: int) -> Feet:
    """A stitch that stands on nothing laid: straight down from its row."""
    high = (row.course.height or 1.0) * row.sheet.unit
    return Feet((row.point(node) - high * outwards(row, node),))


def outwards(row: ChartRow, node: int) -> complex:
    """Square to the row, away from the rows before it."""
    piece = row.sheet.piece
    way = 1j * row.along(node)
    return way if bool(piece.front[row.number]) != piece.mirrored else -way


def foot_of_first(row: ChartRow, node: int) -> complex:
    """Where a row's first stitch stands: as the next one does, if nothing tells it."""
    feet = row.sheet.feet.get(node)
    if feet is not None:
        return sum(feet.at) / len(feet.at)
    following = row.next_to(node, 1)
    if following is not None and (other := row.sheet.feet.get(following)):
        if row.sheet.piece.graph.courses[0].number == 1 and row.course.row == 1:
            return other.at[0]
        return row.point(node) + other.at[0] - row.point(following)
    return without_feet(row, node).at[0]
