"""`hookwright lesson`: a lesson to film, or one that was filmed."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.sheet_writing import write_sheet
from hookwright.commands.writing import NotWritten, write_new
from hookwright.lesson.captions import as_webvtt
from hookwright.lesson.chapters import as_lines, chapters_of
from hookwright.lesson.chapters import as_webvtt as chapters_as_webvtt
from hookwright.lesson.facts import Lesson
from hookwright.lesson.lesson_sheet import lesson_sheet
from hookwright.lesson.planning import lesson_of
from hookwright.lesson.row_table import row_table
from hookwright.lesson.telling import lesson_answer, lesson_lines
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ReaderGone, say, say_aside, width

TEXTS: Mapping[str, Callable[[Lesson], str]] = MappingProxyType(
    {
        "captions.vtt": lambda planned: as_webvtt(planned.cues),
        "chapters.txt": lambda planned: as_lines(chapters_of(planned.scenes)),
        "chapters.vtt": lambda planned: chapters_as_webvtt(
            chapters_of(planned.scenes), planned.scenes[-1].end if planned.scenes else 0
        ),
        "rows.csv": lambda planned: row_table(planned.rows),
    }
)
"""The files of a lesson for other programs: each name with what stands in it."""


class LessonOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        folder: A folder for all files of the lesson; "" for none.
        recorded: Captions or a transcript of a lesson that was filmed; "" for none.
        paper: "a4" or "us-letter".
        terms: "US" or "UK", whatever the text says of itself.
        as_json: An object for programs.
    """

    folder: str = ""
    recorded: str = ""
    paper: str = "a4"
    terms: str | None = None
    as_json: bool = False


def lesson(path: str, options: LessonOptions) -> Status:
    """Print the lesson of a pattern, or what a recorded one says otherwise."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        if not checked.has_rows():
            say_aside("No row is found in the draft.")
            return Status.NOT_READ
        if options.recorded:
            return _recorded(checked, options)
        return _planned(checked, options)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _planned(checked: Checked, options: LessonOptions) -> Status:
    planned = lesson_of(checked)
    if options.as_json:
        say(json.dumps(lesson_answer(planned)))
    else:
        say(_in_columns("\n\n".join(lesson_lines(planned))))
    if options.folder:
        _write(planned, Path(options.folder), options.paper)
    return Status.CLEAN


def _write(planned: Lesson, folder: Path, paper: str) -> None:
    """All files of a lesson, in a folder that is made if it is not there."""
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise NotWritten(f"{folder} cannot be made: {error.strerror}.") from error
    sheet = lesson_sheet(planned)
    for name, text in TEXTS.items():
        write_new(folder / name, text(planned).encode())
    write_sheet(sheet, str(folder / "script.html"))
    write_sheet(sheet, str(folder / "script.pdf"), paper)


def _in_columns(text: str) -> str:
    return "\n".join(
        line for one in text.split("\n") for line in wrapped(one, width()) or [""]
    )


def _recorded(checked: Checked, options: LessonOptions) -> Status:
    from hookwright.lesson.heard.recorded import recorded_lesson  # noqa: PLC0415
    from hookwright.lesson.heard.telling import (  # noqa: PLC0415
        heard_answer,
        heard_lines,
    )

    heard = recorded_lesson(checked, _opened(options.recorded), options.recorded)
    if options.as_json:
        say(json.dumps(heard_answer(heard)))
    else:
        say(_in_columns("\n\n".join(heard_lines(heard, checked.sizes))))
    return Status.TO_MEND if heard.slips or heard.refused else Status.CLEAN


def _opened(file: str) -> str:
    try:
        return Path(file).read_text("utf-8-sig", "replace")
    except OSError as error:
        raise UnreadableDraft(f"{file} cannot be opened.") from error
