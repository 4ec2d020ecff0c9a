"""A row as columns, each stitch with its words where they stand in the text.

Words of a row are counted from its own beginning, or from that of the row it recalls. Those
of a stitch that the pattern defines are counted from the beginning of the text, further on
than the words of any row reach.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.nested import makes_in
from hookwright.shape.columns import Columns, Whole, columns_of
from hookwright.working.fabric import Row
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.steps import Step


class RowWords(Struct):
    """Where the words of the rows met so far begin.

    Attributes:
        begin: By part and number of the row.
        last: The number of the last row; None before the first.
        known: The rows met as columns, by where they stand in memory and how far down
            their feet go.
    """

    begin: dict[tuple[int, int | None], int] = field(default_factory=dict)
    last: int | None = None
    known: dict[tuple[int, int | None], tuple[Row, Columns]] = field(default_factory=dict)

    def columns(self, outcome: Outcome, worked: WorkedRow) -> tuple[Columns, Whole]:
        """The next row as columns, and (n, 2) where the words of its nodes stand.

        A row that is worked as an earlier one is the same columns.

        Raises:
            TooLarge: With more stitches than are laid out.
        """
        step = outcome.step
        begin = self.begin[step.part, step.number] = self._of(step)
        columns = self._known(worked.row, self._down(step))
        self.last = step.number if step.number is not None else self.last
        long = max((node.span.end for node in step.nodes), default=0)
        own = (columns.span[:, :1] >= 0) & (columns.span[:, 1:] <= long)
        return columns, columns.span + np.where(own, begin, 0)

    def _known(self, row: Row, down: int | None) -> Columns:
        """A row as columns, made where it is first met."""
        found = self.known.get((id(row), down))
        if found is None:
            columns = columns_of(row)
            if down is not None:
                low = np.where(columns.foot_down > 0, down, 0)
                columns = replace(columns, foot_down=low)
            found = self.known[id(row), down] = (row, columns)
        return found[1]

    def _down(self, step: Step) -> int | None:
        """How far down feet go that are told by the row they go to: "in sts of Row 37"."""
        named = {
            node.target.row
            for node in makes_in(step.nodes)
            if node.target is not None and node.target.row
        }
        if len(named) != 1 or self.last is None:
            return None
        return max(0, self.last - named.pop())

    def _of(self, step: Step) -> int:
        if step.recalled is None:
            return step.text.at
        return self.begin.get((step.part, step.recalled), step.text.at)
