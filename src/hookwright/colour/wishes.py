"""What the worksheet wishes for the stripes, as rules that are sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.colour.facts import Kind, Palette, Rule
from hookwright.colour.palette import RULE
from hookwright.design.facts import StripesWanted
from hookwright.finding import Finding, Severity
from hookwright.source import Span

SIMILAR = 20_00
"""Colours that differ less look alike. Our own choice, for yarn across a room; CIEDE2000
is made for smaller differences, where one of 1 is about the least that is seen."""
NO_WISHES = StripesWanted(Span(0, 0))


class Wishes(Struct, frozen=True):
    """Her wishes with the colours looked up.

    Attributes:
        told: The wishes as they stand in the worksheet.
        rules: The rules, the order's first, then those of the rows.
        favourites: Colours for the wider stripes.
        edging: The colour of the edging.
    """

    told: StripesWanted
    rules: tuple[Rule, ...] = ()
    favourites: frozenset[int] = frozenset()
    edging: int | None = None

    def rule(self, kind: Kind) -> Rule | None:
        """The first rule of a kind."""
        return next((rule for rule in self.rules if rule.kind is kind), None)


def wishes_of(
    palette: Palette, told: StripesWanted | None
) -> tuple[Wishes, tuple[Finding, ...]]:
    """The wishes, and what of them cannot be taken."""
    told = told or NO_WISHES
    reader = _Reader(palette, told)
    favourites = frozenset(reader.colours("favourites", told.favourites))
    edging = next(
        iter(reader.colours("edging", [told.edging] if told.edging else [])), None
    )
    rules = (
        _rule(told, Kind.NEIGHBOURS, "Neighbours are of two colours."),
        *reader.pairs(Kind.APART, told.apart),
        *reader.pairs(Kind.TOGETHER, told.together),
        *_rules_of_order(told),
        *_rules_of_rows(palette, told),
    )
    wishes = Wishes(told, rules, favourites, edging)
    return wishes, tuple(reader.findings)


def _rule(
    told: StripesWanted, kind: Kind, says: str, number: int = 0,
    choices: tuple[int, ...] = (), colours: tuple[int, ...] = (),
) -> Rule:  # fmt: skip
    return Rule(kind, says, told.place(kind), colours, number, choices)


def _rules_of_order(told: StripesWanted) -> Iterator[Rule]:
    if told.spread_similar:
        says = "Colours that look alike have two others between them at least."
        yield _rule(told, Kind.SPREAD, says)
    if told.least_contrast:
        number = round(told.least_contrast * 100)
        says = f"Neighbours differ by {number / 100:g} at least."
        yield _rule(told, Kind.CONTRAST, says, number)
    if told.light_dark:
        yield _rule(told, Kind.LIGHT_DARK, "Light and dark take turns.")
    if told.least_gap:
        others = "1 other" if told.least_gap == 1 else f"{told.least_gap} others"
        says = f"Between two stripes of one colour lie {others} at least."
        yield _rule(told, Kind.GAP, says, told.least_gap)
    if told.looks_random:
        yield _rule(told, Kind.RANDOM, "No sequence of stripes is followed by itself.")
    if told.first_equals_last:
        yield _rule(told, Kind.FIRST_LAST, "The last stripe is of the first colour.")
    if told.mirrored:
        yield _rule(told, Kind.MIRRORED, "The second half is the first one backwards.")


def _rules_of_rows(palette: Palette, told: StripesWanted) -> Iterator[Rule]:
    if told.rows:
        yield _rule(told, Kind.ROWS, f"A stripe has {_choice(told.rows)}.", 0, told.rows)
    if told.favourites:
        rows = told.favourite_rows
        says = f"A favourite's stripe has {_choice(rows)}." if rows else (
            "A favourite's stripe is wider than the others."
        )  # fmt: skip
        yield _rule(told, Kind.FAVOURITES, says, 0, rows)
    if told.carry:
        says = "Stripes are even, so that colours can be carried up the side."
        yield _rule(told, Kind.CARRY, says)
    for colour, shade in enumerate(palette.shades):
        if shade.most_rows is not None:
            says = f"{shade.label} has {_rows(shade.most_rows)} at most."
            yield Rule(Kind.LIMIT, says, shade.span, (colour,), shade.most_rows)


def _choice(rows: Sequence[int]) -> str:
    numbers = [str(number) for number in dict.fromkeys(rows)]
    told = " or ".join([", ".join(numbers[:-1]), numbers[-1]] if numbers[1:] else numbers)
    return f"{told} row{'' if told == '1' else 's'}"


def _rows(number: int) -> str:
    return f"{number} row{'' if number == 1 else 's'}"


class _Reader:
    """Looks up the colours that wishes name."""

    def __init__(self, palette: Palette, told: StripesWanted) -> None:
        self.palette = palette
        self.told = told
        self.findings: list[Finding] = []

    def colours(self, key: str, names: Sequence[str]) -> Iterator[int]:
        """The colours of some names, as far as there are any."""
        for name in dict.fromkeys(names):
            colour = self._colour(key, name)
            if colour is not None:
                yield colour

    def pairs(self, kind: Kind, pairs: Sequence[tuple[str, str]]) -> Iterator[Rule]:
        """A rule for each pair of two different colours."""
        seen: set[tuple[int, int]] = set()
        for names in pairs:
            one, other = (self._colour(kind, name) for name in names)
            if one is None or other is None:
                continue
            pair = (min(one, other), max(one, other))
            if one == other:
                self._tell(kind, f'"{names[0]}" is paired with itself.')
            elif pair not in seen:
                seen.add(pair)
                yield self._pair(kind, *pair)

    def _pair(self, kind: Kind, one: int, other: int) -> Rule:
        a, b = self.palette.label(one), self.palette.label(other)
        says = {
            Kind.APART: f"{a} and {b} do not touch.",
            Kind.TOGETHER: f"{a} and {b} lie side by side.",
        }[kind]
        return Rule(kind, says, self.told.place(kind), (one, other))

    def _colour(self, key: str, name: str) -> int | None:
        """The colour of a name. One that no yarn has is told with the worksheet."""
        colour = self.palette.find(name)
        if colour is None and sum(name in s.aliases for s in self.palette.shades) > 1:
            self._tell(key, f'"{name}" is the name of several yarns.')
        return colour

    def _tell(self, key: str, message: str) -> None:
        why = "Write the letter of the yarn that is meant."
        finding = Finding(RULE, Severity.WARNING, self.told.place(key), message, why)
        if finding not in self.findings:
            self.findings.append(finding)
