"""Charts of what testers report: a dot for each on one line, and marked places."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

_WIDE, _HIGH = 640, 96
_LEFT, _RIGHT = 40, 24
_LINE = 52
_INK, _QUIET, _HAIR = "#211E1B", "#57524B", "#CFCCC6"
_FONT = "font-family='Literata, Georgia, serif' font-size='13'"


def dots(
    values: Sequence[float], marks: Sequence[tuple[float, str]], unit: str = ""
) -> str:
    """A line of dots with marked places, as SVG.

    Args:
        values: A dot for each.
        marks: Places with a word: the mean, the limit, the pattern's own.
        unit: What stands behind each number of the scale.
    """
    places = [*values, *(at for at, _ in marks)]
    low, high = min(places), max(places)
    room = (high - low) * 0.08 or abs(high) * 0.05 or 1.0
    low, high = low - room, high + room

    def x(value: float) -> float:
        return _LEFT + (value - low) / (high - low) * (_WIDE - _LEFT - _RIGHT)

    parts = [
        (
            f"<line x1='{_LEFT}' x2='{_WIDE - _RIGHT}' y1='{_LINE}' y2='{_LINE}' "
            f"stroke='{_HAIR}'/>"
        )
    ]
    for at, _ in marks:
        parts.append(
            f"<line x1='{x(at):.1f}' x2='{x(at):.1f}' y1='{_LINE - 16}' y2='{_LINE + 12}' "
            f"stroke='{_INK}'/>"
        )
    for number, (at, words) in enumerate(sorted(marks)):
        above = number % 2 == 0
        parts.append(
            f"<text x='{x(at):.1f}' y='{_LINE - 22 if above else _LINE + 28}' {_FONT} "
            f"fill='{_QUIET}' text-anchor='middle'>{escape(words)} "
            f"{at:.2f}{escape(unit)}</text>"
        )
    parts += [
        f"<circle cx='{x(value):.1f}' cy='{_LINE}' r='5' fill='{_INK}' "
        f"fill-opacity='0.55'/>"
        for value in values
    ]
    return (
        f"<svg xmlns='http://www.w3.org/2000/svg' width='{_WIDE}' height='{_HIGH}' "
        f"viewBox='0 0 {_WIDE} {_HIGH}'>{''.join(parts)}</svg>"
    )


def bars(counts: Sequence[tuple[str, int, int]]) -> str:
    """How many of how many, a bar each, as SVG."""
    high = 24 * len(counts) + 8
    most = max((of for _, _, of in counts), default=1) or 1
    parts = []
    for number, (words, count, of) in enumerate(counts):
        y = 8 + 24 * number
        wide = count / most * (_WIDE - 260)
        parts.append(
            f"<text x='0' y='{y + 13}' {_FONT} fill='{_INK}'>{escape(words)}</text>"
            f"<rect x='120' y='{y + 2}' width='{wide:.1f}' height='14' fill='{_QUIET}'/>"
            f"<text x='{128 + wide:.1f}' y='{y + 13}' {_FONT} fill='{_QUIET}'>{count} of "
            f"{of}</text>"
        )
    return (
        f"<svg xmlns='http://www.w3.org/2000/svg' width='{_WIDE}' height='{high}' "
        f"viewBox='0 0 {_WIDE} {high}'>{''.join(parts)}</svg>"
    )
