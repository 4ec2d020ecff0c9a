"""What is known of a design beside its rows, as values with a span on each.

Lengths are kept in millimetres, exactly, with the unit they were told in. A number told
for several sizes has one value a size; a value alone stands for every size.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from msgspec import Struct

from hookwright.finding import Finding
from hookwright.source import Source, Span


class Measure(Struct, frozen=True):
    """A length as it is told, with one value a size.

    Attributes:
        mm: One value, or one a size; None where a size has none (a dash).
        unit: The unit it is told in: "in", "cm", "mm", "ft", "yd" or "m".
        span: The numbers with their unit.
        also: The same in the other units, where it is told twice.
        ranged: Whether a range is told, "30-32 in"; then each value is its middle.
    """

    mm: tuple[Fraction | None, ...]
    unit: str
    span: Span
    also: Measure | None = None
    ranged: bool = False

    def at(self, size: int) -> Fraction | None:
        """The length for a size. A list that is too short has none for the last sizes."""
        if len(self.mm) == 1:
            return self.mm[0]
        return self.mm[size] if size < len(self.mm) else None


class State(StrEnum):
    """How a piece was when it was measured."""

    UNSAID = ""
    AS_WORKED = "as worked"
    BLOCKED = "blocked"


class Weighed(Struct, frozen=True):
    """What a swatch weighs, and what was put on the scales.

    Attributes:
        grams: What it weighs.
        span: Where that is told.
        yarn: Its yarn, by letter or name; "" if not told.
        strands: Strands held together.
        stitches: Stitches, or repeats, across all that was weighed; None for as many as
            were measured.
        rows: Rows of all that was weighed; None for as many as were measured.
    """

    grams: Fraction
    span: Span
    yarn: str = ""
    strands: int = 1
    stitches: Fraction | None = None
    rows: Fraction | None = None


class Gauge(Struct, frozen=True):
    """A gauge as it is stated: "16 sts and 12 rounds in hdc are 10 cm (4 in)".

    Attributes:
        span: The whole of it.
        stitches: How many stitches, or repeats, take up the width; None if not told.
        rows: How many rows take up the height; None if not told.
        width: The width they take up.
        height: The height they take up; the width where only one length is told.
        of: What is counted across: "st", or the writer's word for a repeat ("wave").
        in_one: How many stitches such a repeat holds, where that is said.
        stitch: What it is worked in, in the writer's words ("half double crochet").
        state: Whether it was measured blocked or as worked.
        hook_mm: The hook, where it is named there.
        loose: Whether the text says that it need not be met.
        part: The part it stands for, where a worksheet names one.
        weighed: What it weighs, where a worksheet tells that.
    """

    span: Span
    stitches: Fraction | None = None
    rows: Fraction | None = None
    width: Measure | None = None
    height: Measure | None = None
    of: str = "st"
    in_one: int | None = None
    stitch: str = ""
    state: State = State.UNSAID
    hook_mm: Fraction | None = None
    loose: bool = False
    part: str = ""
    weighed: Weighed | None = None


class Along(StrEnum):
    """Which way a finished measurement is taken."""

    WIDTH = "width"
    LENGTH = "length"
    AROUND = "around"
    ACROSS = "across"
    UNSAID = ""


class Finished(Struct, frozen=True):
    """A finished measurement, or the body that a size fits.

    Attributes:
        along: Which way it is taken; ACROSS is the diameter of a round piece.
        measure: The length.
        span: The words.
        of: What is measured, in the writer's words: "chest"; "" for the piece.
        to_fit: Whether it is the body's measurement.
        by_custom: Whether only custom tells which way: "36 x 48 in" is width by length.
    """

    along: Along
    measure: Measure
    span: Span
    of: str = ""
    to_fit: bool = False
    by_custom: bool = False


class Hook(Struct, frozen=True):
    """A hook among the materials, or named in a row.

    Attributes:
        mm: Its size; None where it is told by a letter or number alone.
        name: The letter or number beside or instead of it: "I-9".
        span: The words.
    """

    mm: Fraction | None
    name: str
    span: Span


class Colour(Struct, frozen=True):
    """A colour or yarn that the materials list.

    Attributes:
        letter: "A", "MC"; "" where it has none.
        name: Its name; "" where only a letter is told.
        span: Where it is told.
        balls: How many balls, one value or one a size; empty if not told.
        code: Its colour on a screen as a worksheet tells it, "#5B7C99" or "teal"; ""
            if not told.
    """

    letter: str
    name: str
    span: Span
    balls: tuple[Fraction | None, ...] = ()
    code: str = ""


class YarnListed(Struct, frozen=True):
    """A yarn that the materials list.

    Attributes:
        span: The words.
        name: What it is called; "" if it has no name.
        weight: The trade's weight class, 0 to 7; None if not told.
        ball_m: Metres in a ball.
        ball_g: Grams in a ball.
        colours: Its colours.
        most_rows: The most rows that there are to be of it; None if not told.
        enough_for: The rows that the balls in hand are enough for; None if not told.
        price: What a ball costs, exactly as it is written; None if not told.
        currency: In what money; "" if not told.
        lot: The dye lot; "" if not told.
        in_hand: Balls in hand; None if not told.
        places: Each key of a worksheet with the place of its value.
    """

    span: Span
    name: str = ""
    weight: int | None = None
    ball_m: Fraction | None = None
    ball_g: Fraction | None = None
    colours: tuple[Colour, ...] = ()
    most_rows: int | None = None
    enough_for: int | None = None
    price: Decimal | None = None
    currency: str = ""
    lot: str = ""
    in_hand: Fraction | None = None
    places: tuple[tuple[str, Span], ...] = ()

    def place(self, key: str) -> Span:
        """Where the value of a key stands; the whole if the key is not told."""
        return dict(self.places).get(key, self.span)


class Abbreviation(Struct, frozen=True):
    """An entry of the list of abbreviations: "hdc = half double crochet".

    Attributes:
        word: The abbreviation as it is spelled.
        meaning: What it stands for.
        word_span: Where the word stands.
        span: The whole entry, without the end of its line.
    """

    word: str
    meaning: str
    word_span: Span
    span: Span


class Holds(StrEnum):
    """What a section of a pattern holds. Source: data/standards.json."""

    TITLE = "title"
    LEVEL = "level"
    SIZES = "sizes"
    FINISHED = "finished measurements"
    MATERIALS = "materials"
    GAUGE = "gauge"
    TERMS = "terms"
    ABBREVIATIONS = "abbreviations"
    SPECIAL_STITCHES = "special stitches"
    NOTES = "notes"
    INSTRUCTIONS = "instructions"
    FINISHING = "finishing"
    CHARTS = "charts and schematic"
    CARE = "care and safety"
    RIGHTS = "contact and rights"


class SectionFound(Struct, frozen=True):
    """A section of the draft.

    Attributes:
        holds: What it holds.
        heading: Its heading, or the label its line begins with ("Hook:").
        body: What stands under it, up to the next heading.
    """

    holds: Holds
    heading: Span
    body: Span


class Level(Struct, frozen=True):
    """The skill level that the pattern states.

    Attributes:
        step: 1 to 4, from basic to complex.
        name: As it is written.
        span: The word.
    """

    step: int
    name: str
    span: Span


class SizeWanted(Struct, frozen=True):
    """A size as a worksheet wants it. Spans are of the worksheet.

    Attributes:
        name: Its name.
        span: Where the worksheet tells of it.
        width: How wide it is to be.
        height: How high or long.
        to_fit: The body it fits.
        ease: How much wider than the body.
    """

    name: str
    span: Span
    width: Measure | None = None
    height: Measure | None = None
    to_fit: Measure | None = None
    ease: Measure | None = None


class StripesWanted(Struct, frozen=True):
    """What a worksheet wishes for the order of the colours. Spans are of the worksheet.

    Colours are told by letter or name, as they are written there.

    Attributes:
        span: The heading.
        places: Each key with the place of its value.
        apart: Pairs that do not touch.
        together: Pairs that lie side by side.
        favourites: Colours for the wider stripes.
        rows: Rows that a stripe may have; empty if not told.
        favourite_rows: Rows that a favourite's stripe may have; empty if not told.
        first_equals_last: Whether the last stripe is of the first colour.
        spread_similar: Whether colours that look alike are kept far from each other.
        least_contrast: The least difference between neighbours, by CIEDE2000.
        light_dark: Whether light and dark take turns.
        blend: Whether neighbours are to be alike, not different.
        mirrored: Whether the second half is the first one backwards.
        repeated: Whether the sequence is worked over and over.
        looks_random: Whether the order is to look like chance.
        least_gap: The fewest other stripes between two of one colour.
        stripes: How many stripes the sequence has; None for one of each colour.
        carry: Whether stripes are even.
        times: How often the sequence is worked.
        rows_in_all: Rows of the whole piece.
        length: How long the piece is to be.
        edging: The colour of the edging; "" if not told.
        edging_rows: Rows or rounds of the edging.
    """

    span: Span
    places: tuple[tuple[str, Span], ...] = ()
    apart: tuple[tuple[str, str], ...] = ()
    together: tuple[tuple[str, str], ...] = ()
    favourites: tuple[str, ...] = ()
    rows: tuple[int, ...] = ()
    favourite_rows: tuple[int, ...] = ()
    first_equals_last: bool = False
    spread_similar: bool = False
    least_contrast: Fraction | None = None
    light_dark: bool = False
    blend: bool = False
    mirrored: bool = False
    repeated: bool = False
    looks_random: bool = False
    least_gap: int | None = None
    stripes: int | None = None
    carry: bool = False
    times: int | None = None
    rows_in_all: int | None = None
    length: Measure | None = None
    edging: str = ""
    edging_rows: int | None = None

    def place(self, key: str) -> Span:
        """Where the value of a key stands; the heading if the key is not told."""
        return dict(self.places).get(key, self.span)


class Extras(Struct, frozen=True):
    """What a worksheet reckons beside the yarn of the stitches. Spans are of the worksheet.

    Attributes:
        allowance: What is bought over the need, in parts of it: 1/10.
        tail: The length of each end that is woven in.
    """

    allowance: Fraction | None = None
    tail: Measure | None = None


class YarnBeside(Struct, frozen=True):
    """Yarn that no row is made of. Spans are of the worksheet.

    Attributes:
        what: "fringe", "tassels", "carried inside" or "held with".
        yarn: The yarn, as it is written there.
        span: The heading.
        number: Bundles of a fringe, or tassels; None if not told.
        every: How far the bundles lie apart, along both ends; None if not told.
        strands: Strands of each; of what is held, how many more.
        length: How long each strand is cut.
        rows: Rows in which it lies inside; None for all of the piece.
        beside: The yarn that it is held with; "" for all.
    """

    what: str
    yarn: str
    span: Span
    number: int | None = None
    every: Measure | None = None
    strands: int | None = None
    length: Measure | None = None
    rows: int | None = None
    beside: str = ""


class LessonWanted(Struct, frozen=True):
    """What a worksheet says of the filmed lesson.

    Attributes:
        pace: Stitches of single crochet a minute; None if not told.
        ready: What is worked beforehand.
        timed: Rows that were timed, as "Row 1 = 6:30".
    """

    pace: Fraction | None = None
    ready: tuple[str, ...] = ()
    timed: tuple[str, ...] = ()


class CostsNoted(Struct, frozen=True):
    """What a worksheet says of hours and money.

    Attributes:
        price: The price of a copy; None if not told.
        currency: In what money.
        fee: The share of the price that goes, in percent; None if not told.
        fee_each: What goes of each copy besides; None if not told.
        rate: What an hour is to bring; None if not told.
        sold: Copies sold so far; None if not told.
        work: What hours went into, and how many.
        spent: What money was spent on, and how much.
    """

    price: Decimal | None = None
    currency: str = ""
    fee: Decimal | None = None
    fee_each: Decimal | None = None
    rate: Decimal | None = None
    sold: int | None = None
    work: tuple[tuple[str, Decimal], ...] = ()
    spent: tuple[tuple[str, Decimal], ...] = ()


class Noted(Struct, frozen=True):
    """What the designer has noted in her worksheet. All spans are of the worksheet.

    Attributes:
        title: The name of the design; "" if it has none.
        terms: "US", "UK" or None.
        units: "in", "cm" or None.
        swatches: What was measured.
        yarns: Its yarns, one a colour.
        sizes: Its sizes.
        stripes: What is wished for the order of the colours; None if nothing is told.
        designer: Who designs it.
        version: Which version of the pattern this is.
        date: The day on which it is put out, year first.
        rights: The line on rights.
        corrections: Where corrections stand.
        extras: What is reckoned beside the stitches.
        beside: Yarn that no row is made of.
        lesson: What is said of the filmed lesson; None if nothing is.
        costs: What is said of hours and money; None if nothing is.
        house_style: How she writes, key by key: ("repeats", "stars").
    """

    title: str = ""
    terms: str | None = None
    units: str | None = None
    swatches: tuple[Gauge, ...] = ()
    yarns: tuple[YarnListed, ...] = ()
    sizes: tuple[SizeWanted, ...] = ()
    stripes: StripesWanted | None = None
    designer: str = ""
    version: str = ""
    date: str = ""
    rights: str = ""
    corrections: str = ""
    extras: Extras = Extras()
    beside: tuple[YarnBeside, ...] = ()
    lesson: LessonWanted | None = None
    costs: CostsNoted | None = None
    house_style: tuple[tuple[str, str], ...] = ()


class Worksheet(Struct, frozen=True):
    """A worksheet as it was read.

    Attributes:
        source: Its text; spans of its findings and facts are of this.
        noted: What it says.
        findings: What cannot be taken as it stands, in reading order.
    """

    source: Source
    noted: Noted = Noted()
    findings: tuple[Finding, ...] = ()


class Design(Struct, frozen=True):
    """What the text says of the design beside its rows.

    What the worksheet says stands apart, for its spans are of another text, and what the
    text says of a thing counts before it.

    Attributes:
        title: Its name; "" if it has none.
        sections: Its sections in reading order.
        gauges: Its gauges.
        finished: Finished measurements, and what its sizes fit.
        hooks: The hooks it lists.
        yarns: The yarns it lists.
        abbreviations: Its list of abbreviations.
        level: The skill level it states.
        noted: What its worksheet says; None where there is none.
        is_told: Whether the text says anything beside its rows, its name apart.
    """

    title: str = ""
    sections: tuple[SectionFound, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    finished: tuple[Finished, ...] = ()
    hooks: tuple[Hook, ...] = ()
    yarns: tuple[YarnListed, ...] = ()
    abbreviations: tuple[Abbreviation, ...] = ()
    level: Level | None = None
    noted: Noted | None = None
    is_told: bool = False

    @property
    def colours(self) -> tuple[Colour, ...]:
        """The colours of all its yarns."""
        return tuple(colour for yarn in self.yarns for colour in yarn.colours)

    def section(self, holds: Holds) -> SectionFound | None:
        """The first section that holds something."""
        return next((found for found in self.sections if found.holds is holds), None)
