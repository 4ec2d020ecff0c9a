"""How does yarn look in that light: its plies, its fibres, its colour in the shade?

Everything is reckoned in linear light, once for each point that is seen. Wool is matt: the
light wraps round it, highlights are faint, and shadows keep their colour instead of going
grey.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from msgspec import Struct

from hookwright.drawing.fabric.chance import NOISE_SIZE, noise_table
from hookwright.drawing.fabric.light import LIGHT, Shade
from hookwright.drawing.fabric.strands import Real32
from hookwright.drawing.fabric.tubes import CENTRE_AT, DEPTH_AT, Tubes
from hookwright.shape.columns import Whole

PLIES = 4
_TWIST = 4.6
"""Diameters of the yarn in which its plies go round once; less looks like rope."""
_GAMMA = np.float32(2.2)
_EYE = np.array([LIGHT[0], LIGHT[1], LIGHT[2] + 1])
_HALF = (_EYE / np.linalg.norm(_EYE)).astype(np.float32)
"""Half way between the light and the eye."""
_LUMINANCE = np.array([0.30, 0.59, 0.11], dtype=np.float32)


_BRIGHT = np.float32(0.86)
"""Light above which a pale yarn would be nothing but white."""


class Look(Struct, frozen=True, eq=False):
    """What yarn looks like at a size.

    Attributes:
        colours: (c, 3) those of the yarns, in linear light.
        gloss: (c,) how strong their highlights are.
        plies: 0 to 1, how far single plies are seen.
        fibres: 0 to 1, how far single fibres are.
        ply_of: (t,) how far round the yarn each sample across lies, in plies.
        twist: Plies that pass by in a width of yarn.
        streaks: Streaks of fibres in a width, the long and the short ones.
    """

    colours: Real32
    gloss: Real32
    plies: np.float32
    fibres: np.float32
    ply_of: Real32
    twist: np.float32
    streaks: tuple[np.float32, np.float32]


def look_of(tubes: Tubes, colours: Whole, diameter: float) -> Look:
    """What yarn looks like.

    Args:
        tubes: The picture before it is lit.
        colours: (c, 3) of the yarns, 0 to 255.
        diameter: That of the yarn in widths.
    """
    linear = as_linear(colours)
    return Look(
        linear,
        (0.045 + 0.05 * (linear @ _LUMINANCE)).astype(np.float32),
        np.float32(np.clip((tubes.radius - 1.6) / 3.0, 0, 1)),
        np.float32(np.clip((tubes.radius - 2.5) / 5.0, 0, 1)),
        (np.arcsin(tubes.across) / (2 * np.pi) * PLIES).astype(np.float32),
        np.float32(PLIES / (_TWIST * diameter)),
        (np.float32(3.5 / diameter), np.float32(9 / diameter)),
    )


def as_linear(colours: Whole) -> Real32:
    """Colours of a screen, 0 to 255, as linear light from 0 to 1."""
    found: Real32 = (np.asarray(colours, dtype=np.float32) / np.float32(255)) ** _GAMMA
    return found


def as_screen(light: Real32) -> np.typing.NDArray[np.uint8]:
    """Linear light as colours of a screen."""
    step = np.clip(light * np.float32(_STEPS), 0, _STEPS).astype(np.uint16)
    found: np.typing.NDArray[np.uint8] = _screen_table()[step]
    return found


_STEPS = 65_535
"""Steps of light that are told apart: the darkest of them are one in 255 on a screen."""


@cache
def _screen_table() -> np.typing.NDArray[np.uint8]:
    """(65536,) what each step of light is on a screen."""
    light = (np.arange(_STEPS + 1) + 0.5) / _STEPS
    table = (light ** (1 / float(_GAMMA)) * 255 + 0.5).clip(0, 255).astype(np.uint8)
    table.flags.writeable = False
    return table


class Band(Struct, frozen=True, eq=False):
    """Some points of a picture that yarn is seen at.

    Attributes:
        key: (p,) their keys.
        height: (p,) how high they lie.
        at: (p,) where they stand among the points of the shade.
    """

    key: Whole
    height: Real32
    at: Whole


def lit(band: Band, tubes: Tubes, shade: Shade, look: Look) -> Real32:
    """(3, p) the light that comes from some points of a picture."""
    centre = (band.key >> CENTRE_AT) & ((1 << (DEPTH_AT - CENTRE_AT)) - 1)
    across = band.key & ((1 << CENTRE_AT) - 1)
    along = tubes.along[centre]
    normal, turn, amount = surface(tubes, look, centre, across, along)
    amount *= tubes.tone[centre]
    if look.fibres > 0:
        amount *= _fibres(look, tubes.grain[centre], along, turn)
    shadow = shade.shadow.ravel()[band.at]
    shadow *= np.float32(-0.45)
    shadow += 1
    open_ = openness(band.height, shade.near.ravel()[band.at], shade.far.ravel()[band.at])
    facing = facing_light(normal)
    light = np.float32(0.65) * open_
    light += np.float32(0.35)
    light *= facing * shadow
    light *= np.float32(0.95)
    light += np.float32(0.30) * open_
    light *= amount
    gloss = _highlight(normal)
    gloss *= shadow * open_
    yarn = tubes.yarn[centre] if len(look.gloss) > 1 else np.zeros(1, dtype=np.int16)
    gloss *= look.gloss[yarn]
    gloss += np.float32(0.012) * facing
    return coloured(light, gloss, yarn, look.colours)


def surface(
    tubes: Tubes, look: Look, centre: Whole, across: Whole, along: Real32
) -> tuple[tuple[Real32, Real32, Real32], Real32, Real32]:
    """The normals at some points, how far the plies have turned there, and their creases.

    Args:
        tubes: The picture before it is lit.
        look: What its yarn looks like.
        centre: (p,) which sample of a centre line is seen at each point.
        across: (p,) which sample across the strand.
        along: (p,) how far along its yarn that is.
    """
    t = tubes.across[across]
    out = np.sqrt(np.maximum(1 - t * t, np.float32(0.02)))
    turn = along * look.twist
    turn += look.ply_of[across]
    turn += np.float32(64)
    part = turn - np.floor(turn)
    part -= np.float32(0.5)
    deep = part * part
    a = look.plies
    bent = np.float32(-1.2) * deep
    bent += np.float32(1.5)
    bent *= part
    deep *= 4
    side = t * (1 - a * np.float32(0.12)) + a * np.float32(0.62) * bent
    ahead = a * np.float32(0.34) * bent - np.float32(0.55) * tubes.slope[centre]
    nx, ny = tubes.normal_x[centre], tubes.normal_y[centre]
    x, y = side * nx - ahead * ny, side * ny + ahead * nx
    whole = 1 / np.sqrt(x * x + y * y + out * out)
    crease = 1 - a * np.float32(0.36) * deep * deep * (0.55 + np.float32(0.45) * deep)
    return (x * whole, y * whole, out * whole), turn, crease


def _fibres(look: Look, grain: Whole, along: Real32, turn: Real32) -> Real32:
    """How light each point is by the fibre that lies there."""
    noise = noise_table()
    long, short = look.streaks
    first = (along * long).astype(np.int32) * 73 + (turn * 7).astype(np.int32) * 191
    other = (along * short).astype(np.int32) * 151 + (turn * 13).astype(np.int32) * 1091
    streaks = noise[(first + grain) & (NOISE_SIZE - 1)]
    streaks = streaks + noise[(other + grain) & (NOISE_SIZE - 1)]
    found: Real32 = 1 + look.fibres * np.float32(0.24) * streaks
    return found


def facing_light(normal: tuple[Real32, Real32, Real32]) -> Real32:
    """How much light falls on a surface: some comes round to the side turned away."""
    x, y, z = normal
    light = x * np.float32(LIGHT[0]) + y * np.float32(LIGHT[1]) + z * np.float32(LIGHT[2])
    found: Real32 = np.clip((light + np.float32(0.30)) * np.float32(1 / 1.30), 0, 1)
    return found


def _highlight(normal: tuple[Real32, Real32, Real32]) -> Real32:
    x, y, z = normal
    share = np.maximum(x * _HALF[0] + y * _HALF[1] + z * _HALF[2], 0)
    share *= share
    share *= share
    found: Real32 = share * share * share
    return found


def openness(height: Real32, near: Real32, far: Real32) -> Real32:
    """How open to the light a point is, by how far it lies below what is about it."""
    below, under = np.clip(near - height, 0, 1), far - height
    dark = np.exp(np.float32(-3.2) * below - np.float32(2.2) * np.clip(under, 0, 1))
    found: Real32 = dark * (1 + np.float32(0.25) * np.clip(-under, 0, np.float32(0.2)))
    return found


def coloured(
    light: Real32, gloss: Real32, yarn: np.typing.NDArray[np.int16], colours: Real32
) -> Real32:
    """(3, p) the colour of yarn in some light; `yarn` is of one number, or (p,)."""
    dark = np.clip(1 - light, 0, 1)
    dark *= np.float32(0.22)
    light = light * np.float32(1.12)
    light -= np.float32(0.55) * np.maximum(light - _BRIGHT, 0)
    found = np.zeros((3, len(light)), dtype=np.float32)
    for channel in range(3):
        own = colours[:, channel][yarn]
        np.multiply(dark, own - 1, out=found[channel])
        found[channel] += 1
        found[channel] *= own
        found[channel] *= light
        found[channel] += gloss
    return found
