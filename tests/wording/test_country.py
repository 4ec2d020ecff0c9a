"""US and UK terms: every stitch of the table both ways, in rows and in prose."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

import hookwright.wording
from hookwright.checking import check
from hookwright.notation import parse_text
from hookwright.notation.lexer import tokens_of
from hookwright.reading import read_draft
from hookwright.source import Source
from hookwright.wording import Asked, Form, write_pattern
from hookwright.wording.country import in_terms
from hookwright.wording.edits import Layered

# Source: the rows' own, named beside each in the table (tables of terms by country, glossaries,
# a trade body's list from memory).
TABLE = Path(hookwright.wording.__file__).with_name("stitches.toml")
STITCHES = tomllib.loads(TABLE.read_text("utf-8"))["stitch"]
FOREIGN = {
    "htr",  # a UK word in a US text: left as it is, and told by the tech edit
    "foundation ch", "beg cl", "beg puff", "beg pc", "ch-4 picot",  # one name for both is read
    "sl st", "FPsl st", "BPsl st", "surf sl st", "BLO sl st",  # "sl st" is UK usage as well
    "rFPdc", "KS", "FPtr 2 rows below",  # "raised" in the UK; FPdtr is read as well
    "ltr",  # linked here and long elsewhere
    "trs", "tdc",  # more than one tr; a UK ttr may be a trtr
}  # fmt: skip
"""Rows that are not renamed word for word, each with its reason."""


def into(terms: str, words: str) -> str:
    return Layered(words).then(in_terms(words, tokens_of(words), terms)).text


def is_one_word(stitch: dict[str, str], side: str) -> bool:
    """Whether a row names a stitch, and not a phrase with places or numbers in it."""
    return not any(mark in stitch[side] for mark in "(,/") and " in " not in stitch[side]


NAMED = [row for row in STITCHES if row["us"] not in FOREIGN and is_one_word(row, "us")]


@pytest.mark.parametrize("row", NAMED, ids=lambda row: row["us_name"])
def test_every_stitch_of_the_table_has_its_uk_name_and_comes_back(
    row: dict[str, str],
) -> None:
    there = into("UK", row["us"])
    known = {row["uk"], *row.get("uk_also", ())}
    # The table writes exdc, extr where the US side writes esc, edc; both are read as one.
    spelled = {uk.replace("ex", "e", 1) for uk in known if uk.startswith("ex")}
    longer = {uk.replace("ltr", "linked tr") for uk in known}
    assert there in known | spelled | longer, row
    assert into("US", there) == row["us"]


EXPLAINED = ("post", "(", "picot", "cluster in", "cluster over", "rib")
"""In names that explain: in the UK a post stitch is "raised", "front post" is read as well."""
IN_FULL = [row for row in NAMED if not any(word in row["us_name"] for word in EXPLAINED)]


@pytest.mark.parametrize("row", IN_FULL, ids=lambda row: row["us_name"])
def test_every_name_in_full_has_its_uk_name_and_comes_back(row: dict[str, str]) -> None:
    name = row["us_name"].removesuffix(" (US)")
    there = into("UK", name)
    assert there.replace(" crochet", "") in {
        row["uk_name"].replace(" crochet", ""),
        row["uk_name"].replace(" crochet", "").replace("missing", "skipping"),
    }
    assert into("US", there) == name


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        # The terms say the same of the text.
        ("Written in US terms.", "Written in UK terms."),
        ("American crochet terms", "British crochet terms"),
        ("5.5 mm (US I-9)", "5.5 mm (US I-9)"),
        # Words of the trade beside the stitches.
        ("Gauge is not critical.", "Tension is not critical."),
        ("16 sts in half double crochet", "16 sts in half treble crochet"),
        ("Skip the first stitch.", "Miss the first stitch."),
        ("The 2 chains skipped count.", "The 2 chains missed count."),
        ("Skip this page.", "Skip this page."),
        ("a gray color", "a grey colour"),
        ("FPdc, Dc2tog, scBLO, DC", "FPtr, Tr2tog, dcBLO, TR"),
        ("3dc in next st", "3tr in next st"),
        ("d.c. in next st", "tr. in next st"),
        ("double-crochets", "treble-crochets"),
        ("yo and pull through", "yrh and pull through"),
        # What no stitch is stays.
        ("the desk, the dice, discover", "the desk, the dice, discover"),
    ],
)
def test_prose_is_told_in_the_words_of_the_other_country(us: str, uk: str) -> None:
    assert into("UK", us) == uk


def test_an_even_tension_is_one_in_both_countries() -> None:
    assert into("US", "Keep an even tension. Tension: 16 tr.") == (
        "Keep an even tension. Gauge: 16 dc."
    )


EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize(
    "name", ["fulmar-lace-scarf", "kelp-square", "petrel-cap", "puffling", "shingle-cloth",
             "skerry-yoke-tee", "turnstone-wave-throw"],
)  # fmt: skip
def test_there_and_back_gives_the_text_letter_for_letter(name: str) -> None:
    written = write_pattern(check(read_draft(EXAMPLES / f"{name}.md")), Asked(terms="US"))
    there = write_pattern(written.checked, Asked(terms="UK"))
    back = write_pattern(there.checked, Asked(terms="US"))
    assert back.text == written.text


def test_a_uk_text_has_no_word_of_the_us_left() -> None:
    for path in sorted(EXAMPLES.glob("*.md")):
        if path.name == "README.md" or path.stem.endswith("-slip"):
            continue
        text = write_pattern(check(read_draft(path)), Asked(terms="UK")).text
        words = {token.text for token in tokens_of(text)}
        assert not words & {"sc", "hdc", "sk", "color", "gauge", "gray", "yo"}, path


def test_a_text_that_does_not_say_its_terms_says_them_in_the_others() -> None:
    text = "Mat\n\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch. (10 sc)\n"
    found = write_pattern(check(Source(text)), Asked(terms="UK"))
    assert "Written in UK terms." in found.text
    assert parse_text(found.text).pattern.terms == "UK"
    assert found.differs is None


def test_a_line_that_tells_of_both_stays_and_is_told() -> None:
    text = (
        "Written in US terms.\n\nUS sc is UK dc.\n\nCh 11.\nRow 1: Sc in 2nd ch from hook "
        "and in each ch. (10 sc)\n"
    )
    found = write_pattern(check(Source(text)), Asked(terms="UK"))
    assert "US sc is UK dc." in found.text
    assert any("both terms" in note for note in found.notes)


def test_in_full_no_abbreviation_is_left() -> None:
    short = {"ch", "sc", "dc", "hdc", "tr", "st", "sts", "sp", "rep", "sk", "rnd", "yo",
             "beg", "rs", "ws", "rem", "inc", "dec", "fpdc", "bpdc"}  # fmt: skip
    for path in sorted(EXAMPLES.glob("*.md")):
        if path.name == "README.md" or path.stem.endswith("-slip"):
            continue
        found = write_pattern(check(read_draft(path)), Asked(form=Form.LONG))
        left = {token.text for token in tokens_of(found.text)} & short
        assert not left, path


def test_yarn_goes_over_the_hook_here_and_round_it_there() -> None:
    # Source: tables of terms by country (ukus in words.toml).
    assert into("UK", "yo = yarn over; in the last yarn over") == (
        "yrh = yarn round hook; in the last yarn round hook"
    )
    assert into("US", "yrh = yarn round hook") == "yo = yarn over"
    assert into("UK", "yoh = yarn over hook") == "yoh = yarn round hook"
    assert (
        into("UK", "7 yarn overs") == "7 yarn overs"
    )  # wraps of one stitch, here and there
