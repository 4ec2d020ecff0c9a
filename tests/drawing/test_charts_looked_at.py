"""Small charts that somebody has looked at: nothing of them changes unseen.

Where one is meant to change, look at what `python tests/drawing/test_charts_looked_at.py`
writes before it is kept. Numbers may differ a little from one processor to the next.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.drawing.asked import Wanted, sheets_of
from hookwright.source import Source

KEPT = Path(__file__).parent / "looked_at"
FLAT = "US terms. The ch 1 or ch 2 at the start of a row does not count as a stitch.\n\n"
TALL = "US terms. The ch 3 at the start of a row counts as a dc.\n\n"
NEAR = 0.06
"""Millimetres."""
TEXTS = {
    "back-loop-wave": (
        f"{FLAT}Ch 10.\n"
        "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (9 sc)\n"
        "Rows 2-3: Ch 1, working in back loops only, 2 sc in first st, sc in next 2 sts, "
        "sc3tog, sc in next 2 sts, 2 sc in last st. Turn. (9 sc)\n"
    ),
    "post-rib": (
        f"{FLAT}Ch 8.\n"
        "Row 1 (RS): Hdc in 3rd ch from hook and in each ch across. Turn. (6 hdc)\n"
        "Rows 2-3: Ch 2, *fpdc around next st, bpdc around next st; rep from * across. "
        "Turn. (6 sts)\n"
    ),
    "granny": (
        f"{TALL}Ch 4; join with sl st in first ch to form a ring.\nRnd 1 (RS): Ch 3, 2 dc in "
        "ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3. (12 "
        "dc, 4 ch-2 sps)\nRnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch "
        "2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 "
        "more times; join with sl st in top of beg ch-3. (24 dc, 4 ch-2 sps, 4 ch-1 sps)\n"
    ),
}
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def drawn(name: str) -> str:
    (sheet,) = sheets_of("chart", check(Source(TEXTS[name])), Wanted())
    return sheet.svg()


@pytest.mark.parametrize("name", TEXTS)
def test_a_chart_is_as_it_was_looked_at(name: str) -> None:
    kept, now = (KEPT / f"{name}.svg").read_text("utf-8"), drawn(name)
    assert NUMBER.sub("0", now) == NUMBER.sub("0", kept)
    numbers = [[float(n) for n in NUMBER.findall(text)] for text in (now, kept)]
    assert numbers[0] == pytest.approx(numbers[1], abs=NEAR)


if __name__ == "__main__":
    KEPT.mkdir(exist_ok=True)
    for kind in TEXTS:
        (KEPT / f"{kind}.svg").write_text(drawn(kind), "utf-8")
