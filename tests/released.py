"""Patterns put out for the tests that look at their copies."""

from __future__ import annotations

import io
from functools import cache

from examples_checked import example
from PIL import Image

from hookwright.checking import Checked, check
from hookwright.reading.markdown import markdown_draft
from hookwright.release.building import Made, build
from hookwright.release.drawn import Earlier
from hookwright.release.facts import Stamp
from hookwright.release.ready import Order
from hookwright.source import Source

STAMP = Stamp(
    "1.0", "25 November 2026", "2026-11-25", "Ines Farrow", "For you.", "a.example"
)

WAVES = """# Ebb Runner

A runner in soft waves.

## Size

Small (Large)

Finished: 30 (60) cm wide.

## Materials

**Yarn:** Skarrow DK (100% wool, 120 m in a 50 g ball): 1 (2) balls of A (Tide, blue), 1 (1) balls of B (Sand, fawn).

**Hook:** 4.5 mm (US 7).

## Gauge

16 sts and 8 rows in double crochet are 10 cm (4 in), after blocking.

## Notes

Written in US terms. Ch 3 at the start of a row counts as a dc.

## Abbreviations

ch = chain
dc = double crochet
st(s) = stitch(es)

## Runner

With A, ch 50 (100).

Row 1 (RS): Dc in 4th ch from hook (skipped 3 ch count as dc), *dc in next 5 ch; rep from * across to last ch, dc in last ch, turn. 48 (98) dc

Row 2: With B, ch 3, dc in next st and in each st across. Fasten off. 48 (98) dc

## Finishing

Weave in the ends.
"""

SHEET = """[design]
title = "Ebb Runner"
terms = "US"
designer = "Ines Farrow"
version = "1.0"
date = "2026-11-25"
rights = "For your own making."
corrections = "a.example/ebb"

[[yarn]]
letter = "A"
colour = "Tide"
hex = "#22324A"

[[yarn]]
letter = "B"
colour = "Sand"
hex = "#E0C9A0"
"""


@cache
def waves() -> Checked:
    """A small pattern in two sizes and two colours, with its worksheet."""
    return check(markdown_draft(WAVES, "pattern.md"), None, Source(SHEET, "worksheet.toml"))


@cache
def _small_picture() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "#4e8c97").save(out, "JPEG")
    return out.getvalue()


class SmallPictures:
    """Small pictures in place of the fabric and its drawings, which take seconds."""

    def __init__(self) -> None:
        charts = [
            f"{kind}-1-of-1-{terms}{hand}.svg"
            for kind in ("chart", "schematic")
            for hand in ("", "-left-handed")
            for terms in ("us", "uk")
        ]
        self._files = dict.fromkeys(("fabric.jpg", "fabric-left-handed.jpg", *charts))

    def names(self, _: str) -> list[str]:
        return list(self._files)

    def keep(self, name: str, _: str) -> bytes | None:
        if name not in self._files:
            return None
        return _CHART if name.endswith(".svg") else _small_picture()


class Before:
    """A release that was made before."""

    def __init__(self, files: dict[str, Made]) -> None:
        self.files = files

    def names(self, made_of: str) -> list[str]:
        found = self.files.items()
        return [name for name, made in found if made.entry.made_of == made_of]

    def keep(self, name: str, made_of: str) -> bytes | None:
        return self.files[name].data if name in self.names(made_of) else None


_CHART = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>Ebb: symbol chart'
    b'</title><desc>Row 1 in symbols.</desc><path d="M1 1h7"/></svg>'
)


def put_out(checked: Checked, earlier: Earlier | None = None) -> dict[str, Made]:
    """Every file of a release by its name."""
    made = build(Order(checked, STAMP), earlier or SmallPictures())
    return {file.entry.name: file for file in made}


@cache
def released(name: str) -> dict[str, Made]:
    """The release of an example, or of the small pattern for ""."""
    return put_out(example(name) if name else waves())
