"""What was worked out before, as long as there is room to keep it.

A designer's next text is her last one with a few words changed, and another size of it is
the same rows with a few other numbers. What follows from a row alone is kept from text to
text, so that only what was changed is read and worked again. The result is the same with or
without it.
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value")


class Remembered(Generic[Key, Value]):
    """Values by what they follow from, the oldest forgotten where there are too many."""

    def __init__(self, most: int) -> None:
        """Keep so many at most."""
        self._most = most
        self._kept: dict[Key, Value] = {}

    def get(self, key: Key) -> Value | None:
        """The value of a key, if it is still there."""
        return self._kept.get(key)

    def keep(self, key: Key, value: Value) -> Value:
        """Keep a value; gives it back."""
        if len(self._kept) >= self._most:
            for old in list(self._kept)[: max(1, self._most // 2)]:
                self._kept.pop(old, None)  # another thread may have forgotten it as well
        self._kept[key] = value
        return value


class Numbered(Generic[Key]):
    """A short number for each of some long keys, never the same for two of them."""

    def __init__(self, most: int) -> None:
        """Keep so many at most."""
        self._numbers: Remembered[Key, int] = Remembered(most)
        self._next = 0

    def of(self, key: Key) -> int:
        """The number of a key; a new one where the old one was forgotten."""
        found = self._numbers.get(key)
        if found is None:
            self._next += 1
            found = self._numbers.keep(key, self._next)
        return found
