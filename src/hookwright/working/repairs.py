"""The smallest repair in one place: which one number, changed, makes a row come out.

One number at a time is changed in the tree (a repeat, an amount of stitches, the chain at
the beginning) and the rows are worked again. A repair is told where it is the only one so
small and the later rows agree with it no worse than before.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.finding import Edit, Finding
from hookwright.notation.tree import Chain, RowText
from hookwright.source import Source
from hookwright.working.again import Again, again, effort_on, planned_with
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.far_off import doubted, is_far_off
from hookwright.working.foundations import next_is_from_hook
from hookwright.working.half_read import follows, half_read, is_half_read
from hookwright.working.hook import Effort
from hookwright.working.meant_rows import with_row_meant
from hookwright.working.multiple import agrees_with_multiple
from hookwright.working.nodes import QUIET
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.problems import Fault
from hookwright.working.reading_state import State
from hookwright.working.resizing import printed_stitches
from hookwright.working.steps import Step, row_name
from hookwright.working.written_numbers import (
    WrittenNumber,
    first_chain,
    in_the_singular,
    phrase_around,
    said_with,
    with_number,
    written_in,
)

REPAIRED = frozenset({"stated-count", "stitches-left", "past-the-end", "missing-target"})
"""The rules whose findings may be put right by one number."""
MOST_FINDINGS = 6
"""A text with more mistakes than this has no one number to blame."""
_MOST_CHAINS = 12
_ROWS_OVER_CHAIN = 6
_NEAR = (1, -1, 2, -2)
"""Changes that are tried on every number; larger ones where they are aimed at."""
_FARTHEST = 4
"""What a slip may change a small number by, and the part of a large one."""
_MOST_ALIKE = 3
"""Changes as likely as each other that are looked for: what cures a later row by any."""
_NEARLY = 2
"""How many times as large a change may be and be as likely."""


class _Change(Struct, frozen=True):
    """One number changed.

    Attributes:
        row: The row of the text that it stands in.
        number: The number.
        by: How far it is changed.
        value: What it is changed to.
        of_chain: Whether it is the chain that the piece stands on.
    """

    row: RowText
    number: WrittenNumber
    by: int
    value: int
    of_chain: bool = False


class _Trial(Struct, frozen=True):
    """What a change does to a row: whether it comes out, and how far it is off else."""

    fits: bool
    off: Count | None


def with_repairs(
    faults: Sequence[Fault], worked: WorkedPattern, source: Source
) -> Iterator[Finding]:
    """The findings, each with the smallest repair where it has one.

    A later row that comes out with the repair of an earlier one has no fault of its own.
    """
    may = [fault for fault in faults if fault.finding.rule in REPAIRED]
    tries = bool(may) and len(may) <= MOST_FINDINGS
    repairs = _Repairs(worked, source, effort_on(worked))
    cured: frozenset[int] = frozenset()
    passed: Fault | None = None
    for fault in sorted(faults, key=lambda fault: fault.at):
        if not tries or fault not in may:
            yield fault.finding
        elif fault.at in cured or (passed is not None and follows(fault, passed, worked)):
            continue
        elif fault.finding.rule == "missing-target":
            yield with_row_meant(fault.finding, worked, source)
        else:
            found, after = repairs.put_right(fault)
            cured |= after
            mended = found is not fault.finding
            if is_half_read(fault, worked, mended=mended):
                passed = fault
                yield half_read(fault, worked)
            elif not mended and is_far_off(fault, worked):
                yield doubted(fault, worked)
            else:
                yield found


class _Repairs(Struct):
    """Tries changes of one number on the sizes of a pattern."""

    worked: WorkedPattern
    source: Source
    effort: Effort
    sizes: dict[int, Again] = field(default_factory=dict)

    def put_right(self, fault: Fault) -> tuple[Finding, frozenset[int]]:
        """A finding with its smallest repair, if there is one and only one.

        Beside it the later rows that come out then, in every size that has the fault.
        """
        changes = self._smallest(fault)
        if not changes:
            return fault.finding, frozenset()
        cured = (self._cured(fault, c, size) for c in changes for size in fault.sizes)
        told = self._told(fault, changes[0]) if len(changes) == 1 else fault.finding
        return told, frozenset.intersection(*cured)

    def _cured(self, fault: Fault, change: _Change, size: int) -> frozenset[int]:
        tried = self._size(size)
        later = enumerate(self._outcomes(change, size)[1])
        return frozenset(
            at for at, row in later if at > fault.at and not tried.amiss([row])
        )

    def _size(self, size: int) -> Again:
        if size not in self.sizes:
            self.sizes[size] = again(self.worked, size, self.effort)
        return self.sizes[size]

    def _smallest(self, fault: Fault) -> list[_Change]:
        """The smallest changes that put a row right; several where they are as likely."""
        if self._doubts_count(fault) and not self._later(fault, fault.sizes[0]):
            return []  # the count itself is the smallest repair
        changes = [*self._in_row(fault), *self._of_chain(fault)]
        found: list[_Change] = []
        for change in sorted(changes, key=lambda change: abs(change.by)):
            if found and abs(change.by) > _NEARLY * abs(found[0].by):
                break
            if self._holds(fault, change):
                found.append(change)
                if len(found) == _MOST_ALIKE:
                    break
        return found if self.effort.left >= 0 else []  # another may be as small

    def _in_row(self, fault: Fault) -> list[_Change]:
        """The changes of one number in the row itself after which it comes out."""
        outcome = self._size(fault.sizes[0]).working.outcomes[fault.at]
        row = outcome.step.text
        if outcome.step.recalled is not None:
            return []
        off = self._off(fault, outcome)
        counted = bool(outcome.step.claims)
        numbers = [n for n in written_in(row.body) if counted or not n.is_skip]
        return [
            change for number in numbers for change in self._values(fault, number, row, off)
        ]

    def _values(
        self, fault: Fault, number: WrittenNumber, row: RowText, off: Count | None
    ) -> Iterator[_Change]:
        """The values of a number with which its row comes out: near ones, or aimed at."""
        value = self._value(fault, row, number)
        if value is None:
            return
        aims = set()
        for by in _NEAR:
            change = _Change(row, number, by, value + by)
            trial = self._trial(fault, change)
            aims.add(_aim(off, trial.off, by))
            if trial.fits:
                yield change
        for by in aims - {0, *_NEAR}:
            if abs(by) > max(_FARTHEST, value // _FARTHEST):
                continue
            change = _Change(row, number, by, value + by)
            if self._trial(fault, change).fits:
                yield change

    def _of_chain(self, fault: Fault) -> Iterator[_Change]:
        """Other chains for the piece to stand on, where the row is one of its first."""
        tried = self._size(fault.sizes[0])
        part = tried.steps[fault.at].part
        for at in range(fault.at, max(-1, fault.at - _ROWS_OVER_CHAIN), -1):
            step = tried.steps[at]
            number = first_chain(step.text.body)
            if step.part != part:
                return
            if number is None or not _makes_chain(tried.working.outcomes[at]):
                continue
            value = self._value(fault, step.text, number)
            if value is None:
                return
            for by in range(1, _MOST_CHAINS + 1):
                yield _Change(step.text, number, by, value + by, of_chain=True)
                yield _Change(step.text, number, -by, value - by, of_chain=True)
            return

    def _value(self, fault: Fault, row: RowText, number: WrittenNumber) -> int | None:
        """What a number is, if it is written out and one for all sizes with the fault."""
        size = fault.sizes[0]
        if len(number.amount.values) > 1 and len(fault.sizes) > 1:
            return None
        words = self.source.slice(row.place(number.amount.span))
        if said_with(words, number.amount, 1, size) is None:
            return None
        return number.amount.at(size)

    def _trial(self, fault: Fault, change: _Change) -> _Trial:
        """The row with a number changed."""
        size = fault.sizes[0]
        first, steps = self._steps(change, size)
        if not steps:
            return _Trial(fits=False, off=None)
        states = self._size(size).through(first, steps[first : fault.at + 1])
        off = self._off(fault, states[0].outcomes[-1]) if states else None
        fits = any(self._is_right(fault, size, state, first) for state in states)
        return _Trial(fits, off)

    def _off(self, fault: Fault, outcome: Outcome) -> Count | None:
        """How many places a row wants, or stitches it makes too many; None if unknown."""
        worked = outcome.worked
        if worked is None:
            return None
        if fault.finding.rule != "stated-count":
            return (outcome.literal_missing or worked.missing) - worked.left - worked.leapt
        size = fault.sizes[0]
        denied = self._size(size).working.outcomes[fault.at]
        printed = printed_stitches(denied, denied.step, size)
        return None if printed is None else outcome.tally.stitches - printed

    def _steps(self, change: _Change, size: int) -> tuple[int, Sequence[Step]]:
        """The rows with a number changed, behind the place of the first of them."""
        steps = self._size(size).steps
        first = next((i for i, step in enumerate(steps) if step.text is change.row), 0)
        self.effort.allow(-len(steps) - len(change.row.body))
        if change.value < 1 or self.effort.left < 0:
            return first, ()
        amount = change.number.amount
        body = with_number(change.row.body, amount, change.value, size)
        other = replace(change.row, body=body)
        planned = planned_with(self.worked, change.row, other, size).steps
        return first, planned if len(planned) == len(steps) else ()

    def _is_right(self, fault: Fault, size: int, state: State, first: int) -> bool:
        """Whether the row comes out, in no odder reading, and none before it suffers."""
        tried = self._size(size)
        was, now = tried.working.outcomes[fault.at], state.outcomes[-1]
        usual = now.readings <= was.readings - {Choice.AS_MANY_AS_FIT}
        return usual and not now.resized and not tried.amiss(state.outcomes[first:])

    def _holds(self, fault: Fault, change: _Change) -> bool:
        """Whether the row comes out with a change, and no other row does so no more."""
        of_one = len(change.number.amount.values) > 1
        sizes = fault.sizes if of_one else range(len(self.worked.sizes))
        return all(self._holds_in(fault, change, size) for size in sizes)

    def _holds_in(self, fault: Fault, change: _Change, size: int) -> bool:
        tried = self._size(size)
        first, now = self._outcomes(change, size)
        was, after = tried.working.outcomes, fault.at + 1
        if len(now) != len(was) or fault.at >= len(now):
            return False  # another size may have fewer rows
        if now[fault.at].resized or tried.amiss(now[first:after]):
            return False
        working = replace(tried.working, outcomes=now)
        fits = agrees_with_multiple(self.worked.pattern, working, change.value)
        if change.of_chain and not fits:
            return False
        better = self._later(fault, size) - tried.amiss(now[after:])
        return better >= (1 if self._doubts_count(fault) and size in fault.sizes else 0)

    def _doubts_count(self, fault: Fault) -> bool:
        """Whether a count is denied that nothing but other rows can bear out."""
        return fault.finding.rule == "stated-count" and not fault.is_defended

    def _later(self, fault: Fault, size: int) -> int:
        """How many of the later rows do not come out as they are written."""
        tried = self._size(size)
        return tried.amiss(tried.working.outcomes[fault.at + 1 :])

    def _outcomes(self, change: _Change, size: int) -> tuple[int, tuple[Outcome, ...]]:
        """All rows with a number changed, and which is the first of them."""
        first, steps = self._steps(change, size)
        states = self._size(size).through(first, steps[first:]) if steps else []
        best = min(states, key=State.total, default=None)
        return first, () if best is None else best.outcomes

    def _told(self, fault: Fault, change: _Change) -> Finding:
        """The finding with what to write."""
        row, number, size = change.row, change.number, fault.sizes[0]
        outcomes = self._outcomes(change, size)[1]
        span = phrase_around(self.source.text, number, row.at)
        own = row.place(number.amount.span)
        words = self.source.slice(own)
        said = said_with(words, number.amount, change.value, size)
        old = self.source.slice(span)
        before, behind = old[: own.start - span.start], old[own.end - span.start :]
        new = in_the_singular(f"{before}{said}{behind}")
        was = words if len(number.amount.values) == 1 else change.value - change.by
        even = _even(fault, change, outcomes)
        return replace(
            fault.finding, why=f'With "{new}" (not {was}) {even}.', edit=Edit(span, new)
        )


def _even(fault: Fault, change: _Change, outcomes: Sequence[Outcome]) -> str:
    """What a change comes to: both numbers are told in the message already."""
    if change.of_chain:
        return "every row comes out even"
    if not outcomes:  # no more workings may be tried
        return "the row comes out even"
    makes = outcomes[fault.at].tally.stitches
    if fault.is_defended:
        return f"it makes {makes}, as {row_name(outcomes[fault.at + 1].step)} needs"
    claims = outcomes[fault.at].step.claims
    printed = [figure.amount.values for claim in claims for figure in claim.figures]
    told = not printed or any(makes in values for values in printed)
    return f"the row comes out even{f': {makes}' if told else ''}"


def _aim(off: Count | None, then: Count | None, by: int) -> int:
    """How far to change a number so that nothing is off, if that grows evenly; else 0."""
    if not isinstance(off, int) or not isinstance(then, int) or off == then:
        return 0
    step = then - off
    return 0 if off % step else -off // step * by


def _makes_chain(outcome: Outcome) -> bool:
    """Whether a row begins with the chain that the piece stands on."""
    if outcome.foundation is not None:
        return True
    work = [node for node in outcome.step.nodes if type(node) not in QUIET]
    return bool(work) and isinstance(work[0], Chain) and next_is_from_hook(work[1:])
