"""Which draft stands at a path, and which worksheet beside it?

A path is a file, a project folder with its `pattern.md`, or a dash for what is piped in.
"""

from __future__ import annotations

import sys
from pathlib import Path

from hookwright.reading import Draft, UnreadableDraft, limits, read_bytes, read_draft
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.source import Source

PATTERN_FILE = "pattern.md"
WORKSHEET_FILE = "worksheet.toml"


def draft_at(path: str) -> Draft:
    """The draft at a path: a file, a project folder, or "-" for standard input.

    Raises:
        UnreadableDraft: If there is none, or it cannot be read.
    """
    if path == "-":
        return read_bytes(_piped_in(), "", "-")
    if is_folder(Path(path)):
        return _pattern_in(Path(path))
    return read_draft(path)


def pattern_file(path: str) -> Path:
    """The file that holds the draft at a path."""
    return Path(path) / PATTERN_FILE if is_folder(Path(path)) else Path(path)


def worksheet_at(path: str) -> Source | None:
    """The text of the worksheet beside a pattern; None where there is none.

    Raises:
        UnreadableDraft: If it is there and no text.
    """
    file = pattern_file(path)
    sheet = file.with_name(WORKSHEET_FILE)
    if path == "-" or file.name != PATTERN_FILE or not _is_there(sheet):
        return None
    try:
        with sheet.open("rb") as opened:
            data = opened.read(limits.FILE_BYTES + 1)
        return Source(with_plain_line_ends(decoded(data).text), str(sheet))
    except OSError as error:
        raise UnreadableDraft(f"{sheet} cannot be opened.") from error
    except UnreadableDraft as refusal:
        raise UnreadableDraft(f"{sheet} cannot be read: {refusal}") from refusal


def _piped_in() -> bytes:
    """Standard input as bytes: what is in it, and how it is encoded, is told from them."""
    if sys.stdin is None:
        return b""
    try:
        return sys.stdin.buffer.read(limits.FILE_BYTES + 1)
    except OSError as error:
        raise UnreadableDraft("What is piped in could not be read.") from error


def is_folder(path: Path) -> bool:
    """Whether there is a folder at a path."""
    try:
        return path.is_dir()
    except OSError:
        return False


def _is_there(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _pattern_in(folder: Path) -> Draft:
    pattern = folder / PATTERN_FILE
    try:
        return read_draft(pattern)
    except UnreadableDraft as refusal:
        if pattern.exists():
            raise
        raise UnreadableDraft(
            f"There is no {PATTERN_FILE} in the folder {folder}."
        ) from refusal
