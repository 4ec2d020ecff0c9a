"""What is a row made of: one stitch, and does any of its stitches add or take away?"""

from __future__ import annotations

from hookwright.working.fabric import Stitch
from hookwright.working.row import WorkedRow


def main_stitch_of(worked: WorkedRow | None) -> str:
    """The stitch that makes up nearly all of a row; "" where none does."""
    if worked is None:
        return ""
    kinds = {name: n for name, n in worked.row.kinds().items() if isinstance(n, int)}
    whole = sum(kinds.values())
    name = max(kinds, key=lambda kind: kinds[kind], default="")
    return name if whole and kinds[name] * 10 >= whole * 7 else ""


def bends(stitch: Stitch) -> int:
    """1 for a stitch that does not stand on one of its own: an increase, a decrease."""
    made = sum(head.counts for head in stitch.heads)
    if stitch.kind == "tch" or not made:
        return 0
    return int(made != stitch.passes)
