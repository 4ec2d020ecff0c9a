"""Which rows has a size that nobody has made: of other repeats, and other sets of rows?

The pattern as written and the same on the next longer chain tell how many stitches of each
kind a repeat adds to each row; a set of rows is worked so often as the size asks. An edging
along the ends of rows grows with these.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.sizing.facts import Grown
from hookwright.sizing.multiples import Growth
from hookwright.sizing.row_sets import RowSets, row_sets
from hookwright.yarn.counting import aligned_rows
from hookwright.yarn.facts import RowUsed, Section, Use

_LOOKED_BACK = 6
"""Rounds over which the growth of a round is taken, where more are worked than written."""


class Resizer(Struct, frozen=True):
    """A pattern that can be counted in other sizes.

    Attributes:
        rows: Its rows as written.
        grown: The same with one more repeat; None for rows that are not known so.
        part: The part that is sized.
        repeats: Its repeats as written.
        sets: The sets of rows it has; None where it has none.
        body: Where the rows of that part stand among the rows.
    """

    rows: tuple[RowUsed, ...]
    grown: tuple[RowUsed | None, ...]
    part: int
    repeats: int
    sets: RowSets | None
    body: tuple[int, ...]

    def sized(self, repeats: int | None, rows: int | None) -> tuple[RowUsed, ...]:
        """The rows of so many repeats and rows; None for as many as written."""
        more = 0 if repeats is None else repeats - self.repeats
        wide = [
            _wider(row, grown, more)
            for row, grown in zip(self.rows, self.grown, strict=True)
        ]
        body = [wide[at] for at in self.body]
        high = body if rows is None else list(self._higher(body, rows))
        ratio = Fraction(len(high), len(body)) if body else Fraction(1)
        first, last = (self.body[0], self.body[-1]) if self.body else (0, -1)
        before = [_along_ends(row, ratio) for row in wide[:first]]
        behind = [_along_ends(row, ratio) for row in wide[last + 1 :]]
        return (*before, *_numbered(high), *behind)

    def _higher(self, body: Sequence[RowUsed], wanted: int) -> Iterator[RowUsed]:
        """The rows of a part worked on, or ended sooner."""
        sets = self.sets
        if sets is None:
            yield from _worked_on(body, wanted)
            return
        before, end = sets.first, sets.first + sets.each * sets.times
        one = body[before : before + sets.each]
        behind = body[end:]
        middle = max(0, wanted - before - len(behind))
        yield from body[:before]
        yield from (one[at % sets.each] for at in range(middle))
        yield from behind


def resizer_of(checked: Checked, growth: Growth, part: int) -> Resizer:
    """A part of a pattern, ready to be counted in other sizes."""
    growing = growth.growing
    base, _ = aligned_rows(checked, growing.base)
    grown = _grown(checked, growth, base, part)
    kept = [at for at, row in enumerate(base) if row is not None]
    rows = tuple(row for row in base if row is not None)
    own = growth.parts.get(part)
    body = tuple(
        at
        for at, row in enumerate(rows)
        if row.part == part and row.section is not Section.FOUNDATION
        and growing.base[kept[at]].worked is not None
    )  # fmt: skip
    return Resizer(
        rows,
        tuple(grown[at] if at < len(grown) else None for at in kept),
        part,
        own.repeats if own is not None else 0,
        row_sets([growing.steps[kept[at]] for at in body]),
        body,
    )


def _grown(
    checked: Checked, growth: Growth, base: Sequence[RowUsed | None], part: int
) -> tuple[RowUsed | None, ...]:
    """The rows with one repeat more, of the chain that the part grows with."""
    for one in growth.solved:
        if not isinstance(one.found, Grown):
            continue
        rows, _ = aligned_rows(checked, one.found.outcomes)
        if any(
            was is not None
            and now is not None
            and was.part == part
            and was.uses != now.uses
            for was, now in zip(base, rows, strict=False)
        ):
            return rows
    return ()


def _wider(row: RowUsed, grown: RowUsed | None, more: int) -> RowUsed:
    """A row with so many repeats more."""
    if grown is None or not more:
        return row
    was = {(use.yarn, use.kind, use.loops): use.number for use in row.uses}
    now = {(use.yarn, use.kind, use.loops): use.number for use in grown.uses}
    uses = tuple(
        Use(*key, number)
        for key in dict.fromkeys((*was, *now))
        if (number := was.get(key, 0) + more * (now.get(key, 0) - was.get(key, 0))) > 0
    )
    return replace(row, uses=uses)


def _along_ends(row: RowUsed, ratio: Fraction) -> RowUsed:
    """A row of an edging, where the piece has so many times the rows."""
    if ratio == 1 or not row.ends:
        return row
    factor = 1 + row.ends * (ratio - 1)
    return replace(
        row, uses=tuple(replace(use, number=use.number * factor) for use in row.uses)
    )


def _worked_on(body: Sequence[RowUsed], wanted: int) -> Iterator[RowUsed]:
    """Rounds that go on growing as the last ones did."""
    yield from body[:wanted]
    back = min(_LOOKED_BACK, len(body) - 1)
    if back < 1:
        yield from list(body[-1:]) * max(0, wanted - len(body))
        return
    last, earlier = body[-1], body[-1 - back]
    per_round = _loops(last) - _loops(earlier)
    for at in range(1, wanted - len(body) + 1):
        factor = 1 + per_round * at / back / (_loops(last) or 1)
        yield replace(
            last,
            uses=tuple(
                replace(use, number=use.number * factor) for use in last.uses if factor > 0
            ),
        )


def _loops(row: RowUsed) -> Fraction:
    return Fraction(sum(use.loops * use.number for use in row.uses))


def _numbered(rows: Sequence[RowUsed]) -> Iterator[RowUsed]:
    """The rows of a part with their numbers as they follow one another."""
    first = next((row.number for row in rows if row.number is not None), None)
    for at, row in enumerate(rows):
        if first is None or row.number is None or row.number == first + at:
            yield row
            continue
        what = row.label.split()[0] if row.label else "Row"
        yield replace(row, number=first + at, label=f"{what} {first + at}")
