"""Are fabrics known by their pictures alone? Sixteen of them, unlabelled, and a key.

`python benchmarks/sixteen_fabrics.py FOLDER` writes `1.png` to `16.png` in an order that a
seed gives (`--seed 7`), and `key.txt`, which tells what each of them is. Show the pictures
to somebody who crochets and has not seen the key, with the words below and six that are not
among them, and count what is named. Most are samples of our own shelf.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from random import Random

from msgspec.structs import replace

from hookwright.checking import check
from hookwright.drawing.fabric.files import as_png
from hookwright.drawing.fabric.picture import FabricPicture, Wish, fabric_picture
from hookwright.shelf.starter import starter
from hookwright.shelf.stock import fabrics
from hookwright.source import Source

POINTS = 720
TREBLE = """US terms. The ch 4 at the start of a row counts as a tr.

Ch 15.
Row 1 (RS): Tr in 5th ch from hook and in each ch across. Turn. (12 tr)
Rows 2-6: Ch 4, sk first st, tr in next st and in each st across. Turn. (12 tr)
"""
FRONT_LOOP = """US terms. The ch 1 at the start of a row does not count as a stitch.

Ch 14.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (13 sc)
Rows 2-15: Ch 1, sc in front loop only of each st across. Turn. (13 sc)
"""
ON_THE_SHELF = {
    "single crochet": ("sc-rows", 13),
    "half double crochet": ("hdc-rows", 12),
    "double crochet": ("dc-rows", 12),
    "single crochet in the back loop": ("back-loop-rib", 13),
    "post rib": ("post-rib", 6),
    "V-stitch": ("v-stitch", 5),
    "shells": ("shells", 3),
    "wave": ("dc-wave", 2),
    "bobbles": ("bobbles", 4),
    "mesh": ("mesh", 5),
    "moss": ("moss", 7),
    "granny square": ("granny-square", None),
    "spiral circle": ("sc-circle", None),
    "waffle": ("waffle", 5),
}
IN_WORDS = {"treble crochet": TREBLE, "single crochet in the front loop": FRONT_LOOP}
NOT_AMONG_THEM = (
    "crocodile scales",
    "basket weave",
    "cables",
    "puffs",
    "crossed double crochet",
    "filet checks",
)


def main() -> None:
    """Writes the pictures and their key."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--seed", type=int, default=7)
    given = asked.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    names = [*ON_THE_SHELF, *IN_WORDS]
    Random(given.seed).shuffle(names)  # noqa: S311 - an order, no secret
    key = []
    for number, name in enumerate(names, 1):
        (given.folder / f"{number}.png").write_bytes(as_png(square(picture(name))))
        key.append(f"{number}: {name}")
        print(f"{number} of {len(names)}")
    also = f"\nNot among them: {', '.join(NOT_AMONG_THEM)}.\n"
    (given.folder / "key.txt").write_text("\n".join(key) + "\n" + also, "utf-8")


def picture(name: str) -> FabricPicture:
    """The picture of one of them."""
    found = fabric_picture(check(Source(text_of(name))), Wish(width=POINTS))
    assert isinstance(found, FabricPicture), found
    return found


def text_of(name: str) -> str:
    """The pattern of one of them."""
    if name in IN_WORDS:
        return IN_WORDS[name]
    on_shelf, repeats = ON_THE_SHELF[name]
    fabric = next(one for one in fabrics() if one.name == on_shelf)
    return starter(fabric, repeats=repeats)


def square(found: FabricPicture) -> FabricPicture:
    """Its upper part, as high as wide."""
    return replace(found, points=found.points[:POINTS])


if __name__ == "__main__":
    main()
