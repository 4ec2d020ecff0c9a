"""A pattern in the words that were asked for: other terms, in full, one size, left-handed.

The text is changed where its words are known, and read again: what comes out is the same
fabric, row for row and foot for foot, or the source's own words stay and that is told.
"""

from hookwright.wording.asked import Asked, Form
from hookwright.wording.pattern import Worded, write_pattern
from hookwright.wording.written import Written

__all__ = ["Asked", "Form", "Worded", "Written", "write_pattern"]
