"""From a draft to what is proven of it: read, work, edit, and gather the findings."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from hookwright.design import Design, read_design
from hookwright.design.facts import Noted, Worksheet
from hookwright.editing import Manuscript, tech_edit
from hookwright.finding import Finding, Severity
from hookwright.notation import Reading, read_pattern
from hookwright.reading import Draft
from hookwright.reading.draft import SameLines
from hookwright.source import Source
from hookwright.working.findings import findings_of
from hookwright.working.outcome import WorkedPattern
from hookwright.working.pattern import work_pattern
from hookwright.working.printed_lines import Line, lines_of


class Checked(Struct, frozen=True):
    """A pattern that has been read and worked.

    Attributes:
        draft: Its text, with the way back to the file.
        reading: Its tree.
        design: What it says beside the rows.
        worked: Its rows in every size.
        lines: Its rows as printed, with their numbers.
        findings: What is wrong, in reading order.
        terms: The terms it was read in; None where nothing tells them.
        worksheet: The worksheet beside it, with what is wrong there; its findings are of
            its own text, and not among those of the pattern.
    """

    draft: Draft
    reading: Reading
    design: Design
    worked: WorkedPattern
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    terms: str | None
    worksheet: Worksheet | None = None

    @property
    def source(self) -> Source:
        """The text that every span counts characters of."""
        return self.draft.source

    @property
    def sizes(self) -> tuple[str, ...]:
        """The names of its sizes; empty for a pattern in one size."""
        return self.reading.pattern.sizes

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """What is wrong in the worksheet and in the pattern."""
        noted = self.worksheet.findings if self.worksheet is not None else ()
        return (*noted, *self.findings)

    def has_rows(self) -> bool:
        """Whether there was any row to work; a chain to work into is none."""
        return any(below is not None for line in self.lines for below in line.below)

    def has_errors(self) -> bool:
        """Whether anything contradicts the text itself."""
        return any(finding.severity is Severity.ERROR for finding in self.all_findings)


def check(
    draft: Draft | Source, terms: str | None = None, worksheet: Source | None = None
) -> Checked:
    """Read and work a pattern.

    Args:
        draft: A draft, or a text that stands for itself.
        terms: "US" or "UK", whatever the text says of itself.
        worksheet: The text of the worksheet beside it.
    """
    if isinstance(draft, Source):
        draft = Draft(draft, SameLines(draft), only_words=True)
    source = draft.source
    levels = {heading.span.start: heading.level for heading in draft.headings}
    reading = read_pattern(source, levels)
    sheet = _worksheet_in(worksheet)
    noted = sheet.noted if sheet is not None else Noted()
    said = reading.pattern.terms if reading.pattern.terms_said else None
    used = terms or said or noted.terms or reading.pattern.terms
    design = read_design(source, reading.pattern)
    if sheet is not None:
        design = replace(design, noted=noted)
        sheet = _held_against(sheet, draft, reading, design)
    found = worked_through(draft, reading, design, used)
    findings = [
        *draft.findings,
        *reading.findings,
        *findings_of(found.worked, source),
        *tech_edit(
            Manuscript(
                source, reading.pattern, found.worked, design, used, draft.only_words
            )
        ),
    ]
    findings.sort(key=lambda finding: (finding.span.start, finding.rule))
    return replace(found, findings=tuple(findings), worksheet=sheet)


def worked_through(
    draft: Draft, reading: Reading, design: Design, terms: str | None
) -> Checked:
    """A pattern that was read, worked; nobody has looked for what is wrong in it.

    Args:
        draft: A draft.
        reading: The same, read.
        design: What it says beside the rows.
        terms: The terms it is read in.
    """
    worked = work_pattern(reading.pattern, terms)
    return Checked(draft, reading, design, worked, lines_of(worked), (), terms)


def _worksheet_in(source: Source | None) -> Worksheet | None:
    """A worksheet as read; what reads it is brought in only where there is one."""
    if source is None:
        return None
    from hookwright.design.worksheet.reading import read_worksheet  # noqa: PLC0415

    return read_worksheet(source)


def _held_against(
    sheet: Worksheet, draft: Draft, reading: Reading, design: Design
) -> Worksheet:
    """A worksheet with what it says otherwise than the text among its findings."""
    from hookwright.design.worksheet.against_text import against_text  # noqa: PLC0415

    titled = replace(design, title=design.title or draft.title)
    findings = (*sheet.findings, *against_text(sheet, reading.pattern, titled))
    return replace(sheet, findings=tuple(sorted(findings, key=lambda found: found.span)))
