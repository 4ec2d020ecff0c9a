"""What an edging is, as values: its side, its rows in words, how flat it lies."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction

from msgspec import Struct

from hookwright.sizing.facts import Multiple
from hookwright.source import Span


class Side(StrEnum):
    """An edge of a piece as it lies with its right side up and its last row on top."""

    TOP = "top"
    FOUNDATION = "foundation"
    LEFT = "left"
    RIGHT = "right"
    ALL = "all"


class Shape(StrEnum):
    """What an edging makes of the edge it lies on.

    PLAIN follows an edge that is straight, STRAIGHT fills the hollows of a wave, and
    WAVE goes along with it.
    """

    PLAIN = "plain"
    STRAIGHT = "straight"
    WAVE = "wave"


class Wish(Struct, frozen=True):
    """What is asked for.

    Attributes:
        sides: The sides in the order they are worked; empty for each side by itself.
        stitch: The stitch of plain rows, by its US name: "sc", "hdc" or "dc".
        kind: What kind of edging, one of `borders.KINDS`.
        rows: How many rows or rounds of it.
        repeat: The repeat of a border of her own that the edge is to fit; None for none.
        shape: On a wave, STRAIGHT or WAVE; PLAIN for both.
    """

    sides: tuple[Side, ...] = ()
    stitch: str = "sc"
    kind: str = "plain"
    rows: int = 2
    repeat: Multiple | None = None
    shape: Shape = Shape.PLAIN


class Verdict(StrEnum):
    """How a row lies that has more or fewer stitches than its edge is long.

    Source: makers' pages that call dc flat at 10 to 12 a round and sc at 6, and see ruffles
    in sc begun with 8 (rules of thumb; the limits between are ours).
    """

    FLAT = "lies flat"
    SLIGHT = "slight, blocks out"
    RUFFLES = "ruffles"
    PULLS_IN = "pulls in"


class Flatness(Struct, frozen=True):
    """How the first row of an edging lies along its edge.

    Attributes:
        excess: By which part of its length the edging is longer than the edge; below 0 it
            is shorter.
        verdict: What comes of it.
        how: How the number came about, in a sentence.
    """

    excess: Fraction
    verdict: Verdict
    how: str


class PickUp(Struct, frozen=True):
    """How many stitches are picked up in the ends of rows.

    Attributes:
        exact: Stitches a row, by its height and the width of a stitch.
        stitches: The small even fraction that is written: so many stitches ...
        rows: ... in so many rows.
        usual: The trade's round number a row; None where the rows differ.
    """

    exact: Fraction
    stitches: int
    rows: int
    usual: int | None


class Offered(Struct, frozen=True):
    """An edging that is proven together with the piece.

    Attributes:
        side: Where it lies.
        shape: What it makes of the edge.
        heading: The heading of its part.
        lines: What stands under the heading: where the yarn is joined, then its rows.
        rows: Its rows alone.
        stitches: The stitches of its last row, one number a size.
        flatness: How it lies, one value an edge that it goes along; in the first size.
        pick_up: How the row ends are taken; None where it goes along none.
        notes: What else to know, in sentences.
    """

    side: Side
    shape: Shape
    heading: str
    lines: tuple[str, ...]
    rows: tuple[str, ...]
    stitches: tuple[int, ...]
    flatness: tuple[Flatness, ...]
    pick_up: PickUp | None = None
    notes: tuple[str, ...] = ()


class Reason(Struct, frozen=True):
    """Why no edging is offered.

    Attributes:
        span: The words of the pattern that it lies in.
        message: A sentence.
        why: What to do about it.
    """

    span: Span
    message: str
    why: str = ""


class Refused(Struct, frozen=True):
    """A side that no edging is offered for.

    Attributes:
        side: The side.
        reason: Why.
        shape: What was to be made of it.
    """

    side: Side
    reason: Reason
    shape: Shape = Shape.PLAIN


class Edgings(Struct, frozen=True):
    """What is offered for a pattern.

    Attributes:
        offered: Edgings, each proven behind the piece, or behind those before it where
            several sides are to be worked on one piece.
        refused: Sides without one.
        notes: What holds for all of them: the gauge taken, an edging that is left out.
    """

    offered: tuple[Offered, ...] = ()
    refused: tuple[Refused, ...] = ()
    notes: tuple[str, ...] = ()
