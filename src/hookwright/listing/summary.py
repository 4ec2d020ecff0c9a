"""What a check comes to, in one line."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked
from hookwright.finding import Finding, Severity
from hookwright.listing.findings import LOUDNESS
from hookwright.listing.verdicts import is_foundation


def summary(checked: Checked) -> str:
    """One line: "24 rows: all counts proven.", or "24 rows, 2 findings: 2 to mend."."""
    rows = [line for line in checked.lines if not is_foundation(line)]
    number = rows_in(checked)
    said = counted(number, "row") if number else "No rows were found to work"
    loud = [found for found in checked.all_findings if is_loud(found)]
    if loud:
        return f"{said}, {_findings(loud)}"
    if not number:
        return f'{said}: a row begins with its label, as in "Row 1:", "Rnd 1:" or "R1:".'
    doubtful = sum(line.times for line in rows if not line.agrees)
    if doubtful:
        return f"{said}: {doubtful} of them could not be proven."
    if any(stated is not None for line in rows for stated in line.stated):
        return f"{said}: all counts proven."
    return f"{said}: every row closes; no counts are printed."


def rows_in(checked: Checked) -> int:
    """How many rows there are; a chain to work into is none."""
    return sum(line.times for line in checked.lines if not is_foundation(line))


def is_loud(finding: Finding) -> bool:
    """Whether a finding is told without being asked for."""
    return finding.severity is not Severity.ADVICE


def advice_told(checked: Checked) -> str:
    """How many pieces of advice there are: "3 pieces of advice"; "" where none is."""
    number = sum(not is_loud(finding) for finding in checked.all_findings)
    return f"{counted(number, 'piece')} of advice" if number else ""


def _findings(findings: Sequence[Finding]) -> str:
    numbers = dict.fromkeys(Severity, 0)
    for finding in findings:
        numbers[finding.severity] += 1
    loud = [f"{number} {LOUDNESS[level]}" for level, number in numbers.items() if number]
    return f"{counted(len(findings), 'finding')}: {', '.join(loud)}."


def counted(number: int, noun: str) -> str:
    """A number and its noun: "1 row", "24 rows"."""
    return f"{number} {noun}{'' if number == 1 else 's'}"
