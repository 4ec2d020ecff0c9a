"""A worksheet with one thing noted down in it."""

from __future__ import annotations

from typing import Any

from hookwright.design.worksheet.writing import NotWritable, set_value
from hookwright.desk.asked import Asked


def noted_down(asked: Asked) -> dict[str, Any]:
    """The worksheet with a value set, or why it does not take it."""
    wished = asked.wished
    try:
        text = set_value(
            asked.worksheet, wished.table, wished.key, wished.value, wished.number
        )
    except NotWritable as refusal:
        return {"refused": str(refusal)}
    return {"worksheet": text}
