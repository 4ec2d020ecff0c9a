"""Where is a character of a text in the page, and back?

Python counts characters; a browser counts units of UTF-16, of which a character beyond the
first 65,536 has two.
"""

from __future__ import annotations

from bisect import bisect_left

_WIDE = "\uffff"


class Offsets:
    """The offsets of one text in both ways of counting."""

    def __init__(self, text: str) -> None:
        """Look where the wide characters stand; most texts have none."""
        wide = not text.isascii() and max(text, default="") > _WIDE
        at = [n for n, letter in enumerate(text) if letter > _WIDE] if wide else []
        self._wide = at
        self._units = [place + number for number, place in enumerate(at)]

    def to_page(self, offset: int) -> int:
        """An offset of ours as the page counts it."""
        return offset + bisect_left(self._wide, offset) if self._wide else offset

    def from_page(self, units: int) -> int:
        """An offset of the page as we count it."""
        return units - bisect_left(self._units, units) if self._units else units
