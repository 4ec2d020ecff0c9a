"""Stripes and rules by chance that the tests of orders are made of."""

from __future__ import annotations

from random import Random

from hookwright.colour.arrangement import Arrangement
from hookwright.colour.facts import Shape, Table


def table(random: Random, size: int, chance: float, *, twins: bool = False) -> Table:
    """A table of ones and noughts, the same both ways."""
    cells = [[int(twins and a == b) for b in range(size)] for a in range(size)]
    for a in range(size):
        for b in range(a):
            cells[a][b] = cells[b][a] = int(random.random() < chance)
    return tuple(map(tuple, cells))


def problem(seed: int) -> Arrangement:
    """Stripes and rules by chance: few enough for every order to be looked at."""
    random = Random(seed)  # noqa: S311 - chance for a test
    size = random.randint(2, 6)
    often = size < 5 and random.random() < 0.4
    counts = tuple(random.randint(1, 2) if often else 1 for _ in range(size))
    apart = [[0] * size for _ in range(size)]
    for a in range(size):
        for b in range(a):
            apart[a][b] = apart[b][a] = random.randrange(2_00, 90_00)
    near = [table(random, size, random.choice([0, 0.3, 0.6]), twins=True)]
    if random.random() < 0.4:
        near.append(table(random, size, 0.2, twins=random.random() < 0.3))
    pair = tuple(sorted(random.sample(range(size), 2)))
    together = ((pair[0], pair[1]),) if not often and random.random() < 0.4 else ()
    return Arrangement(
        counts,
        tuple(map(tuple, apart)),
        tuple(random.randrange(100_00) for _ in range(size)),
        tuple(near),
        together,
        random.choice(list(Shape)),
        repeated=random.random() < 0.4,
        blend=random.random() < 0.3,
        light_dark=random.random() < 0.3,
        random=random.random() < 0.1,
    )
