"""The pattern itself: what does the whole come to?"""

from __future__ import annotations

from typing import Any

from hookwright.desk.asked import Asked
from hookwright.listing.summary import summary


def answer(asked: Asked) -> dict[str, Any]:
    """What the whole comes to, in a sentence."""
    return {"summary": summary(asked.checked)}
