"""What is known of a fabric on the shelf, as a value.

Each stands in a file of its own in `data/`, in US terms. That a fabric exists, and over
which multiple it is worked, is common knowledge of the trade; a source is named where one
was seen. The sentences and the samples are our own.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.sizing.facts import Multiple

FAMILIES: dict[str, str] = {
    "plain": "Plain fabrics",
    "texture": "Textures",
    "ridges": "Ribs, posts and cables",
    "colors": "Fabrics in two colors",
    "waves": "Waves and ripples",
    "shells": "Shells and fans",
    "open": "Open fabrics",
    "motifs": "Squares, circles and other motifs",
    "rounds": "Worked in the round",
}
"""The families, in the order of the shelf."""
LEVELS = ("Basic", "Easy", "Intermediate", "Complex")
"""The levels of a sample. Source: design/data/standards.json."""


class Fabric(Struct, frozen=True, forbid_unknown_fields=True):
    """A fabric, and how a sample of it is worked; all words are in US terms.

    Attributes:
        title: What the trade calls it, or a plain description.
        family: One of `FAMILIES`.
        looks: A sentence on what it looks like and is good for.
        level: The skill level of the sample, one of `LEVELS`.
        rows: The sample, row by row. "{2k+1}" stands for the number at k repeats.
        source: Where its multiple is known from.
        name: What it is called for by, in words joined by hyphens.
        also: Further names of the trade.
        over: The multiple of stitches that it is worked over; None for a motif.
        chains: The multiple of chains that the sample begins with.
        set_of: How many rows make the pattern once; 0 where no rows are repeated.
        repeats: How many repeats the sample has.
        know: What a designer has to know: edges, turning chains, cautions.
        special: Special stitches, each in a paragraph.
        yarn: The yarn of the sample.
        notions: What else is needed.
        size: How large the sample is.
        piece: What the sample is called.
        finishing: What is done at the end.
    """

    title: str
    family: str
    looks: str
    level: str
    rows: str
    source: str
    name: str = ""
    also: tuple[str, ...] = ()
    over: Multiple | None = None
    chains: Multiple | None = None
    set_of: int = 0
    repeats: int = 0
    know: tuple[str, ...] = ()
    special: tuple[str, ...] = ()
    yarn: str = "about 50 g of a smooth medium weight yarn (4) in a light color"
    notions: str = "yarn needle"
    size: str = "A sample of about 15 to 20 cm (6 to 8 in)."
    piece: str = "Sample"
    finishing: str = "Weave in the ends. Block the sample as the ball band allows."

    @property
    def of_rows(self) -> str:
        """What it is worked in."""
        return "rounds" if "Rnd 1" in self.rows else "rows"
