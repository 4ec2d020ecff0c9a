"""Do the sizes that are told agree with themselves, the gauge, the rows and the stripes?

Four questions under one name, each in a module of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.editing.against_gauge import against_gauge
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.rows_in_all import rows_in_all
from hookwright.editing.same_length import told_twice
from hookwright.editing.stripe_counts import stripe_counts
from hookwright.finding import Finding


def measure_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """Lengths in two units, stitches and rows at the gauge, stripes, and rows in all."""
    yield from told_twice(manuscript)
    yield from against_gauge(manuscript)
    yield from stripe_counts(manuscript)
    yield from rows_in_all(manuscript)
