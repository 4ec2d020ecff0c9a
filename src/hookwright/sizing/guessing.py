"""What may the gauge be, where nobody has measured it?

From the weight of the yarn and the hook, by the trade's table: the larger the hook within
the range of its yarn, the fewer the stitches. The whole range of the table is the spread.
It is good for chaining a swatch, and for nothing else. Source: data/yarn_weights.toml.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.notation.vocabulary import height_of
from hookwright.sizing.pitch import Pitch

_DATA = Path(__file__).parent / "data"
_SPAN_MM = Fraction(1016, 10)
_MEDIUM = 4
_SINGLE, _DOUBLE = 1, 3


class Weight(Struct, frozen=True):
    """A yarn weight: its number and name, its stitches to 4 in, and its hooks."""

    number: int
    name: str
    fewest: int
    most: int
    hooks: tuple[Fraction, Fraction]


class Guess(Struct, frozen=True):
    """A guessed gauge, and what it was guessed from."""

    stitch: Pitch
    row: Pitch
    said: str


@cache
def weights() -> tuple[Weight, ...]:
    """The trade's yarn weights from 0 to 7."""
    return tuple(
        Weight(
            row["number"],
            row["name"],
            row["stitches"][0],
            row["stitches"][1],
            (Fraction(row["hook_mm"][0]), Fraction(row["hook_mm"][1])),
        )
        for row in _table("yarn_weights.toml")["weight"]
    )


@cache
def _heights() -> dict[int, tuple[Fraction, Fraction, Fraction]]:
    return {
        row["turning_chain"]: (
            Fraction(row["over_width"][0]),
            Fraction(row["over_width"][1]),
            Fraction(row["over_width"][2]),
        )
        for row in _table("stitch_heights.toml")["stitch"]
    }


def usual_heights() -> dict[int, Fraction]:
    """How many times as high as wide a stitch usually is, by its turning chain."""
    return {chain: usual for chain, (usual, _, _) in _heights().items()}


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads((_DATA / name).read_text("utf-8"))


Kinds = Sequence[tuple[str, int]]
"""What a row is made of: stitches by name, and how many."""


def guessed(checked: Checked, rows: Sequence[Kinds]) -> Guess:
    """A gauge for rows of these stitches."""
    hook = _hook(checked)
    number = _weight(checked)
    if number is None and hook is not None:
        number = _weight_for(hook)
    weight = weights()[_MEDIUM if number is None else number]
    least, most = (_SPAN_MM / n for n in (weight.most, weight.fewest))
    low, high = weight.hooks
    share = Fraction(1, 2) if hook is None else (hook - low) / (high - low)
    usual = weight.most + min(max(share, Fraction(0)), Fraction(1)) * (
        weight.fewest - weight.most
    )
    width = Pitch(_SPAN_MM / usual, (most - least) / 2, 0)
    height, low_high, high_high = _height(rows, checked.terms)
    spread = (most * high_high - least * low_high) / 2
    said = _said(weight, hook, told=_weight(checked) is not None)
    return Guess(width, Pitch(width.mm * height, spread, 0), said)


def _height(
    rows: Sequence[Kinds], terms: str | None
) -> tuple[Fraction, Fraction, Fraction]:
    """Height over width of the mean row, the mean of its stitches: usual, least, most."""
    table = _heights()
    tall: dict[str, int] = {}
    found = []
    for row in dict.fromkeys(map(tuple, rows)):
        often = sum(tuple(other) == row for other in rows)
        for stitch, number in row:
            height = tall.setdefault(stitch, _chains_of(stitch, terms))
            found.append((table[min(height, max(table))], number * often, row))
    return _mean([(shape, Fraction(n, sum(m for _, m in row))) for shape, n, row in found])


def _chains_of(stitch: str, terms: str | None) -> int:
    """The turning chain of a stitch; a puff or cluster stands as tall as a double."""
    if stitch in {"sl st", "ss"}:
        return 0
    return height_of(stitch, terms) or _DOUBLE


def _mean(
    shapes: Sequence[tuple[tuple[Fraction, Fraction, Fraction], Fraction]],
) -> tuple[Fraction, Fraction, Fraction]:
    if not shapes:
        table = _heights()
        shapes = [(table[_SINGLE], Fraction(1)), (table[_DOUBLE], Fraction(1))]
    whole = sum((weight for _, weight in shapes), Fraction(0))
    usual, least, most = (
        sum((shape[n] * weight for shape, weight in shapes), Fraction(0)) / whole
        for n in range(3)
    )
    return usual, least, most


def _said(weight: Weight, hook: Fraction | None, *, told: bool) -> str:
    yarn = f"yarn of weight {weight.number} ({weight.name})"
    of_hook = f"a hook of {float(hook):g} mm" if hook else ""
    if told:
        return f"from {yarn}" + (f" and {of_hook}" if hook else "")
    if hook:
        return f"from {of_hook}, as for {yarn}, for no weight of yarn is named"
    return f"as for {yarn}, for no yarn or hook is named"


def _weight(checked: Checked) -> int | None:
    noted = checked.design.noted.yarns if checked.design.noted is not None else ()
    known = [yarn.weight for yarn in (*checked.design.yarns, *noted)]
    return next((n for n in known if n is not None and 0 <= n < len(weights())), None)


def _hook(checked: Checked) -> Fraction | None:
    noted = checked.design.noted.swatches if checked.design.noted is not None else ()
    hooks = [hook.mm for hook in checked.design.hooks] + [s.hook_mm for s in noted]
    return next((mm for mm in hooks if mm), None)


def _weight_for(hook: Fraction) -> int:
    """The weight whose hooks a hook is nearest to the middle of."""
    return min(weights(), key=lambda w: abs(hook - sum(w.hooks, Fraction(0)) / 2)).number
