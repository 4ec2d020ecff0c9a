"""Which colours are in a photo of the balls?

The photo is made small, its pixels gathered by colour, and these fall into groups in OKLab,
where distances are as large as they look. Lightness counts for less, for a ball has a light
and a shady side; and a small ball counts for more than its share of the photo. Each group
is shown by the one of its colours that lies in its middle. Nothing is left to chance.

Sources: Ottosson 2020 (OKLab); Lloyd 1982 (k-means); Gonzalez 1985 (the farthest as the
next seed).
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Sequence
from io import BytesIO
from math import atan2, degrees, hypot, sqrt

from msgspec import Struct

MOST_PIXELS = 60_000_000
"""More than any camera of a telephone makes at once in one of its own colours."""
_SIDE = 180
_BITS = 3
"""Bits of each channel that are too fine to tell yarns apart."""
_OF_LIGHTNESS = 0.3
_ROUNDS = 15
_MORE = 3
"""Groups to begin with, for each that is wanted."""
_ALIKE = 0.035
"""Distance in OKLab under which two groups are one: a just seen difference is 0.02."""
_LIT = 0.25
"""The part of a ball that is taken to lie in the light: our choice, by rendered scenes."""
_EDGE = 40
"""Steps of a channel, of 255, between two pixels that an edge lies between."""
_GREY, _PALE = 0.035, 0.06
_OPAQUE = 128

Lab = tuple[float, float, float]


class NoPhotoError(Exception):
    """A file that no colours can be taken from, with what to do in its words."""


class InPhoto(Struct, frozen=True):
    """A colour of a photo.

    Attributes:
        code: Six hex digits.
        share: Its part of the photo.
        name: What it may be called until she gives it a name.
        lightness: Lightness in OKLCH, 0 to 1.
        chroma: Chroma in OKLCH.
        hue: Hue in OKLCH in degrees; None for a grey.
    """

    code: str
    share: float
    name: str
    lightness: float
    chroma: float
    hue: float | None


class _Shade(Struct, frozen=True):
    """Like pixels: their mean, in OKLab, with light and shade evened, and how many."""

    rgb: tuple[int, int, int]
    lab: Lab
    seen: Lab
    pixels: int


def colours_in(data: bytes, number: int) -> tuple[InPhoto, ...]:
    """The colours of a photo, the largest first; fewer where it has no more.

    Args:
        data: The file as it is.
        number: How many are wanted.

    Raises:
        NoPhotoError: If it is no picture, or one too large.
    """
    shades = _shades(_pixels(data))
    groups = _groups(shades, number)
    whole = sum(shade.pixels for shade in shades)
    found = []
    for group in sorted(groups, key=lambda own: (-_size(own), own[0].rgb)):
        middle = _middle(group)
        found.append((middle, _size(group) / whole))
    names = _names([middle.lab for middle, _ in found])
    return tuple(
        InPhoto("#{:02x}{:02x}{:02x}".format(*m.rgb), round(share, 4), name, *_lch(m.lab))
        for (m, share), name in zip(found, names, strict=True)
    )


def _pixels(data: bytes) -> list[tuple[int, int, int]]:
    """The pixels of the photo made small, those that are seen through left out."""
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415 - for photos only

    if data[4:8] == b"ftyp" and data[8:12] in _HEIC:
        raise NoPhotoError("It is a HEIC photo: save it as JPEG or PNG, and take that.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(data)) as photo:
                wide, high = photo.size
                if wide * high > MOST_PIXELS:
                    raise NoPhotoError(_TOO_LARGE.format(wide, high))
                photo.draft("RGB", (2 * _SIDE, 2 * _SIDE))
                small = photo.convert("RGBA")
        small.thumbnail((_SIDE, _SIDE), Image.Resampling.BOX)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise NoPhotoError("It has far too many pixels: save it smaller.") from error
    except UnidentifiedImageError as error:
        raise NoPhotoError(
            "It is no picture that can be read: take a JPEG or PNG."
        ) from error
    except (OSError, ValueError, SyntaxError, MemoryError) as error:
        raise NoPhotoError("It is broken, or cut off: save it again.") from error
    raw = small.tobytes()
    quads = list(zip(raw[::4], raw[1::4], raw[2::4], raw[3::4], strict=True))
    pixels = [(r, g, b) for r, g, b, seen in quads if seen >= _OPAQUE]
    if not pixels:
        raise NoPhotoError("Nothing is to be seen in it: all of it is transparent.")
    within = [(r, g, b) for r, g, b, seen in _within(quads, small.width) if seen >= _OPAQUE]
    return within if len(within) * 2 > len(pixels) else pixels


Quad = tuple[int, int, int, int]


def _within(quads: Sequence[Quad], wide: int) -> Iterator[Quad]:
    """The pixels that are no edge: on an edge two colours are mixed to one that nobody has.

    An edge is where the pixels on its two sides differ by much more than strands do.
    """
    high = len(quads) // wide
    for y in range(high):
        for x in range(wide):
            left = quads[y * wide + max(x - 1, 0)]
            right = quads[y * wide + min(x + 1, wide - 1)]
            above = quads[max(y - 1, 0) * wide + x]
            below = quads[min(y + 1, high - 1) * wide + x]
            if max(_step(left, right), _step(above, below)) < _EDGE:
                yield quads[y * wide + x]


def _step(one: Quad, other: Quad) -> int:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1]), abs(one[2] - other[2]))


_HEIC = {b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1"}
_TOO_LARGE = "It has {} x {} pixels, which is too many: save it smaller."


def _shades(pixels: Sequence[tuple[int, int, int]]) -> list[_Shade]:
    sums: dict[tuple[int, int, int], list[int]] = {}
    for r, g, b in pixels:
        own = sums.setdefault((r >> _BITS, g >> _BITS, b >> _BITS), [0, 0, 0, 0])
        own[0] += r
        own[1] += g
        own[2] += b
        own[3] += 1
    found = []
    for _, (r, g, b, many) in sorted(sums.items()):
        rgb = (round(r / many), round(g / many), round(b / many))
        lab = oklab(rgb)
        found.append(_Shade(rgb, lab, _evened(lab), many))
    return found


def oklab(rgb: tuple[int, int, int]) -> Lab:
    """A colour of the screen in OKLab. Source: Ottosson 2020."""
    r, g, b = (_linear(one / 255) for one in rgb)
    long = (0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b) ** (1 / 3)
    middle = (0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b) ** (1 / 3)
    short = (0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b) ** (1 / 3)
    return (
        0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short,
    )


def _linear(one: float) -> float:
    return one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4


def _evened(lab: Lab) -> Lab:
    """A colour as it is compared.

    Shade makes all three numbers of OKLab smaller alike, so what they are to the lightness
    is the same on both sides of a ball; the lightness itself counts for less.
    """
    light = max(lab[0], _DARKEST)
    return _OF_LIGHTNESS * lab[0], _USUAL * lab[1] / light, _USUAL * lab[2] / light


_DARKEST, _USUAL = 0.2, 0.7


def _groups(shades: Sequence[_Shade], number: int) -> list[list[_Shade]]:
    """The shades in so many groups at most; two that look alike are one."""
    weights = [shade.pixels**0.5 for shade in shades]
    centres = _seeds(shades, weights, _MORE * number)
    groups: list[list[int]] = []
    for _ in range(_ROUNDS):
        groups = [[] for _ in centres]
        for at, shade in enumerate(shades):
            near = min(range(len(centres)), key=lambda n: _apart(shade.seen, centres[n]))
            groups[near].append(at)
        groups = [own for own in groups if own]
        means = [_mean(shades, weights, own) for own in groups]
        if means == centres:
            break
        centres = means
    return _joined([[shades[at] for at in own] for own in groups], number)


def _seeds(shades: Sequence[_Shade], weights: Sequence[float], number: int) -> list[Lab]:
    """Where groups begin: the shade seen most, then each time the farthest of many."""
    first = max(range(len(shades)), key=lambda at: (weights[at], -at))
    seeds = [shades[first].seen]
    far = [_apart(shade.seen, seeds[0]) for shade in shades]
    while len(seeds) < min(number, len(shades)):
        at = max(range(len(shades)), key=lambda n: (far[n] * weights[n], -n))
        if not far[at]:
            break
        seeds.append(shades[at].seen)
        far = [min(d, _apart(s.seen, seeds[-1])) for d, s in zip(far, shades, strict=True)]
    return seeds


def _apart(one: Lab, other: Lab) -> float:
    """The square of the distance of two colours."""
    return sum((a - b) ** 2 for a, b in zip(one, other, strict=True))


def _mean(shades: Sequence[_Shade], weights: Sequence[float], own: Sequence[int]) -> Lab:
    whole = sum(weights[at] for at in own)
    light, a, b = (sum(weights[at] * shades[at].seen[n] for at in own) for n in range(3))
    return light / whole, a / whole, b / whole


def _joined(groups: list[list[_Shade]], number: int) -> list[list[_Shade]]:
    """The groups put together, the least different first, until so many are left.

    Source: Ward 1963, "Hierarchical grouping to optimize an objective function".
    """
    found = [
        (_mean(group, [s.pixels for s in group], range(len(group))), group)
        for group in groups
    ]
    while len(found) > 1:
        pairs = [
            (_apart(found[i][0], found[j][0]), _both(found[i][1], found[j][1]), i, j)
            for i in range(len(found))
            for j in range(i)
        ]
        _, _, i, j = min(pairs, key=lambda pair: (pair[0] * pair[1], pair[2:]))
        if len(found) <= number:
            apart, _, i, j = min(pairs)
            if apart >= _ALIKE**2:
                break
        group = [*found[j][1], *found[i][1]]
        mean = _mean(group, [s.pixels for s in group], range(len(group)))
        found = [one for at, one in enumerate(found) if at not in (i, j)]
        found.append((mean, group))
    return [group for _, group in found]


def _both(one: Sequence[_Shade], other: Sequence[_Shade]) -> float:
    """How much it weighs that two groups become one."""
    a, b = sqrt(_size(one)), sqrt(_size(other))
    return a * b / (a + b)


def _size(group: Sequence[_Shade]) -> int:
    return sum(shade.pixels for shade in group)


def _middle(group: Sequence[_Shade]) -> _Shade:
    """The shade amid the lightest part of a group: yarn is judged in the light."""
    by_light = sorted(group, key=lambda shade: (-shade.lab[0], shade.rgb))
    lit, rest = [], _size(group) * _LIT
    for shade in by_light:
        lit.append(shade)
        rest -= shade.pixels
        if rest <= 0:
            break
    weights = [shade.pixels for shade in lit]
    mean = _mean(lit, weights, range(len(lit)))
    return min(lit, key=lambda shade: (_apart(shade.seen, mean), shade.rgb))


def _lch(lab: Lab) -> tuple[float, float, float | None]:
    light, a, b = lab
    chroma = hypot(a, b)
    hue = degrees(atan2(b, a)) % 360
    return round(light, 4), round(chroma, 4), round(hue, 1) if chroma > 0.002 else None


_HUES = ((12, "pink"), (45, "red"), (72, "orange"), (112, "yellow"), (160, "green"),
         (222, "teal"), (282, "blue"), (325, "purple"), (361, "pink"))  # fmt: skip
_GREYS = ((0.3, "black"), (0.55, "dark grey"), (0.8, "grey"), (0.93, "light grey"),
          (2, "white"))  # fmt: skip
_BROWNS = {"orange", "yellow", "red"}


def plain_name(lab: Lab) -> str:
    """What a colour is called in plain words: "dark blue". Our own choice of borders."""
    light, chroma, hue = _lch(lab)
    if chroma < _GREY or hue is None:
        warm = hue is not None and 40 < hue < 120 and chroma > _GREY / 2
        return "cream" if warm and light > 0.85 else _upto(_GREYS, light)
    word = _upto(_HUES, hue)
    if chroma < _PALE and word in _BROWNS:
        return "cream" if light > 0.85 else "beige" if light > 0.6 else "brown"
    if word in _BROWNS - {"red"} and light < 0.58:
        return "olive" if word == "yellow" else "brown"
    if light < 0.42:
        return f"dark {word}"
    return f"light {word}" if light > 0.78 and word != "yellow" else word


def _upto(borders: Sequence[tuple[float, str]], number: float) -> str:
    return next(word for border, word in borders if number < border)


def _names(labs: Sequence[Lab]) -> list[str]:
    """A name for each, with a number where several have the same."""
    words = [plain_name(lab) for lab in labs]
    found: list[str] = []
    for at, word in enumerate(words):
        before = words[:at].count(word)
        found.append(f"{word} {before + 1}" if before else word)
    return found
