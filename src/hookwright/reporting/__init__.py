"""A report of a check that a designer can hand on: as a page or as Markdown."""

from hookwright.reporting.contents import report_of
from hookwright.reporting.markdown import as_markdown
from hookwright.reporting.page import as_page

__all__ = ["as_markdown", "as_page", "report_of"]
