"""Which rows are there to tick off, one open box a row?"""

from __future__ import annotations

from hookwright.checking import Checked

_MOST = 600
"""More boxes are no help to a pencil."""
_FEWEST = 10

Tally = tuple[tuple[str, tuple[str, ...]], ...]


def tally_of(checked: Checked) -> Tally:
    """For each part its name and the numbers of its rows, in the longest size."""
    found: dict[str, list[str]] = {}
    for line in checked.lines:
        firsts = [number for number in line.first if number is not None]
        lasts = [number for number in line.last if number is not None]
        if not firsts or not lasts:
            continue
        last = min(max(lasts), min(firsts) + _MOST)
        found.setdefault(line.part, []).extend(
            str(number) for number in range(min(firsts), last + 1)
        )
    parts = [
        (part, tuple(dict.fromkeys(numbers)))
        for part, numbers in found.items()
        if len(numbers) >= _FEWEST
    ]
    total = sum(len(numbers) for _, numbers in parts)
    return tuple(parts) if total <= _MOST else ()
