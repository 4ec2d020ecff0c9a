"""Which edgings can be worked on a piece, each proven together with it?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.sizing.edging.all_round import all_round
from hookwright.sizing.edging.along_sides import along_side
from hookwright.sizing.edging.borders import KINDS
from hookwright.sizing.edging.facts import (
    Edgings,
    Flatness,
    Offered,
    Reason,
    Refused,
    Shape,
    Side,
    Wish,
)
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan, ground_of
from hookwright.sizing.edging.last_round import round_the_last
from hookwright.sizing.edging.lengths import both_units
from hookwright.sizing.edging.moves import made
from hookwright.sizing.edging.one_edge import along_top, under_foundation
from hookwright.sizing.edging.piece import pieces_of
from hookwright.sizing.edging.placing import block, place_for
from hookwright.sizing.edging.proof import Base, Proven, base_of, prove
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import (
    by_sizes,
    count_words,
    for_all_sizes,
    row_words,
)
from hookwright.sizing.edging.starting import chain_for
from hookwright.sizing.edging.widths import width_of, width_told

ORDER = (Side.TOP, Side.FOUNDATION, Side.LEFT, Side.RIGHT, Side.ALL)


class Worked(Struct, frozen=True):
    """What is offered, and the text with it.

    Attributes:
        edgings: Edgings and refusals.
        proven: The pattern with all that was asked for in it; None where nothing was
            offered, or where no sides were named and each stands for itself.
    """

    edgings: Edgings
    proven: Proven | None = None


class _Text(Struct, frozen=True):
    """An edging put into words, for all sizes."""

    plan: Plan
    lines: tuple[str, ...]
    rows: tuple[str, ...]
    stitches: tuple[int, ...]
    width: Fraction
    width_mm: Fraction | None
    wide: str

    @property
    def block(self) -> tuple[str, str]:
        """Its heading and all its text."""
        return self.plan.heading, block(self.plan.heading, self.lines)


def edgings_of(checked: Checked, wish: Wish) -> Worked:
    """The edgings of a pattern.

    With sides named in the wish they are worked one behind the other on the same piece,
    each over what those before have made of it: the ends, then the sides, then all round.
    All round waves are the four sides so where no round can close them. Without sides
    named each stands for itself.
    """
    pieces = pieces_of(checked)
    if isinstance(pieces, Reason):
        sides = wish.sides or ORDER
        return Worked(Edgings((), tuple(Refused(side, pieces) for side in sides)))
    grounds = [ground_of(checked, piece, wish) for piece in pieces]
    base = base_of(checked, place_for(checked, pieces[0]))
    notes = tuple(_notes(base, grounds[0]))
    if not wish.sides:
        return Worked(_each(base, grounds, notes))
    return _one_behind_the_other(base, grounds, notes)


def _notes(base: Base, ground: Ground) -> Iterator[str]:
    width = ground.width_mm
    wide = f" A stitch is {both_units(float(width))} wide." if width is not None else ""
    yield f"{ground.measures.told}{wide}"
    names = base.place.names
    if names:
        told = " and ".join(f'"{name}"' for name in dict.fromkeys(names))
        are = "is" if len(names) == 1 else "are"
        yield f"The pattern's own {told} {are} left out: what stands here takes its place."


def _each(base: Base, grounds: Sequence[Ground], notes: tuple[str, ...]) -> Edgings:
    """Each side by itself, and on waves in both shapes."""
    offered: list[Offered] = []
    refused: list[Refused] = []
    for side in ORDER:
        for shape in _shapes(side, grounds[0]):
            found = _proven(base, grounds, side, shape, ())
            if isinstance(found, Refused):
                refused.append(found)
            else:
                offered.append(_offered(found[0]))
    return Edgings(tuple(offered), tuple(refused), notes)


def _one_behind_the_other(
    base: Base, grounds: Sequence[Ground], notes: tuple[str, ...]
) -> Worked:
    """The sides asked for, in order, on one piece."""
    done: list[_Text] = []
    refused: list[Refused] = []
    proven: Proven | None = None
    here = list(grounds)
    sides = _in_order(grounds[0], set(grounds[0].wish.sides))
    if grounds[0].wave is not None and sides == [Side.ALL]:
        found = _proven(base, grounds, Side.ALL, Shape.PLAIN, ())
        if not isinstance(found, Refused):
            return Worked(Edgings((_offered(found[0]),), (), notes), found[1])
        sides = [side for side in ORDER if side is not Side.ALL]
    for side in sides:
        shape = _shapes(side, grounds[0])[0]
        found = _proven(base, here, side, shape, [text.block for text in done])
        if isinstance(found, Refused):
            refused.append(found)
            continue
        text, proven = found
        done.append(text)
        here = [_with_edging(ground, text.plan) for ground in here]
    offered = tuple(_offered(text) for text in done)
    return Worked(Edgings(offered, tuple(refused), notes), proven)


def _in_order(ground: Ground, sides: set[Side]) -> list[Side]:
    """The sides asked for, each where those before have left it whole."""
    if ground.wave is not None and Side.ALL in sides and len(sides) > 1:
        sides = {Side.TOP, Side.FOUNDATION, Side.LEFT, Side.RIGHT}
    return sorted(sides, key=ORDER.index)


def _shapes(side: Side, ground: Ground) -> tuple[Shape, ...]:
    """What can be made of an edge: a wave is closed or followed."""
    if ground.wave is None or side not in (Side.TOP, Side.FOUNDATION):
        return (Shape.PLAIN,)
    wanted = ground.wish.shape
    if Side.ALL in ground.wish.sides and wanted is Shape.PLAIN:
        return (Shape.STRAIGHT,)
    return (Shape.STRAIGHT, Shape.WAVE) if wanted is Shape.PLAIN else (wanted,)


def _with_edging(ground: Ground, plan: Plan) -> Ground:
    """The piece with an edging on it, whose row ends lengthen its sides."""
    heights = tuple(_height_of_row(row.moves[0].stitch) for row in plan.rows)
    if plan.side is Side.TOP:
        return replace(ground, above=(*ground.above, *heights), is_first=False)
    if plan.side is Side.FOUNDATION:
        return replace(ground, below=(*ground.below, *heights), is_first=False)
    return replace(ground, is_first=False)


def _height_of_row(stitch: str) -> Fraction:
    return HEIGHTS.get(stitch, HEIGHTS["sc"])


def _proven(
    base: Base,
    grounds: Sequence[Ground],
    side: Side,
    shape: Shape,
    before: Sequence[tuple[str, str]],
) -> tuple[_Text, Proven] | Refused:
    """An edging that comes out; or why there is none.

    The places of an edge that is not the same from both ends are tried in either order.
    """
    first: Refused | None = None
    tried: set[tuple[str, ...]] = set()
    turns = grounds[0].piece.turns
    if side is Side.FOUNDATION:  # from below a right-side row begins where it ended
        turns = grounds[0].piece.rows[0].step.side != "WS"
    for turned in (turns, not turns):
        text = _in_words(grounds, side, shape, turned=turned)
        if isinstance(text, CannotBe):
            return first or _refused(grounds[0], side, shape, text)
        if text.lines in tried:
            continue
        tried.add(text.lines)
        found = prove(base, [*before, text.block])
        if isinstance(found, Proven):
            return text, found
        first = first or _refused(grounds[0], side, shape, _not_proven(found))
    assert first is not None
    return first


def _not_proven(reason: Reason) -> CannotBe:
    message = reason.message
    return CannotBe(f"Worked together with the piece it does not come out: {message}")


def _refused(ground: Ground, side: Side, shape: Shape, reason: CannotBe) -> Refused:
    piece = ground.piece
    span = piece.rows[0 if side is Side.FOUNDATION else -1].step.span
    return Refused(side, Reason(span, reason.message, reason.why), shape)


def _in_words(
    grounds: Sequence[Ground], side: Side, shape: Shape, *, turned: bool
) -> _Text | CannotBe:
    """An edging in words for all sizes."""
    plans = _plans(grounds, side, shape, turned=turned)
    if isinstance(plans, CannotBe):
        return plans
    rows: list[str] = []
    begun: set[int] = set()
    alike = zip(*(plan.rows for plan in plans), strict=True)
    names = grounds[0].checked.sizes
    for number, same in enumerate(alike, start=1):
        chain = chain_for(same[0].moves[0])
        texts = [
            row_words(row, number, ground.chains, ground.spelling, first=chain not in begun)
            for row, ground in zip(same, grounds, strict=True)
        ]
        begun.add(chain)
        told = for_all_sizes(texts)
        if told is not None:
            rows.append(f"{told} {count_words(same, grounds[0].spelling)}")
            continue
        counted = [
            f"{text} {count_words((row,), grounds[0].spelling)}"
            for text, row in zip(texts, same, strict=True)
        ]
        rows += by_sizes(counted, names)
    stitches = tuple(made(plan.rows[-1].moves) for plan in plans)
    lead = (*plans[0].lead, *_how_worked(grounds[0]))
    width, each = width_of(plans[0].rows, grounds[0].wish), grounds[0].width_mm
    wide = width_told(width, side, shape, grounds[0])
    in_mm = width * each if each is not None else None
    notes = _notes_of(plans, names)
    plan = replace(plans[0], notes=notes, flatness=_flatness_of(plans))
    return _Text(plan, (*lead, *rows), tuple(rows), stitches, width, in_mm, wide)


def _plans(
    grounds: Sequence[Ground], side: Side, shape: Shape, *, turned: bool
) -> list[Plan] | CannotBe:
    """The edging of each size, in as many rows as the size needs that needs most."""
    plans = [_plan(ground, side, shape, turned=turned) for ground in grounds]
    most = max((len(plan.rows) for plan in plans if isinstance(plan, Plan)), default=0)
    found: list[Plan] = []
    for ground, plan in zip(grounds, plans, strict=True):
        own = plan
        if isinstance(own, Plan) and len(own.rows) < most:
            longer = replace(ground, wish=replace(ground.wish, rows=most))
            own = _plan(longer, side, shape, turned=turned)
        if isinstance(own, CannotBe):
            return own
        if len(own.rows) != most:
            return _SIZES_DIFFER
        found.append(own)
    return found


def _notes_of(plans: Sequence[Plan], names: Sequence[str]) -> tuple[str, ...]:
    """What is to be known, once where it is the same in all sizes."""
    if len({plan.notes for plan in plans}) == 1:
        return plans[0].notes
    own = [
        (note, name)
        for plan, name in zip(plans, names, strict=True)
        for note in dict.fromkeys(plan.notes)
    ]
    told: dict[str, list[str]] = {}
    for note, name in own:
        told.setdefault(note, []).append(name)
    every = len(plans)
    return tuple(
        note if len(of) == every else f"{', '.join(of)}: {note}"
        for note, of in told.items()
    )


def _flatness_of(plans: Sequence[Plan]) -> tuple[Flatness, ...]:
    """How the edging lies in the size in which it lies worst."""
    return max(
        plans, key=lambda plan: max(abs(one.excess) for one in plan.flatness)
    ).flatness


def _how_worked(ground: Ground) -> Iterator[str]:
    """How the border is worked, where its name alone does not tell."""
    border = KINDS.get(ground.wish.kind) if ground.wish.repeat is None else None
    if border is not None and border.said:
        yield border.said.format(sc=ground.spelling.stitch("sc"))


_SIZES_DIFFER = CannotBe(
    "The sizes differ in more than their numbers, so that one text cannot tell this edging"
    " for all of them.",
    "Ask for it in a draft of one size at a time.",
)


def _plan(ground: Ground, side: Side, shape: Shape, *, turned: bool) -> Plan | CannotBe:
    if side is Side.TOP:
        return along_top(ground, shape, turned=turned)
    if side is Side.FOUNDATION:
        return under_foundation(ground, shape, turned=turned)
    if side is Side.ALL:
        if ground.piece.is_round:
            return round_the_last(ground)
        return all_round(ground, turned=turned)
    return along_side(ground, side)


def _offered(text: _Text) -> Offered:
    plan = text.plan
    return Offered(
        plan.side,
        plan.shape,
        plan.heading,
        text.lines,
        text.rows,
        text.stitches,
        plan.flatness,
        plan.pick_up,
        plan.notes,
        text.width,
        text.width_mm,
        text.wide,
    )
