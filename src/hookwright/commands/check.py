"""`hookwright check`: does the pattern add up?"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from enum import IntEnum
from pathlib import Path

from msgspec import Struct

from hookwright.answer import answer
from hookwright.checking import check as check_draft
from hookwright.listing import Layout, heading, listing
from hookwright.reading import Draft, UnreadableDraft, limits, read_bytes, read_draft
from hookwright.terminal import ReaderGone, ink, say, say_aside, width

_PATTERN_FILE = "pattern.md"


class Status(IntEnum):
    """How the command ends; of several drafts, the worst counts."""

    CLEAN = 0
    TO_MEND = 1
    NOT_READ = 2


class CheckOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        terms: "US" or "UK", whatever the text says of itself.
        quiet: Findings and summary only.
        all_rows: A line for every row.
        as_text: The text as read, and nothing else.
        as_json: An object for programs.
    """

    terms: str | None = None
    quiet: bool = False
    all_rows: bool = False
    as_text: bool = False
    as_json: bool = False


def check_each(paths: Sequence[str], options: CheckOptions) -> Status:
    """Check each draft; one that cannot be read does not keep the others waiting."""
    with_headings = len(paths) > 1 and not (options.as_json and not options.as_text)
    status = Status.CLEAN
    for number, path in enumerate(paths):
        try:
            found, words = _told(draft_at(path), options)
            status = max(status, found)
            if with_headings:
                say(("\n" if number else "") + heading(path, ink()))
            say(words)
        except UnreadableDraft as refusal:
            say_aside(str(refusal))
            status = Status.NOT_READ
        except ReaderGone:
            break
    return status


def draft_at(path: str) -> Draft:
    """The draft at a path: a file, a project folder, or "-" for standard input.

    Raises:
        UnreadableDraft: If there is none, or it cannot be read.
    """
    if path == "-":
        return read_bytes(_piped_in(), "", "-")
    if _is_folder(Path(path)):
        return _pattern_in(Path(path))
    return read_draft(path)


def _piped_in() -> bytes:
    """Standard input as bytes: what is in it, and how it is encoded, is told from them."""
    if sys.stdin is None:
        return b""
    try:
        return sys.stdin.buffer.read(limits.FILE_BYTES + 1)
    except OSError as error:
        raise UnreadableDraft("What is piped in could not be read.") from error


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:
        return False


def _pattern_in(folder: Path) -> Draft:
    pattern = folder / _PATTERN_FILE
    try:
        return read_draft(pattern)
    except UnreadableDraft as refusal:
        if pattern.exists():
            raise
        raise UnreadableDraft(
            f"There is no {_PATTERN_FILE} in the folder {folder}."
        ) from refusal


def _told(draft: Draft, options: CheckOptions) -> tuple[Status, str]:
    """How a draft fares, and what is to be printed of it."""
    if options.as_text:
        return Status.CLEAN, draft.source.text.removesuffix("\n")
    checked = check_draft(draft, options.terms)
    status = Status.TO_MEND if checked.has_errors() else Status.CLEAN
    if not checked.has_rows():
        status = Status.NOT_READ
    if options.as_json:
        import json  # noqa: PLC0415 - for programs only

        return status, json.dumps(answer(checked))
    layout = Layout(width(), ink(), quiet=options.quiet, all_rows=options.all_rows)
    return status, listing(checked, layout)
