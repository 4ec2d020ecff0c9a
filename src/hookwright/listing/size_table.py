"""The sizes of a part in columns, each with the next smaller and the next larger one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.listing.columns import beginning, columns_of, in_a_line, padded, wrapped
from hookwright.sizing.lengths import in_both, in_cm, in_inches
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.pieces import Growth
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.placed import PartSized
from hookwright.terminal import NO_INK, Ink

_GAP = "  "
_LONGEST_NAME = 26
_SMALLER, _LARGER = "  or smaller", "  or larger"

Cells = tuple[str, ...]
Line = tuple[Cells, bool]
"""The cells of a line, and whether it is the nearest to its wish."""


def size_table(part: PartSized, unit: str, width: int, ink: Ink) -> list[str]:
    """The lines of the table; a line a fact where there is no room for columns."""
    heads = _heads(part, unit)
    lines = [line for size in part.sizes for line in _lines_of(size, unit)]
    made = [cells for cells, _ in lines if len(cells) == len(heads)]
    used = [n for n in range(len(heads)) if not made or _says_something(n, made)]
    rooms = {n: max(columns_of(c[n]) for c in (heads, *made)) for n in used}
    rooms[0] = max([rooms.get(0, 0), *(columns_of(cells[0]) for cells, _ in lines)])
    if made and sum(rooms.values()) + len(_GAP) * (len(rooms) - 1) > width:
        return [line for size in part.sizes for line in _told(size, part, unit, width)]
    head = [ink.quiet(_set(heads, rooms))] if made else []
    return head + [_set(cells, rooms, NO_INK if near else ink) for cells, near in lines]


_REPEATS, _STITCHES = 1, 3


def _says_something(column: int, made: Sequence[Cells]) -> bool:
    """Whether a column tells anything: repeats of one stitch are its stitches."""
    if column == _REPEATS and all(cells[_REPEATS] == cells[_STITCHES] for cells in made):
        return False
    return any(cells[column] for cells in made)


def _heads(part: PartSized, unit: str) -> Cells:
    """The heads of the columns, the designer's unit first."""
    of_pieces = any(
        s.nearest is not None and s.nearest.stitches is None for s in part.sizes
    )
    own, other = (unit, "cm" if unit == "in" else "in")
    wide = "around" if part.is_around else "wide"
    of_blocks = part.growth is Growth.DIAGONAL
    of_rounds = part.multiple.is_round or part.growth is not None
    rows = "rounds" if of_rounds and not of_blocks else "rows"
    repeats = "blocks wide" if of_blocks else "pieces" if of_pieces else "repeats"
    return (
        "size", repeats, "chain", "stitches", rows,
        f"{wide}, {own}", other, "± cm", f"high, {own}", other, "± cm",
    )  # fmt: skip


def _lines_of(size: SizeMade, unit: str) -> Iterator[Line]:
    name = beginning(in_a_line(size.wish.name), _LONGEST_NAME)
    if size.nearest is None:
        yield (name, "cannot be made: see below"), True
        return
    yield _cells(name, size.nearest, unit), True
    for label, other in ((_SMALLER, size.below), (_LARGER, size.above)):
        if other is not None and other != size.nearest:
            yield _cells(label, other, unit), False


def _cells(name: str, made: Made, unit: str) -> Cells:
    numbers = (made.repeats, made.chain, made.stitches, made.rows)
    told = ("" if number is None else str(number) for number in numbers)
    return (name, *told, *_length(made.width, unit), *_length(made.height, unit))


def _length(pitch: Pitch | None, unit: str) -> tuple[str, str, str]:
    if pitch is None:
        return "", "", ""
    told = [in_inches(pitch.mm).removesuffix(" in"), in_cm(pitch.mm).removesuffix(" cm")]
    own, other = told if unit == "in" else told[::-1]
    return own, other, in_cm(pitch.spread_mm).removesuffix(" cm")


def _set(cells: Sequence[str], rooms: dict[int, int], ink: Ink = NO_INK) -> str:
    if len(cells) == 2:
        return f"{padded(cells[0], rooms[0])}{_GAP}{cells[1]}"
    told = [padded(cells[n], room, right=n > 0) for n, room in rooms.items()]
    return ink.quiet(_GAP.join(told).rstrip())


def _told(size: SizeMade, part: PartSized, unit: str, width: int) -> Iterator[str]:
    """A size in lines of words."""
    yield in_a_line(size.wish.name)
    if size.nearest is None:
        yield "  cannot be made: see below"
        return
    heads = _heads(part, unit)
    for label, made in (("", size.nearest), ("or ", size.below), ("or ", size.above)):
        if made is None or (label and made == size.nearest):
            continue
        numbers = zip(
            heads[1:5], (made.repeats, made.chain, made.stitches, made.rows), strict=True
        )
        words = [f"{head} {number}" for head, number in numbers if number is not None]
        for pitch, head in ((made.width, heads[5]), (made.height, heads[8])):
            if pitch is not None:
                way = head.partition(",")[0]
                words.append(f"{in_both(pitch.mm, unit)} {way} ± {in_cm(pitch.spread_mm)}")
        yield from wrapped(f"{label}{', '.join(words)}", width, "  ")
