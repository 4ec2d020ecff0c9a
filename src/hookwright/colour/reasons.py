"""Why is an order good, and what is there to look at? In sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.colour.arrangement import ahead
from hookwright.colour.facts import Palette, Score, StripesWorked
from hookwright.colour.working_up import MINUTES

ALIKE = 10_00
"""Neighbours that differ less are hardly parted, in grey or by another eye: our own choice,
half of what is taken for alike in full colour."""
_SHOWN = 3


def reasons_for(
    palette: Palette,
    colours: Sequence[int],
    score: Score,
    worked: StripesWorked,
    *,
    repeated: bool,
    blend: bool,
) -> tuple[str, ...]:
    """What speaks for an order, and what to look at."""
    behind = ahead(colours, 1, repeated=repeated)
    touching = [(min(p), max(p)) for p in zip(colours, behind, strict=False)]
    pairs = list(dict.fromkeys(touching))
    return (
        *_of_difference(palette, touching, blend=blend),
        *_of_rhythm(score, len(colours) if repeated else len(colours) - 2, blend=blend),
        *_in_grey(palette, pairs),
        *_to_others(palette, pairs),
        *_of_ends(worked),
    )


def _of_difference(
    palette: Palette, pairs: Sequence[tuple[int, int]], *, blend: bool
) -> Iterator[str]:
    if not pairs:
        return
    apart = {pair: palette.difference[pair[0]][pair[1]] for pair in pairs}
    worst = (max if blend else min)(apart, key=lambda pair: (apart[pair], pair))
    mean = sum(apart[pair] for pair in pairs) / len(pairs) / 100
    which = "most different" if blend else "most alike"
    yield (
        f"Of neighbours {_told(palette, worst)} are {which}: they differ by "
        f"{apart[worst] / 100:.1f}, neighbours on the whole by {mean:.1f}."
    )


def _of_rhythm(score: Score, inner: int, *, blend: bool) -> Iterator[str]:
    turned = abs(score.rhythm)
    if inner > 0 and not blend:
        yield f"{turned} of {inner} stripes are lighter or darker than both beside them."


def _in_grey(palette: Palette, pairs: Sequence[tuple[int, int]]) -> Iterator[str]:
    light = [shade.lightness for shade in palette.shades]
    alike = [(a, b) for a, b in pairs if abs(light[a] - light[b]) < ALIKE]
    if alike:
        yield f"Hardly parted in grey: {_listed(palette, alike)}."


def _to_others(palette: Palette, pairs: Sequence[tuple[int, int]]) -> Iterator[str]:
    """Pairs that others hardly part; those that nobody parts are told already."""
    for vision, table in palette.seen:
        alike = [
            (a, b) for a, b in pairs if table[a][b] < ALIKE <= palette.difference[a][b]
        ]
        if alike:
            yield f"Hardly parted by those who are {vision}: {_listed(palette, alike)}."


def _of_ends(worked: StripesWorked) -> Iterator[str]:
    least, most = (n * worked.ends for n in MINUTES)
    told = (
        f"{worked.ends} ends to weave in if each stripe is cut, {least} to {most} minutes"
    )
    if worked.ends_carried < worked.ends:
        least, most = (n * worked.ends_carried for n in MINUTES)
        told += (
            f"; {worked.ends_carried} if colours are carried up the side, "
            f"{least} to {most} minutes"
        )
    yield f"{told}."


def _listed(palette: Palette, pairs: Sequence[tuple[int, int]]) -> str:
    told = ", ".join(_told(palette, pair) for pair in pairs[:_SHOWN])
    more = len(pairs) - _SHOWN
    return f"{told} and {more} more" if more > 0 else told


def _told(palette: Palette, pair: tuple[int, int]) -> str:
    return " and ".join(map(palette.label, pair))
