"""Which rules does a sequence not hold, and where? In sentences."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from hookwright.colour.arrangement import ahead, squares
from hookwright.colour.arranging import is_similar
from hookwright.colour.facts import Breach, Kind, Palette, Rule

_SHOWN = 3


class Laid(Struct, frozen=True):
    """Stripes as they lie.

    Attributes:
        colours: The colour of each.
        rows: The rows of each.
        repeated: Whether the sequence begins again behind its end.
        ends: The first and the last stripe of the piece.
        mirrored: Whether the piece is the same backwards.
        rows_of: The rows of each colour in the whole piece.
    """

    colours: tuple[int, ...]
    rows: tuple[int, ...]
    repeated: bool
    ends: tuple[int, int]
    mirrored: bool
    rows_of: Mapping[int, int]


class Broken(Struct, frozen=True):
    """A rule that is broken in so many places."""

    breach: Breach
    places: int


def broken_rules(
    palette: Palette, rules: Sequence[Rule], favourites: frozenset[int], laid: Laid
) -> tuple[Broken, ...]:
    """Every rule that is broken, with the places where it is."""
    judge = _Judge(palette, favourites, laid)
    found = []
    for rule in rules:
        told = list(judge.broken(rule))
        if told:
            more = f" And {len(told) - _SHOWN} more." if len(told) > _SHOWN else ""
            says = " ".join(told[:_SHOWN]) + more
            found.append(Broken(Breach(rule, says), len(told)))
    return tuple(found)


class _Judge:
    def __init__(self, palette: Palette, favourites: frozenset[int], laid: Laid) -> None:
        self.palette = palette
        self.favourites = favourites
        self.laid = laid
        self._ways: dict[Kind, Callable[[Rule], Iterator[str]]] = {
            Kind.NEIGHBOURS: self._neighbours, Kind.APART: self._apart,
            Kind.TOGETHER: self._together, Kind.SPREAD: self._spread,
            Kind.CONTRAST: self._contrast, Kind.LIGHT_DARK: self._light_dark,
            Kind.GAP: self._gap, Kind.RANDOM: self._random,
            Kind.FIRST_LAST: self._first_last, Kind.MIRRORED: self._mirrored,
            Kind.ROWS: self._rows, Kind.FAVOURITES: self._favourites,
            Kind.CARRY: self._carry, Kind.LIMIT: self._limit,
        }  # fmt: skip

    def broken(self, rule: Rule) -> Iterator[str]:
        """A sentence for each place where a rule is broken."""
        return self._ways[rule.kind](rule)

    def _pairs(self, distance: int) -> Iterator[tuple[int, int, str]]:
        """Every two stripes so far from each other, and where they lie."""
        colours = self.laid.colours
        far = ahead(colours, distance, repeated=self.laid.repeated)
        for at, (a, b) in enumerate(zip(colours, far, strict=False)):
            yield a, b, f"stripes {at + 1} and {(at + distance) % len(colours) + 1}"

    def _neighbours(self, rule: Rule) -> Iterator[str]:
        del rule
        for a, b, where in self._pairs(1):
            if a == b:
                yield f"{self.palette.label(a)} lies beside itself ({where})."

    def _apart(self, rule: Rule) -> Iterator[str]:
        for a, b, where in self._pairs(1):
            if {a, b} == set(rule.colours):
                one, other = self.palette.label(a), self.palette.label(b)
                yield f"{one} and {other} touch ({where})."

    def _together(self, rule: Rule) -> Iterator[str]:
        if not any({a, b} == set(rule.colours) for a, b, _ in self._pairs(1)):
            one, other = map(self.palette.label, rule.colours)
            yield f"{one} and {other} do not lie side by side."

    def _spread(self, rule: Rule) -> Iterator[str]:
        del rule
        for distance in (1, 2):
            for a, b, where in self._pairs(distance):
                if is_similar(self.palette, a, b):
                    one, other = self.palette.label(a), self.palette.label(b)
                    yield f"{one} and {other} look alike and lie near ({where})."

    def _contrast(self, rule: Rule) -> Iterator[str]:
        for a, b, where in self._pairs(1):
            apart = self.palette.difference[a][b]
            if a != b and apart < rule.number:
                one, other = self.palette.label(a), self.palette.label(b)
                differ = f"{apart / 100:.1f}, not by {rule.number / 100:g}"
                yield f"{one} and {other} differ by {differ} ({where})."

    def _light_dark(self, rule: Rule) -> Iterator[str]:
        del rule
        light = [self.palette.shades[c].lightness for c in self.laid.colours]
        repeated, many = self.laid.repeated, len(light)
        one, two = (ahead(light, n, repeated=repeated) for n in (1, 2))
        for at, (a, b, c) in enumerate(zip(light, one, two, strict=False)):
            if (b - a) * (c - b) >= 0:
                middle = (at + 1) % many
                label = self.palette.label(self.laid.colours[middle])
                where = f"stripe {middle + 1}"
                yield f"{label} is no lighter or darker than both beside it ({where})."

    def _gap(self, rule: Rule) -> Iterator[str]:
        for distance in range(2, rule.number + 1):
            for a, b, where in self._pairs(distance):
                if a == b:
                    lie = "lies 1" if distance == 2 else f"lie {distance - 1}"
                    label = self.palette.label(a)
                    yield f"Between two of {label} {lie}, not {rule.number} ({where})."

    def _random(self, rule: Rule) -> Iterator[str]:
        del rule
        colours = self.laid.colours
        for at, length in squares(colours):
            told = ", ".join(map(self.palette.label, colours[at : at + length]))
            yield f"{told} is followed by itself (from stripe {at + 1})."

    def _first_last(self, rule: Rule) -> Iterator[str]:
        del rule
        first, last = self.laid.ends
        if first != last:
            one, other = self.palette.label(first), self.palette.label(last)
            yield f"The first stripe is {one}, the last {other}."

    def _mirrored(self, rule: Rule) -> Iterator[str]:
        del rule
        if not self.laid.mirrored:
            yield "The second half is not the first one backwards."

    def _stripes(self) -> Iterator[tuple[int, int, int]]:
        return zip(range(1, 10**6), self.laid.colours, self.laid.rows, strict=False)

    def _rows(self, rule: Rule) -> Iterator[str]:
        for at, colour, rows in self._stripes():
            if colour not in self.favourites and rows not in rule.choices:
                yield f"{self.palette.label(colour)} has {_told(rows)} (stripe {at})."

    def _favourites(self, rule: Rule) -> Iterator[str]:
        others = [rows for _, c, rows in self._stripes() if c not in self.favourites]
        widest = max(others, default=0)
        for at, colour, rows in self._stripes():
            if colour in self.favourites and (
                rows not in rule.choices if rule.choices else rows <= widest
            ):
                yield f"{self.palette.label(colour)} has {_told(rows)} (stripe {at})."

    def _carry(self, rule: Rule) -> Iterator[str]:
        del rule
        for at, colour, rows in self._stripes():
            if rows % 2:
                yield f"{self.palette.label(colour)} has {_told(rows)} (stripe {at})."

    def _limit(self, rule: Rule) -> Iterator[str]:
        colour = rule.colours[0]
        rows = self.laid.rows_of.get(colour, 0)
        if rows > rule.number:
            yield f"{self.palette.label(colour)} takes {_told(rows)}, not {rule.number}."


def _told(rows: int) -> str:
    return f"{rows} row{'' if rows == 1 else 's'}"
