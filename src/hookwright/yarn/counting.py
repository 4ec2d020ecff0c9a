"""Of how many stitches of each kind is a pattern made, row by row?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.editing.main_piece import is_edging
from hookwright.notation.tree import Definition, Yarn
from hookwright.working.fabric import PlaceKind, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.row_yarns import row_yarns
from hookwright.working.sequence import Line, Repeat, Run, total
from hookwright.working.steps import row_name
from hookwright.working.stitches import without_circles
from hookwright.yarn.facts import RowUsed, Section, Use
from hookwright.yarn.loops import OF_ROW, looped

Key = tuple[str | None, str, int]
"""A yarn, a kind of stitch, and the loops of each."""


class Counted(Struct, frozen=True):
    """Rows with their stitches.

    Attributes:
        rows: The rows, a foundation among them.
        unsure: Stitches whose loops had to be assumed.
    """

    rows: tuple[RowUsed, ...]
    unsure: tuple[str, ...] = ()


def counted_rows(checked: Checked, outcomes: Sequence[Outcome]) -> Counted:
    """The rows of a size as worked."""
    rows, unsure = aligned_rows(checked, outcomes)
    return Counted(tuple(row for row in rows if row is not None), unsure)


def aligned_rows(
    checked: Checked, outcomes: Sequence[Outcome]
) -> tuple[tuple[RowUsed | None, ...], tuple[str, ...]]:
    """A row for each outcome, None where nothing is worked; and what had to be assumed."""
    counter = _Counter(checked)
    yarns = row_yarns(checked.worked.pattern, outcomes)
    rows = [counter.row(outcome, yarns.get(at)) for at, outcome in enumerate(outcomes)]
    return tuple(_with_yarn_of_foundation(rows)), tuple(sorted(counter.unsure))


def _with_yarn_of_foundation(
    rows: Sequence[RowUsed | None],
) -> Iterator[RowUsed | None]:
    """A foundation is made with the yarn of the row that is worked into it."""
    for at, row in enumerate(rows):
        if row is None or row.section is not Section.FOUNDATION:
            yield row
            continue
        behind = (r for r in rows[at + 1 :] if r is not None and r.part == row.part)
        first = next(behind, None)
        yarn = first.uses[0].yarn if first is not None else None
        uses = tuple(replace(use, yarn=yarn) for use in row.uses)
        yield replace(row, uses=uses, own=first is not None and first.own)


class _Counter:
    """Counts rows; those written alike are one value and counted once."""

    def __init__(self, checked: Checked) -> None:
        self.parts = checked.reading.pattern.parts
        self.terms = checked.worked.terms
        self.own: Mapping[str, Definition] = without_circles(
            {name: d for d in checked.reading.pattern.definitions for name in d.names}
        )
        self.unsure: set[str] = set()
        self._known: dict[int, dict[Key, int]] = {}
        self._main = ""

    def row(self, outcome: Outcome, yarn: str | None) -> RowUsed | None:
        """A row with its stitches; None where nothing is worked."""
        uses: tuple[Use, ...] = ()
        step, worked = outcome.step, outcome.worked
        part = self.parts[step.part]
        section = Section.EDGING if is_edging(part.name) else Section.PIECE
        if worked is not None:
            uses = tuple(
                Use(own if yarn is None else yarn, kind, loops, number)
                for (own, kind, loops), number in self._uses(worked).items()
            )
        elif outcome.foundation:
            section = section if section is Section.EDGING else Section.FOUNDATION
            uses = (Use(None, "foundation ch", 1, outcome.foundation),)
        if not uses:
            return None
        names = yarn is not None or any(
            isinstance(node, Yarn) and node.name for node in step.nodes
        )
        return RowUsed(
            part=step.part,
            number=step.number,
            label=_called(outcome, part.name if step.part else ""),
            section=section,
            uses=uses,
            own=names,
            cut=worked is not None and worked.finished,
            ends=_of_row_ends(worked),
            place=step.span,
            make=part.make,
        )

    def _uses(self, worked: WorkedRow) -> dict[Key, int]:
        known = self._known.get(id(worked))
        if known is None:
            known = {}
            self._main = _main_of(worked) or self._main
            self._count(worked.row.line, 1, self._main, known)
            if worked.closed and known:
                yarn = [key[0] for key in known][-1]
                known[yarn, "sl st", 1] = known.get((yarn, "sl st", 1), 0) + 1
            self._known[id(worked)] = known
        return known

    def _count(
        self, line: Line[Stitch], times: int, main: str, found: dict[Key, int]
    ) -> None:
        for piece in line:
            if isinstance(piece, Run):
                stitch = looped(piece.item, self.terms, self.own, main)
                many = _whole(piece.times) * times
                if stitch is None or not many:
                    continue
                if not stitch.known:
                    self.unsure.add(stitch.kind)
                key = (piece.yarn, stitch.kind, stitch.loops)
                found[key] = found.get(key, 0) + many
            else:
                often = _whole(piece.times) if isinstance(piece, Repeat) else 1
                self._count(piece.body, times * often, main, found)


def _main_of(worked: WorkedRow) -> str:
    """The stitch that an increase or a decrease of a row is made of."""
    kinds = {
        name: _whole(number)
        for name, number in worked.row.kinds().items()
        if name not in {*OF_ROW, "tch"}
    }
    return max(kinds, key=lambda name: kinds[name], default="")


def _whole(number: object) -> int:
    return number if isinstance(number, int) else 0


def _called(outcome: Outcome, part: str) -> str:
    name = "the foundation" if outcome.worked is None else row_name(outcome.step)
    return f"{name} of {part}" if part else name


def _of_row_ends(worked: WorkedRow | None) -> Fraction:
    """What share of the edge below is made of row ends."""
    if worked is None:
        return Fraction(0)
    whole = _whole(worked.over.stitches)
    ends = _whole(
        total(worked.over.line, lambda p: p.counts if p.kind is PlaceKind.ROW_END else 0)
    )
    return Fraction(ends, whole) if whole else Fraction(0)
