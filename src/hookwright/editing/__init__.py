"""The tech edit: rules that look across the whole of a pattern."""

from hookwright.editing.manuscript import Manuscript
from hookwright.editing.rules import tech_edit

__all__ = ["Manuscript", "tech_edit"]
