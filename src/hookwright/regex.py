"""Patterns of `re`, each compiled when it is first used.

A check uses a third of those that stand in its modules. To compile them all at the start
takes a tenth of its time.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import AnyStr, cast


def regex(text: AnyStr, flags: int = 0) -> re.Pattern[AnyStr]:
    """A pattern for the top of a module, to be used like one of `re.compile`."""
    return cast("re.Pattern[AnyStr]", _Regex(partial(re.compile, text, flags)))


class _Regex:
    """Stands for a pattern, whose methods it takes over as they are asked for."""

    def __init__(self, compiled: Callable[[], object]) -> None:
        self._compiled = compiled

    def __getattr__(self, name: str) -> object:
        """Asked once for each method: from then on it stands in the value itself."""
        found = getattr(self._compiled(), name)
        setattr(self, name, found)
        return found
