"""Every fabric of the shelf, in US and in UK terms: clean, proven, and at other sizes too.

The counts stand in the data as they were added up by hand, as numbers or in k repeats;
working the rows has to come to the same.
"""

from __future__ import annotations

import re
import runpy
from functools import cache
from pathlib import Path

import pytest
from msgspec.structs import replace

from hookwright.checking import Checked, check
from hookwright.notation.printing import bare, translate
from hookwright.notation.tree import Pattern
from hookwright.reading.markdown import markdown_draft
from hookwright.shelf import FAMILIES, Fabric, fabrics, starter
from hookwright.sizing.multiples import multiples_of

SHELF = fabrics()
GROWING = [fabric for fabric in SHELF if fabric.over is not None]
SIZES = (3, 4, 5, 11, 40)
TERMS = ("US", "UK")


def called(fabric: Fabric) -> str:
    return fabric.name


every_fabric = pytest.mark.parametrize("fabric", SHELF, ids=called)
every_growing = pytest.mark.parametrize("fabric", GROWING, ids=called)
both_terms = pytest.mark.parametrize("terms", TERMS)


@cache
def checked(text: str) -> Checked:
    return check(markdown_draft(text, "pattern.md"))


def faults(text: str) -> list[str]:
    """All that is said of a text, and the rows whose count is not proven."""
    result = checked(text)
    open_rows = [line.printed for line in result.lines if not line.agrees]
    return [*(finding.message for finding in result.findings), *open_rows]


def chain_of(text: str) -> int:
    found = re.search(r"\bch (\d+)[.;]", text, re.IGNORECASE)
    assert found is not None
    return int(found[1])


def test_there_are_fabrics_of_every_family() -> None:
    assert len(SHELF) >= 40
    assert {fabric.family for fabric in SHELF} == FAMILIES.keys()


@every_fabric
@both_terms
def test_a_fabric_is_clean_and_proven(fabric: Fabric, terms: str) -> None:
    text = starter(fabric, terms)
    assert faults(text) == []
    assert checked(text).terms == terms
    assert checked(text).has_rows()
    assert checked(text).reading.pattern.terms_said


@every_growing
@both_terms
@pytest.mark.parametrize("repeats", SIZES)
def test_a_fabric_is_proven_at_other_sizes(
    fabric: Fabric, terms: str, repeats: int
) -> None:
    text = starter(fabric, terms, repeats)
    assert fabric.chains is not None
    assert chain_of(text) == fabric.chains.at(repeats)
    assert faults(text) == []


@pytest.mark.parametrize(
    "fabric", [f for f in GROWING if f.over and f.over.each > 1], ids=called
)
def test_a_chain_beside_the_multiple_does_not_close(fabric: Fabric) -> None:
    text = starter(fabric)
    number = chain_of(text)
    other = re.sub(rf"\b([Cc]h) {number}([.;])", rf"\1 {number + 1}\2", text, count=1)
    assert other != text
    assert faults(other) != []


@every_growing
def test_the_text_states_the_multiple_of_the_data(fabric: Fabric) -> None:
    assert fabric.over is not None
    assert fabric.chains is not None
    assert fabric.over.each == fabric.chains.each
    stated = checked(starter(fabric)).reading.pattern.multiples
    if fabric.over.each > 1:
        added = fabric.chains.extra - fabric.over.extra
        assert [(one.each, one.extra, one.turning) for one in stated] == [
            (fabric.over.each, fabric.over.extra, added)
        ]
        assert stated[0].of_stitches


@pytest.mark.parametrize("fabric", [f for f in GROWING if f.set_of], ids=called)
@both_terms
def test_the_equations_give_the_multiples_of_the_data(fabric: Fabric, terms: str) -> None:
    """Solved from the rows alone it is the same family: a whole number of repeats apart."""
    (found,) = multiples_of(checked(starter(fabric, terms)))
    assert fabric.chains is not None
    assert found.chains is not None, found.reason
    assert found.chains.each == fabric.chains.each
    assert (found.chains.extra - fabric.chains.extra) % fabric.chains.each == 0
    assert found.rows is not None
    assert found.rows.each == fabric.set_of


@every_fabric
def test_in_uk_terms_it_is_the_same_fabric(fabric: Fabric) -> None:
    us = checked(starter(fabric, "US")).reading.pattern
    uk = checked(starter(fabric, "UK")).reading.pattern
    assert bare(_without_words(translate(us, "UK"))) == bare(_without_words(uk))


def _without_words(pattern: Pattern) -> Pattern:
    """Definitions as they are worked: their words differ, "yo" and "yrh"."""
    kept = tuple(replace(definition, words="") for definition in pattern.definitions)
    return replace(pattern, definitions=kept)


@every_fabric
def test_a_count_one_too_high_is_told(fabric: Fabric) -> None:
    text = starter(fabric)
    counts = list(re.finditer(r"(?<=\()\d+(?= [^()\n]*\)$)", text, re.MULTILINE))
    rows = [count for count in counts if count.start() > text.index("## Abbreviations")]
    assert rows
    for count in rows:
        other = f"{text[: count.start()]}{int(count[0]) + 1}{text[count.end() :]}"
        assert checked(other).has_errors(), other[count.start() - 80 : count.end() + 20]


@every_fabric
def test_the_rows_that_come_again_are_so_many(fabric: Fabric) -> None:
    again = re.findall(r"Rep (?:Rows|Row|Rnd) (\d+)(?:(?:-| and )(\d+))?", fabric.rows)
    sets = [int(last or first) - int(first) + 1 for first, last in again]
    assert max(sets, default=0) == fabric.set_of


@every_fabric
def test_its_words_are_plain(fabric: Fabric) -> None:
    assert fabric.source
    assert fabric.know
    assert fabric.looks.endswith(".")
    assert re.fullmatch(r"[a-z]+(?:-[a-z]+)*", fabric.name)
    for words in (starter(fabric), starter(fabric, "UK")):
        assert words.isascii()
        assert "{" not in words


# Facts from outside: the multiples and counts that handbooks and teachers give.
OUTSIDE = {
    # Moss, sc and ch 1: a multiple of 2 + 1. Source: cosyrosieuk.co.uk, stitch multiples.
    "moss": (2, 1, None),
    # Wave of 2n + 3 with 3 more chains, n 7: ten peaks take 173. Source: staceydaze.blogspot.com
    # 2011 for 2n + 3; the sum is arithmetic.
    "sc-wave": (17, None, (10, 173)),
    # Source: freecrochetpatterns.club, ripple crochet stitch: 14 + 3; 20 repeats 283.
    "soft-ripple": (14, None, (20, 283)),
    # Source: oombawkadesigncrochet.com, using stitch multiples: 6 k + 2 near 70 is 68.
    "shells": (6, 1, (11, 68)),
    # Source: crafternoontreats.com and craftsy.com, granny stripe: 164, 254 and 302 chains.
    "granny-stripe": (3, None, (54, 164)),
    # The common wave of 16: 16 k + 2 chains make 16 k + 1. Common practice, no source.
    "dc-wave": (16, 1, (11, 178)),
}


@pytest.mark.parametrize("name", OUTSIDE)
def test_multiples_are_those_of_the_trade(name: str) -> None:
    each, extra, sample = OUTSIDE[name]
    fabric = next(fabric for fabric in SHELF if fabric.name == name)
    assert fabric.over is not None
    assert fabric.chains is not None
    assert fabric.over.each == each
    assert extra is None or fabric.over.extra == extra
    assert sample is None or fabric.chains.at(sample[0]) == sample[1]


def test_rounds_grow_as_geometry_and_teachers_say() -> None:
    """A flat circle grows by 6 sc, 8 hdc, 12 dc: 2 pi times height over width, rounded.

    A granny has 12 dc in its first round, a solid square 28 in its second (sources:
    rigsbystudio.com, traditional granny square; vcrochetpatterns.com, granny squares).
    """
    made = {
        fabric.name: [line.stitches[0] for line in checked(starter(fabric)).lines]
        for fabric in SHELF
        if fabric.family == "motifs"
    }
    assert made["sc-circle"][:10] == [6 * number for number in range(1, 11)]
    assert made["hdc-circle"][:7] == [8 * number for number in range(1, 8)]
    assert [n for n in made["dc-circle"] if n and n >= 12] == [12, 24, 36, 48, 60]
    assert 12 in made["granny-square"]
    assert 28 in made["solid-square"]


def test_the_page_of_fabrics_is_what_the_data_give() -> None:
    docs = Path(__file__).parents[2] / "docs"
    generate = runpy.run_path(str(docs / "generate.py"))
    told = (docs / "fabrics.md").read_text(encoding="utf-8")
    assert generate["fabrics_page"]() == told, "docs/fabrics.md is out of date: make docs"
