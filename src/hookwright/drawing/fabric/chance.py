"""By how much does a stitch differ from its like: by its own number, never by a stream.

A running stream of random numbers would move everything behind a row that has changed.
Here each number is a hash of its own, so a stitch keeps its character.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from hookwright.drawing.fabric.strands import Real32
from hookwright.shape.columns import Whole

_FULL = np.uint64(0xFFFFFFFF)


def chance(numbers: Whole, salt: int) -> Real32:
    """A number from 0 to 1 for each whole number; another salt gives others.

    Source: the finishing steps of MurmurHash3 (public domain), after a multiplication by
    2^32 over the golden ratio.
    """
    mixed = numbers.astype(np.uint64) * np.uint64(2654435761)
    mixed = (mixed + np.uint64((salt * 320159239 + 12345) & 0xFFFFFFFF)) & _FULL
    mixed ^= mixed >> np.uint64(16)
    mixed = (mixed * np.uint64(0x85EBCA6B)) & _FULL
    mixed ^= mixed >> np.uint64(13)
    mixed = (mixed * np.uint64(0xC2B2AE35)) & _FULL
    mixed ^= mixed >> np.uint64(16)
    return mixed.astype(np.float32) / np.float32(4294967296.0)


def about_zero(numbers: Whole, salt: int) -> Real32:
    """The same from -1/2 to 1/2."""
    return chance(numbers, salt) - np.float32(0.5)


NOISE_SIZE = 1 << 16


@cache
def noise_table() -> Real32:
    """(65536,) numbers from -1/2 to 1/2, to be looked up: cheaper than hashes by far."""
    table = about_zero(np.arange(NOISE_SIZE), 11)
    table.flags.writeable = False
    return table


@cache
def offsets(spread: float, side: int = 256) -> NDArray[np.int64]:
    """(2, side, side) whole steps down and to the right, normal about 0 with a spread."""
    numbers = np.arange(side * side)
    size = np.sqrt(-2 * np.log(np.maximum(chance(numbers, 31), 1e-6)))
    angle = 2 * np.pi * chance(numbers, 32)
    steps = np.rint(spread * np.stack([size * np.sin(angle), size * np.cos(angle)]))
    found: NDArray[np.int64] = steps.astype(np.int64).reshape(2, side, side)
    found.flags.writeable = False
    return found
