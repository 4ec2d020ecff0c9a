"""What is a stitch called when it is said aloud, in the pattern's own terms?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.wording.in_full import written_out


def said(checked: Checked, words: str) -> str:
    """Some words with their abbreviations in full."""
    return written_out(words, checked.terms or "US", checked.reading.pattern)


def stitch_words(checked: Checked, stitch: str) -> str:
    """A stitch in full: "double crochet 3 together"."""
    return said(checked, stitch)
