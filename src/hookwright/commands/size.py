"""`hookwright size`: how many chains, repeats and rows for a wanted size?"""

from __future__ import annotations

import json

from msgspec import Struct

from hookwright.answer_sizes import size_answer
from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.writing import NotWritten
from hookwright.listing.sizes import size_listing
from hookwright.reading import UnreadableDraft
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.sized import Request, Sized, size_pattern
from hookwright.terminal import ReaderGone, ink, say, say_aside, width


class SizeOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        request: The sizes and the gauge, in the words they were asked in.
        terms: "US" or "UK", whatever the text says of itself.
        how: Whether every number says how it came about.
        as_json: An object for programs.
    """

    request: Request
    terms: str | None = None
    how: bool = False
    as_json: bool = False


def size(path: str, options: SizeOptions) -> Status:
    """Print the sizes of the pattern at a path."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        sized = size_pattern(checked, multiples_of(checked), options.request)
        say(_told(sized, checked, options))
        return _status(sized, checked)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _told(sized: Sized, checked: Checked, options: SizeOptions) -> str:
    if options.as_json:
        return json.dumps(size_answer(sized, checked))
    return size_listing(sized, checked, width(), ink(), how=options.how)


def _status(sized: Sized, checked: Checked) -> Status:
    if not checked.has_rows():
        return Status.NOT_READ
    to_mend = checked.has_errors() or sized.cannot_all_be_made()
    return Status.TO_MEND if to_mend else Status.CLEAN
