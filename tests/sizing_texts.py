"""Small patterns and their sizes, for the tests of what is wanted."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked, check
from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.sized import Request, Sized, size_pattern
from hookwright.source import Source

INCH = 25.4

STRIP = """\
# Eider Strip

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (20 sc)
"""
"""20 sc wide and 20 rows high: any number of stitches."""

WAVES = """\
# Dotterel Ripple

US terms. Ch 3 at the start of a row counts as a dc.

Ch 37.
Row 1: Dc in 4th ch from hook, *dc in next 6 ch, dc3tog over next 3 ch, dc in next 6 ch, 3 dc in next ch; rep from * to last ch, 2 dc in last ch.
"""


def checked(text: str, sheet: str | None = None) -> Checked:
    """A text, read and worked, with the worksheet beside it."""
    worksheet = Source(sheet, "worksheet.toml") if sheet is not None else None
    return check(Source(text, "pattern.md"), worksheet=worksheet)


def sized(
    text: str,
    sheet: str | None = None,
    *,
    width: str = "",
    height: str = "",
    sizes: Sequence[str] = (),
    gauge: str = "",
    multiples: Sequence[PartMultiple] | None = None,
) -> Sized:
    """The sizes of a text; its multiples may be told by hand."""
    pattern = checked(text, sheet)
    grows = multiples_of(pattern) if multiples is None else multiples
    return size_pattern(pattern, grows, Request(width, height, tuple(sizes), gauge))


def of_multiple(
    stitches: tuple[int, int],
    chains: tuple[int, int] | None = None,
    rows: tuple[int, int] = (1, 0),
    repeats: int = 2,
    sets: int = 20,
    *,
    is_round: bool = False,
) -> PartMultiple:
    """A part told by its multiples alone."""
    return PartMultiple(
        "",
        repeats=repeats,
        set_repeats=sets,
        chains=Multiple(*chains) if chains is not None else None,
        stitches=Multiple(*stitches),
        rows=Multiple(*rows),
        is_round=is_round,
    )


def only_size(found: Sized) -> SizeMade:
    """The one size that was wanted, of the first part."""
    (size,) = found.parts[0].sizes
    return size


def nearest(found: Sized) -> Made:
    """How the one size that was wanted is made."""
    made = only_size(found).nearest
    assert made is not None, only_size(found).reason
    return made


def inches(made: Made, *, high: bool = False) -> float:
    """How wide something is made, in inches, to a hundredth."""
    pitch = made.height if high else made.width
    assert pitch is not None
    return round(float(pitch.mm) / INCH, 2)
