"""`hookwright check --report`: a report in a file of its own."""

from __future__ import annotations

from pathlib import Path

from hookwright.checking import Checked
from hookwright.commands.writing import write_over
from hookwright.reporting import as_markdown, as_page, report_of
from hookwright.reporting.markdown import MARK as MARKDOWN_MARK
from hookwright.reporting.page import MARK as PAGE_MARK
from hookwright.terminal import say_aside


def write_report(checked: Checked, file: str) -> None:
    """Write the report of a checked pattern, over an earlier report but nothing else.

    Raises:
        NotWritten: If something else is there, or it cannot be written.
    """
    is_page = file.lower().endswith(".html")
    text = (as_page if is_page else as_markdown)(report_of(checked))
    mark = PAGE_MARK if is_page else MARKDOWN_MARK
    write_over(Path(file), text.encode("utf-8", "replace"), mark.encode())
    say_aside(f"The report is in {file}.")
