"""Does a printed count agree with the row?

Patterns count in more than one habit: every stitch, the beginning chain apart, or the chain
spaces as well. A pattern keeps to one, so agreement is told for each and settled over all
its rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import Amount, Claim, Figure
from hookwright.working.count import Count
from hookwright.working.counted_units import (
    ANY_GROUPS,
    Habit,
    answers,
    is_group_unit,
    of_lengths,
)
from hookwright.working.groups import (
    SHAPE,
    edge_pairs_loose,
    outside_named,
    outside_pairs,
    outside_shape,
    pairs_along,
    shapes_unnamed,
)
from hookwright.working.stitches import (
    is_counted_alone,
    is_group_word,
    may_be_called,
)
from hookwright.working.tally import Tally

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
            (answers(f, was, habit, _others(f, figures), apart=apart),
             answers(f, now, habit, _others(f, figures), apart=apart))
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
        if figure.unit not in ("sp", "mesh", "ch", *ANY_GROUPS)
        and not is_group_word(figure.unit)
        and (
            is_counted_alone(figure.unit)
            or any(may_be_called(figure.unit, kind) for kind in tally.kinds)
        )
    ]  # fmt: skip


def _tallies(figures: tuple[Figure, ...], tally: Tally) -> list[Tally]:
    """What figures may count: stitches of groups are counted apart, or once more."""
    units = [f.unit for f in figures if is_group_unit(f.unit, tally)]
    if not units:
        return [tally]
    named = frozenset(unit for unit in units if unit in tally.groups)
    line = tally.edge.line
    loose = outside_named(line, named, any_name=len(named) < len(set(units)))
    beside = edge_pairs_loose(line) if len(figures) > 1 else ()
    pairs = (
        replace(tally, kinds=outside_pairs(one), pairs=pairs_along(one)) for one in beside
    )
    alike = _of_one_shape(units, tally) if len(figures) > 1 else ()
    return [replace(tally, kinds=loose), tally, *pairs, *alike]


def _of_one_shape(units: list[str], tally: Tally) -> Iterator[Tally]:
    """ "5 fans, 3 dc at each edge": groups of one shape, and the stitches of others."""
    line = tally.edge.line
    named = {name: tally.groups[name] for name in units if name in tally.groups}
    shapes = shapes_unnamed(line)
    if len(named) == len(set(units)) or len(shapes) < _SHAPES_TO_TELL:
        return
    for shape in shapes:
        number = tally.groups[f"{SHAPE}{shape}"]
        kinds = outside_shape(line, frozenset(named), shape)
        yield replace(tally, kinds=kinds, groups={**named, "": number})


_SHAPES_TO_TELL = 2


def groups_made(claim: Claim, tally: Tally, size: int) -> tuple[int, ...]:
    """What a wrong count of groups or spaces should say, a number for each of its figures.

    Of the numbers that a figure may stand for, the one nearest to what is printed. Empty
    for a count of stitches alone, and where something cannot be counted.
    """
    if not any(f.unit in _NO_TOPS or is_group_unit(f.unit, tally) for f in claim.figures):
        return ()
    printed = tuple(figure.amount.at(size) or 0 for figure in claim.figures)
    nearest = (
        _nearest_made(claim.figures, printed, one, size)
        for one in _tallies(claim.figures, tally)
    )
    wrong = [made for made in nearest if min(made) > 0 and made != printed]
    return min(wrong, key=lambda made: _distance(made, printed), default=())


_NO_TOPS = ("sp", "mesh", "ch", "picot")
"""Units that are no stitches along the edge."""


def _nearest_made(
    figures: tuple[Figure, ...], printed: tuple[int, ...], tally: Tally, size: int
) -> tuple[int, ...]:
    """What each figure should say; one of several of a unit says what the others leave."""
    summed = _summed(figures)
    more = {
        (f.unit, f.chains): _nearest(
            f.amount.at(size) or 0,
            answers(f, tally, Habit.ALL, _others(f, summed), apart=False),
        ) - (f.amount.at(size) or 0)
        for f in summed
    }  # fmt: skip
    return tuple(
        number + more.pop((figure.unit, figure.chains), 0)
        for figure, number in zip(figures, printed, strict=True)
    )


def _nearest(printed: int, found: list[Count] | None) -> int:
    """The answer nearest to what is printed, which stands where nothing can count it."""
    if found is None:
        return printed
    made = (number for number in found if isinstance(number, int) and number)
    return min(made, key=lambda number: abs(number - printed), default=0)


def _distance(made: tuple[int, ...], printed: tuple[int, ...]) -> int:
    return sum(abs(a - b) for a, b in zip(made, printed, strict=True))


def _others(figure: Figure, figures: tuple[Figure, ...]) -> tuple[str, ...]:
    """The units of the other figures of a count; beside others a mesh is a space."""
    rest = [other for other in figures if other is not figure]
    units = ("sp" if other.unit == "mesh" else other.unit for other in rest)
    return (*units, *of_lengths(rest)) if figure.unit == "sp" else tuple(units)


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
    made = answers(figure, tally, habit, others, apart=apart)
    return number is None or made is None or number in made
