"""What a check comes to, in one line."""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.finding import Severity
from hookwright.listing.findings import LOUDNESS
from hookwright.listing.verdicts import is_foundation


def summary(checked: Checked) -> str:
    """One line: "24 rows: all counts proven.", or "24 rows, 2 findings: 2 to mend."."""
    rows = [line for line in checked.lines if not is_foundation(line)]
    number = sum(line.times for line in rows)
    said = counted(number, "row") if number else "No rows were found to work"
    if checked.findings:
        return f"{said}, {_findings(checked)}"
    if not number:
        return f'{said}: a row begins with its label, as in "Row 1:", "Rnd 1:" or "R1:".'
    doubtful = sum(line.times for line in rows if not line.agrees)
    if doubtful:
        return f"{said}: {doubtful} of them could not be proven."
    if any(stated is not None for line in rows for stated in line.stated):
        return f"{said}: all counts proven."
    return f"{said}: every row closes; no counts are printed."


def _findings(checked: Checked) -> str:
    numbers = dict.fromkeys(Severity, 0)
    for finding in checked.findings:
        numbers[finding.severity] += 1
    loud = [f"{number} {LOUDNESS[level]}" for level, number in numbers.items() if number]
    return f"{counted(len(checked.findings), 'finding')}: {', '.join(loud)}."


def counted(number: int, noun: str) -> str:
    """A number and its noun: "1 row", "24 rows"."""
    return f"{number} {noun}{'' if number == 1 else 's'}"
