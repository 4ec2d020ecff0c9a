"""What is known of colours, wishes and orders, as values.

Differences are CIEDE2000 and lightnesses CIE L*, both in hundredths and whole, so that
equal things are equal on every machine. Colours are numbers: places in the palette.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from hookwright.design.stripes import Stripe
from hookwright.finding import Finding
from hookwright.source import Span

Table = tuple[tuple[int, ...], ...]
"""A whole number for every two colours."""


class Shade(Struct, frozen=True):
    """A colour of the palette.

    Attributes:
        label: What it is called in a line of stripes: "A", "Sea Foam".
        name: The name of its colour; its label if it has none.
        code: Six hex digits, "#5b7c99".
        span: Its yarn in the worksheet.
        aliases: All that it is called in the worksheet and the pattern.
        lightness: CIE L*, 0 to 10,000 in hundredths: how it looks in grey.
        grey: That grey, as six hex digits.
        ok_lightness: Lightness in OKLCH, 0 to 1.
        chroma: Chroma in OKLCH.
        hue: Hue in OKLCH in degrees; None for a grey.
        most_rows: The most rows there are to be of it, or that its yarn is enough for.
    """

    label: str
    name: str
    code: str
    span: Span
    aliases: tuple[str, ...]
    lightness: int
    grey: str
    ok_lightness: float
    chroma: float
    hue: float | None
    most_rows: int | None = None


class Vision(StrEnum):
    """The three common deficiencies of colour vision, as people call them."""

    PROTAN = "red-blind"
    DEUTAN = "green-blind"
    TRITAN = "blue-blind"


class Palette(Struct, frozen=True):
    """The colours there are to work with.

    Attributes:
        shades: The colours in the order of the worksheet.
        difference: How different every two of them are.
        seen: The same as people with a deficiency see them.
    """

    shades: tuple[Shade, ...]
    difference: Table
    seen: tuple[tuple[Vision, Table], ...] = ()

    def label(self, colour: int) -> str:
        """What a colour is called."""
        return self.shades[colour].label

    def find(self, name: str) -> int | None:
        """The colour that is called so; None if none is, or several are."""
        for key in (name, name.casefold()):
            found = [
                at
                for at, shade in enumerate(self.shades)
                if key in shade.aliases or key in map(str.casefold, shade.aliases)
            ]
            if len(found) == 1:
                return found[0]
        return None


class Kind(StrEnum):
    """What a rule asks of an order."""

    NEIGHBOURS = "neighbours"
    APART = "keep_apart"
    TOGETHER = "keep_together"
    SPREAD = "spread_similar"
    CONTRAST = "least_contrast"
    LIGHT_DARK = "light_dark"
    GAP = "least_gap"
    RANDOM = "looks_random"
    FIRST_LAST = "first_equals_last"
    MIRRORED = "mirrored"
    ROWS = "rows"
    FAVOURITES = "favourite_rows"
    CARRY = "carry"
    LIMIT = "most_rows"


class Rule(Struct, frozen=True):
    """A wish of hers as a rule.

    Attributes:
        kind: What it asks.
        says: The same as a sentence.
        span: Where the worksheet tells it.
        colours: The colours it names.
        number: The number it names: a difference, a gap, a number of rows.
        choices: The numbers of rows it allows.
    """

    kind: Kind
    says: str
    span: Span
    colours: tuple[int, ...] = ()
    number: int = 0
    choices: tuple[int, ...] = ()


class Breach(Struct, frozen=True):
    """A rule that an order does not hold, in a sentence."""

    rule: Rule
    says: str


class Shape(StrEnum):
    """How the stripes that are arranged become the sequence."""

    ONCE = "once"
    CLOSED = "closed"
    MIRRORED = "mirrored"


class Score(Struct, frozen=True, order=True):
    """How good an order is; the smaller the better, the first number counting most.

    Attributes:
        breaches: Places where a rule is not held.
        worst: The difference of the two neighbours that are most alike, negative; for a
            blend that of the two most different.
        total: The sum of the differences of all neighbours, negative; for a blend, as it
            is.
        rhythm: How often light and dark take turns, negative; for a blend, as it is.
    """

    breaches: int
    worst: int
    total: int
    rhythm: int

    def as_told(self) -> tuple[int, float, float, int]:
        """Breaches, worst difference, sum of differences, turns; none negative."""
        return self.breaches, abs(self.worst) / 100, abs(self.total) / 100, abs(self.rhythm)


class Run(Struct, frozen=True):
    """Rows of the piece behind one another in one colour: "Rows 5-8 B"."""

    first: int
    last: int
    colour: str


class StripesWorked(Struct, frozen=True):
    """An order with its rows, worked up to the length.

    Attributes:
        line: The line of the pattern.
        times: How often the sequence is worked.
        rows: Its rows in all.
        runs: Which rows are in which colour.
        rows_of: Rows of each colour, the edging with them.
        ends: Ends to weave in, if each stripe is cut.
        ends_carried: Ends if colours are carried up the side where that can be done.
        told: Sentences: the length, what limits it.
    """

    line: str
    times: int
    rows: int
    runs: tuple[Run, ...]
    rows_of: tuple[tuple[str, int], ...]
    ends: int
    ends_carried: int
    told: tuple[str, ...] = ()


class Order(Struct, frozen=True):
    """An order of the colours.

    Attributes:
        stripes: The sequence once, with the last stripe where it is the first again.
        proven: Whether no order is better.
        score: How good it is.
        breaches: What it does not hold.
        reasons: Why it is good, and what to look at.
        worked: Its rows up to the length.
    """

    stripes: tuple[Stripe, ...]
    proven: bool
    score: Score
    breaches: tuple[Breach, ...]
    reasons: tuple[str, ...]
    worked: StripesWorked


class ColourPlan(Struct, frozen=True):
    """What comes of a palette and its wishes.

    Attributes:
        palette: The colours; None where there are fewer than two.
        rules: The rules that were gone by.
        orders: Orders, the best first.
        own: The pattern's own sequences, judged the same way.
        clash: The fewest rules that cannot all hold; empty if all can.
        findings: What is wrong in the worksheet.
        of_pattern: What is wrong in the pattern: a stripe in a colour that is not there.
        told: Sentences about all of it.
        in_rounds: Whether the pattern is worked in rounds.
    """

    palette: Palette | None = None
    rules: tuple[Rule, ...] = ()
    orders: tuple[Order, ...] = ()
    own: tuple[Order, ...] = ()
    clash: tuple[Rule, ...] = ()
    findings: tuple[Finding, ...] = ()
    of_pattern: tuple[Finding, ...] = ()
    told: tuple[str, ...] = ()
    in_rounds: bool = False
