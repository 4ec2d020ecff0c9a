"""What has to be said where work can hurt: heat, babies, small parts, tired hands.

The sentences and their sources stand in data/cautions.toml.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from hookwright.regex import regex

_TABLE = Path(__file__).parent / "data" / "cautions.toml"
_ACRYLIC = regex(r"\bacrylic\b", re.IGNORECASE)
_WOOL = regex(r"\b(?:wool|alpaca|mohair|merino)\b", re.IGNORECASE)
_SUPERWASH = regex(r"\bsuper\s?wash\b", re.IGNORECASE)
_BABY = regex(r"\b(?:bab(?:y|ies)|newborn|infant|cot|crib|pram|nursery)\b", re.IGNORECASE)
_TOY = regex(r"\b(?:toy|stuff(?:ed|ing)|safety eyes|rattle)\b", re.IGNORECASE)


@cache
def _sentences() -> Mapping[str, Any]:
    return tomllib.loads(_TABLE.read_text("utf-8"))


def caution(name: str) -> str:
    """A caution by its name in the table."""
    return str(_sentences()[name]["say"])


def blocking_cautions(text: str) -> tuple[str, ...]:
    """What is said beside washing, steaming and pinning out, by the fibres a text names."""
    found = []
    if _ACRYLIC.search(text):
        found.append(caution("acrylic_heat"))
    if _WOOL.search(text) and not _SUPERWASH.search(text):
        found.append(caution("wool_felt"))
    return tuple(found) or (caution("heat"),)


def cautions_of(text: str) -> tuple[str, ...]:
    """What is said beside a piece for a baby, and beside a toy."""
    return tuple(_of_use(text))


def _of_use(text: str) -> Iterator[str]:
    if _BABY.search(text):
        yield caution("infant")
    if _TOY.search(text):
        yield caution("small_parts")
