"""Two versions compared, for people and for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.versions.advice import affected, if_past
from hookwright.versions.corrections_sheet import stamp
from hookwright.versions.facts import Change, Compared


def comparison_lines(compared: Compared, date: str) -> Iterator[str]:
    """The changes as paragraphs."""
    yield f"Version {compared.new} against {compared.old}"
    fabric = compared.of_fabric
    if fabric:
        yield "\n".join(("In the fabric:", *map(_line, fabric)))
        yield f"Who is affected: {affected(compared)}"
        yield "\n".join(("If already past it:", *(f"- {one}" for one in if_past(compared))))
    else:
        yield (
            "In the fabric: nothing. Every row makes the same stitches in the same places."
        )
    others = [change for change in compared.changes if not change.kind.of_fabric]
    if others:
        yield "\n".join(("Beside it:", *map(_line, others)))
    yield f"Stamp: {stamp(compared, date)}"


def _line(change: Change) -> str:
    where = f"{change.part}, {change.rows}" if change.part else change.rows
    sizes = f" ({', '.join(change.sizes)})" if change.sizes else ""
    follows = ", follows from it" if change.follows else ""
    if change.before and change.after:
        return (
            f'- {where}{sizes}, {change.kind}{follows}: "{change.before}" is '
            f'"{change.after}"'
        )
    told = change.after or change.before
    return f'- {where}{sizes}, {change.kind}{follows}: "{told}"'


def comparison_answer(compared: Compared, date: str) -> dict[str, Any]:
    """The changes as an object for programs."""
    return {
        "old": compared.old,
        "new": compared.new,
        "affected": affected(compared),
        "changes": [_change(change) for change in compared.changes],
        "if_past": list(if_past(compared)),
        "stamp": stamp(compared, date),
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "kind": str(change.kind),
        "of_fabric": change.kind.of_fabric,
        "part": change.part,
        "rows": change.rows,
        "before": change.before,
        "after": change.after,
        "sizes": list(change.sizes),
        "follows": change.follows,
        "stitches": list(change.counts),
    }
