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
    """The sizes for the text, from small to large as the trade lists them.

    A text of one size keeps its one number; of several sizes each has its name.
    """
    sizes = _to_be_written(_part(sized))
    if len(sizes) == 1:
        return tuple(_written(size, "") for size in sizes)
    written = [_written(size, _in_a_list(size.wish.name)) for size in sizes]
    return tuple(sorted(written, key=lambda one: (one.repeats, one.set_repeats or 0)))


def _to_be_written(part: PartSized | None) -> list[SizeMade]:
    return [size for size in part.sizes if _can_be_written(size)] if part else []


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
        own = all(size.wish.own is not None for size in part.sizes)
        yield told, _ONE_OF_THEM if own else _FURTHER
    if sized.cannot_all_be_made():
        yield "Not all that is asked for can be made, so no text is written.", _ASK_AGAIN
    for size in part.sizes:
        if size.nearest is not None and not _can_be_written(size):
            told = (
                f"{size.wish.name} is not made of repeats, so its numbers do not follow "
                "from one another."
            )
            yield told, "Write its rounds by hand, and check the text."
    yield from _names_unclear(_to_be_written(part))


def _names_unclear(sizes: Sequence[SizeMade]) -> Iterator[tuple[str, str]]:
    """Names that could not be told from one another in a list of sizes."""
    seen: set[str] = set()
    for size in sizes if len(sizes) > 1 else ():
        name = _in_a_list(size.wish.name)
        if not re.search(r"\w", name):
            told = f'"{size.wish.name}" is no name that can stand in a list of sizes.'
            yield told, "Give it a name of letters or figures."
        elif name.lower() in seen:
            yield f"Two of the sizes are called {name}.", "Give each a name of its own."
        seen.add(name.lower())


_FURTHER = (
    "Further sizes are written into a text of one size: hookwright write --size makes one."
)
_ONE_OF_THEM = "hookwright write --size writes the text in one of them."
_ASK = "Ask for a width, a height or a size."
_ASK_AGAIN = "Ask for those that can be made."
