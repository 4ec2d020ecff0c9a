"""How many edits are told as what they are: other words, or another fabric?

A hundred of each, made in the examples (`tests/edits_made.py`). An edit that keeps the
meaning has to be told as wording, one that changes it as a change of the fabric in its own
row, and no earlier.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from edits_made import sampled
from edits_told import told_rightly


def main() -> None:
    """Print what is told rightly, and what is not."""
    for changes in (False, True):
        found = sampled(100, changes=changes)
        wrong = [edit for edit in found if not told_rightly(edit)]
        kinds = Counter(edit.what for edit in found)
        what = "change the fabric" if changes else "keep the meaning"
        sys.stdout.write(
            f"{len(found)} that {what}, of {len(kinds)} kinds: "
            f"{len(found) - len(wrong)} told rightly\n"
        )
        for edit in wrong:
            sys.stdout.write(
                f"  {edit.name}, {edit.row or 'beside the rows'}: {edit.what}\n"
            )


if __name__ == "__main__":
    main()
