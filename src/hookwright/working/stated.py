"""Does a printed count agree with the row?

Patterns count in more than one habit: every stitch, the beginning chain apart, or the chain
spaces as well. A pattern keeps to one, so agreement is told for each and settled over all
its rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from enum import IntEnum

from msgspec.structs import replace

from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.working.count import Count
from hookwright.working.groups import (
    SHAPE,
    are_only,
    begins_in_pair,
    edge_pairs_loose,
    halves,
    is_parted_by_join,
    outside_named,
    outside_pairs,
    pairs_along,
)
from hookwright.working.mesh import OPEN, SOLID
from hookwright.working.net import solid_squares
from hookwright.working.sequence import Group
from hookwright.working.stitches import (
    is_counted_alone,
    is_group_word,
    is_plain,
    is_stitch_name,
    may_be_called,
)
from hookwright.working.stretches import stretches, stretches_alike
from hookwright.working.tally import Tally

SQUARES = frozenset({"block", "mesh", "square", "window", "pane"})
"""Units of the writer's own that nothing here can count unless groups bear the name."""


class Habit(IntEnum):
    """How a pattern counts."""

    ALL = 0
    CHAIN_APART = 1
    SPACES_TOO = 2


HABITS = tuple(Habit)


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
    number: int | None, before: Sequence[Count] | None, after: Sequence[Count] | None
) -> int | None:
    """What a number comes to that is one of several answers before."""
    if number is None:
        return None
    for was, now in zip(before or (), after or (), strict=False):
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
    line = tally.edge.line
    loose = outside_named(line, named, any_name=len(named) < len(set(units)))
    beside = edge_pairs_loose(line) if len(figures) > 1 else ()
    pairs = (
        replace(tally, kinds=outside_pairs(one), pairs=pairs_along(one)) for one in beside
    )
    return [replace(tally, kinds=loose), tally, *pairs]


def groups_made(claim: Claim, tally: Tally, size: int) -> tuple[int, ...]:
    """What a wrong count of groups or spaces should say, a number for each of its figures.

    Of the numbers that a figure may stand for, the one nearest to what is printed. Empty
    for a count of stitches alone, and where something cannot be counted.
    """
    if not any(f.unit in _NO_TOPS or _is_group_unit(f.unit, tally) for f in claim.figures):
        return ()
    printed = tuple(figure.amount.at(size) or 0 for figure in claim.figures)
    nearest = (
        _nearest_made(claim.figures, printed, one, size)
        for one in _tallies(claim.figures, tally)
    )
    wrong = [made for made in nearest if min(made) > 0 and made != printed]
    return min(wrong, key=lambda made: _distance(made, printed), default=())


_NO_TOPS = ("sp", "ch", "picot")
"""Units that are no stitches along the edge."""


def _nearest_made(
    figures: tuple[Figure, ...], printed: tuple[int, ...], tally: Tally, size: int
) -> tuple[int, ...]:
    """What each figure should say; one of several of a unit says what the others leave."""
    summed = _summed(figures)
    more = {
        (f.unit, f.chains): _nearest(
            f.amount.at(size) or 0,
            _answers(f, tally, Habit.ALL, _others(f, summed), apart=False),
        ) - (f.amount.at(size) or 0)
        for f in summed
    }  # fmt: skip
    return tuple(
        number + more.pop((figure.unit, figure.chains), 0)
        for figure, number in zip(figures, printed, strict=True)
    )


def _nearest(printed: int, answers: list[Count] | None) -> int:
    """The answer nearest to what is printed, which stands where nothing can count it."""
    if answers is None:
        return printed
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
    answers = _answers(figure, tally, habit, others, apart=apart)
    return number is None or answers is None or number in answers


def _answers(
    figure: Figure, tally: Tally, habit: Habit, others: tuple[str, ...], *, apart: bool
) -> list[Count] | None:
    """The numbers a unit may stand for in a habit; None where nothing here can count it."""
    minus = tally.beginning if habit is Habit.CHAIN_APART or apart else 0
    unit = _square_of_net(figure.unit)
    if unit in ("st", "stitch"):
        spaced = (tally.spaces, tally.chains) if habit is Habit.SPACES_TOO else ()
        beside = sum(tally.kinds.get(other, 0) for other in others)  # "10 sts + 20 dc"
        whole = tally.stitches - minus
        more = (tally.stitches + more for more in spaced)
        return [whole, *more, whole - beside, *_without_slips(whole, tally)]
    if unit in ("sp", "ch", OPEN):
        return list(_spaces(figure, tally, others))
    square = unit.rpartition(" ")[2] in SQUARES  # "solid mesh", "open block"
    if unit in _GROUPS or square or unit in tally.groups:
        return _groups(unit, tally)
    if unit in tally.topless:
        return [tally.topless[unit]]
    if unit in tally.kinds:
        return list(_of_kind(unit, tally, minus, habit, others))
    if any(_is_kind_of(unit, name) for name in tally.groups):
        return [_groups_called(unit, tally.groups)]
    if unit.startswith("half "):
        return _halves(unit.removeprefix("half "), tally)
    if unit == "picot":
        return _in_stitches(tally)
    if (is_group_word(unit) and not tally.groups) or _is_only_a_shape(figure, tally):
        return None
    return [*_of_kind(unit, tally, minus, habit, others), *_joined_petals(unit, tally)]


def _square_of_net(unit: str) -> str:
    """ "9 open squares", "3 solid blocks": squares of a net, by any name."""
    kind, _, square = unit.partition(" ")
    if square not in SQUARES:
        return unit
    return _KINDS_OF_SQUARE.get(kind, unit)


_KINDS_OF_SQUARE = {
    "open": OPEN, "empty": OPEN, "solid": SOLID, "filled": SOLID, "closed": SOLID
}  # fmt: skip


def _without_slips(whole: Count, tally: Tally) -> Iterator[Count]:
    """Slip stitches between the points of a round, which hardly anybody counts."""
    slips = tally.kinds.get("sl st", 0)
    if tally.edge.closed and 1 < slips < whole:
        yield whole - slips


def _halves(unit: str, tally: Tally) -> list[Count] | None:
    """ "9 shells, 2 half shells"; "6 loops, 2 half loops", which have fewer chains."""
    if unit == "sp":
        whole = max(tally.lengths, default=0)
        return [sum(number for chains, number in tally.lengths.items() if chains < whole)]
    made = halves(unit, tally.edge.line)
    return [made] if made else None


def _joined_petals(unit: str, tally: Tally) -> Iterator[Count]:
    """Petals with slip stitches between: the chain of the first may stand beside it."""
    if unit in _PETALS and "sl st" in tally.kinds:
        yield tally.groups.get("", 0) + 1


_PETALS = frozenset("petal petals point points lobe lobes".split())


def _are_made_of_several(number: Amount, tally: Tally) -> bool:
    """Whether petals are no groups, or each of several: nothing here counts them."""
    made = tally.groups.get("", 0)
    whole = isinstance(made, int) and all(made % (n or 1) == 0 for n in number.values)
    return not made or (whole and made not in number.values)


def _is_only_a_shape(figure: Figure, tally: Tally) -> bool:
    """ "6 points": what no stitch, group or space of the row is called by."""
    unit = figure.unit
    if unit in _PETALS and _are_made_of_several(figure.amount, tally):
        return True
    if is_stitch_name(unit) or unit in _CORNERS or tally.spaces or tally.groups:
        return False
    return all(is_stitch_name(kind) for kind in tally.kinds)


_GROUPS = ("group", "pair")
_CORNERS = ("corner", "corners")


def _groups(unit: str, tally: Tally) -> list[Count] | None:
    """Groups of a name or of any; of pairs those of two."""
    if unit == "pair" and tally.pairs:
        return [tally.pairs, tally.pairs + begins_in_pair(tally.edge.line)]
    if unit == SOLID:
        return solid_squares(tally)
    if unit not in _GROUPS:
        if unit not in tally.groups:
            return None
        called = _groups_called(unit, tally.groups)
        return [called + _is_parted(tally), *_threes(unit, tally)]
    if not tally.groups and not tally.spaces:
        return None
    return [_of_any_name(tally), *_alike(tally), stretches(tally.edge)]


def _of_any_name(tally: Tally) -> Count:
    """All groups; one that the join of a round parts is one."""
    every = tally.groups.get("", 0)
    two = _is_parted(tally) and isinstance(tally.edge.line[-1], Group)
    return every - 1 if two else every


def _is_parted(tally: Tally) -> bool:
    """Whether a round begins in a group and ends with its rest."""
    return tally.edge.closed and is_parted_by_join(tally.edge.line)


def _threes(unit: str, tally: Tally) -> Iterator[Count]:
    """The threes of a granny square between its spaces, two of them in each corner."""
    if unit not in tally.groups and (is_plain(unit) or not is_stitch_name(unit)):
        return
    number, stitches = stretches_alike(tally.edge)
    if stitches >= _FEWEST and are_only(stitches, unit, tally.edge.line):
        yield number


_FEWEST = 3
"""Two stitches between spaces are half of a V."""


def _alike(tally: Tally) -> list[Count]:
    """For each shape of groups, how many of it there are."""
    return [number for name, number in tally.groups.items() if name[:1] == SHAPE]


def _in_stitches(tally: Tally) -> list[Count] | None:
    """Picots that are worked as stitches: groups of a shape, or spaces of a length."""
    return [tally.spaces, *tally.lengths.values(), *_alike(tally)] if tally.spaces else None


_BEGINNING = (
    "beginning", "beg", "starting", "start", "first", "opening", "edge", "side", "corner",
    "end", "last", "new",
)  # fmt: skip
"""What the group at the edge of a row is called: it is counted with the others."""


def _is_kind_of(unit: str, name: str) -> bool:
    """Whether a name is of one kind of what is counted: an "edge tile" is a tile."""
    return name.endswith(f" {unit}") and not name.startswith("half ")


def _groups_called(unit: str, groups: dict[str, Count]) -> Count:
    """Groups of a name, with those that stand for one: "starting block", "edge tile"."""
    if unit in groups:
        return groups[unit] + sum(groups.get(f"{lead} {unit}", 0) for lead in _BEGINNING)
    return sum(number for name, number in groups.items() if _is_kind_of(unit, name))


def _spaces(figure: Figure, tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    if figure.chains is not None and figure.unit == "sp":
        yield tally.lengths.get(figure.chains, 0)
        return
    yield tally.spaces
    if figure.unit == "ch":
        yield tally.chains
        if not tally.spaces or "sp" in others:  # no other chains are left to be meant
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
        if any(_is_stitch_and_chain(other, tally) for other in others):
            alone = named - tally.spaces
            yield from (alone,) if 0 < alone <= _WITHOUT_CHAIN else ()
    if not others:
        if not spaced:
            yield tally.stitches - minus
        if habit is Habit.SPACES_TOO:
            yield tally.stitches + tally.spaces
    if not kinds:
        if "" in tally.groups:
            yield _of_any_name(tally)
        yield from _alike(tally)
        yield from _threes(unit, tally)
        yield from _unnamed(tally, others)
        if not is_stitch_name(unit):
            yield tally.spaces
        if unit in _CORNERS:
            yield from tally.lengths.values()


_WITHOUT_CHAIN = 2
"""So many stitches of a row, at its ends, may have no chain behind them."""


def _is_stitch_and_chain(unit: str, tally: Tally) -> bool:
    """Whether a unit may be a stitch with the chain behind it: "20 beads and a sc"."""
    known = is_stitch_name(unit) or unit in tally.groups or unit in tally.kinds
    return not known and unit not in _GROUPS and bool(tally.spaces)


def _counts_among(unit: str, kind: str) -> bool:
    """Whether a stitch is one of a unit: a decrease is one of what is counted with it."""
    return may_be_called(unit, kind) or (kind == "dec" and is_plain(unit))


def _unnamed(tally: Tally, others: tuple[str, ...]) -> Iterable[Count]:
    """Stitches that the count calls by another name: "5 bobbles" for what MB makes."""
    for kind, number in tally.kinds.items():
        if is_plain(kind) or any(may_be_called(other, kind) for other in others):
            continue
        yield number
