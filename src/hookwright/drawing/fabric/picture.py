"""The picture of the fabric of a pattern, piece by piece.

From a swatch to a queen blanket: larger stitches are drawn strand by strand, small ones in
great number from maps. What cannot lie as it is worked gets the best picture there is, and
what is wrong with it is said.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from hookwright.checking import Checked
from hookwright.drawing.fabric.cloth import Cloth, Naming, cloth_of, face_of, without
from hookwright.drawing.fabric.full import Drawn, drawn
from hookwright.drawing.fabric.halo import with_halo
from hookwright.drawing.fabric.scene import Lie, Scene, box_of, lie_of, scene_of
from hookwright.drawing.fabric.shades import YarnColour, parts_of, yarn_colours
from hookwright.drawing.fabric.standing import is_begun_below, laid_double
from hookwright.drawing.fabric.strands import Real32
from hookwright.drawing.fabric.stuffed import is_stuffed, seen_from_the_side
from hookwright.drawing.fabric.tiled import drawn_tiled
from hookwright.drawing.fabric.tubes import Frame
from hookwright.drawing.fabric.wool import as_linear, as_screen
from hookwright.drawing.fabric.yarn import diameter_of, yarns_in
from hookwright.drawing.levelling import levelled
from hookwright.drawing.slack import hung_straight
from hookwright.progress import Progress, stretch, tell
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.facts import Degree
from hookwright.shape.fronts import front_of
from hookwright.shape.laying import Piece, heights_in
from hookwright.shape.relaxing import relax
from hookwright.shape.resting import AtRest, pieces_at_rest, stitches_of
from hookwright.shape.starts import start_of

TABLE = "#f6f3ee"
SMALL, FEW, MANY = 14.0, 3_000, 8_000
"""With more than a few stitches, a picture is laid of maps below so many points a stitch;
with many, always."""
HALO_FROM = 32.0
"""Points a stitch from which single fibres are seen."""
_PAD = 0.6
"""Widths of table about the fabric."""
_FINER = 2
MOST_POINTS = {False: 6_000_000, True: 16_000_000}
"""The largest picture strand by strand, and laid of maps: each takes up to a gigabyte."""
LAYING = 0.4
"""The share of the time in which the piece is laid out."""


class Wish(Struct, frozen=True):
    """What picture is wanted.

    Attributes:
        width: How many points wide.
        wrong_side: Whether the wrong side is to be seen.
        left_handed: Whether it is worked by a left-hander.
        table: The colour it lies on, "#rrggbb"; "" for a picture that is clear beside it.
        part: The part of which a piece is wanted; "" for the largest piece.
        size: Which size of the pattern.
    """

    width: int = 1000
    wrong_side: bool = False
    left_handed: bool = False
    table: str = TABLE
    part: str = ""
    size: int = 0


class Seen(Struct, frozen=True, eq=False):
    """A piece that is to be drawn.

    Attributes:
        cloth: The piece as it is looked at.
        diameter: That of its yarn, in widths of a stitch.
        stitch_mm: How wide its stitches are; None where nothing tells it.
        colours: Its yarns.
        part: The part it begins with.
        rows: How many rows it has, in words: "6 rounds".
        said: What is to be said of it, in sentences.
    """

    cloth: Cloth
    diameter: float
    stitch_mm: float | None
    colours: tuple[YarnColour, ...]
    part: str
    rows: str
    said: tuple[str, ...]


class FabricPicture(Struct, frozen=True, eq=False):
    """A picture of fabric.

    Attributes:
        points: (h, w, 3) uint8, or (h, w, 4) where it is clear beside the fabric.
        scale: Points to a width of a stitch.
        stitch_mm: How wide a stitch is; None where nothing tells it.
        stitches: How many stitches and chains are drawn.
        part: The part it shows.
        description: What somebody who looks at it sees.
        said: What is to be said of it, in sentences.
    """

    points: NDArray[np.uint8]
    scale: float
    stitch_mm: float | None
    stitches: int
    part: str
    description: str
    said: tuple[str, ...]


def fabric_picture(
    checked: Checked,
    wish: Wish,
    progress: Progress | None = None,
    like: Checked | None = None,
) -> FabricPicture | str:
    """A picture of a pattern's fabric, or why there is none.

    Args:
        checked: The pattern.
        wish: What picture is wanted.
        progress: Told how far it is; False stops.
        like: The pattern that it is a sample of, which has stitches as large.

    Raises:
        Cancelled: When `progress` answers False.
    """
    seen = piece_wished(checked, wish, stretch(progress, 0.0, LAYING), like)
    if isinstance(seen, str):
        return seen
    return picture_of(seen, wish, stretch(progress, LAYING, 1.0, "drawing"))


def piece_wished(
    checked: Checked,
    wish: Wish,
    progress: Progress | None = None,
    like: Checked | None = None,
) -> Seen | str:
    """The piece that a picture is wanted of, or why there is none.

    Raises:
        Cancelled: When `progress` answers False.
    """
    reasons: list[str] = []
    pieces: list[Seen] = []
    for seen in pieces_seen(checked, wish, progress, like):
        if isinstance(seen, str):
            reasons.append(seen)
        elif not wish.part or seen.part.casefold() == wish.part.casefold():
            pieces.append(seen)
    if not pieces:
        return next(iter(reasons), "No fabric is worked in it.")
    return max(pieces, key=lambda piece: piece.cloth.size)


def pieces_seen(
    checked: Checked,
    wish: Wish,
    progress: Progress | None = None,
    like: Checked | None = None,
) -> Iterator[Seen | str]:
    """The pieces of a pattern as they are looked at, or why one cannot be.

    Raises:
        Cancelled: When `progress` answers False.
    """
    stitches = stitches_of(like or checked)
    for rest in pieces_at_rest(checked, wish.size, progress, stitches):
        if isinstance(rest, Piece):
            yield rest.reason or "No fabric is worked in it."
        else:
            yield _seen(checked, rest, wish)


def _seen(checked: Checked, rest: AtRest, wish: Wish) -> Seen:
    graph, piece = rest.graph, rest.piece
    part = piece.named(checked.reading.pattern)
    position, faces, said = _lying(rest, f"{checked.design.title} {part}")
    own = {name: d for d in checked.worked.pattern.definitions for name in d.names}
    naming = Naming(own, heights_in(checked.worked, wish.size))
    view = face_of(graph.courses, piece.outcomes) * (-1 if wish.wrong_side else 1)
    names, yarn = yarns_in(checked, wish.size, piece)
    cloth = cloth_of(graph, position, view, naming, yarn)
    stitch_mm = rest.stitch.width_mm if rest.stitch is not None else None
    colours = yarn_colours(checked, names)
    if any(not colour.told for colour in colours) and len(colours) > 1:
        said = (*said, "Colours without a code in the worksheet are stand-ins.")
    return Seen(
        without(cloth, faces),
        diameter_of(checked, stitch_mm, graph),
        stitch_mm,
        colours,
        part,
        _counted(rest),
        (*said, *((piece.reason,) if piece.reason else ())),
    )


def _counted(rest: AtRest) -> str:
    """How many rows or rounds a piece has."""
    number = len(rest.piece.outcomes)
    rounds = all(course.closed for course in rest.graph.courses if course.row)
    return f"{number} {'round' if rounds else 'row'}{'' if number == 1 else 's'}"


def _lying(rest: AtRest, named: str) -> tuple[Complex, NDArray[np.bool_], tuple[str, ...]]:
    """Where a piece is seen to lie or stand, which of it is, and what is to be said.

    `named` is what it and the design are called.
    """
    graph, verdict = rest.graph, rest.verdict
    every = np.ones(graph.size, dtype=bool)
    if rest.relaxed is None:
        if is_stuffed(graph):
            position, faces = seen_from_the_side(graph)
            return position, faces, ("It stands up, and is shown from the side.",)
        front = rest.front or front_of(graph)
        if front is not None:
            what = "Its front" if front.garment else "It stands up, and"
            way = -1 if is_begun_below(named) else 1
            return way * front.position, front.upper, (f"{what} is shown laid double.",)
        position, faces = laid_double(graph)
        return position, faces, ("It stands up, and is shown laid double.",)
    position = rest.relaxed.position
    said: tuple[str, ...] = ()
    if rest.folds:
        position = relax(graph, start_of(graph), shear=DRAWING).position
        said = ("It cannot lie flat as worked; the picture is the nearest that does.",)
    elif verdict.degree is Degree.STRONG:
        said = (verdict.advice,)
    else:  # lace is drawn as it is pinned out
        in_rows = hung_straight(rest)
        position = position if in_rows is None else in_rows
    ways = np.array([course.direction > 0 for course in graph.courses], dtype=bool)
    return levelled(graph, position, ways), every, said


def picture_of(seen: Seen, wish: Wish, progress: Progress | None = None) -> FabricPicture:
    """The picture of a piece.

    Raises:
        Cancelled: When `progress` answers False.
    """
    lie = lie_of(seen.cloth)
    frame = frame_of(lie, wish)
    colours = np.array([parts_of(colour.code) for colour in seen.colours])

    def told(done: float) -> None:
        tell(progress, done)

    if is_laid_of_maps(seen.cloth.size, frame.scale):
        light = drawn_tiled(lie, seen.diameter, frame, colours, told)
    else:
        scene = scene_of(lie, seen.diameter)
        light = drawn(scene, frame, colours, _FINER, told)
        if frame.scale >= HALO_FROM:
            light = with_halo(light, scene, frame, colours)
    said = seen.said
    if frame.wide < wish.width:
        said = (*said, f"It is {frame.wide:,} points wide: no larger one is drawn.")
    return FabricPicture(
        points=_on_table(light, wish.table),
        scale=frame.scale,
        stitch_mm=seen.stitch_mm,
        stitches=int(seen.cloth.shown.sum()),
        part=seen.part,
        description=described(seen, wish),
        said=said,
    )


def is_laid_of_maps(stitches: int, scale: float) -> bool:
    """Whether a picture of so many stitches, so large, is laid of maps."""
    return stitches > MANY or (stitches > FEW and scale < SMALL)


def frame_of(lie: Lie, wish: Wish) -> Frame:
    """What part of the plane a picture shows; it is never larger than can be drawn."""
    left, right, bottom, top = box_of(lie)
    wide, high = right - left + 2 * _PAD, top - bottom + 2 * _PAD
    scale = wish.width / wide
    across = wish.width
    most = MOST_POINTS[is_laid_of_maps(lie.cloth.size, scale)]
    if scale * scale * wide * high > most:
        scale = float(np.sqrt(most / (wide * high)))
        across = max(1, int(scale * wide))
    high_points = max(1, round(scale * high))
    return Frame(left - _PAD, top + _PAD, scale, across, high_points, wish.left_handed)


def _on_table(light: Drawn, table: str) -> NDArray[np.uint8]:
    if not table:
        cover = np.maximum(light.cover, np.float32(1e-3))
        own = (light.light / cover[..., None]).astype(np.float32)
        clear = (light.cover * 255 + np.float32(0.5)).astype(np.uint8)
        return np.concatenate([as_screen(own), clear[..., None]], axis=2)
    ground = as_linear(np.array(parts_of(table)))
    bare = (1 - light.cover) * light.table
    beside = (bare[..., None] * ground).astype(np.float32)
    whole: Real32 = light.light + beside
    return as_screen(whole)


def described(seen: Seen, wish: Wish) -> str:
    """What somebody who looks at a picture sees, in a sentence."""
    side = "wrong" if wish.wrong_side else "right"
    yarns = [colour.name for colour in seen.colours if colour.name]
    of = f" in {', '.join(yarns[:-1])} and {yarns[-1]}" if len(yarns) > 1 else ""
    hand = ", worked left-handed" if wish.left_handed else ""
    part = f"{seen.part}: " if seen.part else ""
    words = f"the {side} side of crochet fabric, {seen.rows}{of}{hand}."
    return f"{part}{words}" if part else words[0].upper() + words[1:]


def scene_seen(seen: Seen) -> Scene:
    """The strands of a piece, for other pens."""
    return scene_of(lie_of(seen.cloth), seen.diameter)
