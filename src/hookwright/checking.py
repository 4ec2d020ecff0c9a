"""From a draft to what is proven of it: read, work, and gather the findings."""

from __future__ import annotations

from dataclasses import dataclass

from hookwright.finding import Finding, Severity
from hookwright.notation import Reading, read_pattern
from hookwright.source import Source
from hookwright.working.pattern import WorkedPattern, work_pattern
from hookwright.working.report import Line, findings_of, lines_of
from hookwright.working.terms import mixed_terms


@dataclass(frozen=True, slots=True)
class Checked:
    """A pattern that has been read and worked.

    Attributes:
        source: Its text.
        reading: Its tree.
        worked: Its rows in every size.
        lines: Its rows as printed, with their numbers.
        findings: What is wrong, in reading order.
        terms: The terms it was read in.
    """

    source: Source
    reading: Reading
    worked: WorkedPattern
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    terms: str | None

    def has_errors(self) -> bool:
        """Whether anything contradicts the text itself."""
        return any(finding.severity is Severity.ERROR for finding in self.findings)


def check(source: Source, terms: str | None = None) -> Checked:
    """Reads and works a pattern."""
    reading = read_pattern(source)
    used = terms or reading.pattern.terms
    worked = work_pattern(reading.pattern, source, used)
    findings = [
        *reading.findings,
        *findings_of(worked, source),
        *mixed_terms(reading.pattern, source, used),
    ]
    findings.sort(key=lambda finding: (finding.span.start, finding.rule))
    return Checked(source, reading, worked, lines_of(worked), tuple(findings), used)
