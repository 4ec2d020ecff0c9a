"""From a draft to what is proven of it: read, work, and gather the findings."""

from __future__ import annotations

from msgspec import Struct

from hookwright.finding import Finding, Severity
from hookwright.notation import Reading, read_pattern
from hookwright.reading import Draft
from hookwright.reading.draft import SameLines
from hookwright.source import Source
from hookwright.working.balance import balance_findings
from hookwright.working.findings import findings_of
from hookwright.working.joined_to import join_findings
from hookwright.working.multiple import multiple_findings
from hookwright.working.outcome import WorkedPattern
from hookwright.working.pattern import work_pattern
from hookwright.working.printed_lines import Line, lines_of
from hookwright.working.row_labels import label_findings
from hookwright.working.terms import counted_as_one, mixed_terms
from hookwright.working.two_readings import two_readings


class Checked(Struct, frozen=True):
    """A pattern that has been read and worked.

    Attributes:
        draft: Its text, with the way back to the file.
        reading: Its tree.
        worked: Its rows in every size.
        lines: Its rows as printed, with their numbers.
        findings: What is wrong, in reading order.
        terms: The terms it was read in; None where nothing tells them.
    """

    draft: Draft
    reading: Reading
    worked: WorkedPattern
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    terms: str | None

    @property
    def source(self) -> Source:
        """The text that every span counts characters of."""
        return self.draft.source

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of its sizes; empty for a pattern in one size."""
        return self.reading.pattern.sizes

    def has_rows(self) -> bool:
        """Whether there was any row to work; a chain to work into is none."""
        return any(below is not None for line in self.lines for below in line.below)

    def has_errors(self) -> bool:
        """Whether anything contradicts the text itself."""
        return any(finding.severity is Severity.ERROR for finding in self.findings)


def check(draft: Draft | Source, terms: str | None = None) -> Checked:
    """Read and work a pattern.

    Args:
        draft: A draft, or a text that stands for itself.
        terms: "US" or "UK", whatever the text says of itself.
    """
    if isinstance(draft, Source):
        draft = Draft(draft, SameLines(draft))
    source = draft.source
    reading = read_pattern(source)
    used = terms or reading.pattern.terms
    worked = work_pattern(reading.pattern, used)
    findings = [
        *draft.findings,
        *reading.findings,
        *findings_of(worked, source),
        *multiple_findings(worked, source),
        *balance_findings(worked),
        *join_findings(reading.pattern),
        *label_findings(reading.pattern, source),
        *two_readings(worked, source),
        *counted_as_one(worked, used),
        *mixed_terms(reading.pattern, source, used),
    ]
    findings.sort(key=lambda finding: (finding.span.start, finding.rule))
    return Checked(draft, reading, worked, lines_of(worked), tuple(findings), used)
