"""How large every piece lies, and whether flat."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hookwright.desk import told
from hookwright.desk.asked import Asked
from hookwright.shape.facts import Measured
from hookwright.shape.measures import measures_of


def measurements(asked: Asked) -> dict[str, Any]:
    """The measures of every piece in every size."""

    def progress(share: float, doing: str) -> bool:
        asked.tell({"share": round(share, 3), "said": doing})
        return True

    measures = measures_of(asked.checked, progress=progress)
    return {
        "parts": [
            {
                "part": part.part,
                "reason": part.reason,
                "sizes": [_measured(one) for one in part.sizes],
            }
            for part in measures.parts
        ]
    }


def _measured(one: Measured) -> dict[str, Any]:
    return {
        "name": one.size,
        "width": told.length(Fraction(one.width_mm)),
        "height": told.length(Fraction(one.height_mm)),
        "verdict": str(one.verdict.lie),
        "advice": one.verdict.advice,
        "how": list(one.how),
    }
