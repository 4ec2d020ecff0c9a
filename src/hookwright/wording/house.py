"""How does the worksheet say that its designer writes?"""

from __future__ import annotations

from hookwright.design.facts import Worksheet
from hookwright.wording.asked import HouseStyle


def house_style(worksheet: Worksheet | None) -> HouseStyle:
    """The house style of a worksheet; one that says nothing where there is none."""
    if worksheet is None:
        return HouseStyle()
    told = dict(worksheet.noted.house_style)
    return HouseStyle(
        told.get("repeats", ""),
        told.get("counts", ""),
        told.get("numbers", ""),
        told.get("fractions", ""),
    )
