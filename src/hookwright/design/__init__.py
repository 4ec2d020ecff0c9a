"""Facts of the design: what its text says beside the rows, and what its worksheet says."""

from hookwright.design.facts import Design
from hookwright.design.reading import read_design

__all__ = ["Design", "read_design"]
