"""The sheet of help that goes out with a pattern: what makers ask, answered.

Counts of every row are on it, for a count that is off is what is asked most; then what to
do about it, another size, another yarn, and how it should lie.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.answers.another_size import measured
from hookwright.answers.her_terms import in_words_of
from hookwright.answers.listed_yarn import listed_yarn
from hookwright.answers.main_piece import main_part, sized_as
from hookwright.answers.yarn_told import YARD_M
from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions, caution, cautions_of
from hookwright.sheets.facts import Block, Caution, Grid, Heading, Points, Sheet, Words
from hookwright.sizing.sized import Request

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


def help_sheet(checked: Checked, source: Checked | None = None) -> Sheet:
    """The sheet.

    Args:
        checked: The pattern, in the terms of the sheet.
        source: The same as she writes it, where that is another text: sizes and yarn are
            reckoned from it, once for all sheets.
    """
    title = checked.design.title or checked.draft.title
    return Sheet(
        f"Help with {title}" if title else "Help with this pattern",
        "A sheet of help",
        blocks=tuple(_blocks(checked, source or checked)),
        language="en-GB" if checked.terms == "UK" else "en-US",
    )


def _blocks(checked: Checked, source: Checked) -> Iterator[Block]:
    yield Heading("How many stitches should I have?")
    yield _counts(checked)
    yield Heading("My count is off")
    yield Points(_OFF)
    yield from _size(checked, source)
    yield from _yarn(source)
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


def _size(checked: Checked, source: Checked) -> Iterator[Block]:
    sized = sized_as(source, Request())
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


def _yarn(checked: Checked) -> Iterator[Block]:
    needs = [need for need in listed_yarn(checked, 0) if need.metres is not None]
    if not needs:
        return
    yield Heading("Another yarn")
    yield Points(
        tuple(
            f"{need.name}: {float(need.metres):,.0f} m "
            f"({float(need.metres / YARD_M):,.0f} yd)"
            for need in needs
            if need.metres is not None
        )
    )
    yield Words(
        "Divide by the length on the band of your yarn, and round up to whole balls."
    )
    yield Words(caution("dye_lot"))
