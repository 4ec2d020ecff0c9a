"""The edging: what can be worked along each edge, how it lies, and its rows."""

from __future__ import annotations

from typing import Any

from hookwright.checking import Checked
from hookwright.desk import told
from hookwright.desk.asked import Asked
from hookwright.sizing.edging import Side, Wish, edgings_of
from hookwright.sizing.edging.borders import KINDS
from hookwright.sizing.edging.facts import Offered, Refused, Shape, Verdict
from hookwright.sizing.edging.telling import about, title, why_not
from hookwright.sizing.placed import is_an_edging
from hookwright.source import Span

_MOST_ROWS = 12
_STITCHES = ("sc", "hdc", "dc")
FLAT = Verdict.FLAT


def answer(asked: Asked) -> dict[str, Any]:
    """The edgings that are offered; of one side, the pattern's text with it as well."""
    asked.tell({"said": "Working each edging together with the piece."})
    worked = edgings_of(asked.checked, _wish(asked))
    edgings = worked.edgings
    found: dict[str, Any] = {
        "kinds": ["plain", *KINDS],
        "stitches": list(_STITCHES),
        "offered": [_offered(one) for one in edgings.offered],
        "not_offered": [_refused(one) for one in edgings.refused],
        "words": asked.spans(_edgings(asked.checked)),
        "notes": list(edgings.notes),
    }
    if asked.wished.write and worked.proven is not None:
        found["text"] = worked.proven.in_file(asked.text)
    return found


def _edgings(checked: Checked) -> list[Span]:
    """The rows of the text that are edgings."""
    parts = [p for p in checked.reading.pattern.parts if is_an_edging(p.name)]
    return [row.span for part in parts for row in part.rows]


def _wish(asked: Asked) -> Wish:
    wished = asked.wished
    sides = (Side(wished.side),) if wished.side in set(Side) else ()
    return Wish(
        sides,
        wished.stitch if wished.stitch in _STITCHES else "sc",
        wished.kind if wished.kind in KINDS else "plain",
        max(1, min(wished.rows, _MOST_ROWS)),
        None,
        Shape(wished.shape) if wished.shape in set(Shape) else Shape.PLAIN,
    )


def _offered(offered: Offered) -> dict[str, Any]:
    worst = max(offered.flatness, key=lambda flat: abs(flat.excess), default=None)
    return {
        "side": str(offered.side),
        "shape": str(offered.shape),
        "title": title(offered),
        "heading": offered.heading,
        "lines": list(offered.lines),
        "rows": len(offered.rows),
        "about": list(about(offered)),
        "verdict": str(worst.verdict) if worst is not None else "",
        "excess": float(worst.excess) if worst and worst.verdict is not FLAT else 0.0,
        "wide": told.length(offered.width_mm),
    }


def _refused(refused: Refused) -> dict[str, Any]:
    return {"title": title(refused), "why": why_not(refused)}
