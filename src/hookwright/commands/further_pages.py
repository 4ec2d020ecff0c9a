"""Which further pages are put out with a pattern? Each is a line in `FURTHER`.

An entry is a function that is given the pattern's path and the pattern as it is, and gives
back a page, or None where there is none to put out: `release/further.py` tells what a page
is.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

from hookwright.answers.help_sheet import Reckoned, help_sheet, reckoned
from hookwright.checking import Checked, check
from hookwright.commands.kept_versions import Kept, kept_versions
from hookwright.commands.project import PATTERN_FILE, draft_at, pattern_file
from hookwright.commands.writing import NotWritten
from hookwright.lesson.heard.recorded import recorded_lesson
from hookwright.lesson.heard.times_sheet import chapter_files, times_sheet
from hookwright.reading import Draft, UnreadableDraft
from hookwright.release.further import Further
from hookwright.release.stamping import stamp_of
from hookwright.sheets.facts import Sheet
from hookwright.versions.comparing import compare
from hookwright.versions.corrections_sheet import corrections_sheet

LESSON_FILES = ("lesson.vtt", "lesson.srt", "lesson.txt")
"""The captions, or a transcript with times, of a filmed lesson, in a project folder."""


def further_pages(path: str, checked: Checked, day: str = "") -> tuple[Further, ...]:
    """The further pages of the pattern at a path.

    Args:
        path: The pattern, beside which its earlier versions are kept.
        checked: The same, read and worked.
        day: The day it is put out; "" for what the worksheet says.

    Raises:
        NotWritten: If what is kept of earlier versions cannot be read.
    """
    found = (page(path, checked, day) for page in FURTHER)
    return tuple(page for page in found if page is not None)


def _help(_path: str, checked: Checked, _day: str) -> Further:
    """What makers ask, answered."""

    @cache
    def known() -> Reckoned:
        return reckoned(checked)

    return Further("help", "help", lambda own: help_sheet(own, known()), both_terms=True)


def _corrections(path: str, checked: Checked, day: str) -> Further | None:
    """What changed since the version that was kept last under another name."""
    noted = checked.design.noted
    version = noted.version if noted is not None else ""
    before = _before(path, version)
    if before is None:
        return None
    date = stamp_of(checked, day).date
    old = _draft(before)

    def sheet(new: Checked) -> Sheet:
        compared = compare(check(old), new, before.version, version)
        return corrections_sheet(compared, new.design.title or new.draft.title or "", date)

    return Further("corrections", f"corrections to version {before.version}", sheet)


def _lesson(path: str, checked: Checked, _day: str) -> Further | None:
    """Where each row is shown in the film whose captions stand beside the pattern."""
    file = _captions_at(path)
    if file is None:
        return None
    try:
        data = file.read_bytes()
    except OSError as error:
        raise NotWritten(f"{file} cannot be opened: {error.strerror}.") from error
    words = data.decode("utf-8-sig", "replace")
    heard = recorded_lesson(checked, words, file.name)
    if times_sheet(checked, heard) is None:
        return None
    return Further(
        "lesson",
        "where each row is shown in the lesson",
        lambda own: times_sheet(own, heard),
        beside=(
            *((ending, told.encode()) for ending, told in chapter_files(heard, words)),
            (f"captions{file.suffix}", data),
        ),
    )


def _captions_at(path: str) -> Path | None:
    """The captions of the filmed lesson in a project folder."""
    if path == "-" or pattern_file(path).name != PATTERN_FILE:
        return None
    folder = pattern_file(path).parent
    return next((folder / name for name in LESSON_FILES if (folder / name).is_file()), None)


def _before(path: str, version: str) -> Kept | None:
    """The version that is out already, where this one is another."""
    if path == "-" or not version:
        return None
    kept = kept_versions(path)
    return next((one for one in reversed(kept) if one.version != version), None)


def _draft(kept: Kept) -> Draft:
    try:
        return draft_at(str(kept.file))
    except UnreadableDraft as refusal:
        raise NotWritten(f"Version {kept.version} is kept, but {refusal}") from refusal


FURTHER: tuple[Callable[[str, Checked, str], Further | None], ...] = (
    _help,
    _corrections,
    _lesson,
)
"""The further pages there are, in the order in which they are put out."""
