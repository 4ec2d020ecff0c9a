"""Does a printed count agree with the row?

Patterns count in more than one habit: every stitch, the beginning chain apart, or the chain
spaces as well. A pattern keeps to one, so agreement is told for each and settled over all
its rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import IntEnum

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.working.count import Count
from hookwright.working.fabric import (
    Edge,
    Place,
    PlaceKind,
    Row,
    Stitch,
    counted,
    is_space,
)
from hookwright.working.hook import QUIET_KINDS
from hookwright.working.sequence import Group, Line, Repeat, Run, tally, total
from hookwright.working.stitches import (
    is_counted_alone,
    is_group_word,
    is_plain,
    is_stitch_name,
    may_be_called,
)
from hookwright.working.stretches import stretches

SQUARES = frozenset({"block", "mesh", "square", "window", "pane"})
"""Units of the writer's own that nothing here can count unless groups bear the name."""


class Habit(IntEnum):
    """How a pattern counts."""

    ALL = 0
    CHAIN_APART = 1
    SPACES_TOO = 2


HABITS = tuple(Habit)


class Tally(Struct, frozen=True):
    """What a row leaves, by everything a pattern may count.

    Attributes:
        stitches: All stitches.
        beginning: 1 where a beginning chain is one of them.
        spaces: Chain spaces, and the chains in them.
        kinds: Stitches by name.
        lengths: Chain spaces by their number of chains.
        groups: Groups by name; "" for all of them.
        topless: What is made and leaves no top, by name: picots.
        edge: The edge itself.
        beginning_chains: The chains of the beginning chain.
    """

    stitches: Count
    beginning: Count
    spaces: Count
    chains: Count
    kinds: dict[str, Count]
    lengths: dict[int, Count]
    groups: dict[str, Count]
    edge: Edge
    beginning_chains: int
    beginning_stitch: str
    topless: dict[str, Count] = {}


def tally_of(edge: Edge, row: Row | None = None) -> Tally:
    """Everything along an edge that may be counted, and what its row made beside it."""
    groups: dict[str, Count] = {}
    _groups_into(groups, edge.line, 1)
    begun = _begun_as(edge.line)
    if begun:
        groups[begun] += 1
    pairs = _pairs_along(edge.line)
    if pairs and pairs * 2 == edge.stitches:
        groups[_PAIRS] = pairs
    begins = list(_beginnings(edge.line))
    return Tally(
        edge.stitches,
        total(edge.line, lambda p: p.counts if p.kind is PlaceKind.TURNING_CHAIN else 0),
        edge.spaces,
        total(edge.line, lambda p: p.chains if p.kind is PlaceKind.SPACE else 0),
        edge.kinds(),
        _lengths(edge.line),
        groups,
        edge,
        begins[0].chains if begins else 0,
        begins[0].stitch if begins else "",
        {} if row is None else tally(row.line, lambda s: s.kind if _is_topless(s) else ""),
    )


_PAIRS = "=pair"


def _pairs_along(line: Line[Place]) -> Count:
    """How many groups of two stitches stand along a line."""
    pairs: Count = 0
    for piece in line:
        if isinstance(piece, Repeat):
            pairs = pairs + _pairs_along(piece.body) * piece.times
        elif isinstance(piece, Group) and not piece.name:
            pairs = pairs + int(total(piece.body, counted) == 2)
    return pairs


def _begins_pair(line: Line[Place]) -> bool:
    """Whether the beginning chain is one of a group of two."""
    first = line[0] if line else None
    return isinstance(first, Group) and next(_beginnings(first.body), None) is not None


def _is_topless(stitch: Stitch) -> bool:
    return not stitch.heads and not stitch.along and stitch.kind not in QUIET_KINDS


def _beginnings(line: Line[Place]) -> Iterator[Place]:
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.kind is PlaceKind.TURNING_CHAIN:
                yield piece.item
        else:
            yield from _beginnings(piece.body)


def _lengths(line: Line[Place]) -> dict[int, Count]:
    result: dict[int, Count] = {}
    _lengths_into(result, line, 1)
    return result


def _lengths_into(result: dict[int, Count], line: Line[Place], times: Count) -> None:
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.kind is PlaceKind.SPACE:
                chains = piece.item.chains
                result[chains] = result.get(chains, 0) + piece.times * times
        elif isinstance(piece, Repeat):
            _lengths_into(result, piece.body, piece.times * times)
        else:
            _lengths_into(result, piece.body, times)


def _loose(line: Line[Place], named: frozenset[str], *, any_name: bool) -> dict[str, Count]:
    """Stitches by name, without those in groups that are counted as groups."""
    result: dict[str, Count] = {}
    _loose_into(result, line, 1, named, any_name=any_name)
    return result


def _outside_pairs(line: Line[Place], times: Count = 1) -> dict[str, Count]:
    """Stitches by name, without those in groups of two; one beside the chain is loose."""
    result: dict[str, Count] = {}
    for piece in line:
        if isinstance(piece, Group) and _is_pair(piece):
            continue
        inner = (
            {piece.item.stitch: piece.times * piece.item.counts}
            if isinstance(piece, Run)
            else _outside_pairs(piece.body, piece.times if isinstance(piece, Repeat) else 1)
        )
        for kind, number in inner.items():
            if number:
                result[kind] = result.get(kind, 0) + number * times
    return result


def _is_pair(group: Group[Place]) -> bool:
    begun = next(_beginnings(group.body), None) is not None
    return not begun and total(group.body, counted) == 2


def _loose_into(
    result: dict[str, Count],
    line: Line[Place],
    times: Count,
    named: frozenset[str],
    *,
    any_name: bool,
) -> None:
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.counts:
                kind = piece.item.stitch
                result[kind] = result.get(kind, 0) + piece.times * times * piece.item.counts
        elif isinstance(piece, Repeat):
            _loose_into(result, piece.body, piece.times * times, named, any_name=any_name)
        elif piece.name not in named and not (any_name and _is_big(piece)):
            _loose_into(result, piece.body, times, named, any_name=any_name)


def _is_big(group: Group[Place]) -> bool:
    several = total(group.body, lambda place: place.counts) >= 3
    return bool(group.name) or several or bool(total(group.body, is_space))


def _groups_into(result: dict[str, Count], line: Line[Place], times: Count) -> None:
    for piece in line:
        if isinstance(piece, Group):
            if _is_big(piece):
                result[""] = result.get("", 0) + times
                alike = f"={_shape(piece.body)}"
                result[alike] = result.get(alike, 0) + times
            if piece.name:
                result[piece.name] = result.get(piece.name, 0) + times
            _groups_into(
                result, tuple(p for p in piece.body if isinstance(p, Group)), times
            )
        elif isinstance(piece, Repeat):
            _groups_into(result, piece.body, piece.times * times)


def _begun_as(line: Line[Place]) -> str:
    """The name of the groups that the one begun with a chain is the first of, or "".

    "Ch 3, 4 dc in same st" is the first of the shells of 5 dc that follow.
    """
    begun = line[0] if line else None
    if (
        not isinstance(begun, Group)
        or begun.name
        or not next(_beginnings(begun.body), None)
    ):
        return ""
    size = total(begun.body, counted)
    named = (group for group in _all_groups(line) if group.name)
    return next((g.name for g in named if total(g.body, counted) == size), "")


def _all_groups(line: Line[Place]) -> Iterator[Group[Place]]:
    for piece in line:
        if isinstance(piece, Group):
            yield piece
        elif isinstance(piece, Repeat):
            yield from _all_groups(piece.body)


def _shape(line: Line[Place]) -> str:
    """What a group is made of: groups of one shape are counted under one name."""
    words = (
        f"{piece.times}{piece.item.stitch}{piece.item.chains}"
        if isinstance(piece, Run) else _shape(piece.body)
        for piece in line
    )  # fmt: skip
    return " ".join(words)


Agreement = tuple[tuple[bool, bool, bool], ...]
"""For each count of a row, whether it agrees in each habit."""


def agreement(claim: Claim, tally: Tally, size: int) -> tuple[bool, bool, bool]:
    """Whether a count agrees, in each habit."""
    apart = bool(tally.beginning) and any(
        figure.unit == "ch" and figure.amount.at(size) == tally.beginning_chains
        for figure in claim.figures
    )
    figures = _summed(claim.figures)
    tallies = _tallies(figures, tally)
    every = _agree(figures, tallies, size, Habit.ALL, apart=apart)
    if not (tally.beginning or tally.spaces or tally.chains):
        return (every, every, every)  # the habits differ in what is not there
    return (
        every,
        _agree(figures, tallies, size, Habit.CHAIN_APART, apart=apart),
        _agree(figures, tallies, size, Habit.SPACES_TOO, apart=apart),
    )


def _agree(
    figures: tuple[Figure, ...],
    tallies: Iterable[Tally],
    size: int,
    habit: Habit,
    *,
    apart: bool,
) -> bool:
    """Whether all figures of a count agree with one of the things they may count."""
    return any(
        all(
            _agrees(figure, tally, size, habit, _others(figure, figures), apart=apart)
            for figure in figures
        )
        for tally in tallies
    )


def recounted(
    claim: Claim, before: Tally, after: Tally, size: int, habit: Habit
) -> tuple[int | None, ...] | None:
    """The numbers of a count for a row that has grown, one for each of its figures.

    Each figure goes on counting what it counts in the row before. Figures of one unit, "1
    tr, 9 groups, 1 tr", are the edges, and stay if their sum does. None where the count
    does not agree with the row before, or counts what the fabric does not tell.
    """
    apart = bool(before.beginning) and any(
        figure.unit == "ch" and figure.amount.at(size) == before.beginning_chains
        for figure in claim.figures
    )
    figures = _summed(claim.figures)
    tallies = zip(_tallies(figures, before), _tallies(figures, after), strict=False)
    for was, now in tallies:
        pairs = [
            (_answers(f, was, habit, _others(f, figures), apart=apart),
             _answers(f, now, habit, _others(f, figures), apart=apart))
            for f in figures
        ]  # fmt: skip
        found = [
            _counts_on(figure.amount.at(size), *pair)
            for figure, pair in zip(figures, pairs, strict=True)
        ]
        if _UNTOLD not in found:
            return _shared_out(claim.figures, figures, found, size)
    return None


_UNTOLD = -1


def _counts_on(
    number: int | None, before: Iterable[Count], after: Iterable[Count]
) -> int | None:
    """What a number comes to that is one of several answers before."""
    if number is None:
        return None
    for was, now in zip(before, after, strict=False):
        if was == number:
            return now if isinstance(now, int) else _UNTOLD
    return _UNTOLD


def _shared_out(
    figures: tuple[Figure, ...],
    summed: tuple[Figure, ...],
    found: list[int | None],
    size: int,
) -> tuple[int | None, ...] | None:
    """The numbers for the figures as printed, from those of each unit."""
    if len(figures) == len(summed):
        return tuple(found)
    sums = {
        (one.unit, one.chains): (one.amount.at(size), now)
        for one, now in zip(summed, found, strict=True)
    }
    numbers = []
    for figure in figures:
        key = (figure.unit, figure.chains)
        was, now = sums[key]
        alone = sum((other.unit, other.chains) == key for other in figures) == 1
        if not alone and was != now:
            return None
        numbers.append(now if alone else figure.amount.at(size))
    return tuple(numbers)


def figures_of_stitches(claim: Claim, tally: Tally) -> list[Figure]:
    """The figures of a count that count stitches: no spaces, groups, picots or corners."""
    return [
        figure for figure in claim.figures
        if figure.unit not in ("sp", "ch", *_GROUPS)
        and not is_group_word(figure.unit)
        and (
            is_counted_alone(figure.unit)
            or any(may_be_called(figure.unit, kind) for kind in tally.kinds)
        )
    ]  # fmt: skip


def _tallies(figures: tuple[Figure, ...], tally: Tally) -> list[Tally]:
    """What figures may count: stitches of groups are counted apart, or once more."""
    units = [f.unit for f in figures if _is_group_unit(f.unit, tally)]
    if not units:
        return [tally]
    named = frozenset(unit for unit in units if unit in tally.groups)
    loose = _loose(tally.edge.line, named, any_name=len(named) < len(set(units)))
    outside = _outside_pairs(tally.edge.line)
    return [replace(tally, kinds=loose), tally, replace(tally, kinds=outside)]


def groups_made(claim: Claim, tally: Tally, size: int) -> tuple[int, ...]:
    """What a wrong count of groups or spaces should say, a number for each of its figures.

    Of the numbers that a figure may stand for, the one nearest to what is printed. Empty
    for a count of stitches alone, and where something cannot be counted.
    """
    figures = claim.figures
    if not any(f.unit == "sp" or _is_group_unit(f.unit, tally) for f in figures):
        return ()
    printed = tuple(figure.amount.at(size) or 0 for figure in figures)
    nearest = [
        tuple(
            _nearest(number, _answers(f, one, Habit.ALL, _others(f, figures), apart=False))
            for f, number in zip(figures, printed, strict=True)
        )
        for one in _tallies(figures, tally)
    ]
    wrong = [made for made in nearest if all(made) and made != printed]
    return min(wrong, key=lambda made: _distance(made, printed), default=())


def _nearest(printed: int, answers: Iterable[Count]) -> int:
    made = (number for number in answers if isinstance(number, int) and number)
    return min(made, key=lambda number: abs(number - printed), default=0)


def _distance(made: tuple[int, ...], printed: tuple[int, ...]) -> int:
    return sum(abs(a - b) for a, b in zip(made, printed, strict=True))


def _is_group_unit(unit: str, tally: Tally) -> bool:
    """Whether a unit counts groups: by their name, or by a word that is no stitch."""
    if unit in tally.groups or unit in _GROUPS or is_group_word(unit):
        return True
    return not is_stitch_name(unit) and bool(tally.groups)


def _others(figure: Figure, figures: tuple[Figure, ...]) -> tuple[str, ...]:
    """The units of the other figures of a count."""
    return tuple(other.unit for other in figures if other is not figure)


def _summed(figures: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """Reads "1 tr, 14 groups, 1 tr": figures of one unit are added up."""
    units = [(figure.unit, figure.chains) for figure in figures]
    if len(set(units)) == len(units):
        return figures
    result: dict[tuple[str, int | None], Figure] = {}
    for figure in figures:
        key = (figure.unit, figure.chains)
        before = result.get(key)
        result[key] = (
            figure
            if before is None
            else replace(before, amount=_sum(before.amount, figure.amount))
        )
    return tuple(result.values())


def _sum(a: Amount, b: Amount) -> Amount:
    size = max(len(a.values), len(b.values))
    values = tuple((a.at(i) or 0) + (b.at(i) or 0) for i in range(size))
    return Amount(values, a.span.to(b.span))


def _agrees(
    figure: Figure,
    tally: Tally,
    size: int,
    habit: Habit,
    others: tuple[str, ...],
    *,
    apart: bool,
) -> bool:
    number = figure.amount.at(size)
    if number is None:
        return True
    return any(
        number == answer for answer in _answers(figure, tally, habit, others, apart=apart)
    )


def _answers(
    figure: Figure, tally: Tally, habit: Habit, others: tuple[str, ...], *, apart: bool
) -> Iterable[Count]:
    """The numbers a unit may stand for in a habit."""
    minus = tally.beginning if habit is Habit.CHAIN_APART or apart else 0
    unit = figure.unit
    if unit in ("st", "stitch"):
        yield tally.stitches - minus
        if habit is Habit.SPACES_TOO:
            yield tally.stitches + tally.spaces
            yield tally.stitches + tally.chains
        return
    if unit in ("sp", "ch", "open mesh"):
        yield from _spaces(figure, tally)
        return
    no_groups = unit in _GROUPS and not tally.groups and not tally.spaces
    no_groups = no_groups and not (unit == "pair" and _pairs_along(tally.edge.line))
    if no_groups or (unit in SQUARES and unit not in tally.groups):
        yield figure.amount.at(0) or 0  # blocks and the like that nothing here can count
        return
    if unit in _GROUPS:
        yield from _groups(unit, tally, others)
        return
    of_kind = unit not in tally.kinds and any(_is_kind_of(unit, n) for n in tally.groups)
    if unit in tally.groups or of_kind:
        yield from _groups_called(unit, tally.groups)
        return
    if unit in tally.topless:
        yield tally.topless[unit]
        return
    if unit.startswith("half "):
        yield _halves(unit.removeprefix("half "), tally.edge) or figure.amount.at(0) or 0
        return
    told = is_group_word(unit) and not tally.groups
    if told or (unit == "picot" and unit not in tally.kinds):
        yield figure.amount.at(0) or 0  # the fabric does not tell
        return
    yield from _of_kind(unit, tally, minus, habit, others)


_GROUPS = ("group", "pair")


def _groups(unit: str, tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    """Groups of any name; of pairs those of two.

    Beside stitches counted alone, the pair that the chain begins may be two of those.
    """
    if unit == "pair":
        pairs = _pairs_along(tally.edge.line)
        yield pairs
        yield pairs - int(bool(others) and _begins_pair(tally.edge.line))
    yield tally.groups.get("", 0)
    yield from (n for name, n in tally.groups.items() if name[:1] == "=")
    yield stretches(tally.edge)


def _halves(unit: str, edge: Edge) -> Count:
    """How many groups are half as large as those of a name; 0 where the fabric has none."""
    sizes = list(_sizes(edge.line, 1))
    named = [size for name, size, _ in sizes if name == unit]
    whole = max(named or [size for _, size, _ in sizes], default=0)
    half = (whole // 2, (whole + 1) // 2)
    return sum(times for name, size, times in sizes if size in half and name != unit)


def _sizes(line: Line[Place], times: Count) -> Iterator[tuple[str, int, Count]]:
    """The name, the stitches and the number of each kind of group."""
    for piece in line:
        if isinstance(piece, Group):
            size = total(piece.body, counted)
            if isinstance(size, int) and size > 1:
                yield piece.name, size, times
        elif isinstance(piece, Repeat):
            yield from _sizes(piece.body, piece.times * times)


_BEGINNING = (
    "beginning", "beg", "starting", "start", "first", "opening", "edge", "side", "corner",
)  # fmt: skip
"""What the group that a row begins with is called: it is counted with the others."""


def _is_kind_of(unit: str, name: str) -> bool:
    """Whether a name is of one kind of what is counted: an "edge tile" is a tile."""
    return name.endswith(f" {unit}") and not name.startswith("half ")


def _groups_called(unit: str, groups: dict[str, Count]) -> Iterable[Count]:
    """Groups of a name, with those that stand for one: "starting block", a beginning V."""
    if unit in groups:
        alike = groups[unit] + sum(groups.get(f"{lead} {unit}", 0) for lead in _BEGINNING)
    else:
        alike = sum(number for name, number in groups.items() if _is_kind_of(unit, name))
    yield alike
    kinds = (name for name in groups if name and name[0] != "=" and name not in SQUARES)
    named = sum(groups[name] for name in {*kinds, *(SQUARES & {unit})})
    unnamed = groups.get("", 0) - named
    if unnamed in (1, 2):
        yield alike + unnamed


def _spaces(figure: Figure, tally: Tally) -> Iterable[Count]:
    if figure.chains is not None and figure.unit == "sp":
        yield tally.lengths.get(figure.chains, 0)
        return
    yield tally.spaces
    if figure.unit == "ch":
        yield tally.chains
        yield tally.beginning_chains


def _of_kind(
    unit: str, tally: Tally, minus: Count, habit: Habit, others: tuple[str, ...]
) -> Iterable[Count]:
    kinds = {
        kind: number
        for kind, number in tally.kinds.items()
        if kind == unit or (_counts_among(unit, kind) and kind not in others)
    }
    spaced = habit is Habit.SPACES_TOO and not others and tally.spaces != 0
    if kinds and not spaced:
        named: Count = sum(kinds.values())
        yield named - (minus if may_be_called(unit, tally.beginning_stitch) else 0)
    if not others:
        if not spaced:
            yield tally.stitches - minus
        if habit is Habit.SPACES_TOO:
            yield tally.stitches + tally.spaces
    if not kinds:
        yield from (n for name, n in tally.groups.items() if name[:1] in ("", "="))
        yield from _unnamed(tally, others)
        if not is_stitch_name(unit):
            yield tally.spaces


def _counts_among(unit: str, kind: str) -> bool:
    """Whether a stitch is one of a unit: a decrease is one of what is counted with it."""
    return may_be_called(unit, kind) or (kind == "dec" and is_plain(unit))


def _unnamed(tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    """Stitches that the count calls by another name: "5 bobbles" for what MB makes."""
    for kind, number in tally.kinds.items():
        if is_plain(kind) or any(may_be_called(other, kind) for other in others):
            continue
        yield number
