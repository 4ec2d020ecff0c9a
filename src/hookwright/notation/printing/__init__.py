"""Tree to text: a pattern in words that read back to the same pattern.

A pattern is printed from its tree alone, in one careful house style, in US or in UK terms.
"""

from hookwright.notation.printing.rows import print_row

__all__ = ["print_row"]
