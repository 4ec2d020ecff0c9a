"""The sheet of help that goes out with a pattern: what makers ask, answered.

Counts of every row are on it, for a count that is off is what is asked most; then what to
do about it, another size, another yarn, and how it should lie.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.answers.another_size import measured
from hookwright.answers.her_terms import in_words_of
from hookwright.answers.listed_yarn import Needed, listed_yarn
from hookwright.answers.main_piece import main_part, sized_as
from hookwright.answers.yarn_told import YARD_M
from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions, caution, cautions_of
from hookwright.sheets.facts import Block, Caution, Grid, Heading, Points, Sheet, Words
from hookwright.sizing.sized import Request, Sized
from hookwright.yarn.planning import yarn_plan

_OFF = (
    "Count once more, with a marker after every ten.",
    (
        "Off by one, and by one more in each row: it is an end of the row. Look at the "
        "first and the last stitch, and whether the chain at the beginning counts."
    ),
    (
        "Off by one in one row only: look at both ends first, then for a hole, or for two "
        "stitches in one place."
    ),
    "Off by as many as there are repeats: the same slip in each of them.",
    "Off by a whole repeat: one was left out, or worked twice.",
    "Write to me with the row, what you count there, and what you count in the next row.",
)
_LIES = (
    "Ruffles: count first; then try a smaller hook.",
    "Cups: count first; then try a larger hook.",
    "Curls: a looser hand, a larger hook, and blocking.",
)


class Reckoned(Struct, frozen=True):
    """What is the same on the sheets of a pattern in all terms.

    Attributes:
        sized: How it grows, and how large it comes out.
        yarn: What is needed of each colour, by the number of the size.
    """

    sized: Sized
    yarn: tuple[tuple[Needed, ...], ...]


def reckoned(checked: Checked) -> Reckoned:
    """What is reckoned for the sheets of a pattern."""
    plan = yarn_plan(checked)
    sizes = range(max(1, len(checked.sizes)))
    yarn = tuple(listed_yarn(checked, size, plan) for size in sizes)
    return Reckoned(sized_as(checked, Request()), yarn)


def help_sheet(checked: Checked, known: Reckoned | None = None) -> Sheet:
    """The sheet.

    Args:
        checked: The pattern, in the terms of the sheet.
        known: What was reckoned of it, in whichever terms.
    """
    title = checked.design.title or checked.draft.title
    return Sheet(
        f"Help with {title}" if title else "Help with this pattern",
        "A sheet of help",
        blocks=tuple(_blocks(checked, known or reckoned(checked))),
        language="en-GB" if checked.terms == "UK" else "en-US",
    )


def _blocks(checked: Checked, known: Reckoned) -> Iterator[Block]:
    yield Heading("How many stitches should I have?")
    yield _counts(checked)
    yield Heading("My count is off")
    yield Points(_OFF)
    yield from _size(checked, known.sized)
    yield from _yarn(checked.sizes, known.yarn)
    yield Heading("It ruffles, cups or curls")
    yield Points(_LIES)
    yield from map(Caution, blocking_cautions(checked.source.text))
    yield from map(Caution, cautions_of(checked.source.text))


def _counts(checked: Checked) -> Grid:
    names = checked.sizes or ("Stitches",)
    rows = []
    for line in checked.lines:
        if line.below and line.printed:
            told = (str(n) if isinstance(n, int) else "-" for n in line.stitches)
            name = f"{line.part}, {line.printed}" if line.part else line.printed
            rows.append((name, *told))
    numbers = tuple(range(1, len(names) + 1))
    return Grid(("Row", *names), tuple(rows), numbers=numbers, wide=(0,))


def _size(checked: Checked, sized: Sized) -> Iterator[Block]:
    part = main_part(sized.parts)
    if part is None:
        return
    yield Heading("Another size")
    own = part.multiple
    if own.chains is not None and own.stitches is not None:
        yield Words(
            f"Chain a multiple of {own.chains}; the first row then has a multiple of "
            f"{own.stitches} stitches."
        )
    told = _as_told(checked)
    if told:
        yield Words(f"As written it is the size that the pattern tells: {told}")
    elif part.now:
        yield Words(f"As written it is {measured(part.now[0], sized.unit, part)}.")
    asked = "Tell me the width you want, and your gauge, and I send you the numbers."
    yield Words(in_words_of(asked, checked.terms))


def _as_told(checked: Checked) -> str:
    """The line in which the pattern tells how large it is; "" for none.

    Where it tells that, no other figure is put beside it: what is reckoned of the rows has
    no edging, and what is measured over the points of a wave has them in it.
    """
    source = checked.source
    told = next((one for one in checked.design.finished if not one.to_fit), None)
    if told is None:
        return ""
    return source.slice(source.line_span(source.line_of(told.span.start))).strip()


def _yarn(sizes: Sequence[str], needed: Sequence[Sequence[Needed]]) -> Iterator[Block]:
    colours = [own for own in zip(*needed, strict=False) if all(one.metres for one in own)]
    if not colours:
        return
    yield Heading("Another yarn")
    yield Points(tuple(f"{own[0].name}: {_metres(sizes, own)}" for own in colours))
    yield Words(
        "Divide by the length on the band of your yarn, and round up to whole balls."
    )
    yield Words(caution("dye_lot"))


def _metres(sizes: Sequence[str], own: Sequence[Needed]) -> str:
    """How long a colour is, size by size where they differ."""
    told = [_long(one.metres) for one in own if one.metres is not None]
    if len(set(told)) == 1:
        return told[0]
    return ", ".join(f"{name} {long}" for name, long in zip(sizes, told, strict=True))


def _long(metres: Fraction) -> str:
    return f"{float(metres):,.0f} m ({float(metres / YARD_M):,.0f} yd)"
