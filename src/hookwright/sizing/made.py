"""How is a size made: of which repeats, chain and rows, and what does it then measure?"""

from __future__ import annotations

from msgspec import Struct

from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.wishes import Wish


class Made(Struct, frozen=True):
    """One way to make a size.

    Attributes:
        repeats: Repeats side by side, or how many motifs; None where it has none.
        chain: Its foundation chain; None where it begins without one.
        stitches: Stitches of its first row, or of its widest round.
        rows: Its rows or rounds; None where they cannot be told.
        width: How wide it is, or how far around; None where that is not known.
        height: How high or long.
        sets: Sets of rows that it has.
    """

    repeats: int | None = None
    chain: int | None = None
    stitches: int | None = None
    rows: int | None = None
    width: Pitch | None = None
    height: Pitch | None = None
    sets: int | None = None


class SizeMade(Struct, frozen=True):
    """A wanted size and how it is made.

    Attributes:
        wish: What was wanted.
        nearest: The way that comes nearest; None where it cannot be made.
        below: The largest that is nowhere above the wish; None where there is none.
        above: The smallest that is nowhere below it; None where there is no choice.
        said: How it came about, in sentences.
        reason: Why it cannot be made; "" where it can.
    """

    wish: Wish
    nearest: Made | None = None
    below: Made | None = None
    above: Made | None = None
    said: tuple[str, ...] = ()
    reason: str = ""


def made_of(part: PartMultiple, gauge: FabricGauge, repeats: int, rows: int | None) -> Made:
    """A piece of so many repeats and rows."""
    assert part.stitches is not None
    stitches = part.stitches.at(repeats)
    return Made(
        repeats,
        part.chains.at(repeats) if part.chains is not None else None,
        stitches,
        rows,
        gauge.width(stitches, repeats, part.stitches.extra),
        gauge.height(rows) if rows is not None else None,
        _sets(part, rows),
    )


def _sets(part: PartMultiple, rows: int | None) -> int | None:
    if rows is None or part.rows is None or part.rows.each < 1:
        return None
    whole, rest = divmod(rows - part.rows.extra, part.rows.each)
    return whole if rest == 0 else None
