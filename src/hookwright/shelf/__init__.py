"""A shelf of traditional fabrics: each with a sample that a pattern can begin from."""

from hookwright.shelf.facts import FAMILIES, Fabric
from hookwright.shelf.names import fabrics_meant, name_in
from hookwright.shelf.starter import starter
from hookwright.shelf.stock import fabrics

__all__ = ["FAMILIES", "Fabric", "fabrics", "fabrics_meant", "name_in", "starter"]
