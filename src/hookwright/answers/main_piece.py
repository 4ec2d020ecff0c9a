"""Which part of a pattern are width, height and rows asked of?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Request, Sized, size_pattern


def sized_as(checked: Checked, request: Request) -> Sized:
    """A pattern with the sizes that a maker asks for."""
    return size_pattern(checked, multiples_of(checked), request)


def main_part(parts: Sequence[PartSized]) -> PartSized | None:
    """The part that was sized, or the first one that has a measure."""
    sized = next((part for part in parts if part.sizes), None)
    return sized or next((part for part in parts if part.now), None)
