"""Tree to text: a pattern in words that read back to the same pattern.

A pattern is printed from its tree alone, in one careful house style, in US or in UK terms.
"""

from hookwright.notation.printing.patterns import print_pattern
from hookwright.notation.printing.rows import print_row
from hookwright.notation.printing.terms import translate, translate_row, translate_words
from hookwright.notation.rebuilding import bare

__all__ = [
    "bare",
    "print_pattern",
    "print_row",
    "translate",
    "translate_row",
    "translate_words",
]
