"""Do the sizes told agree with themselves, gauge, rows, stripes and motifs?

Five questions under one name, each in a module of its own, which is imported where a text
may ask it.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.editing.manuscript import Manuscript
from hookwright.editing.rows_in_all import rows_in_all
from hookwright.finding import Finding
from hookwright.regex import regex

_MOTIFS = ("square", "motif", "block", "hexagon", "octagon")
_BODIES = ("bust", "chest", "waist", "hip", "hand", "palm", "foot", "leg", "calf", "sleeve")
_OF_STRIPES = ("stripe", "sequence", "colour", "color")


def measure_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Lengths in two units, stitches and rows at the gauge, stripes, all rows, motifs."""
    design, words = manuscript.design, manuscript.source.text.lower()
    if _METRIC.search(words) and _IMPERIAL.search(words):
        from hookwright.editing.same_length import told_twice  # noqa: PLC0415

        yield from told_twice(manuscript)
    if design.gauges and design.finished:
        from hookwright.editing.against_gauge import against_gauge  # noqa: PLC0415

        yield from against_gauge(manuscript)
        if any(body in words for body in _BODIES):
            from hookwright.editing.girths import girths  # noqa: PLC0415

            yield from girths(manuscript)
    if design.gauges and "from" in words and "measure" in words:
        from hookwright.editing.part_lengths import part_lengths  # noqa: PLC0415

        yield from part_lengths(manuscript)
    if any(sign in words for sign in _OF_STRIPES):
        from hookwright.editing.stripe_counts import stripe_counts  # noqa: PLC0415

        yield from stripe_counts(manuscript)
    yield from rows_in_all(manuscript)
    if any(motif in words for motif in _MOTIFS):
        from hookwright.editing.motif_layout import motif_layout  # noqa: PLC0415

        yield from motif_layout(manuscript)


_METRIC = regex(r"[\d)\]½¼¾][ \t]?-?[ \t]?(?:cm|mm|cent|m\b|met)")
_IMPERIAL = regex(r"[\d)\]½¼¾][ \t]?-?[ \t]?(?:in|[\"”″]|f(?:ee)?t\b|y(?:ar)?d)")
