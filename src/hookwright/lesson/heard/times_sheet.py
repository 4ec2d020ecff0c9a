"""Where in a filmed lesson is each row shown? A sheet for makers, and the chapters."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked
from hookwright.lesson.chapters import FEWEST, LEAST_SECONDS, as_lines, as_webvtt, clock
from hookwright.lesson.heard.facts import Chapter, Heard
from hookwright.lesson.heard.transcripts import cues_in
from hookwright.sheets.facts import Grid, Sheet, Words


def times_sheet(checked: Checked, heard: Heard) -> Sheet | None:
    """The rows with the times they are shown at; None where none is announced."""
    if not heard.chapters:
        return None
    title = checked.design.title or checked.draft.title or "The lesson"
    parts = len({one.part for one in heard.chapters}) > 1
    head = ("In the film", "Part", "Row") if parts else ("In the film", "Row")
    rows = tuple(
        (clock(one.time), one.part, one.row) if parts else (clock(one.time), one.row)
        for one in heard.chapters
    )
    blocks = (
        Words("A row that is not listed is worked as one that is: the pattern says which."),
        Grid(head, rows, "Where each row is shown in the lesson"),
    )
    language = "en-GB" if checked.terms == "UK" else "en-US"
    return Sheet(title, "The lesson, row by row", (), blocks, language)


def film_chapters(heard: Heard) -> tuple[tuple[int, str], ...]:
    """Beginnings and names for a player: the first at 0:00, each ten seconds or more.

    Empty where there are too few of them for a player to show any.
    """
    found = [(0, "Beginning")]
    for one in heard.chapters:
        start = int(one.time)
        if start < LEAST_SECONDS and len(found) == 1:
            found[0] = (0, _named(one))
        elif start - found[-1][0] >= LEAST_SECONDS:
            found.append((start, _named(one)))
    return tuple(found) if len(found) >= FEWEST else ()


def _named(one: Chapter) -> str:
    return f"{one.part}, {one.row}" if one.part else one.row


def chapter_files(heard: Heard, words: str) -> tuple[tuple[str, str], ...]:
    """The chapters as lines to paste and as a track, each with how its name ends.

    Args:
        heard: The lesson, held against its pattern.
        words: The captions it was heard from, which tell where it ends.
    """
    chapters: Sequence[tuple[int, str]] = film_chapters(heard)
    if not chapters:
        return ()
    last = max((cue.end for cue in cues_in(words)), default=0.0)
    end = max(int(last) + 1, chapters[-1][0] + LEAST_SECONDS)
    return (
        ("chapters.txt", as_lines(chapters)),
        ("chapters.vtt", as_webvtt(chapters, end)),
    )
