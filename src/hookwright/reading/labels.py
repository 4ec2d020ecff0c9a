"""Does a line begin a row of its own?

Wrapped lines of a print are joined, and a list's own number is left out, by this question.
It asks for the look of a label only; what a label means is read later.
"""

from __future__ import annotations

import re

_NAMED = r"(?:foundation|set-?up|starting|base|next|last|dec|inc|pattern|border|edging)"
# Few drafts ask this: those whose lines are to be joined, or that set labels in bold.
_LABEL = rf"""(?ix)\W{{0,3}}(?:
        (?:{_NAMED}\s+)?(?:rows?|rnds?|rounds?)\s*\(?\d+    # Row 3, Foundation Rnd 1
      | {_NAMED}\s+(?:row|rnd|round)\b                      # Next row
      | r\d{{1,3}}\b(?=\s*(?:[-:.)(=\u2013\u2014]|$))         # R4:, R4
      | \d{{1,3}}(?:st|nd|rd|th|d)\s+(?:(?:and|&|to|-)\s*\d{{1,3}}(?:st|nd|rd|th|d)\s+)?
        (?:rows?|rnds?|rounds?)\b                           # 4th row, 4th and 5th rows
    )"""
_AFTER_LABEL = r"""(?x)[\d\s,&()\u2013\u2014-]*
        (?:(?:and|to)\s+\d+\s*){0,3}
        (?:\([^()\n]{0,40}\)\s*)?                 # (RS), (color B)
        (?:[:=)]|[.\u2013\u2014-](?!\s*\d))"""
_BARE_NUMBER = r"\d{1,3}\s?[:.)](?=\s)"


def begins_a_row(line: str) -> bool:
    """Whether a line begins with a row label: "Row 3", "4th rnd", "Next row", "R4:"."""
    return re.match(_LABEL, line) is not None


def begins_a_marked_row(line: str) -> bool:
    """Whether the label also has its mark: "Row 3:", but not "Row 3 once more"."""
    label = re.match(_LABEL, line)
    return label is not None and re.match(_AFTER_LABEL, line[label.end() :]) is not None


def begins_with_a_number(line: str) -> bool:
    """Whether a line begins like "4." or "4)", a row or a step in a numbered list."""
    return re.match(_BARE_NUMBER, line) is not None
