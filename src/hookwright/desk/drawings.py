"""Drawings of the pattern, for the ways to look at it."""

from __future__ import annotations

from typing import Any

from hookwright.desk.asked import Asked
from hookwright.drawing.asked import MAKERS, NotDrawn, Wanted, sheets_of
from hookwright.drawing.one_symbol import one_symbol


def symbol(asked: Asked) -> dict[str, Any]:
    """The symbol of one stitch, as SVG."""
    return {"svg": one_symbol(asked.checked.worked, asked.wished.stitch)}


def drawing(asked: Asked) -> dict[str, Any]:
    """The sheets of one kind of drawing, as SVG."""
    wished = asked.wished
    if wished.kind not in MAKERS:
        return {"refused": "There is no such drawing."}

    def told(share: float, doing: str) -> bool:
        asked.tell({"share": round(share, 3), "said": doing})
        return True

    try:
        wanted = Wanted(repeat=wished.repeats == 1, size=wished.size)
        sheets = sheets_of(wished.kind, asked.checked, wanted, told)
    except NotDrawn as refusal:
        return {"refused": str(refusal)}
    return {
        "sheets": [
            {
                "title": sheet.title,
                "says": sheet.description,
                "svg": sheet.svg(),
                "notes": list(sheet.notes),
            }
            for sheet in sheets
        ]
    }
