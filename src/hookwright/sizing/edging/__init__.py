"""Edgings: written as rows for each side of a piece, and proven together with it."""

from hookwright.sizing.edging.facts import Edgings, Offered, Refused, Shape, Side, Wish
from hookwright.sizing.edging.offering import edgings_of

__all__ = ["Edgings", "Offered", "Refused", "Shape", "Side", "Wish", "edgings_of"]
