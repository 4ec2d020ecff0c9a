"""What does a fabric follow from? Pictures of it are made again only when that changes."""

from __future__ import annotations

import msgspec

from hookwright.checking import Checked
from hookwright.release.sample import in_stripes


def fabric_key(checked: Checked) -> bytes:
    """All that the fabric follows from, and nothing of where it stands in the text."""
    pattern, design, words = checked.reading.pattern, checked.design, checked.source.slice
    noted = design.noted
    told = [
        [[part.name, part.make, [words(row.span) for row in part.rows]]
         for part in pattern.parts],
        [words(one.span) for one in pattern.definitions],
        [words(one.span) for one in pattern.statements],
        [words(gauge.span) for gauge in design.gauges],
        [[colour.letter, colour.name, colour.code] for colour in design.colours],
        [[yarn.weight, [[c.letter, c.name, c.code] for c in yarn.colours]]
         for yarn in (noted.yarns if noted else ())],
        [[swatch.stitches, swatch.rows, swatch.width and swatch.width.mm]
         for swatch in (noted.swatches if noted else ())],
        [[line.stitches for line in checked.lines], checked.worked.terms],
        in_stripes(checked, checked).worked.pattern.stripes,
    ]  # fmt: skip
    return msgspec.json.encode(told, enc_hook=str)
