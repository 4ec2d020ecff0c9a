"""Small pictures that somebody has looked at: nothing of them changes unseen.

Where one is meant to change, look at what `python tests/drawing/fabric/test_looked_at.py`
writes before it is kept. Points may differ a little from one processor to the next.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from hookwright.checking import check
from hookwright.drawing.fabric.picture import FabricPicture, Wish, fabric_picture
from hookwright.source import Source

KEPT = Path(__file__).parent / "looked_at"
FLAT = "US terms. The ch 1 at the start of a row does not count as a stitch.\n\n"
TALL = "US terms. The ch 3 at the start of a row counts as a dc.\n\n"
TEXTS = {
    "sc-two-yarns": (
        f"{FLAT}With Teal, ch 9.\nRow 1 (RS): With Teal, sc in 2nd ch from hook and in each ch "
        "across. Turn. (8 sc)\nRows 2-4: Ch 1, sc in each st across. Turn. (8 sc)\nRow 5: With "
        "Cream, ch 1, sc in each st across. Turn. (8 sc)\nRows 6-7: Ch 1, sc in each st "
        "across. Turn. (8 sc)\n"
    ),
    "back-loop": (
        f"{FLAT}Ch 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
        "Rows 2-7: Ch 1, sc in back loop only of each st across. Turn. (8 sc)\n"
    ),
    "post-rib": (
        f"{TALL}Ch 10.\nRow 1 (WS): Dc in 4th ch from hook and in each ch across. Turn. (8 dc)\n"
        "Rows 2-5: Ch 3, *FPdc around next st, BPdc around next st; rep from * to last st, dc "
        "in last st. Turn. (8 sts)\n"
    ),
    "granny": (
        f"{TALL}Ch 4; join with sl st in first ch to form a ring.\nRnd 1 (RS): Ch 3, 2 dc in "
        "ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3. (12 dc, "
        "4 ch-2 sps)\nRnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 "
        "dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more "
        "times; join with sl st in top of beg ch-3. (24 dc, 4 ch-2 sps, 4 ch-1 sps)\n"
    ),
    "bobble": (
        f"{FLAT}Ch 8.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (7 sc)\n"
        "Row 2: Ch 1, sc in first 3 sts, bobble in next st, sc in last 3 sts. Turn. (7 sts)\n"
        "Rows 3-4: Ch 1, sc in each st across. Turn. (7 sc)\n"
    ),
}


def drawn(text: str) -> NDArray[np.uint8]:
    found = fabric_picture(check(Source(text)), Wish(width=120))
    assert isinstance(found, FabricPicture), found
    return found.points


@pytest.mark.parametrize("name", TEXTS)
def test_a_picture_is_as_it_was_when_it_was_looked_at(name: str) -> None:
    points = drawn(TEXTS[name]).astype(int)
    with Image.open(KEPT / f"{name}.png") as image:
        kept = np.asarray(image.convert("RGB")).astype(int)
    assert points.shape == kept.shape
    assert np.abs(points - kept).mean() < 2


if __name__ == "__main__":
    for own, words in TEXTS.items():
        Image.fromarray(drawn(words)).save(KEPT / f"{own}.png", optimize=True)
