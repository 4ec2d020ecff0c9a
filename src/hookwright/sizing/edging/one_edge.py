"""The edging along the last row, and along the underside of the foundation."""

from __future__ import annotations

from fractions import Fraction

from hookwright.sizing.edging.base import Picked, along_places
from hookwright.sizing.edging.closing import Closing, Slope, closing, following, slope_of
from hookwright.sizing.edging.dressing import Dressed, dressed
from hookwright.sizing.edging.facts import Flatness, Shape, Side
from hookwright.sizing.edging.flatness import flatness
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import both_units
from hookwright.sizing.edging.moves import made, plain
from hookwright.sizing.edging.piece import Edged
from hookwright.sizing.edging.rows import Row, with_ends
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
        side = "RS" if piece.cut else _next_side(ground)
    return _along(ground, Side.TOP, shape, wave, picked, side, _lead_on_top(ground))


def _lead_on_top(ground: Ground) -> tuple[str, ...]:
    if ground.piece.cut:
        slip = ground.spelling.slip
        return (
            f"With {ground.facing}, join {ground.yarn} with {slip} in the first st of the"
            " last row.",
        )
    return ("Work along the last row.",)


def _next_side(ground: Ground) -> str:
    """The side that faces in the row after the last one."""
    rows = ground.piece.rows
    told = [at for at, row in enumerate(rows) if row.step.side]
    if not told:
        return ""
    side = rows[told[-1]].step.side
    turns = len(rows) - 1 - told[-1] + ground.piece.turns
    return side if turns % 2 == 0 else _OTHER[side]


_OTHER = {"RS": "WS", "WS": "RS"}


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
    lead = (
        f"With {ground.facing} and the foundation chain on top, join {ground.yarn} with"
        f" {ground.spelling.slip} in the first ch. Work along the underside of the"
        " foundation chain.",
    )
    side = "RS" if ground.spelling.tells_sides else ""
    return _along(ground, Side.FOUNDATION, shape, wave, picked, side, lead)


def chain_noun(piece: Edged) -> str:
    """What a chain of the foundation is called: by its full name where the last row has some."""
    return "foundation ch" if piece.last.tally.spaces else "ch"


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
    noun = picked.moves[0].noun if where is Side.FOUNDATION else "st"
    notes: list[str] = []
    if wave is None:
        rows = dressed([picked.moves], ground.wish, first_side)
        lies = [] if isinstance(rows, CannotBe) else [_plainly(rows, picked)]
    elif shape is Shape.WAVE:
        rows = _in_waves(ground, wave, noun)
        lies = [] if isinstance(rows, CannotBe) else [_FOLLOWS]
        notes.append(
            "It adds on the peaks and takes away in the valleys as the rows of the piece do,"
            " so that it keeps their number."
        )
    else:
        height = ground.measures.heights[0 if where is Side.FOUNDATION else -1]
        slope = slope_of(wave.in_one, height, ground.measures.wave_mm)
        closed = closing(wave, slope, height, noun)
        rows = dressed(closed.rows, ground.wish, first_side, steadied=True)
        lies = [_straight(ground, wave, slope, closed)]
        notes.extend(_what_remains(slope, closed, ground))
    if isinstance(rows, CannotBe):
        return rows
    if rows.note:
        notes.append(rows.note)
    worked = with_ends([Row(moves) for moves in rows.rows], first_side=first_side, turned=rows.turned)
    return Plan(where, shape, heading, lead, tuple(worked), tuple(lies), None, tuple(notes))


def _plainly(rows: Dressed, picked: Picked) -> Flatness:
    number = made(rows.rows[0])
    if rows.change and len(rows.rows) > 1 and made(rows.rows[1]) != number and number == made(picked.moves):
        number = made(rows.rows[1])
    length = f"{float(picked.length):.4g}"
    return flatness(
        number,
        picked.length,
        f"{number} stitches along an edge that is {length} stitches wide",
    )


_FOLLOWS = flatness(1, Fraction(1), "as many stitches as the edge has, one on each")


def _in_waves(ground: Ground, wave: Wave, noun: str) -> Dressed | CannotBe:
    if ground.wish.kind != "plain" or ground.wish.repeat is not None:
        return CannotBe(
            "A border with a repeat of its own lies on a straight edge.",
            "Ask for it on the straight edging, or for plain rows on the waves.",
        )
    rows = [following(wave, ground.wish.stitch, noun)]
    here = wave
    for _ in range(ground.wish.rows - 1):
        here = here.turned()  # it keeps its number, so each bend stays over the one below
        rows.append(following(here, ground.wish.stitch, "st"))
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


def _what_remains(slope: Slope, closed: Closing, ground: Ground) -> list[str]:
    """How deep the wave is, and what its graded rows leave of it."""
    tallest = ground.spelling.stitch(closed.tallest)
    shortest = ground.spelling.stitch("sc")
    rows = "row" if len(closed.rows) == 1 else f"{len(closed.rows)} rows"
    if slope.width_mm is None:
        return [
            f"No gauge of the waves is known, so that {closed.dropped} are dropped in each as"
            " is usual; measure one wave across, from peak to peak, and some rows up, to have"
            " the number."
        ]
    depth, left = slope.depth * slope.width_mm, (slope.depth - closed.filled) * slope.width_mm
    if left <= slope.width_mm / 2:
        rest = "and leave it straight"
    else:
        rest = f"and leave about {both_units(left)}, which blocking has to even out"
    return [
        f"The wave is {both_units(depth)} deep from peak to valley; from {shortest} to"
        f" {tallest} the graded {rows} take {both_units(depth - left)} of it {rest}."
    ]
