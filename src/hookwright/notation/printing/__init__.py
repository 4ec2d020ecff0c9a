"""Tree to text: a pattern in words that read back to the same pattern.

A pattern is printed from its tree alone, in one careful house style, in US or in UK terms.
"""

from hookwright.notation.printing.patterns import print_pattern
from hookwright.notation.printing.rows import body_words, print_row
from hookwright.notation.printing.terms import translate, translate_row, translate_words
from hookwright.notation.printing.wording import Style, Wording
from hookwright.notation.rebuilding import bare

__all__ = [
    "Style",
    "Wording",
    "bare",
    "body_words",
    "print_pattern",
    "print_row",
    "translate",
    "translate_row",
    "translate_words",
]
