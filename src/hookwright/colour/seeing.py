"""How different are two colours, how light is one, and how do others see them?

Sources: CIE 142-2001 (CIEDE2000); Ottosson 2020 (OKLab); Viénot, Brettel and Mollon 1999
and Brettel, Viénot and Mollon 1997 (deficiencies), all as coloraide computes them.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.colour.facts import Table, Vision

_FILTERS = {Vision.PROTAN: "protan", Vision.DEUTAN: "deutan", Vision.TRITAN: "tritan"}


class Seen(Struct, frozen=True):
    """A colour as it is measured; see `Shade`."""

    code: str
    lightness: int
    grey: str
    ok_lightness: float
    chroma: float
    hue: float | None


def measured(code: str) -> Seen:
    """The measures of a colour, told by six hex digits or a CSS name."""
    from coloraide import Color  # noqa: PLC0415 - a tenth of a second, for colours only

    colour = Color(code)
    lightness = colour.convert("lab-d65").get("lightness")
    light, chroma, hue = colour.convert("oklch").coords()
    grey = Color("lab-d65", [lightness, 0, 0]).convert("srgb").fit()
    return Seen(
        colour.convert("srgb").to_string(hex=True),
        round(lightness * 100),
        grey.to_string(hex=True),
        round(light, 4),
        round(chroma, 4),
        round(hue, 1) if chroma > _NO_HUE else None,
    )


_NO_HUE = 0.002
"""Chroma below which a hue is only what rounding has left."""


def differences(codes: Sequence[str]) -> Table:
    """How different every two colours are, by CIEDE2000 in hundredths."""
    return _between(codes, None)


def differences_seen(codes: Sequence[str]) -> tuple[tuple[Vision, Table], ...]:
    """The same as people see them who lack one of the three kinds of cones."""
    return tuple((vision, _between(codes, vision)) for vision in Vision)


def _between(codes: Sequence[str], vision: Vision | None) -> Table:
    from coloraide import Color  # noqa: PLC0415 - for colours only

    colours = [Color(code) for code in codes]
    if vision is not None:
        name = _FILTERS[vision]
        colours = [colour.filter(name).convert("srgb").clip() for colour in colours]
    labs = [colour.convert("lab-d65") for colour in colours]
    rows = [[0] * len(labs) for _ in labs]
    for at, one in enumerate(labs):
        for to in range(at):
            apart = round(one.delta_e(labs[to], method="2000") * 100)
            rows[at][to] = rows[to][at] = apart
    return tuple(map(tuple, rows))
