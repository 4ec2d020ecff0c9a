"""What is known of the yarn of a design, as values.

Lengths are fractions of millimetres, weights of grams. An estimate has a low and a high
end, and whatever makes one length longer makes them all longer, so ends are added up alike.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import YarnListed
from hookwright.finding import Finding
from hookwright.source import Span


class Basis(StrEnum):
    """What an estimate stands on."""

    SWATCH = "swatch"
    PRIOR = "prior"


class Estimate(Struct, frozen=True):
    """A number with how far it may well be off.

    Attributes:
        low: The low end.
        mid: What is likeliest.
        high: The high end.
    """

    low: Fraction = Fraction(0)
    mid: Fraction = Fraction(0)
    high: Fraction = Fraction(0)

    def plus(self, other: Estimate) -> Estimate:
        """The two together, both off the same way."""
        return Estimate(self.low + other.low, self.mid + other.mid, self.high + other.high)

    def times(self, number: Fraction | int) -> Estimate:
        """So many of it."""
        return Estimate(self.low * number, self.mid * number, self.high * number)


NOTHING = Estimate()


def exactly(number: Fraction | int) -> Estimate:
    """A number that is known."""
    own = Fraction(number)
    return Estimate(own, own, own)


class Yarn(Struct, frozen=True):
    """A yarn in one colour, as it is asked for.

    Attributes:
        label: What it is called in the pattern: "A".
        told: The label with the name of its colour: "A Rust".
        names: All that it may be called.
        code: Its colour on a screen; "" if not told.
        listed: The yarn as the worksheet or the materials list it; None for one that only
            the rows name.
    """

    label: str
    told: str
    names: tuple[str, ...]
    code: str = ""
    listed: YarnListed | None = None

    @property
    def ball_mm(self) -> Fraction | None:
        """The length of a ball; None if not told."""
        metres = self.listed.ball_m if self.listed is not None else None
        return metres * 1000 if metres else None

    @property
    def ball_g(self) -> Fraction | None:
        """The weight of a ball; None if not told."""
        return (self.listed.ball_g or None) if self.listed is not None else None

    @property
    def mm_per_g(self) -> Fraction | None:
        """The length of a gram; None where a ball has no length or no weight."""
        long, heavy = self.ball_mm, self.ball_g
        return long / heavy if long and heavy else None

    @property
    def in_hand(self) -> Fraction | None:
        """Balls in hand; None if not told."""
        return self.listed.in_hand if self.listed is not None else None

    @property
    def lot(self) -> str:
        """The dye lot; "" if not told."""
        return self.listed.lot if self.listed is not None else ""


class Section(StrEnum):
    """What a row is for."""

    FOUNDATION = "foundation"
    PIECE = "piece"
    EDGING = "edging"
    BESIDE = "beside the rows"


class Use(Struct, frozen=True):
    """Stitches of one kind in one yarn.

    Attributes:
        yarn: The label of the yarn; None where nothing names it.
        kind: What they are called.
        loops: Loops of yarn that stay in each.
        number: How many.
    """

    yarn: str | None
    kind: str
    loops: int
    number: Fraction | int


class RowUsed(Struct, frozen=True):
    """A row with the stitches it is made of.

    Attributes:
        part: The number of its part.
        number: Its number; None for a row without one.
        label: What it is called: "Row 7".
        section: What it is for.
        uses: Its stitches.
        own: Whether its words name its yarn.
        cut: Whether the yarn is cut behind it.
        ends: What share of it is worked into the ends of rows.
        place: Where it stands in the pattern.
        make: How many are made of its piece.
    """

    part: int
    number: int | None
    label: str
    section: Section
    uses: tuple[Use, ...]
    own: bool
    cut: bool
    ends: Fraction
    place: Span
    make: int = 1


class SizeCounted(Struct, frozen=True):
    """A size with its rows.

    Attributes:
        name: What it is called; "" in a pattern of one size.
        rows: Its rows in working order.
        width_mm: How wide it is; None where that is not known.
        height_mm: How high.
        repeats: Its repeats side by side; None where it is not made of any.
        said: Of what it is made, in words.
    """

    name: str
    rows: tuple[RowUsed, ...]
    width_mm: Fraction | None = None
    height_mm: Fraction | None = None
    repeats: int | None = None
    said: str = ""


class LoopLength(Struct, frozen=True):
    """How long a loop of yarn is in the fabric.

    Attributes:
        mm: Its length, of one strand.
        spread: How far it may be off, in parts of itself.
        basis: What it stands on.
        said: How it came about, in sentences.
    """

    mm: Fraction
    spread: Fraction
    basis: Basis
    said: tuple[str, ...] = ()

    def of(self, loops: Fraction | int) -> Estimate:
        """The length of so many loops."""
        mid = self.mm * loops
        off = mid * self.spread
        return Estimate(mid - off, mid, mid + off)


class Law(Struct, frozen=True):
    """The loops of one yarn, also by stitch.

    Attributes:
        common: For any stitch.
        own: For stitches that were weighed, by what they are called.
    """

    common: LoopLength
    own: tuple[tuple[str, LoopLength], ...] = ()

    def at(self, kind: str) -> LoopLength:
        """The loops of a stitch."""
        return dict(self.own).get(kind, self.common)


class Join(Struct, frozen=True):
    """Where a ball ends.

    Attributes:
        ball: The ball that begins there: 2 for the second.
        row: The label of the row it is likeliest to begin in.
        earliest: The row it may begin in where more is used than thought.
        latest: Where less is.
        stripe: The first and last row of the stripe it lies in; "" at both where it lies
            between stripes.
        spare_mm: What is left of the old ball where that stripe begins; 0 where it is begun
            later than the stripe.
    """

    ball: int
    row: str
    earliest: str
    latest: str
    stripe: tuple[str, str] = ("", "")
    spare_mm: Fraction = Fraction(0)


class ColourNeed(Struct, frozen=True):
    """What one colour takes in one size.

    Attributes:
        yarn: The colour.
        uses: Its stitches, those of a kind together.
        rows: Rows that have it.
        of_section: Lengths by what they are for.
        tails: The length of its ends.
        length: All of that.
        weight: The same in grams; None where a ball has no weight or length.
        lengths_cut: Separate lengths of yarn in the piece, without joins of balls.
        joins: Where a ball ends.
        ends: Ends to weave in.
        bought: The length that is to be had: the need with the allowance.
        balls: Whole balls; None where a ball has no length.
        to_buy: Balls that are not in hand; None where nothing tells what is.
        cost: What the balls cost; None where no price is told.
        leftover: What is likely left of them in millimetres; None without balls.
        leftover_g: The same in grams.
        instead: Whole balls of another yarn; None if not asked.
        said: How each figure came about, in sentences.
    """

    yarn: Yarn
    uses: tuple[Use, ...]
    rows: int
    of_section: tuple[tuple[Section, Estimate], ...]
    tails: Fraction
    length: Estimate
    weight: Estimate | None
    lengths_cut: int
    joins: tuple[Join, ...]
    ends: int
    bought: Fraction
    balls: int | None = None
    to_buy: int | None = None
    cost: Decimal | None = None
    leftover: Fraction | None = None
    leftover_g: Fraction | None = None
    instead: int | None = None
    said: tuple[str, ...] = ()


class SizeNeed(Struct, frozen=True):
    """What one size takes.

    Attributes:
        counted: The size with its rows.
        colours: What each colour takes, in the order of the worksheet.
        basis: What it stands on: the swatch only where every colour does.
        length: All colours together.
        weight: The same in grams; None where one of them has none.
        cost: What all cost, by currency.
        enough: Whether the balls in hand make it; None where not all are told.
        short: The colours there is too little of in hand, the one that limits most first.
        lots: Where dye lots meet, in sentences.
    """

    counted: SizeCounted
    colours: tuple[ColourNeed, ...]
    basis: Basis
    length: Estimate
    weight: Estimate | None
    cost: tuple[tuple[str, Decimal], ...] = ()
    enough: bool | None = None
    short: tuple[str, ...] = ()
    lots: tuple[str, ...] = ()


class Reach(Struct, frozen=True):
    """The largest piece that the balls in hand make.

    Attributes:
        of: What is made: "as wide as Lap", "in the proportions of Throw".
        repeats: Its repeats.
        rows: Its rows.
        width_mm: How wide it is; None where that is not known.
        height_mm: How high.
        limit: The colour that there is too little of for the next larger one; "" where
            the search ends otherwise.
    """

    of: str
    repeats: int | None
    rows: int
    width_mm: Fraction | None
    height_mm: Fraction | None
    limit: str


class YarnPlan(Struct, frozen=True):
    """All there is to say of the yarn of a design.

    Attributes:
        sizes: Its sizes.
        laws: How long a loop is in each yarn, by the label of its first colour.
        reach: What the balls in hand make.
        told: Sentences about all of it: stripes, swatches, what was assumed.
        noted: What is wrong in the worksheet.
        of_pattern: What is wrong in the pattern.
        asked: What of the request cannot be done, in sentences.
        from_row: The row from which on it is reckoned; None for the whole.
    """

    sizes: tuple[SizeNeed, ...] = ()
    laws: tuple[tuple[str, Law], ...] = ()
    reach: tuple[Reach, ...] = ()
    told: tuple[str, ...] = ()
    noted: tuple[Finding, ...] = ()
    of_pattern: tuple[Finding, ...] = ()
    asked: tuple[str, ...] = ()
    from_row: int | None = None
