"""The row-to-time table as a file for other programs."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from hookwright.lesson.chapters import clock
from hookwright.lesson.facts import RowTime


def row_table(rows: Sequence[RowTime]) -> str:
    """The table as comma-separated values. Source: RFC 4180."""
    told = io.StringIO()
    writer = csv.writer(told, lineterminator="\r\n")
    writer.writerow(("part", "row", "time", "seconds", "shown as"))
    for one in rows:
        writer.writerow((one.part, one.row, clock(one.start), one.start, one.like))
    return told.getvalue()
