"""What may stand in a worksheet: its tables, their keys, and what each key means.

A worksheet holds what a pattern does not say or should not: the swatches that were
measured, yarns with their prices, wishes for the stripes. This is its whole description;
reading, checking, writing and the page `docs/worksheet.md` go by it.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Kind(StrEnum):
    """What kind of value a key takes, in words that end "is to be ..."."""

    TEXT = 'words in quotes, "like these"'
    CHOICE = "one of the words given"
    NUMBER = "a number"
    WHOLE = "a whole number"
    LENGTH = 'a length with its unit in quotes, "4 in" or "10 cm"'
    HEX = 'a colour in quotes, six hex digits or a CSS name, "#5B7C99" or "teal"'
    YES_NO = "true or false"
    DAY = 'a day in quotes, year first, "2026-11-25"'
    TEXTS = 'a list of words in quotes, ["A", "B"]'
    PAIRS = 'a list of pairs, [["A", "B"], ["A", "C"]]'
    WHOLES = "a whole number, or a list of them, [2, 4]"


class Key(Struct, frozen=True):
    """One key of a table.

    Attributes:
        name: The key.
        kind: What kind of value it takes.
        says: What it means.
        example: A value as it is written.
        of: The words to choose from.
        least: The smallest number it takes; for lengths, in millimetres.
        most: The largest.
    """

    name: str
    kind: Kind
    says: str
    example: str
    of: tuple[str, ...] = ()
    least: int | None = None
    most: int | None = None


class Table(Struct, frozen=True):
    """A table of the worksheet.

    Attributes:
        name: Its name.
        says: What it is for.
        keys: Its keys.
        several: Whether it may stand there several times: "[[yarn]]".
    """

    name: str
    says: str
    keys: tuple[Key, ...]
    several: bool = False

    @property
    def heading(self) -> str:
        """How it begins in the worksheet."""
        return f"[[{self.name}]]" if self.several else f"[{self.name}]"

    def key(self, name: str) -> Key | None:
        """A key by its name."""
        return next((key for key in self.keys if key.name == name), None)


_LONGEST_MM = 100_000
"""A hundred metres: longer is nothing that is crocheted, a finger has slipped."""

DESIGN = Table(
    "design",
    "the design as a whole",
    (
        Key("title", Kind.TEXT, "its name", '"Eider Strip"'),
        Key("terms", Kind.CHOICE, "the terms it is written in", '"US"', of=("US", "UK")),
        Key("units", Kind.CHOICE, "the units she measures in", '"in"', of=("in", "cm")),
        Key("designer", Kind.TEXT, "who designs it", '"Ann Other"'),
        Key("version", Kind.TEXT, "which version of the pattern this is", '"1.0"'),
        Key("date", Kind.DAY, "the day on which it is put out", '"2026-11-25"'),
        Key("rights", Kind.TEXT, "the line on rights", '"For your own making."'),
        Key("corrections", Kind.TEXT, "where corrections stand", '"example.com/strip"'),
    ),
)
SWATCH = Table(
    "swatch",
    "a swatch that was measured",
    (
        Key("part", Kind.TEXT, "the part of the pattern it stands for", '"Body"'),
        Key("stitch", Kind.TEXT, "what it is worked in", '"half double crochet"'),
        Key(
            "stitches", Kind.NUMBER, "how many stitches take up the width", "16", least=1
        ),
        Key(
            "repeats",
            Kind.NUMBER,
            "how many repeats take up the width, where these are counted, not stitches",
            "3",
            least=1,
        ),
        Key("rows", Kind.NUMBER, "how many rows take up the height", "12", least=1),
        Key(
            "width", Kind.LENGTH, "the width that was measured", '"4 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key(
            "height", Kind.LENGTH, "the height that was measured", '"4 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key(
            "state", Kind.CHOICE, "how it was when it was measured", '"blocked"',
            of=("blocked", "as worked"),
        ),
        Key("hook_mm", Kind.NUMBER, "the hook in millimetres", "5.5", least=0, most=50),
        Key(
            "weight_g", Kind.NUMBER, "what all of it weighs in grams, its chain with it",
            "12.5", least=0,
        ),
        Key(
            "whole_stitches", Kind.NUMBER,
            "stitches, or repeats, across all that was weighed, if more than were measured",
            "24", least=1,
        ),
        Key(
            "whole_rows", Kind.NUMBER, "rows of all that was weighed, likewise", "20",
            least=1,
        ),
        Key("yarn", Kind.TEXT, "its yarn, by letter or name", '"A"'),
        Key("strands", Kind.WHOLE, "strands held together", "1", least=1, most=20),
    ),
    several=True,
)  # fmt: skip
YARN = Table(
    "yarn",
    "a yarn in one colour",
    (
        Key("name", Kind.TEXT, "what it is called", '"Skarrow Worsted"'),
        Key("colour", Kind.TEXT, "the name of its colour", '"Squall"'),
        Key("letter", Kind.TEXT, "the letter it has in the pattern", '"A"'),
        Key("hex", Kind.HEX, "its colour on a screen", '"#5B7C99"'),
        Key("fibre", Kind.TEXT, "what it is made of", '"100% wool"'),
        Key(
            "weight_class", Kind.WHOLE, "its weight, from 0 (lace) to 7 (jumbo)", "4",
            least=0, most=7,
        ),
        Key("ball_m", Kind.NUMBER, "metres in a ball", "200", least=1),
        Key("ball_g", Kind.NUMBER, "grams in a ball", "100", least=1),
        Key("price", Kind.NUMBER, "what a ball costs", "6.5", least=0),
        Key("currency", Kind.TEXT, "in what money", '"GBP"'),
        Key("lot", Kind.TEXT, "the dye lot", '"0412"'),
        Key("in_hand", Kind.NUMBER, "balls in hand", "3", least=0),
        Key("rows_a_ball", Kind.NUMBER, "rows that a ball is enough for", "7.5", least=0),
        Key("most_rows", Kind.WHOLE, "the most rows there are to be of it", "24", least=1),
    ),
    several=True,
)  # fmt: skip
SIZE = Table(
    "size",
    "a size",
    (
        Key("name", Kind.TEXT, "its name in the pattern", '"Lap"'),
        Key(
            "width", Kind.LENGTH, "how wide it is to be", '"40 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key(
            "height", Kind.LENGTH, "how high or long it is to be", '"50 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key(
            "to_fit", Kind.LENGTH, "the body it fits", '"36 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key(
            "ease", Kind.LENGTH, "how much wider than the body; less is negative", '"4 in"',
            least=-_LONGEST_MM, most=_LONGEST_MM,
        ),
    ),
    several=True,
)  # fmt: skip
STRIPES = Table(
    "stripes",
    "wishes for the order of the colours",
    (
        Key("keep_apart", Kind.PAIRS, "colours that do not touch", '[["A", "C"]]'),
        Key("keep_together", Kind.PAIRS, "colours that lie side by side", '[["A", "B"]]'),
        Key("favourites", Kind.TEXTS, "colours for the wider stripes", '["B"]'),
        Key("rows", Kind.WHOLES, "rows in a stripe", "[2, 4]", least=1, most=999),
        Key(
            "favourite_rows", Kind.WHOLES, "rows in a favourite's stripe", "6",
            least=1, most=999,
        ),
        Key(
            "first_equals_last", Kind.YES_NO,
            "whether the last stripe is of the first colour", "true",
        ),
        Key(
            "spread_similar", Kind.YES_NO,
            "whether colours that look alike are kept far from each other", "true",
        ),
        Key(
            "least_contrast", Kind.NUMBER,
            "the least difference between neighbours (CIEDE2000, 0 to 100)", "15",
            least=0, most=100,
        ),
        Key("light_dark", Kind.YES_NO, "whether light and dark take turns", "true"),
        Key(
            "blend", Kind.YES_NO,
            "whether neighbours are to be as alike as can be, not as different", "true",
        ),
        Key(
            "mirrored", Kind.YES_NO,
            "whether the second half is the first one backwards", "true",
        ),
        Key(
            "repeated", Kind.YES_NO,
            "whether the sequence is worked over and over", "true",
        ),
        Key(
            "looks_random", Kind.YES_NO,
            "whether the order is to look like chance: nothing comes twice running", "true",
        ),
        Key(
            "least_gap", Kind.WHOLE,
            "the fewest other stripes between two of one colour", "2", least=1, most=20,
        ),
        Key(
            "stripes", Kind.WHOLE,
            "stripes in the sequence, where colours come more than once", "24",
            least=2, most=120,
        ),
        Key(
            "carry", Kind.YES_NO,
            "whether stripes are even, so that colours can be carried up the side", "true",
        ),
        Key(
            "times", Kind.WHOLE, "how often the sequence is worked", "9",
            least=1, most=99,
        ),
        Key(
            "rows_in_all", Kind.WHOLE, "rows of the whole piece", "110",
            least=1, most=9_999,
        ),
        Key(
            "length", Kind.LENGTH, "how long the striped piece is to be", '"50 in"',
            least=1, most=_LONGEST_MM,
        ),
        Key("edging", Kind.TEXT, "the colour of the edging", '"A"'),
        Key(
            "edging_rows", Kind.WHOLE, "rows or rounds of the edging", "3",
            least=1, most=99,
        ),
    ),
)  # fmt: skip
BUDGET = Table(
    "budget",
    "what is reckoned beside the yarn of the stitches",
    (
        Key(
            "allowance", Kind.NUMBER, "what is bought over the need, in percent", "10",
            least=0, most=200,
        ),
        Key(
            "tail", Kind.LENGTH, "how long each end is that is woven in", '"6 in"',
            least=0, most=1_000,
        ),
    ),
)  # fmt: skip
BESIDE = Table(
    "beside",
    "yarn that no row is made of: fringes, tassels, what is carried inside or held along",
    (
        Key(
            "what", Kind.CHOICE, "what it is for", '"fringe"',
            of=("fringe", "tassels", "carried inside", "held with"),
        ),
        Key("yarn", Kind.TEXT, "the yarn, by its letter or name", '"A"'),
        Key(
            "number", Kind.WHOLE, "how many bundles a fringe has, or how many tassels", "4",
            least=1, most=10_000,
        ),
        Key(
            "every", Kind.LENGTH, "how far the bundles lie apart, along both ends",
            '"1 in"', least=1, most=1_000,
        ),
        Key(
            "strands", Kind.WHOLE, "strands of each bundle or tassel, or held along", "4",
            least=1, most=1_000,
        ),
        Key(
            "length", Kind.LENGTH, "how long each strand is cut", '"12 in"',
            least=1, most=10_000,
        ),
        Key(
            "rows", Kind.WHOLE, "rows in which it lies inside; all where none are told",
            "20", least=1, most=100_000,
        ),
        Key("with", Kind.TEXT, "the yarn it is held with; all where none is told", '"B"'),
    ),
    several=True,
)  # fmt: skip
HOUSE_STYLE = Table(
    "house_style",
    "how she writes her patterns",
    (
        Key(
            "repeats", Kind.CHOICE,
            'how a repeat is written: "*...; rep from *", or "[...] 4 times"', '"stars"',
            of=("stars", "brackets"),
        ),
        Key(
            "counts", Kind.CHOICE,
            'how the count of a row is written: "(20 sts)", or "- 20 sts"', '"brackets"',
            of=("brackets", "dash"),
        ),
        Key(
            "numbers", Kind.CHOICE,
            'where the number of stitches stands: "5 dc", or "dc 5"', '"before"',
            of=("before", "behind"),
        ),
        Key(
            "fractions", Kind.CHOICE, "how a half is written", '"1/2"',
            of=("1/2", "½", "0.5", "0,5"),
        ),
    ),
)  # fmt: skip
LESSON = Table(
    "lesson",
    "the filmed lesson",
    (
        Key("pace", Kind.NUMBER, "stitches of single crochet a minute", "12", least=1),
        Key(
            "ready", Kind.TEXTS, "what is worked beforehand", '["foundation chain, Row 1"]'
        ),
        Key(
            "timed",
            Kind.TEXTS,
            "rows that were timed, in minutes and seconds",
            '["Row 1 = 6:30"]',
        ),
    ),
)
COSTS = Table(
    "costs",
    "what the design sells at, and what an hour is to bring",
    (
        Key("price", Kind.NUMBER, "the price of a copy", "6.5", least=0),
        Key("currency", Kind.TEXT, "in what money", '"GBP"'),
        Key(
            "fee", Kind.NUMBER, "the share of the price that goes, in percent", "8",
            least=0, most=100,
        ),
        Key("fee_each", Kind.NUMBER, "what goes of each copy besides", "0.2", least=0),
        Key("rate", Kind.NUMBER, "what an hour is to bring", "15", least=0),
        Key("sold", Kind.WHOLE, "copies sold so far", "40", least=0),
    ),
)  # fmt: skip
WORK = Table(
    "work",
    "hours of the log",
    (
        Key("what", Kind.TEXT, "what they went into", '"swatches"'),
        Key("hours", Kind.NUMBER, "how many", "3.5", least=0),
    ),
    several=True,
)
SPENT = Table(
    "spent",
    "money that was spent",
    (
        Key("what", Kind.TEXT, "on what", '"yarn of the sample"'),
        Key("amount", Kind.NUMBER, "how much", "24", least=0),
    ),
    several=True,
)
TABLES = (
    DESIGN,
    SWATCH,
    YARN,
    SIZE,
    STRIPES,
    BUDGET,
    BESIDE,
    HOUSE_STYLE,
    LESSON,
    COSTS,
    WORK,
    SPENT,
)


def table_called(name: str) -> Table | None:
    """A table by its name."""
    return next((table for table in TABLES if table.name == name), None)
