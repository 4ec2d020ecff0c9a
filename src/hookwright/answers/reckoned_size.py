"""Which of the sizes that yarn is reckoned for is the one a maker works from the text?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.yarn.facts import SizeNeed, YarnPlan


def reckoned_size(checked: Checked, plan: YarnPlan, size: int) -> SizeNeed | None:
    """The size of that name; in a pattern of one size the one with as many rows.

    A worksheet may have sizes that the text does not tell.
    """
    if checked.sizes:
        name = checked.sizes[size]
        return next((one for one in plan.sizes if one.counted.name == name), None)
    rows = sum(one.worked is not None for one in checked.worked.sizes[size].outcomes)

    def apart(one: SizeNeed) -> int:
        return abs(sum(row.number is not None for row in one.counted.rows) - rows)

    return min(plan.sizes, key=apart, default=None)
