"""Is a pattern in other words the same fabric: rows, counts and feet?

Two workings are held together row by row: the same numbers, the same edge used up, and
every stitch with its feet and heads in the same order. Their names may be those of either
country.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import zip_longest

from msgspec import Struct, field

from hookwright.checking import Checked
from hookwright.notation.printing.terms import name_in, stitch_names
from hookwright.wording.expected import plainly, rows_of
from hookwright.working.fabric import Place, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Line, Repeat, Run, unrolled

_MOST = 4_000
"""So many stitches of a row are held together one by one; a longer row by its sums too."""


class Difference(Struct, frozen=True):
    """Where two workings part.

    Attributes:
        label: The label of the row; words for what it is where it has none.
        row: The number of the row in the source; None where it is not one of its rows.
    """

    label: str
    row: int | None = None


def differing_row(checked: Checked, again: Checked, size: int | None) -> Difference | None:
    """The first row that is another fabric; None where all are the same.

    Args:
        checked: The source, read and worked.
        again: The text in other words, read and worked.
        size: The only size of the source that it holds; None for all of them.
    """
    sizes = checked.worked.sizes if size is None else checked.worked.sizes[size:][:1]
    if len(sizes) != len(again.worked.sizes):
        return Difference("the number of sizes")
    held = _Held(checked.worked.terms, again.worked.terms)
    rows = {id(row): at for at, row in enumerate(rows_of(checked.reading.pattern))}
    for mine, theirs in zip(sizes, again.worked.sizes, strict=True):
        for a, b in zip_longest(mine.outcomes, theirs.outcomes):
            if a is None or b is None:
                label = (a or b).step.label
            elif numbers(a) != numbers(b) or not held.alike(a, b):
                label = a.step.label
            else:
                continue
            row = rows.get(id(a.step.text)) if a is not None else None
            return Difference(label or "a row without a label", row)
    return None


def numbers(outcome: Outcome) -> tuple[object, ...]:
    """What a row comes to, in numbers."""
    worked = outcome.worked
    row = worked.row if worked is not None else None
    label = outcome.step.text.label
    told = label is not None and bool(label.numbers or label.by_size)
    return (
        outcome.step.number if told else None,  # "Next round" has the number of its place
        outcome.foundation,
        outcome.below,
        outcome.is_open,
        outcome.turned,
        row and (row.makes, row.uses, row.spaces, row.uses_spaces),
        worked and (worked.left, worked.missing, worked.closed, worked.finished),
    )


class _Held(Struct):
    """Rows held together, those that recall one another once.

    Attributes:
        terms: The terms of the source.
        other: The terms of the other text.
        known: What came out, by where the two lines are in memory: both texts outlive this.
    """

    terms: str
    other: str
    known: dict[tuple[int, int], bool] = field(default_factory=dict)

    def alike(self, a: Outcome, b: Outcome) -> bool:
        """Whether two rows have the same stitches with the same feet and heads."""
        if a.worked is None or b.worked is None:
            return a.worked is b.worked
        mine, theirs = a.worked.row.line, b.worked.row.line
        pair = id(mine), id(theirs)
        if pair not in self.known:
            self.known[pair] = self._are_alike(mine, theirs)
        return self.known[pair]

    def _are_alike(self, mine: Line[Stitch], theirs: Line[Stitch]) -> bool:
        if self.terms == self.other and mine is theirs:
            return True
        told, other = _plain(mine, self.terms), _plain(theirs, self.other)
        return told == other or self._unrolled_alike(mine, theirs)

    def _unrolled_alike(self, mine: Line[Stitch], theirs: Line[Stitch]) -> bool:
        pairs = zip_longest(_stitches(mine, self.terms), _stitches(theirs, self.other))
        return all(a == b for a, b in pairs)


def _stitches(line: Line[Stitch], terms: str) -> Iterator[Stitch]:
    """The first stitches of a row, without the words they come from."""
    yield from unrolled(_plain(line, terms), _MOST)


def _plain(line: Line[Stitch], terms: str) -> Line[Stitch]:
    """A row without its yarns and spans, its stitches by their US names in short."""
    result: list[Run[Stitch] | Repeat[Stitch]] = []
    for piece in line:
        if isinstance(piece, Run):
            result.append(Run(_named(piece.item, terms), piece.times))
        elif isinstance(piece, Repeat):
            result.append(Repeat(_plain(piece.body, terms), piece.times))
        else:
            result.append(Repeat(_plain(piece.body, terms), 1))
    return tuple(result)


@lru_cache(maxsize=2048)
def _named(stitch: Stitch, terms: str) -> Stitch:
    """A stitch by its US name, in short."""
    heads = tuple(
        Place(place.kind, _name(place.stitch, terms), place.chains, place.counts)
        for place in stitch.heads
    )
    return Stitch(
        _name(stitch.kind, terms),
        stitch.passes,
        stitch.feet,
        heads,
        stitch.spaces,
        stitch.places,
    )


def _name(name: str, terms: str) -> str:
    is_slip = terms == "US" and plainly(name) in _only_uk()  # "htr" among US names
    return plainly(name_in("US", name) if terms == "UK" or is_slip else name)


@cache
def _only_uk() -> frozenset[str]:
    """Names that a stitch has in UK terms only, as the vocabulary reads them there."""
    there, here = stitch_names("US"), stitch_names("UK")
    return frozenset(name for name in there if name not in here)
