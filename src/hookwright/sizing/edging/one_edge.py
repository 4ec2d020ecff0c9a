"""The edging along the last row, and along the underside of the foundation."""

from __future__ import annotations

from fractions import Fraction

from hookwright.sizing.edging.base import Picked, along_places
from hookwright.sizing.edging.closing import (
    BY_CUSTOM,
    Closing,
    Slope,
    closing,
    following,
    on_itself,
    slope_of,
)
from hookwright.sizing.edging.dressing import Dressed, dressed
from hookwright.sizing.edging.facts import Flatness, Shape, Side
from hookwright.sizing.edging.flatness import flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import both_units, in_stitches
from hookwright.sizing.edging.moves import made, plain
from hookwright.sizing.edging.piece import chain_noun
from hookwright.sizing.edging.rows import with_ends
from hookwright.sizing.edging.wave import Wave, wave_under


def along_top(ground: Ground, shape: Shape, *, turned: bool) -> Plan | CannotBe:
    """The edging along the last row.

    Args:
        ground: The piece.
        shape: What to make of it: PLAIN on a straight edge, STRAIGHT or WAVE on waves.
        turned: Whether its places lie the other way round than they were worked.
    """
    piece = ground.piece
    if piece.is_round:
        return CannotBe(
            "The piece is worked in rounds: its last round is its only edge.",
            "Ask for the edging all round.",
        )
    wave = ground.wave.turned() if ground.wave is not None and turned else ground.wave
    picked = along_places(piece.top(turned=turned), ground.wish.stitch)
    side = ""
    if ground.spelling.tells_sides:
        side = "RS" if piece.cut else piece.next_side
    return _along(ground, Side.TOP, shape, wave, picked, side, _lead_on_top(ground))


def _lead_on_top(ground: Ground) -> tuple[str, ...]:
    if ground.piece.cut:
        return (f"{ground.joined(f'the first st of {ground.last_row}')}.",)
    if ground.piece.stays:
        return ("Turn, and work along the last row.",)
    return ("Work along the last row.",)


def under_foundation(ground: Ground, shape: Shape, *, turned: bool) -> Plan | CannotBe:
    """The edging along the underside of the foundation chain."""
    piece = ground.piece
    if not piece.chains:
        return CannotBe(
            "The piece does not begin on a foundation chain with stitches along it, so that"
            " it has no underside to work along."
        )
    wave = wave_under(piece)
    if ground.wave is not None and wave is None:
        return CannotBe(
            "The rows lie in waves, but the first row does not tell which chains lie under"
            " their peaks."
        )
    if wave is not None and turned:
        wave = wave.turned()
    stitch = ground.wish.stitch
    noun = chain_noun(piece)
    picked = Picked((plain(stitch, noun),) * piece.chains, Fraction(piece.chains))
    joined = ground.joined("the first ch").replace(
        "facing,", "facing and the foundation chain on top,", 1
    )
    lead = (f"{joined}. Work along the underside of the foundation chain.",)
    side = "RS" if ground.spelling.tells_sides else ""
    return _along(ground, Side.FOUNDATION, shape, wave, picked, side, lead)


def _along(
    ground: Ground,
    where: Side,
    shape: Shape,
    wave: Wave | None,
    picked: Picked,
    first_side: str,
    lead: tuple[str, ...],
) -> Plan | CannotBe:
    """The edging along one of the two ends of a piece."""
    heading = {Side.TOP: "Top edging", Side.FOUNDATION: "Foundation edging"}[where]
    notes: list[str] = []
    if wave is None:
        rows = dressed([picked.moves], ground.wish, first_side)
        lies = [] if isinstance(rows, CannotBe) else [_plainly(ground, rows, picked)]
    elif shape is Shape.WAVE:
        rows = _in_waves(ground, wave)
        lies = [] if isinstance(rows, CannotBe) else [_FOLLOWS]
        notes.append(_RESTS if wave.rests else _ADDS)
    else:
        end = 0 if where is Side.FOUNDATION else -1
        height = ground.measures.heights[end]
        slope = slope_of(wave, ground.height_at(end), ground.measures.wave_mm)
        closed = closing(wave, slope, height)
        rows = dressed(closed.rows, ground.wish, first_side, steadied=True)
        lies = [_straight(ground, wave, slope, closed)]
        notes.extend(what_remains(slope, closed, ground))
    if isinstance(rows, CannotBe):
        return rows
    if rows.note:
        notes.append(rows.note)
    worked = with_ends(rows.rows, first_side=first_side, turned=rows.turned)
    return Plan(where, shape, heading, lead, worked, tuple(lies), None, tuple(notes))


_ADDS = (
    "It adds on the peaks and takes away in the valleys as the rows of the piece do, so"
    " that it keeps their number."
)
_RESTS = (
    "It is plain, as the rows between those that add and take away are, and goes along"
    " the waves as they lie."
)


def _plainly(ground: Ground, rows: Dressed, picked: Picked) -> Flatness:
    number = made(picked.moves) + rows.change
    length = in_stitches(picked.length, ground.width_mm)
    return flatness(number, picked.length, f"{number} stitches on an edge of {length}")


_FOLLOWS = flatness(1, Fraction(1), "as many stitches as the edge has, one on each")


def _in_waves(ground: Ground, wave: Wave) -> Dressed | CannotBe:
    if ground.wish.kind != "plain" or ground.wish.repeat is not None:
        return CannotBe(
            "A border with a repeat of its own lies on a straight edge.",
            "Ask for it on the straight edging, or for plain rows on the waves.",
        )
    if wave.rests:
        row = tuple(plain(ground.wish.stitch, noun) for noun in wave.nouns)
        over = (plain(ground.wish.stitch),) * wave.places
        number = ground.wish.rows
        return Dressed((row, *[over] * (number - 1)), (True,) * (number - 1))
    rows = [following(wave, ground.wish.stitch)]
    if made(rows[0]) != wave.places:
        return CannotBe(
            "The wave does not begin and end alike there, so that a row along it does not"
            " keep its number."
        )
    here = wave
    for _ in range(ground.wish.rows - 1):
        here = on_itself(
            here
        ).turned()  # it keeps its number, so each bend stays over the one below
        rows.append(following(here, ground.wish.stitch))
    return Dressed(tuple(rows), (True,) * (len(rows) - 1))


def _straight(ground: Ground, wave: Wave, slope: Slope, closed: Closing) -> Flatness:
    number = wave.in_one - closed.dropped
    width = Fraction(slope.width).limit_denominator(10**6)
    wide = f"{slope.width:.1f}"
    how = (
        f"{number} stitches over a wave of {wave.in_one}, {closed.dropped} dropped; "
        f"straight across it takes {wide}"
    )
    if ground.measures.wave_mm is not None:
        return flatness(number, width, f"{how}, by the gauge of the waves")
    return flatness(number, width, f"{how}, if it lies by the proportions of its stitches")


def what_remains(slope: Slope, closed: Closing, ground: Ground) -> list[str]:
    """How deep the wave is, and what its graded rows leave of it."""
    tallest = ground.spelling.stitch(closed.tallest)
    shortest = ground.spelling.stitch("sc")
    rows = "row" if len(closed.rows) == 1 else "rows"
    if slope.width_mm is None:
        usual = closed.dropped == BY_CUSTOM
        by = "as is usual" if usual else "by the proportions of its stitches"
        told = (
            f"No gauge of the waves is known, so that {closed.dropped} are dropped in each"
            f" {by}: measure one wave across, from peak to peak, and some rows up, to have"
            " the number."
        )
        return [told, _deep_by_proportions(slope, closed, rows)]
    depth = slope.depth * slope.width_mm
    left = (slope.depth - closed.filled) * slope.width_mm
    if left <= slope.width_mm / 2:
        rest = "and no more is left"
    else:
        rest = f"and about {both_units(left)} is left for blocking to even out"
    takes = "takes" if len(closed.rows) == 1 else "take"
    told = (
        f"The wave is {both_units(depth)} deep from peak to valley; from {shortest} to"
        f" {tallest} the graded {rows} {takes} {both_units(depth - left)} of it {rest}."
    )
    return [told]


def _deep_by_proportions(slope: Slope, closed: Closing, rows: str) -> str:
    """How deep a wave is that nobody has measured, in widths of a stitch."""
    takes = "takes" if rows == "row" else "take"
    return (
        f"By the proportions of its stitches the wave is about {slope.depth:.1f} stitches"
        f" deep, of which the graded {rows} {takes} {closed.filled:.1f}."
    )
