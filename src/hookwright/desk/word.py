"""The word under the pointer, as the page shows it."""

from __future__ import annotations

from typing import Any

from hookwright.desk.asked import Asked
from hookwright.listing.explained import explained


def word(asked: Asked) -> dict[str, Any]:
    """What a word means; "found" is false where there is nothing to say of it."""
    offsets = asked.offsets
    found = explained(asked.checked, offsets.from_page(asked.wished.at))
    if found is None:
        return {"found": False}
    return {
        "found": True,
        "start": offsets.to_page(found.span.start),
        "end": offsets.to_page(found.span.end),
        "word": found.word,
        "says": found.says,
        "more": list(found.more),
        "symbol": found.stitch,
    }
