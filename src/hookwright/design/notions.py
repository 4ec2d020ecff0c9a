"""Which notions does the trade know: what is bought beside yarn and hook?

Source: data/notions.toml.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from msgspec import Struct

_TABLE = Path(__file__).parent / "data" / "notions.toml"


class Notion(Struct, frozen=True):
    """A thing that is bought for a piece.

    Attributes:
        name: What it is called.
        words: A pattern of the words for it.
        bought: Whether a maker who has none must go and buy it: not a needle.
    """

    name: str
    words: str
    bought: bool


@cache
def notions() -> tuple[Notion, ...]:
    """All of them, in the order of the table."""
    table = tomllib.loads(_TABLE.read_text("utf-8"))
    return tuple(Notion(name, *told) for name, told in table["notions"].items())
