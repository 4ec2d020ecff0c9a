"""The pattern in other words: in the other terms, in full, one size."""

from __future__ import annotations

from typing import Any

from hookwright.desk.asked import Asked
from hookwright.wording import Asked as Wording
from hookwright.wording import Form, write_pattern


def worded(asked: Asked) -> dict[str, Any]:
    """The whole text in the terms and the form that are wished, to be read."""
    wished = asked.wished
    terms = wished.terms if wished.terms in {"US", "UK"} else None
    form = Form(wished.kind) if wished.kind in set(Form) else Form.SHORT
    found = write_pattern(asked.checked, Wording(terms=terms, form=form))
    return {
        "text": found.checked.source.text,
        "changed": len(found.edits),
        "notes": list(found.notes),
        "differs": found.differs or "",
    }
