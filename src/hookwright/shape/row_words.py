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
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.steps import Step


class RowWords(Struct):
    """Where the words of the rows met so far begin.

    Attributes:
        begin: By part and number of the row.
        last: The number of the last row; None before the first.
    """

    begin: dict[tuple[int, int | None], int] = field(default_factory=dict)
    last: int | None = None

    def columns(self, outcome: Outcome, worked: WorkedRow) -> Columns:
        """The next row as columns.

        Raises:
            TooLarge: With more stitches than are laid out.
        """
        step = outcome.step
        begin = self.begin[step.part, step.number] = self._of(step)
        columns = columns_of(worked.row)
        long = max((node.span.end for node in step.nodes), default=0)
        own = (columns.span[:, :1] >= 0) & (columns.span[:, 1:] <= long)
        down = self._down(step, columns.foot_down)
        self.last = step.number if step.number is not None else self.last
        return replace(columns, span=columns.span + np.where(own, begin, 0), foot_down=down)

    def _down(self, step: Step, down: Whole) -> Whole:
        """How far down feet go that are told by the row they go to: "in sts of Row 37"."""
        named = {
            node.target.row
            for node in makes_in(step.nodes)
            if node.target is not None and node.target.row
        }
        if len(named) != 1 or self.last is None:
            return down
        return np.where(down > 0, max(0, self.last - named.pop()), 0)

    def _of(self, step: Step) -> int:
        if step.recalled is None:
            return step.text.at
        return self.begin.get((step.part, step.recalled), step.text.at)
