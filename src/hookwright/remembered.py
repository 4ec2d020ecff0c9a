"""What was found out before, for a text that differs little from the one it was found in.

While a designer types, nearly all rows are what they were a moment ago. Whatever takes long
and follows from a few values alone may be kept here under them, and is found again as long
as they are the same: an answer is never another one for being remembered.
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any

_MOST_CONTEXTS = 40
_MOST_ENTRIES = 6_000


class Remembered:
    """Answers found before, by what they hang on in common and what each hangs on alone."""

    def __init__(self) -> None:
        """Remember nothing yet."""
        self._contexts: dict[Hashable, dict[Any, Any]] = {}

    def under(self, *context: Hashable) -> dict[Any, Any]:
        """The answers that hang on these values; those of longest ago are forgotten."""
        found = self._contexts.pop(context, {})
        if len(found) > _MOST_ENTRIES:
            found = {}
        self._contexts[context] = found
        if len(self._contexts) > _MOST_CONTEXTS:
            del self._contexts[next(iter(self._contexts))]
        return found
