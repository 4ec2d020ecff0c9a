"""The pattern itself: how many rows are to mend?"""

from __future__ import annotations

from typing import Any

from hookwright.checking import Checked
from hookwright.desk.asked import Asked
from hookwright.finding import Severity
from hookwright.listing.summary import counted, summary


def decided(checked: Checked) -> str:
    """Whether all rows close."""
    errors = [f for f in checked.findings if f.severity is not Severity.ADVICE]
    rows = {(f.part, f.row) for f in errors if f.row is not None}
    if rows:
        return f"{counted(len(rows), 'row')} to mend"
    if errors:
        return f"{counted(len(errors), 'thing')} to mend"
    return "all rows close" if checked.has_rows() else "no rows yet"


def answer(asked: Asked) -> dict[str, Any]:
    """What the whole comes to, in a sentence."""
    return {"summary": summary(asked.checked)}
