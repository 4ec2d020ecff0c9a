"""How much work a piece of code does, in Python calls: the same on every machine."""

import sys
from collections.abc import Callable
from types import FrameType


def calls(work: Callable[[], object]) -> int:
    """Python calls made by some work."""
    seen = 0

    def count(_frame: FrameType, event: str, _arg: object) -> None:
        nonlocal seen
        seen += event == "call"

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        work()
    finally:
        sys.setprofile(before)
    return seen
