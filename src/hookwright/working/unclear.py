"""Do so many rows of a part not close that the reading is likelier wrong than the rows?

A slip is one row, told at its origin. Where every third row of a part does not close, it is
told in words that are read otherwise than they are meant: what would follow from that
reading is then no finding about the pattern. A wrong count further up stands where a count
between it and those rows agrees.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.finding import Finding, Severity
from hookwright.notation.tree import PartText
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.problems import Fault

_CLOSING = frozenset({"past-the-end", "stitches-left", "missing-target"})
_OF_THE_READING = _CLOSING | {"stated-count"}
_FEWEST = 3
"""So many rows, and one in so many, that do not close speak against the reading."""


def without_unclear(faults: Sequence[Fault], worked: WorkedPattern) -> list[Fault]:
    """The faults, with one finding for all of a part whose rows are read wrong."""
    result = list(faults)
    for number, part in enumerate(worked.pattern.parts):
        rows = _rows_worked(worked, number)
        own = [f for f in result if _is_of(f, part) and f.finding.rule in _OF_THE_READING]
        open_rows = {f.finding.span.start for f in own if f.finding.rule in _CLOSING}
        if len(open_rows) < _FEWEST or len(open_rows) * _FEWEST < rows:
            continue
        agreeing = _rows_agreeing(worked, number)
        own = [f for f in own if not _is_apart(f, min(open_rows), agreeing)]
        result = [fault for fault in result if fault not in own]
        result.append(Fault(_told(part, own, len(open_rows), rows), own[0].at))
    return result


def _is_of(fault: Fault, part: PartText) -> bool:
    inside = part.rows[0].span.start <= fault.finding.span.start
    return inside and fault.finding.span.start <= part.rows[-1].span.end


def _rows_worked(worked: WorkedPattern, part: int) -> int:
    """How many rows of a part are told and worked, each text once."""
    return len({id(outcome.step.text) for outcome in _outcomes(worked, part)})


def _rows_agreeing(worked: WorkedPattern, part: int) -> set[int]:
    """Where the rows of a part stand whose printed counts all agree."""
    return {
        outcome.step.text.span.start
        for outcome in _outcomes(worked, part)
        if outcome.agrees and all(map(any, outcome.agrees))
    }


def _is_apart(fault: Fault, opened: int, agreeing: set[int]) -> bool:
    """Whether a wrong count is none that follows from how later rows are read."""
    at = fault.finding.span.start
    counted = fault.finding.rule == "stated-count"
    return counted and any(at < row < opened for row in agreeing)


def _outcomes(worked: WorkedPattern, part: int) -> Iterator[Outcome]:
    for working in worked.sizes:
        for outcome in working.outcomes:
            if outcome.step.part == part and outcome.worked is not None:
                yield outcome


def _told(part: PartText, faults: Sequence[Fault], number: int, rows: int) -> Finding:
    first = min(faults, key=lambda fault: fault.finding.span.start).finding
    where = f" of {part.name}" if part.name else ""
    return Finding(
        "unclear-rows",
        Severity.ADVICE,
        first.span,
        f"{number} of {rows} rows{where} do not close as they are read here.",
        "Where so many do not, the reading is likelier wrong than they: none is proven. "
        "See whether a word of your own is told among the special stitches.",
        row=first.row,
        part=part.name or None,
    )
