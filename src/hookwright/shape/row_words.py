"""A row as columns, each stitch with its words where they stand in the text.

Words of a row are counted from its own beginning, or from that of the row it recalls. Those
of a stitch that the pattern defines are counted from the beginning of the text, further on
than the words of any row reach.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct, field

from hookwright.shape.columns import Columns, Whole, columns_of
from hookwright.working.fabric import Row
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.steps import Step


class RowWords(Struct):
    """Where the words of the rows met so far begin.

    Attributes:
        begin: By part and number of the row.
        known: The rows met as columns, by where they stand in memory.
    """

    begin: dict[tuple[int, int | None], int] = field(default_factory=dict)
    known: dict[int, tuple[Row, Columns]] = field(default_factory=dict)

    def columns(self, outcome: Outcome, worked: WorkedRow) -> tuple[Columns, Whole]:
        """The next row as columns, and (n, 2) where the words of its nodes stand.

        A row that is worked as an earlier one is the same columns.

        Raises:
            TooLarge: With more stitches than are laid out.
        """
        step = outcome.step
        begin = self.begin[step.part, step.number] = self._of(step)
        known = self.known.get(id(worked.row))
        if known is None:
            known = self.known[id(worked.row)] = (worked.row, columns_of(worked.row))
        columns = known[1]
        long = max((node.span.end for node in step.nodes), default=0)
        own = (columns.span[:, :1] >= 0) & (columns.span[:, 1:] <= long)
        return columns, columns.span + np.where(own, begin, 0)

    def _of(self, step: Step) -> int:
        if step.recalled is None:
            return step.text.at
        return self.begin.get((step.part, step.recalled), step.text.at)
