"""Which fabrics are on the shelf?"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

import msgspec

from hookwright.shelf.facts import FAMILIES, LEVELS, Fabric

_FILES = Path(__file__).with_name("data")


@cache
def fabrics() -> tuple[Fabric, ...]:
    """All of them: family by family, the easier ones first."""
    found = [_in(file) for file in sorted(_FILES.glob("*.toml"))]
    families, levels = list(FAMILIES), list(LEVELS)
    return tuple(
        sorted(found, key=lambda f: (families.index(f.family), levels.index(f.level)))
    )


def _in(file: Path) -> Fabric:
    told = tomllib.loads(file.read_text(encoding="utf-8"))
    return msgspec.convert({**told, "name": file.stem}, Fabric)
