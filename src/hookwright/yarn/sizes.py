"""Which sizes is the yarn reckoned for, and which rows does each have?

A text with sizes of its own is counted in each as it is worked. Of a text in one size those
of the worksheet are counted, or those that are asked for, each as `size` makes it; without
any, the text as it is written.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.sizing.fabric_gauge import FabricGauge, Origin
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.multiples import Growth, growth_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Request, Sized, size_pattern
from hookwright.yarn.counting import counted_rows
from hookwright.yarn.facts import RowUsed, Section, SizeCounted
from hookwright.yarn.loop_length import Cell
from hookwright.yarn.resizing import Resizer, resizer_of


class Sizes(Struct, frozen=True):
    """The sizes of a design with their rows.

    Attributes:
        sizes: The sizes.
        body: The part that is sized, and striped.
        resizer: The text in other sizes; None where its own are counted.
        gauge: The gauge of that part; None where it has none.
        multiples: How its parts grow.
        unsure: Stitches whose loops had to be assumed.
        asked: What of the request cannot be done, in sentences.
        cell: What a stitch takes up.
        factor: How many times the area a stitch takes at a gauge that is asked for.
    """

    sizes: tuple[SizeCounted, ...]
    body: int
    resizer: Resizer | None
    gauge: FabricGauge | None
    multiples: tuple[PartMultiple, ...]
    unsure: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    cell: Cell | None = None
    factor: Fraction = Fraction(1)


def sizes_counted(checked: Checked, name: str | None, gauge: str | None) -> Sizes:
    """The sizes to be reckoned.

    Args:
        checked: The pattern.
        name: The one that is wanted; None for all.
        gauge: A gauge that a maker has instead; None for that of the design.
    """
    growths = [growth_of(checked, size) for size in range(len(checked.worked.sizes))]
    multiples = tuple(part for growth in growths for part in growth.parts.values())
    own = _own_size(checked, name)
    wanted = (name,) if name is not None and own is None and not checked.sizes else ()
    sized = size_pattern(checked, multiples, Request(sizes=wanted, gauge=gauge))
    asked = tuple(found.message for found in sized.findings)
    if name is not None and checked.sizes and own is None:
        asked = (f'There is no size "{name}": {", ".join(checked.sizes)} are.', *asked)
    part = _main(sized)
    counted = [counted_rows(checked, working.outcomes) for working in checked.worked.sizes]
    body = _body(counted[0].rows if counted else (), part, growths)
    resizer = None
    if checked.sizes or not growths:
        found = tuple(_of_text(checked, [c.rows for c in counted], part, own))
    else:
        resizer = resizer_of(checked, growths[0], body)
        found = tuple(_of_wishes(resizer, part))
        if not found and not wanted:
            found = (_as_written(counted[0].rows, part),)
    before = _own_gauge(checked, multiples) if gauge is not None else None
    return Sizes(
        found,
        body,
        resizer,
        part.gauge if part is not None else None,
        multiples,
        tuple(sorted({kind for one in counted for kind in one.unsure})),
        asked,
        _cell(counted[0].rows if counted else (), body, before or part),
        _factor(before, part),
    )


def _own_size(checked: Checked, name: str | None) -> int | None:
    """Which of the text's own sizes is meant."""
    if name is None:
        return None
    names = [own.strip().casefold() for own in checked.sizes]
    key = name.strip().casefold()
    return names.index(key) if key in names else None


def _main(sized: Sized) -> PartSized | None:
    """The part that sizes are told of, or else the first with a gauge."""
    with_sizes = next((part for part in sized.parts if part.sizes), None)
    return with_sizes or next((part for part in sized.parts if part.now), None)


def _body(
    rows: Sequence[RowUsed], part: PartSized | None, growths: Sequence[Growth]
) -> int:
    """The number of the part that is sized: of the one with most rows, where none is."""
    for growth in growths[:1]:
        for number, own in growth.parts.items():
            if part is not None and own == part.multiple:
                return number
    by_part = dict.fromkeys(row.part for row in rows if row.section is Section.PIECE)
    return max(by_part, key=lambda n: sum(r.part == n for r in rows), default=0)


def _of_text(
    checked: Checked,
    rows: Sequence[Sequence[RowUsed]],
    part: PartSized | None,
    own: int | None,
) -> Iterator[SizeCounted]:
    now = part.now if part is not None and len(part.now) == len(rows) else ()
    names = checked.sizes or ("",) * len(rows)
    for at, (name, some) in enumerate(zip(names, rows, strict=True)):
        if own is None or own == at:
            width, height = _measures(now[at]) if now else (None, None)
            yield SizeCounted(name, tuple(some), width, height)


def _as_written(rows: Sequence[RowUsed], part: PartSized | None) -> SizeCounted:
    made = part.now[0] if part is not None and part.now else Made()
    return SizeCounted("", tuple(rows), *_measures(made), made.repeats)


def _measures(made: Made) -> tuple[Fraction | None, Fraction | None]:
    return (
        made.width.mm if made.width is not None else None,
        made.height.mm if made.height is not None else None,
    )


def _of_wishes(resizer: Resizer, part: PartSized | None) -> Iterator[SizeCounted]:
    for size in part.sizes if part is not None else ():
        if size.nearest is not None:
            assert part is not None
            yield _of_wish(resizer, part, size)


def _of_wish(resizer: Resizer, part: PartSized, size: SizeMade) -> SizeCounted:
    made = size.nearest
    assert made is not None
    if part.growth is None:
        rows = resizer.sized(made.repeats, made.rows)
        told = [f"{made.repeats} repeats"] if made.repeats is not None else []
        told += [f"{made.rows} rows"] if made.rows is not None else []
    else:
        rows = resizer.sized(None, made.rows if made.repeats is None else None)
        if made.repeats is not None and part.multiple.make > 1:
            rows = tuple(
                replace(row, make=made.repeats) if row.make > 1 else row for row in rows
            )
        told = [f"{made.repeats} of them"] if made.repeats is not None else []
        told += [f"{made.rows} rounds"] if made.rows is not None else []
    width, height = _measures(made)
    repeats = made.repeats if part.growth is None else None
    return SizeCounted(size.wish.name, rows, width, height, repeats, ", ".join(told))


def _own_gauge(checked: Checked, multiples: Sequence[PartMultiple]) -> PartSized | None:
    return _main(size_pattern(checked, multiples, Request()))


def _area(part: PartSized | None) -> Fraction | None:
    """The area that a stitch takes up, of a repeat its share; None for a mere guess."""
    if part is None or part.gauge.row is None or part.gauge.origin is Origin.GUESS:
        return None
    own = part.multiple.stitches
    if part.gauge.repeat is not None and own is not None and own.each:
        return part.gauge.repeat.mm / own.each * part.gauge.row.mm
    across = part.gauge.stitch
    return across.mm * part.gauge.row.mm if across is not None else None


def _cell(rows: Sequence[RowUsed], body: int, part: PartSized | None) -> Cell | None:
    """An average stitch of the piece that is sized; None for lace, which has holes."""
    area = _area(part)
    own = [row for row in rows if row.part == body and row.section is Section.PIECE]
    uses = [use for row in own for use in row.uses]
    many = Fraction(sum(u.number for u in uses if u.kind not in _NO_STITCHES))
    if area is None or not many or any(use.kind == "ch" for use in uses):
        return None
    return Cell(area, sum(use.loops * use.number for use in uses) / many)


_NO_STITCHES = frozenset({"turning ch", "ch", "sl st", "foundation ch"})


def _factor(before: PartSized | None, part: PartSized | None) -> Fraction:
    """How many times the area a stitch takes at the gauge that is asked for."""
    was, now = _area(before), _area(part)
    return now / was if was and now else Fraction(1)
