"""Is a part as long as a sentence beside its rows says: "5 1/2 in from the underarm"?

Its rows, or rounds, up to there are held against the gauge, where all of them are told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from hookwright.design.facts import Gauge, Measure
from hookwright.design.lengths import lengths_in
from hookwright.editing.against_gauge import gauge_told
from hookwright.editing.at_gauge import Worked, up_at_gauge
from hookwright.editing.main_piece import Piece, are_sound
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.told_lengths import grain_mm, in_unit, sizes_named
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.tree import Recall
from hookwright.regex import regex
from hookwright.working.outcome import Outcome, Working

_SAID = regex(
    r"\b(?:body|piece|sleeves?|work|it)(?:[ \t](?:now|should|will|should now|will now))?"
    r"[ \t](?:measures?|is)\b(?P<length>[^.;\n]{1,80}?)[ \t](?:long[ \t])?"
    r"from[ \t](?:the[ \t])?(?:underarms?|armholes?|dividing (?:round|rnd|row)|division)\b",
    re.IGNORECASE,
)
_WISHED = regex(r"\b(?:until|till)[ \t][^.;\n]{0,40}$", re.IGNORECASE)
_WARN = Fraction(8, 100)


def part_lengths(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each such sentence that the rows contradict in every gauge."""
    text = manuscript.source.text
    for said in _SAID.finditer(text):
        if _WISHED.search(text, max(0, said.start() - 60), said.start()):
            continue
        told = next(lengths_in(text, said.start("length"), said.end("length")), None)
        if told is None or len(told.measures) != 1 or told.measures[0].ranged:
            continue
        found = [
            (gauge, off)
            for gauge in manuscript.design.gauges
            for off in [_off(manuscript, gauge, told.measures[0], said.start())]
            if off is not None
        ]
        if found and all(off for _, off in found):
            yield _finding(manuscript, found[0][0], told.measures[0], found[0][1])


_Off = tuple[int, Worked, Fraction]
"""A size, what its rows come to, and what is printed."""


def _off(
    manuscript: Manuscript, gauge: Gauge, measure: Measure, at: int
) -> list[_Off] | None:
    """The sizes that are not so long; None where the gauge tells nothing of the rows."""
    found: list[_Off] = []
    for size, working in enumerate(manuscript.worked.sizes):
        rows = _rows_before(working, at)
        printed = measure.at(size)
        worked = _worked(manuscript, gauge, working, rows)
        if worked is None or not printed:
            return None
        rounded = grain_mm(printed, measure.unit) / 2 / printed + worked.slack
        if abs(worked.mm - printed) / printed - rounded > _WARN:
            found.append((size, worked, printed))
    return found


def _rows_before(working: Working, at: int) -> Sequence[Outcome]:
    """The rows of the part that a sentence stands in, or behind, up to there."""
    before = [o for o in working.outcomes if o.step.text.span.start < at]
    part = before[-1].step.part if before else -1
    return [o for o in before if o.step.part == part and (o.worked or o.is_open)]


def _worked(
    manuscript: Manuscript, gauge: Gauge, working: Working, rows: Sequence[Outcome]
) -> Worked | None:
    told = not any(
        o.is_open or any(isinstance(n, Recall) and n.open_length for n in o.step.text.body)
        for o in rows
    )
    if not rows or not told or not are_sound(working, rows):
        return None
    own = manuscript.pattern.parts[rows[0].step.part].rows
    if any(isinstance(n, Recall) and n.forms_pattern for row in own for n in row.body):
        return None
    return up_at_gauge(Piece(tuple(rows), 0, open_ended=False, alone=True), gauge)


def _finding(
    manuscript: Manuscript, gauge: Gauge, measure: Measure, found: Sequence[_Off]
) -> Finding:
    size, worked, printed = found[0]
    names = manuscript.pattern.sizes
    some = 0 < len(found) < len(manuscript.worked.sizes)
    sizes = tuple(names[at] for at, _, _ in found) if names and some else ()
    of_size = f"In {sizes_named(names[size : size + 1])}, at" if names else "At"
    rows = "rounds" if _in_rounds(manuscript, measure) else "rows"
    told = gauge_told(gauge, worked)
    message = (
        f"{of_size} {told}, {worked.number} {rows} are {in_unit(worked.mm, measure.unit)} "
        f"long, but {in_unit(printed, measure.unit)} is printed."
    )
    return Finding(
        "measure",
        Severity.WARNING,
        measure.span,
        message,
        "Correct the length, or the number of rows.",
        related=(Related(gauge.span, "the gauge"),),
        sizes=sizes,
    )


def _in_rounds(manuscript: Manuscript, measure: Measure) -> bool:
    rows = _rows_before(manuscript.worked.sizes[0], measure.span.start)
    return all(outcome.step.is_round for outcome in rows)
