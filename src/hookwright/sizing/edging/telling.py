"""Edgings told to people: paragraphs of a part, its numbers, and why a side has none."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.checking import Checked
from hookwright.sizing.edging.facts import Edgings, Flatness, Offered, Refused, Shape, Side
from hookwright.sizing.edging.flatness import percent
from hookwright.sizing.facts import Multiple

_SIDES = {
    Side.TOP: "along the last row",
    Side.FOUNDATION: "along the foundation",
    Side.LEFT: "along the left side",
    Side.RIGHT: "along the right side",
    Side.ALL: "all round",
}
_SHAPES = {
    Shape.PLAIN: "",
    Shape.STRAIGHT: ", closing the wave straight",
    Shape.WAVE: ", following the wave",
}


def title(found: Offered | Refused) -> str:
    """Where an edging lies: "Along the last row, closing the wave straight"."""
    shape = found.shape if isinstance(found, Offered) else Shape.PLAIN
    words = f"{_SIDES[found.side]}{_SHAPES[shape]}"
    return words[0].upper() + words[1:]


def about(offered: Offered) -> Iterator[str]:
    """What is known of an edging beside its rows, a sentence or two a paragraph."""
    yield from dict.fromkeys(lies(own) for own in offered.flatness)
    yield from offered.notes


def lies(flat: Flatness) -> str:
    """How an edging lies: "Lies flat (+6 %): 37 stitches along ..."."""
    verdict = str(flat.verdict)
    return f"{verdict[0].upper()}{verdict[1:]} ({percent(flat.excess)}): {flat.how}."


def why_not(refused: Refused) -> str:
    """Why a side has no edging."""
    return f"{refused.reason.message} {refused.reason.why}".rstrip()


def as_object(checked: Checked, edgings: Edgings) -> dict[str, Any]:
    """Edgings as plain values for programs."""
    return {
        "name": checked.source.name,
        "terms": checked.terms,
        "sizes": list(checked.sizes),
        "sides": [
            *(_offered_object(offered) for offered in edgings.offered),
            *(_refused_object(refused) for refused in edgings.refused),
        ],
        "notes": list(edgings.notes),
    }


def _offered_object(offered: Offered) -> dict[str, Any]:
    worst = max(offered.flatness, key=lambda flat: abs(flat.excess))
    pick_up = offered.pick_up
    return {
        "side": str(offered.side),
        "shape": str(offered.shape),
        "heading": offered.heading,
        "stitches": list(offered.stitches),
        "lead": list(offered.lines[: len(offered.lines) - len(offered.rows)]),
        "rows": list(offered.rows),
        "exact": round(float(pick_up.exact), 4) if pick_up is not None else None,
        "picked_up": [pick_up.stitches, pick_up.rows] if pick_up is not None else None,
        "usual": pick_up.usual if pick_up is not None else None,
        "verdict": str(worst.verdict),
        "excess": round(float(worst.excess), 4),
        "edges": [
            {"verdict": str(f.verdict), "excess": round(float(f.excess), 4), "how": f.how}
            for f in offered.flatness
        ],
        "notes": list(offered.notes),
        "findings": [],
    }


def _refused_object(refused: Refused) -> dict[str, Any]:
    reason = refused.reason
    return {
        "side": str(refused.side),
        "shape": str(refused.shape),
        "heading": None,
        "stitches": None,
        "lead": [],
        "rows": [],
        "exact": None,
        "picked_up": None,
        "usual": None,
        "verdict": None,
        "excess": None,
        "edges": [],
        "notes": [],
        "findings": [
            {
                "start": reason.span.start,
                "end": reason.span.end,
                "message": reason.message,
                "why": reason.why,
            }
        ],
    }


def multiple_in(words: str) -> Multiple | None:
    """A repeat as it is asked for: "6+1", "8 + 3", "4"; None where it is none."""
    each, _, extra = (part.strip() for part in words.partition("+"))
    if not (each.isascii() and each.isdigit() and len(each) <= _DIGITS) or int(each) < 1:
        return None
    if not extra:
        return None if "+" in words else Multiple(int(each), 0)
    if not (extra.isascii() and extra.isdigit() and len(extra) <= _DIGITS):
        return None
    return Multiple(int(each), int(extra))


_DIGITS = 4
