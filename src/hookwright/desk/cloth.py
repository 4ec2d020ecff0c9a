"""The cloth as the page draws it: where every stitch lies, in which colour, of which words.

First as its rows begin to lie, which takes a moment; then as it comes to rest.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from typing import Any

from hookwright.colour.row_colours import row_colours
from hookwright.desk.asked import Asked
from hookwright.desk.offsets import Offsets
from hookwright.shape.hung import Course, Hung, begun_to_hang, hung


def cloth(asked: Asked) -> dict[str, Any]:
    """The pieces of the pattern in one size."""
    checked, wished = asked.checked, asked.wished
    size = min(max(0, wished.number), len(checked.worked.sizes) - 1)
    is_quick = wished.kind == "quick"

    def told(share: float, doing: str) -> bool:
        asked.tell({"share": round(share, 3), "said": doing})
        return True

    pieces = begun_to_hang(checked, size) if is_quick else hung(checked, size, told)
    outcomes = checked.worked.sizes[size].outcomes
    named = zip(outcomes, row_colours(checked, size), strict=True)
    colours = {id(outcome): colour for outcome, colour in named}
    return {
        "pieces": [
            {"part": piece.part, **_piece(asked.offsets, colours, piece)}
            for piece in pieces
        ],
        "at_rest": not is_quick,
    }


def _piece(offsets: Offsets, colours: Mapping[int, str], piece: Hung) -> dict[str, Any]:
    columns = ("x", "y", "chain", "leg", "name", "words")
    return {
        "reason": piece.reason,
        "measured": piece.measured,
        "width_mm": piece.width_mm,
        "names": list(piece.names),
        "spans": [
            [offsets.to_page(span.start), offsets.to_page(span.end)] for span in piece.spans
        ],
        **{name: b64encode(getattr(piece, name)).decode("ascii") for name in columns},
        "courses": [_course(offsets, colours, course) for course in piece.courses],
    }


def _course(offsets: Offsets, colours: Mapping[int, str], course: Course) -> dict[str, Any]:
    outcome = course.outcome
    return {
        "first": course.first,
        "number": course.number,
        "closed": course.closed,
        "row": course.row,
        "label": course.label,
        "colour": colours.get(id(outcome), ""),
        "start": offsets.to_page(outcome.step.span.start) if outcome is not None else -1,
    }
