"""Who is affected by a change, and what to do if one is past that row?

The sentences are ours; what they advise is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.versions.facts import Change, Compared, Kind


def affected(compared: Compared) -> str:
    """Who is affected: all makers, or those of some sizes."""
    changes = compared.of_fabric
    if not changes:
        return "Nobody: the work comes out as before."
    if any(not change.sizes for change in changes):
        return (
            "Everybody who has not passed these rows." if compared.sizes else "Every maker."
        )
    names = [
        name for name in compared.sizes if any(name in change.sizes for change in changes)
    ]
    return f"Makers of {' and '.join(names) if len(names) < 3 else ', '.join(names)}."


def if_past(compared: Compared) -> tuple[str, ...]:
    """What to do for each change that does not only follow from another."""
    return tuple(
        advice
        for change in compared.of_fabric
        if not change.follows
        for advice in _advice(change)
    )


def _advice(change: Change) -> Iterator[str]:
    row = change.rows
    match change.kind:
        case Kind.COUNT:
            before, after = change.counts
            if before is not None and after is not None and before != after:
                yield (
                    f"{row}: count it. With {after:,} you have put it right yourself: go "
                    f"on. With {before:,} go back to the beginning of {row}; what is "
                    f"worked above it comes out with it."
                )
            else:
                yield f"{row}: hold it against the new words; if it differs, go back to it."
        case Kind.PLACE:
            yield (
                f"{row}: the count is the same, so the rows above hold. It shows where the "
                "stitches stand: go back if you mind, or go on as you began and do it the "
                "same way throughout."
            )
        case Kind.STITCH:
            yield (
                f"{row}: the count is the same, so the rows above hold. The height, the "
                f"look and the yarn differ a little: go back if you mind, or keep your way "
                "throughout."
            )
        case Kind.COLOUR:
            yield (
                f"{row}: nothing has to come out. It is a matter of look and of how much "
                f"of each colour you have: follow the new text from the next change on, or "
                f"keep your way."
            )
        case Kind.ADDED:
            yield (
                f"{row} is new: if you are past that place, leave it out; the piece is "
                f"that much shorter."
            )
        case _:
            yield (
                f"{row} is left out now: if you have worked it, leave it; the piece is "
                f"that much longer."
            )
