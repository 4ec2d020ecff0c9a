"""How is a long chain counted: where do the markers go, and how many chains to spare?

A miscounted chain is found only rows later. So a marker goes in after every so many chains,
about twenty and always whole repeats; and a few more chains are made than are needed, for
those that are left over come undone at the end while one that is missing cannot be added.
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.sizing.facts import Multiple
from hookwright.sizing.lengths import in_both

_NEAR = 20
_SPARE = 10
_LONG = 40
"""Chains from which markers are worth their while."""


class LongChain(Struct, frozen=True):
    """How to make a chain.

    Attributes:
        chains: How many are needed.
        spare: How many more to make.
        every: After how many chains a marker goes in; 0 where none is needed.
        markers: How many markers.
        behind: Chains behind the last marker.
        long: How long it is to be, in millimetres, where it is drawn in; None where it is
            about as long as the piece is wide.
    """

    chains: int
    spare: int = _SPARE
    every: int = 0
    markers: int = 0
    behind: int = 0
    long: Fraction | None = None

    def said(self, unit: str) -> str:
        """The whole of it in a sentence, the designer's unit first."""
        long = f", about {in_both(self.long, unit)} long" if self.long is not None else ""
        told = f"Chain {self.chains}{long}, and about {self.spare} to spare"
        if not self.markers:
            return f"{told}."
        last = f", {self.behind} behind the last" if self.behind else ""
        number = "1 marker" if self.markers == 1 else f"{self.markers} markers"
        return f"{told}; a marker after every {self.every} ({number}{last})."


def said_of_all(chains: Sequence[LongChain]) -> str:
    """What holds for the chain of every size, in a sentence."""
    told = f"Make about {_SPARE} more chains than are needed: they come undone at the end."
    every = next((chain.every for chain in chains if chain.every), 0)
    return f"{told} Put in a marker after every {every}." if every else told


def long_chain(
    multiple: Multiple, repeats: int, each_mm: Fraction | None = None
) -> LongChain:
    """How to make the chain for so many repeats.

    Args:
        multiple: Its multiple.
        repeats: How many repeats.
        each_mm: What a chain takes of it, where the fabric draws it in.
    """
    chains = multiple.at(repeats)
    every = multiple.each * max(1, round(_NEAR / multiple.each)) if multiple.each else 0
    long = each_mm * chains if each_mm is not None else None
    if chains < _LONG or not every or every > chains:
        return LongChain(chains, long=long)
    markers, behind = divmod(chains, every)
    return LongChain(chains, _SPARE, every, markers, behind, long)
