"""The rows of a worked pattern as they are printed, with their numbers in every size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Claim, Pattern
from hookwright.source import Span
from hookwright.working.blocks import only_spaces_of
from hookwright.working.conventions import Conventions
from hookwright.working.count import Count
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.problems import problems_of
from hookwright.working.row import WorkedRow
from hookwright.working.row_yarns import row_yarns
from hookwright.working.stated import figures_of_stitches
from hookwright.working.steps import Step
from hookwright.working.tally import Tally

T = TypeVar("T")


class Line(Struct, frozen=True):
    """A printed label with what it stands for: rows alike in every number share one.

    Attributes:
        part: The name of its part.
        printed: The label as printed; "" for a row without one.
        first: Its first row number, one a size.
        last: Its last row number, one a size.
        times: How many rows it stands for.
        span: Where it stands.
        stitches: Stitches made, one a size; None where it is not worked.
        uses: Stitches of the edge below used, one a size; in a piece of blocks worked from
            corner to corner, how many of its blocks.
        spaces: Chain spaces made, one a size.
        stated: The printed count, one a size.
        colours: Stitches with each yarn, in the first size; empty if that works none.
        agrees: Whether it closes and its count agrees, in every size.
        below: Stitches of the edge below, one a size.
    """

    part: str
    printed: str
    first: tuple[int | None, ...]
    last: tuple[int | None, ...]
    times: int
    span: Span
    stitches: tuple[Count | None, ...]
    uses: tuple[Count | None, ...]
    spaces: tuple[Count | None, ...]
    stated: tuple[int | None, ...]
    colours: tuple[tuple[str, Count], ...]
    agrees: bool
    below: tuple[Count | None, ...] = ()


def lines_of(worked: WorkedPattern) -> tuple[Line, ...]:
    """The rows of a pattern, as they are printed, with their numbers in every size."""
    yarns = row_yarns(worked.pattern, worked.sizes[0].outcomes) if worked.sizes else {}
    per_size = [
        [
            (
                _line(worked.pattern, working, outcome, size, yarns.get(at)),
                _numbered(outcome.step),
            )
            for at, outcome in enumerate(working.outcomes)
        ]
        for size, working in enumerate(worked.sizes)
    ]
    rows = [line for line, _ in per_size[0]] if len(per_size) == 1 else _merged(per_size)
    return tuple(_folded(rows))


def _numbered(step: Step) -> bool:
    """Whether a row of a range may be told from its fellows by its number."""
    label = step.text.label
    return label is not None and label.ranged and not label.is_round


def _folded(rows: Iterable[Line]) -> Iterator[Line]:
    """Rows of one label that are alike in every number share a line."""
    waiting: Line | None = None
    for line in rows:
        if waiting is not None and _alike(waiting, line):
            waiting = _together(waiting, line)
            continue
        if waiting is not None:
            yield waiting
        waiting = line
    if waiting is not None:
        yield waiting


def _together(a: Line, b: Line) -> Line:
    """Two rows under one label; a size that works only one has the numbers of that."""
    return replace(
        a,
        first=_either(a.first, b.first),
        last=_either(b.last, a.last),
        times=a.times + 1,
        stitches=_either(a.stitches, b.stitches),
        uses=_either(a.uses, b.uses),
        spaces=_either(a.spaces, b.spaces),
        stated=_either(b.stated, a.stated),
        below=_either(a.below, b.below),
        agrees=a.agrees and b.agrees,
    )


def _either(
    first: tuple[T | None, ...], second: tuple[T | None, ...]
) -> tuple[T | None, ...]:
    return tuple(x if x is not None else y for x, y in zip_longest(first, second))


def _alike(a: Line, b: Line) -> bool:
    """Whether two rows of one label have the same numbers in every size that works both.

    Rows of other colours are others; what only a later size works has none.
    """
    if (a.printed, a.part, a.span.start) != (b.printed, b.part, b.span.start):
        return False
    if a.colours and b.colours and a.colours != b.colours:
        return False
    pairs = (
        (a.stitches, b.stitches), (a.uses, b.uses), (a.spaces, b.spaces),
        (tuple(n and n + 1 for n in a.last), b.first),
    )  # fmt: skip
    both = [x is not None and y is not None for x, y in zip(a.last, b.first, strict=True)]
    return any(both) and all(
        x == y
        for mine, other in pairs
        for shared, x, y in zip(both, mine, other, strict=True)
        if shared
    )


def _line(
    pattern: Pattern, working: Working, outcome: Outcome, size: int, yarn: str | None
) -> Line:
    step, worked = outcome.step, outcome.worked
    uses: Count | None = 0
    spaces: Count | None = 0
    if outcome.is_open:
        uses = spaces = None
    elif worked is not None:
        uses, spaces = _used(worked, working.assumption.conventions), worked.row.spaces
    yarns = worked.row.yarns() if worked is not None and size == 0 else ()
    if yarn is not None and len(yarns) == 1:
        yarns = ((yarn, yarns[0][1]),)
    makes = worked.row.makes if worked is not None else outcome.foundation
    return Line(
        part=pattern.parts[step.part].name,
        printed=step.label,
        first=(step.number,),
        last=(step.number,),
        times=1,
        span=step.span,
        stitches=(makes,),
        uses=(uses,),
        spaces=(spaces,),
        stated=(stated_number(step.claims, size, outcome.tally),),
        colours=tuple((name or "", count) for name, count in yarns),
        agrees=not outcome.is_open and not problems_of(working, outcome),
        below=() if worked is None and not outcome.is_open else (outcome.below,),
    )


def _used(worked: WorkedRow, conventions: Conventions) -> Count:
    """What a row uses of the one below: stitches, or the blocks that it is told in."""
    sides = conventions.loops_at_hook
    of_blocks = sides and worked.row.uses_spaces and only_spaces_of(worked.edge.line, sides)
    return worked.row.uses_spaces if of_blocks else worked.row.uses - worked.own_chains


def stated_number(claims: Sequence[Claim], size: int, tally: Tally) -> int | None:
    """The printed count of a size as one number; by kind it is their sum."""
    for claim in claims:
        if claim.of_rows:
            continue
        several = len(claim.figures) > 1
        stitches = figures_of_stitches(claim, tally) if several else ()
        numbers = [figure.amount.at(size) for figure in stitches or claim.figures]
        if all(number is not None for number in numbers):
            return sum(number for number in numbers if number is not None)
    return None


_Key = tuple[int, str, int, int | None]
"""Where a row is printed, with its place from the end of its label, or its number.

Row 6 of "Rows 5-8 [5-10, 5-12]" is row 6 in every size. Where the sizes begin at different
rows, and in rounds, a row is told from the end: the last of "Rnds 3-5 (5, 6, 6)" is one
round, where every size has come to its width.
"""


def _merged(per_size: list[list[tuple[Line, bool]]]) -> list[Line]:
    """One line for every printed row, with a number for each size it is worked in."""
    alike = _begun_alike(per_size)
    found = [_keyed(lines, alike) for lines in per_size]
    return [_across(key, found) for key in _in_order([list(own) for own in found])]


def _in_order(per_size: list[list[_Key]]) -> Iterator[_Key]:
    """The rows of all sizes, each behind what comes before it in any size.

    Of those that may come next, one of the same label does, so that labels stay together;
    where sizes contradict one another, the row that is first in the first of them.
    """
    waiting = {key: 0 for keys in per_size for key in keys}
    for keys in per_size:
        for key in keys[1:]:
            waiting[key] += 1
    at = [0] * len(per_size)
    label: tuple[int, str] | None = None
    while waiting:
        fronts = [keys[i] for keys, i in zip(per_size, at, strict=True) if i < len(keys)]
        free = [key for key in fronts if not waiting[key]] or fronts
        key = next((key for key in free if key[:2] == label), free[0])
        yield key
        label = key[:2]
        del waiting[key]
        for size, keys in enumerate(per_size):
            while at[size] < len(keys) and keys[at[size]] not in waiting:
                at[size] += 1
                if at[size] < len(keys) and keys[at[size]] in waiting:
                    waiting[keys[at[size]]] -= 1


def _begun_alike(per_size: list[list[tuple[Line, bool]]]) -> set[tuple[int, str]]:
    """The labels whose first row has one number in every size that works it."""
    begins: dict[tuple[int, str], set[int | None]] = {}
    for lines in per_size:
        first = {(line.span.start, line.printed): line.first[0] for line, _ in lines[::-1]}
        for label, number in first.items():
            begins.setdefault(label, set()).add(number)
    return {label for label, numbers in begins.items() if len(numbers) == 1}


def _keyed(lines: list[tuple[Line, bool]], alike: set[tuple[int, str]]) -> dict[_Key, Line]:
    """The rows of one size under what tells which row of another size is the same."""
    own: dict[_Key, Line] = {}
    seen: dict[tuple[int, str, int | None], int] = {}
    for line, numbered in reversed(lines):
        label = (line.span.start, line.printed)
        base = (*label, line.first[0] if numbered and label in alike else None)
        seen[base] = seen.get(base, -1) + 1
        own[(base[0], base[1], seen[base], base[2])] = line
    return dict(reversed(own.items()))


def _across(key: _Key, found: list[dict[_Key, Line]]) -> Line:
    lines = [own.get(key) for own in found]
    first = next(line for line in lines if line is not None)
    return replace(
        first,
        first=tuple(line.first[0] if line else None for line in lines),
        last=tuple(line.last[0] if line else None for line in lines),
        times=max(line.times for line in lines if line),
        stitches=tuple(line.stitches[0] if line else None for line in lines),
        uses=tuple(line.uses[0] if line else None for line in lines),
        spaces=tuple(line.spaces[0] if line else None for line in lines),
        stated=tuple(line.stated[0] if line else None for line in lines),
        below=tuple(line.below[0] if line and line.below else None for line in lines),
        colours=lines[0].colours if lines[0] else (),
        agrees=all(line.agrees for line in lines if line),
    )
