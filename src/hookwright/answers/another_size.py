""" "Can I make it another size?": chain, repeats, rows and yarn for a width or height."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.answers.facts import Figure, Reply
from hookwright.answers.grown_yarn import GrownYarn, grown_yarn
from hookwright.answers.main_piece import main_part, sized_as
from hookwright.checking import Checked
from hookwright.design.cautions import caution
from hookwright.sizing.lengths import in_both
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Request, Sized

_QUESTION = "Another size"


def another_size(
    checked: Checked,
    size: int,
    *,
    width: str | None = None,
    height: str | None = None,
    gauge: str | None = None,
) -> Reply:
    """A reply with the numbers of another size, nearest to what is wanted.

    Args:
        checked: The pattern.
        size: The size of the text that she makes, from 0.
        width: How wide, in words.
        height: How high, in words.
        gauge: Her own gauge, in words.
    """
    sized = sized_as(checked, Request(width, height, (), gauge))
    part = main_part(sized.parts)
    refused = [f"{found.message} {found.why}".strip() for found in sized.findings]
    if part is None or not part.sizes or part.sizes[0].nearest is None:
        reason = part.sizes[0].reason if part is not None and part.sizes else ""
        why = refused or [reason or "No part of the pattern can be made in another size."]
        return Reply(_QUESTION, tuple(why), answered=False)
    made = part.sizes[0]
    assert made.nearest is not None
    now = part.now[min(size, len(part.now) - 1)] if part.now else None
    yarn = tuple(grown_yarn(checked, size, now, made.nearest))
    answer = [
        f"{_lead(part)}{_made(made.nearest, part, sized.unit)}",
        *_beside(made, part, sized.unit),
        *_others(sized, part, made.nearest),
        _asked_for(yarn),
        "Make a few chains more than that: they come undone at the end."
        if made.nearest.chain
        else "",
    ]
    return Reply(
        _QUESTION,
        tuple(filter(None, answer)),
        (*made.said, *part.gauge.said, *(_worked_out(one) for one in yarn)),
        (*sized.cautions, *([caution("dye_lot")] if yarn else [])),
        (
            *_figures(made.nearest),
            *((f"balls {one.need.name}", one.balls) for one in yarn),
        ),
    )


def _lead(part: PartSized) -> str:
    return f"{part.multiple.part}: " if part.multiple.part else ""


def _made(made: Made, part: PartSized, unit: str) -> str:
    rows = "rounds" if part.is_around or part.multiple.is_round else "rows"
    told = [
        f"chain {made.chain:,}" if made.chain is not None else "",
        f"{made.repeats} repeats" if made.repeats is not None else "",
        f"{made.stitches:,} stitches" if made.stitches is not None else "",
        f"{made.rows:,} {rows}" if made.rows is not None else "",
    ]
    return f"{', '.join(filter(None, told))}: {measured(made, unit, part)}."


def measured(made: Made, unit: str, part: PartSized) -> str:
    """How large a piece comes out: "about 45 in (114.3 cm) wide and 60 in high"."""
    wide = _long(made.width, unit)
    high = _long(made.height, unit)
    way = "around" if part.is_around else "wide"
    both = [f"{wide} {way}" if wide else "", f"{high} high" if high else ""]
    return f"about {' and '.join(filter(None, both))}"


def _long(pitch: Pitch | None, unit: str) -> str:
    return in_both(pitch.mm, unit) if pitch is not None else ""


def _beside(made: SizeMade, part: PartSized, unit: str) -> Iterator[str]:
    """The sizes that lie next to it, where these are others."""
    if made.below is not None and made.below != made.nearest:
        yield f"The next smaller: {_made(made.below, part, unit)}"
    if made.above is not None and made.above != made.nearest:
        yield f"The next larger: {_made(made.above, part, unit)}"


def _others(sized: Sized, part: PartSized, made: Made) -> Iterator[str]:
    """The counts of parts that have as many repeats as the main one: its edgings."""
    for other in sized.parts:
        own = other.multiple
        alike = own.stitches is not None and own.repeats == part.multiple.repeats
        if other is part or not alike or made.repeats is None or own.stitches is None:
            continue
        name = own.part or "The other part"
        yield f"{name}: {made.repeats} repeats, {own.stitches.at(made.repeats):,} stitches."


def _asked_for(yarn: Sequence[GrownYarn]) -> str:
    told = [
        f"{one.balls} {'ball' if one.balls == 1 else 'balls'} of {one.need.name}"
        for one in yarn
    ]
    return f"Yarn: {', '.join(told)}." if told else ""


def _worked_out(one: GrownYarn) -> str:
    how = (
        "by its stitches, edgings and all, it takes"
        if one.by_stitches
        else "by its size it takes"
    )
    return (
        f"{one.need.name}: {how} {float(one.share):.2f} times as much; "
        f"{float(one.need.wanted):.3g} x {float(one.share):.2f} = "
        f"{float(one.need.wanted * one.share):.2f} balls, rounded up."
    )


def _figures(made: Made) -> Iterator[tuple[str, Figure]]:
    yield "chain", made.chain
    yield "repeats", made.repeats
    yield "stitches", made.stitches
    yield "rows", made.rows
    yield "width_mm", _mm(made.width)
    yield "height_mm", _mm(made.height)


def _mm(pitch: Pitch | None) -> float | None:
    return round(float(pitch.mm), 2) if pitch is not None else None
