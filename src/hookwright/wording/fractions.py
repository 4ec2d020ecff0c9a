"""How is a half written? Every part of a whole in a text, in the manner of the house.

Only what stands beside the instructions is looked at, where lengths are told.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.source import Span

_SIGNS = {
    "½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4), "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
_OF = {part: sign for sign, part in _SIGNS.items()}
_NUMBER = regex(
    r"(?<![\d/.,\w])(?P<whole>\d+)?[ -]?"
    r"(?:(?P<sign>[½¼¾⅛⅜⅝⅞])|(?P<top>[1-7])/(?P<under>[248])(?![\d/\w]))"
)


def in_fractions(text: str, stretches: Sequence[Span], half: str) -> Iterator[Edit]:
    """The changes that write every part of an inch as a half is written.

    Args:
        text: The text.
        stretches: What lies outside the instructions of rows.
        half: "1/2", "½", "0.5" or "0,5".
    """
    for span in stretches:
        for found in _NUMBER.finditer(text, span.start, span.end):
            if "/" in found[0] and found["whole"] is None and found.start() == span.start:
                continue
            sign = found["sign"]
            part = (
                _SIGNS[sign] if sign else Fraction(int(found["top"]), int(found["under"]))
            )
            if part not in _OF:
                continue
            new = _written(found["whole"] or "", part, half)
            lead = len(found[0]) - len(found[0].lstrip(" -"))
            if found["whole"] is not None:
                lead = 0
            start = found.start() + lead
            if new != text[start : found.end()]:
                yield Edit(Span(start, found.end()), new)


def _written(whole: str, part: Fraction, half: str) -> str:
    """A number with its part: "36 1/2", "36½", "36.5", "36,5"."""
    if half == "½":
        return f"{whole}{_OF[part]}"
    if half == "1/2":
        return f"{whole} {part}".strip()
    digits = str(float(int(whole or 0) + part))
    return digits.replace(".", half[1])
