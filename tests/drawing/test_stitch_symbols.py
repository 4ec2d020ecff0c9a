"""Every stitch of the trade has its chart symbol."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.drawing.glyphs import glyph_of
from hookwright.drawing.stitch_symbols import Symbols, symbols_of
from hookwright.drawing.strokes import Place
from hookwright.source import Source

SOURCES = Path(__file__).parents[2] / "src" / "hookwright"
VOCABULARY = json.loads((SOURCES / "notation/vocabulary.json").read_text("utf-8"))
TABLE = tomllib.loads((SOURCES / "drawing/symbols.toml").read_text("utf-8"))
US, UK = Symbols("US", {}), Symbols("UK", {})
GROUPS = {"group", "increase", "together"}
"""Words for several stitches: what they are made of has the symbols."""


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_stitch_of_the_vocabulary_has_a_symbol(terms: str) -> None:
    without = [
        row["id"]
        for row in VOCABULARY["stitch"]
        if row.get("terms", terms) == terms and row["family"] not in GROUPS
        if Symbols(terms, {}).of(row["id"]).id == "own"
    ]
    assert without == []


def test_slashes_are_the_yarns_over_before_the_hook_goes_in_from_dc_up() -> None:
    # Source: the chart symbols of the Craft Yarn Council and the Japanese standard, as
    # told in symbols.toml: hdc none, dc one, tr two, dtr three.
    told = {kind: US.of(kind).slashes for kind in ("hdc", "dc", "tr", "dtr", "trtr")}
    assert told == {"hdc": 0, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}


def test_uk_stitches_have_the_symbols_of_their_us_names() -> None:
    # Source: the terms by country, as in the vocabulary: UK dc is US sc, htr hdc, tr dc.
    pairs = {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr", "trtr": "dtr"}
    assert {uk: UK.of(uk).id for uk in pairs} == pairs
    assert UK.of("tr").name == "treble"


def test_a_compound_is_drawn_from_its_parts() -> None:
    found = US.of("fpdc3tog")
    assert (found.stands, found.slashes, found.post) == ("stem", 1, "front")
    assert found.together
    assert found.legs == 3


DEFINED = """US terms.

## Special stitches

Bud: (Yo, insert hook in st, yo and pull up a loop, yo and pull through 2 loops) 4 times in the same st, yo and pull through all 5 loops.

Berry: 5 dc in same st, drop the loop, insert hook in first of the 5 dc, pick up the loop and pull through.

Ch 8.
Row 1: Dc in 4th ch from hook, bud in next ch, berry in next ch, dc in next 2 ch.
"""


def test_a_stitch_of_her_own_is_drawn_by_what_it_is_made_of() -> None:
    symbols = symbols_of(check(Source(DEFINED)).worked)
    bud, berry = symbols.of("bud"), symbols.of("berry")
    assert (bud.stands, bud.legs, bud.slashes) == ("bud", 4, 1)
    assert (berry.stands, berry.legs) == ("popcorn", 5)


@pytest.mark.parametrize("row", TABLE["symbol"], ids=lambda row: row["id"])
def test_every_symbol_is_drawn_between_its_foot_and_its_top(row: dict[str, object]) -> None:
    terms = "US" if row["us"] else "UK"
    names = row[terms.lower()]
    assert isinstance(names, list)
    symbol = Symbols(terms, {}).of(names[0])
    glyph = glyph_of(symbol, Place((0j,), -8j, 1 + 0j, 5.0, 2.2))
    if not symbol.stands:
        assert glyph.lines == glyph.solid == ()
        return
    down = [p.imag for outline in glyph.lines + glyph.solid for p in outline.points]
    assert min(down) >= -9.5
    assert max(down) <= 1.5
    assert glyph.boxes
