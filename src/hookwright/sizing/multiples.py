"""How many chains and stitches does a pattern come out even on, and how many rows?

Every part is answered for in every size: by the chain it stands on, or, for an edging, by
the one that the piece below it does. What has no multiple says why.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.notation import Reading
from hookwright.notation.tree import Multiple as Stated
from hookwright.remembered import Remembered
from hookwright.sizing.facts import Grown, Multiple, PartMultiple, Root, Stuck
from hookwright.sizing.growing import Growing, growing_of
from hookwright.sizing.open_numbers import open_numbers
from hookwright.sizing.row_sets import RowSets, row_sets
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.problems import problems_of
from hookwright.working.sides import passed_at_start
from hookwright.working.steps import row_name

_ONE_PLACE = 4
"""Chains that only make one place to begin in."""


class Solved(Struct, frozen=True):
    """A chain with the least that can be added to it.

    Attributes:
        root: The chain.
        found: The pattern on the next longer one, or the row that comes out on none.
    """

    root: Root
    found: Grown | Stuck


class Growth(Struct, frozen=True):
    """How a size of a pattern grows.

    Attributes:
        growing: The size at work.
        solved: Its chains, each with what can be added to it.
        parts: How each of its parts grows, by the number of the part.
        alike: The parts that change size together, by number.
    """

    growing: Growing
    solved: tuple[Solved, ...]
    parts: dict[int, PartMultiple]
    alike: tuple[int, ...] = ()


_Known = tuple[Reading, WorkedPattern, Growth]
_GROWN: Remembered[tuple[int, int, int], _Known] = Remembered(24)
"""Growths by where the pattern is in memory, which is kept with them, and by the size."""


def multiples_of(checked: Checked) -> tuple[PartMultiple, ...]:
    """How each part grows, size by size."""
    return tuple(
        part
        for size in range(len(checked.worked.sizes))
        for part in growth_of(checked, size).parts.values()
    )


def growth_of(checked: Checked, size: int) -> Growth:
    """How one size of a pattern grows, worked out once for the very same pattern."""
    reading, worked = checked.reading, checked.worked  # all that it follows from
    key = (id(reading), id(worked), size)
    found = _GROWN.get(key)
    if found is not None and found[0] is reading and found[1] is worked:
        return found[2]
    return _GROWN.keep(key, (reading, worked, _growth(checked, size)))[2]


def _growth(checked: Checked, size: int) -> Growth:
    growing = growing_of(checked, size)
    solved = tuple(Solved(root, growing.multiple(root)) for root in growing.roots)
    parts = {
        part: _part(checked, growing, solved, part)
        for part in range(len(checked.reading.pattern.parts))
        if _rows_of(growing.base, part)
    }
    return Growth(growing, solved, parts)


def _rows_of(outcomes: Sequence[Outcome], part: int) -> list[int]:
    """The rows of a part that are worked, in working order."""
    return [
        at
        for at, outcome in enumerate(outcomes)
        if outcome.step.part == part and (outcome.worked is not None or outcome.is_open)
    ]


def _part(
    checked: Checked, growing: Growing, solved: Sequence[Solved], number: int
) -> PartMultiple:
    text = checked.reading.pattern.parts[number]
    rows = _rows_of(growing.base, number)
    sets = row_sets([growing.steps[at] for at in rows])
    bare = PartMultiple(
        part=text.name,
        make=text.make,
        size=growing.size,
        rows=_of_rows(sets),
        set_repeats=sets.times if sets is not None else 0,
        is_round=any(growing.steps[at].is_round for at in rows),
    )
    unsound = next((at for at in rows if _is_amiss(checked, growing.size, at)), None)
    if unsound is not None:
        name = row_name(growing.steps[unsound])
        return _without(bare, f"{name} does not come out yet: mend that first.")
    one = _that_moves(growing, solved, number, rows)
    if isinstance(one, str):
        return _without(bare, one)
    return _with(checked, growing, one, rows, bare)


def _is_amiss(checked: Checked, size: int, at: int) -> bool:
    working = checked.worked.sizes[size]
    return bool(problems_of(working, working.outcomes[at]))


def _of_rows(sets: RowSets | None) -> Multiple | None:
    return None if sets is None else Multiple(sets.each, sets.others)


def _without(part: PartMultiple, reason: str) -> PartMultiple:
    return replace(part, reason=reason)


def _that_moves(
    growing: Growing, solved: Sequence[Solved], number: int, rows: Sequence[int]
) -> Solved | str:
    """The chain that a part grows with, its own or the one below; or why none."""
    if not solved:
        first = next((growing.base[at] for at in rows), None)
        if first is not None and not first.below and first.worked is not None:
            return f"It begins in a ring, and grows by its {_told_in(growing, rows)}."
        return _goes_on(growing, rows) or "No chain is told that it stands on."
    own = [one for one in solved if growing.steps[one.root.at].part == number]
    for one in own or solved:
        if isinstance(one.found, Grown) and _moves(growing, one.found, rows):
            return one
    last = (own or solved)[-1]
    return _why_not(growing, last, rows)


def _moves(growing: Growing, found: Grown, rows: Sequence[int]) -> bool:
    """Whether any row of a part has other counts on a longer chain."""
    return any(
        now.worked is not None
        and was.worked is not None
        and now.worked.row.makes != was.worked.row.makes
        for at in rows
        if at < len(found.outcomes)
        for was, now in [(growing.base[at], found.outcomes[at])]
    )


def _told_in(growing: Growing, rows: Sequence[int]) -> str:
    return "rounds" if any(growing.steps[at].is_round for at in rows) else "rows"


def _why_not(growing: Growing, one: Solved, rows: Sequence[int]) -> str:
    """Why nothing can be added to the chain of a part."""
    length = one.root.amount.at(growing.size) or 0
    grows = _told_in(growing, rows)
    if one.root.ring and isinstance(one.found, Grown):
        own = growing.steps[one.root.at].part == growing.steps[rows[0]].part
        return (
            not own and _goes_on(growing, rows)
        ) or f"It begins in a ring, and grows by its {grows}."
    if isinstance(one.found, Grown) and one.found.stops is not None:
        return _stuck_at(growing, one.found.stops)
    if isinstance(one.found, Grown):
        return "Its counts stay as they are on any chain."
    if length <= _ONE_PLACE and one.found.at <= rows[0]:
        return f"It begins in one chain, and grows by its {grows}."
    return _stuck_at(growing, one.found.at)


def _goes_on(growing: Growing, rows: Sequence[int]) -> str:
    """That a part is worked on another; "" where it begins by itself."""
    first = rows[0]
    if not first or not growing.base[first].below:
        return ""
    before = growing.worked.pattern.parts[growing.steps[first - 1].part].name
    return f"It goes on from {before}, and is as wide as that leaves it." if before else ""


def _stuck_at(growing: Growing, at: int) -> str:
    """Why a row comes out on no other chain."""
    step = growing.steps[at]
    name = row_name(step)
    if not open_numbers(step.nodes, growing.size):
        return f"{name} has no repeat that could be worked more often."
    return f"No other chain was found on which {name} comes out."


def _with(
    checked: Checked,
    growing: Growing,
    one: Solved,
    rows: Sequence[int],
    bare: PartMultiple,
) -> PartMultiple:
    """A part with its multiples of chains and stitches."""
    assert isinstance(one.found, Grown)
    first = next(at for at in rows if growing.base[at].worked is not None)
    was, now = _makes(growing.base[first]), _makes(one.found.outcomes[first])
    if was is None or now is None:
        return _without(bare, "Its first row has no number of stitches.")
    chain = one.root.amount.at(growing.size) or 0
    own = growing.steps[one.root.at].part == growing.steps[first].part
    chains, stitches = _extras(
        chain if own else None, one.found.by, was, now - was, _stated(checked)
    )
    repeats = (was - stitches.extra) // stitches.each if stitches.each else 0
    if chains is not None:
        repeats = (chain - chains.extra) // chains.each
    if chain < one.found.by and own:
        told = f"Its rows come out again on {one.found.by} chains more, and it has {chain}:"
        return _without(bare, f"{told} it has no repeat.")
    least = _least(growing, one.found, repeats)
    worked = growing.base[first].worked
    assert worked is not None
    return replace(
        bare,
        repeats=repeats,
        chains=None if chains is None else replace(chains, least=least),
        stitches=replace(stitches, least=least),
        edge=stitches.extra,
        turning=passed_at_start(worked.row) if own else 0,
        shared=tuple(
            f"{row_name(growing.steps[at])} has two numbers that may grow: both were taken"
            " to grow alike."
            for at in one.found.shared
            if at in rows
        ),
    )


def _makes(outcome: Outcome) -> int | None:
    number = outcome.worked.row.makes if outcome.worked is not None else None
    return number if isinstance(number, int) else None


def _stated(checked: Checked) -> Stated | None:
    """The multiple that the text states, if it states one."""
    stated = checked.reading.pattern.multiples
    return stated[0] if len(stated) == 1 else None


def _extras(
    chain: int | None, by: int, stitches: int, more: int, stated: Stated | None
) -> tuple[Multiple | None, Multiple]:
    """The multiples with what stands beside the repeats: what the text says, or the least.

    Chains and stitches have the same number of repeats, and neither less than none beside.
    """
    if chain is None:
        least = stitches % more if more else stitches
        return None, Multiple(more, least)
    repeats = min(chain // by, stitches // more if more else chain)
    if stated is not None and stated.each == (more if stated.of_stitches else by):
        said = chain if not stated.of_stitches else stitches
        extra = stated.extra + (0 if stated.of_stitches else stated.turning)
        if said >= extra and (said - extra) % stated.each == 0:
            repeats = min(repeats, (said - extra) // stated.each)
    return (
        Multiple(by, chain - by * repeats),
        Multiple(more, stitches - more * repeats),
    )


def _least(growing: Growing, found: Grown, repeats: int) -> int:
    """The fewest repeats with which every number of the text can still be told."""
    fewer = [
        ((amount.at(growing.size) or 0) - found.floors.get(id(amount), 1)) // more
        for amount in found.amounts
        if (more := found.changes[id(amount)]) > 0 and amount is not found.amounts[0]
    ]
    if not fewer:
        return min(1, repeats)
    return max(0, repeats - max(0, min(fewer)))
