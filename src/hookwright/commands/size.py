"""`hookwright size`: how many chains, repeats and rows for a wanted size?"""

from __future__ import annotations

import json

from msgspec import Struct
from msgspec.structs import replace

from hookwright.answer_sizes import size_answer
from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.size_writing import SizesWritten, write_sizes
from hookwright.commands.writing import NotWritten
from hookwright.listing.findings import told
from hookwright.listing.sizes import size_listing
from hookwright.reading import UnreadableDraft
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.sized import Request, Sized, size_pattern
from hookwright.terminal import ReaderGone, ink, say, say_aside, width


class SizeOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        width: How wide, in the words it was asked in; "" if it was not.
        height: How high.
        sizes: Names of sizes.
        gauge: The gauge a maker has instead.
        terms: "US" or "UK", whatever the text says of itself.
        how: Whether every number says how it came about.
        write: The file to write the text with the new numbers to; "" for none.
        as_json: An object for programs.
    """

    width: str = ""
    height: str = ""
    sizes: tuple[str, ...] = ()
    gauge: str = ""
    terms: str | None = None
    how: bool = False
    write: str = ""
    as_json: bool = False


def size(path: str, options: SizeOptions) -> Status:
    """Print the sizes of the pattern at a path, and write its text where that is asked."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        wanted = Request(options.width, options.height, options.sizes, options.gauge)
        sized = size_pattern(checked, multiples_of(checked), wanted)
        written = SizesWritten()
        if options.write:
            written = write_sizes(path, checked, sized, options.write)
            sized = replace(sized, findings=(*sized.findings, *written.asked))
        say(_told(sized, checked, written, options))
        _say_what_was_written(written)
        return _status(sized, checked, written)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _told(
    sized: Sized, checked: Checked, written: SizesWritten, options: SizeOptions
) -> str:
    if options.as_json:
        return json.dumps(
            size_answer(sized, checked, written.findings)
            | ({"written": written.file or None} if options.write else {})
        )
    colours, columns = ink(), width()
    listing = size_listing(sized, checked, columns, colours, how=options.how)
    not_written = (told(f, checked, columns, colours) for f in written.findings)
    return "\n\n".join((listing, *not_written))


def _say_what_was_written(written: SizesWritten) -> None:
    if written.file:
        say_aside(f"The text with the new numbers is in {written.file}.")
    for old, new in written.wording:
        say_aside(f'Look at the words there: "{old}" became "{new}".')


def _status(sized: Sized, checked: Checked, written: SizesWritten) -> Status:
    if not checked.has_rows():
        return Status.NOT_READ
    to_mend = checked.has_errors() or sized.cannot_all_be_made() or written.findings
    return Status.TO_MEND if to_mend else Status.CLEAN
