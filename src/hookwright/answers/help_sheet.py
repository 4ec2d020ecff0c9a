"""The sheet of help that goes out with a pattern: the questions that makers ask, answered.

Counts of every row are on it, for a count that is off is what is asked most; then what to
do about it, another size, another yarn, another gauge, and how it should lie.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.answers.another_size import measured
from hookwright.answers.listed_yarn import listed_yarn
from hookwright.answers.main_piece import main_part, sized_as
from hookwright.answers.yarn_told import YARD_M
from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions, caution, cautions_of
from hookwright.sizing.sized import Request


def help_sheet(checked: Checked) -> str:
    """The sheet as Markdown."""
    title = checked.design.title or checked.draft.title
    head = f"# Help with {title}" if title else "# Help with this pattern"
    return "\n".join((head, "", *_sections(checked)))


def _sections(checked: Checked) -> Iterator[str]:
    yield from _counts(checked)
    yield from _off()
    yield from _size(checked)
    yield from _yarn(checked)
    yield from _lies(checked)


def _counts(checked: Checked) -> Iterator[str]:
    yield "## How many stitches should I have?"
    yield ""
    sizes = checked.sizes
    yield f"| row | {' | '.join(sizes) if sizes else 'stitches'} |"
    yield f"|---|{'---|' * max(1, len(sizes))}"
    for line in checked.lines:
        if not line.below or not line.printed:
            continue
        told = [str(count) if isinstance(count, int) else "-" for count in line.stitches]
        name = f"{line.part}, {line.printed}" if line.part else line.printed
        yield f"| {name} | {' | '.join(told)} |"
    yield ""


def _off() -> Iterator[str]:
    yield "## My count is off"
    yield ""
    for sentence in (
        "Count once more, with a marker after every ten.",
        (
            "Off by one, and by one more in each row: it is an end of the row. Look at the "
            "first and the last stitch, and whether the chain at the beginning counts."
        ),
        (
            "Off by one in one row only: look at both ends first, then for a hole, or for "
            "two stitches in one place."
        ),
        "Off by as many as there are repeats: the same slip in each of them.",
        "Off by a whole repeat: one was left out, or worked twice.",
        (
            "Write to me with the row, what you count there, and what you count in the "
            "next row."
        ),
    ):
        yield f"- {sentence}"
    yield ""


def _size(checked: Checked) -> Iterator[str]:
    sized = sized_as(checked, Request())
    part = main_part(sized.parts)
    if part is None:
        return
    yield "## Another size"
    yield ""
    own = part.multiple
    if own.chains is not None and own.stitches is not None:
        yield (
            f"Chain a multiple of {own.chains}; the first row then has a multiple of "
            f"{own.stitches} stitches."
        )
    if part.now:
        yield f"As written it is {measured(part.now[0], sized.unit)}."
    yield "Tell me the width you want, and your gauge, and I send you the numbers."
    yield ""


def _yarn(checked: Checked) -> Iterator[str]:
    needs = listed_yarn(checked, 0)
    if not needs:
        return
    yield "## Another yarn"
    yield ""
    for need in needs:
        if need.metres is not None:
            yards = float(need.metres / YARD_M)
            yield f"- {need.name}: {float(need.metres):,.0f} m ({yards:,.0f} yd)"
    yield ""
    yield "Divide by the length on the band of your yarn, and round up to whole balls."
    yield caution("dye_lot")
    yield ""


def _lies(checked: Checked) -> Iterator[str]:
    yield "## It ruffles, cups or curls"
    yield ""
    yield "- Ruffles: count first; then try a smaller hook."
    yield "- Cups: count first; then try a larger hook."
    yield "- Curls: a looser hand, a larger hook, and blocking."
    yield ""
    yield from blocking_cautions(checked.source.text)
    yield from cautions_of(checked.source.text)
    yield ""
