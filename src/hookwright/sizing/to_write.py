"""Which of the sizes that were worked out are written into the text?"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.finding import Finding, Severity
from hookwright.sizing.made import SizeMade
from hookwright.sizing.placed import PartSized
from hookwright.sizing.rewriting import SizeWritten
from hookwright.sizing.sized import Sized
from hookwright.sizing.wishes import SIZE_RULE
from hookwright.source import Span


def sizes_to_write(sized: Sized) -> tuple[SizeWritten, ...]:
    """The sizes for the text, in the order they were asked for.

    A text of one size keeps its one number; of several sizes each has its name.
    """
    part = _part(sized)
    sizes = [size for size in part.sizes if _can_be_written(size)] if part else []
    if len(sizes) == 1:
        return tuple(_written(size, "") for size in sizes)
    return tuple(_written(size, _in_a_list(size.wish.name)) for size in sizes)


def _in_a_list(name: str) -> str:
    """A name that may stand in a list of sizes, where commas and brackets part them."""
    return " ".join(re.sub(r"[^\w'’./-]+", " ", name).split())


def _part(sized: Sized) -> PartSized | None:
    return next((part for part in sized.parts if part.sizes), None)


def _can_be_written(size: SizeMade) -> bool:
    return size.nearest is not None and size.nearest.repeats is not None


def _written(size: SizeMade, name: str) -> SizeWritten:
    made = size.nearest
    assert made is not None
    assert made.repeats is not None
    return SizeWritten(name, made.repeats, made.sets if size.wish.height else None)


def not_to_write(sized: Sized, checked: Checked) -> tuple[Finding, ...]:
    """Why a size cannot be written into the text; spans are of what is asked for."""
    whole = Span(0, len(sized.asked.text))
    return tuple(
        Finding(SIZE_RULE, Severity.ERROR, whole, message, why)
        for message, why in _reasons(sized, checked.sizes)
    )


def _reasons(sized: Sized, sizes: Sequence[str]) -> Iterator[tuple[str, str]]:
    part = _part(sized)
    if part is None:
        yield "No size is asked for that could be written into the text.", _ASK
        return
    if sizes:
        told = f"The text has {len(sizes)} sizes of its own: {', '.join(sizes)}."
        yield told, "Further sizes are written into a text of one size."
    for size in part.sizes:
        if size.nearest is not None and not _can_be_written(size):
            told = (
                f"{size.wish.name} is not made of repeats, so its numbers do not follow "
                "from one another."
            )
            yield told, "Write its rounds by hand, and check the text."


_ASK = "Ask for a width, a height or a size."
