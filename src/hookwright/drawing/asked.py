"""Which drawing is asked for, of what, and who makes it?

Each kind of drawing is a module with one function, which is given the pattern, what is
wanted, and whom to tell how far it is, and gives back sheets. A further kind is a further
line in `MAKERS`, and an option of the command.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import cast

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.drawing.sheet import Sheet
from hookwright.progress import Progress

MAKERS = {
    "chart": "hookwright.drawing.charts_asked",
    "schematic": "hookwright.drawing.schematics",
    "stripes": "hookwright.drawing.stripe_strips",
    "fabric": "hookwright.drawing.fabric.asked",
}
"""The kinds of drawing; each module has a function `sheets`."""


class Wanted(Struct, frozen=True):
    """What is wanted.

    Attributes:
        repeat: One repeat with its edges, instead of the whole.
        part: The name of a part; "" for all.
        size: The name of a size; "" for the first, or for all where a drawing shows all.
        left_handed: Drawn as a left-handed maker works.
        wrong_side: Whether the wrong side of fabric is shown.
        pixels: How wide a picture in points is to be.
    """

    repeat: bool = False
    part: str = ""
    size: str = ""
    left_handed: bool = False
    wrong_side: bool = False
    pixels: int = 1600


class NotDrawn(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """What is wanted cannot be drawn; the message is a sentence."""


Maker = Callable[[Checked, Wanted, Progress | None], tuple[Sheet, ...]]


def sheets_of(
    kind: str, checked: Checked, wanted: Wanted, progress: Progress | None = None
) -> tuple[Sheet, ...]:
    """The sheets of a kind of drawing.

    Raises:
        NotDrawn: When there is nothing of the kind to draw.
        Cancelled: When `progress` answers False.
    """
    maker = cast("Maker", import_module(MAKERS[kind]).sheets)
    found = maker(checked, wanted, progress)
    if not found:
        raise NotDrawn(
            "Nothing in this pattern is told stitch by stitch, so none is drawn."
        )
    return found


def size_wanted(checked: Checked, wanted: Wanted) -> int:
    """Which of the sizes is drawn.

    Raises:
        NotDrawn: When there is none of that name.
    """
    if not wanted.size:
        return 0
    names = [name.lower() for name in checked.sizes]
    if wanted.size.lower() not in names:
        told = f"Its sizes are {', '.join(checked.sizes)}." if names else "It has one size."
        raise NotDrawn(f'The pattern has no size "{wanted.size}". {told}')
    return names.index(wanted.size.lower())


def is_wanted(wanted: Wanted, part: str) -> bool:
    """Whether a part is to be drawn."""
    return not wanted.part or wanted.part.lower() == part.lower()


def check_part(wanted: Wanted, parts: tuple[str, ...]) -> None:
    """Refuses a part that is not among those that can be drawn.

    Raises:
        NotDrawn: When there is none of that name.
    """
    if wanted.part and not any(is_wanted(wanted, part) for part in parts):
        named = [part for part in parts if part]
        told = f"Pieces begin with {', '.join(named)}." if named else "It is in one part."
        raise NotDrawn(f'No piece begins with a part "{wanted.part}". {told}')


def slug(part: str, number: int) -> str:
    """The name of a part as it stands in the name of a file."""
    words = "".join(c if c.isalnum() else " " for c in part.lower()).split()
    return "-".join(words) or str(number + 1)
