"""A lesson for people on a terminal, and as an object for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from hookwright.lesson.chapters import chapters_of, clock
from hookwright.lesson.facts import Lesson
from hookwright.lesson.lesson_sheet import swatch_told


def lesson_lines(lesson: Lesson) -> Iterator[str]:
    """The lesson in short: moves, swatch, pieces, chapters."""
    yield f"Lesson: {lesson.title}" if lesson.title else "Lesson"
    moves = [
        f"- {row.part}, {row.name}: {', '.join(move.words for move in row.new)}".replace(
            "- , ", "- "
        )
        for row in lesson.moves
        if row.new
    ]
    nothing = sum(not row.new for row in lesson.moves)
    moves += [f"- behind the last row: {move.words}" for move in lesson.finishing]
    yield "\n".join(("What is to be learnt, in order:", *moves))
    yield f"{nothing} of {len(lesson.moves)} rows hold nothing new."
    if lesson.swatch is not None:
        yield "\n".join(("Teaching swatch", *swatch_told(lesson.swatch)))
    yield "\n".join(("Have ready:", *(f"- {piece}" for piece in lesson.pieces)))
    chapters = chapters_of(lesson.scenes)
    yield "\n".join(
        ("Chapters:", *(f"{clock(start)} {title}" for start, title in chapters))
    )
    yield "\n".join(lesson.cautions)


def lesson_answer(lesson: Lesson) -> dict[str, Any]:
    """The lesson as an object for programs; times are in seconds."""
    told: dict[str, Any] = msgspec.to_builtins(lesson)
    chapters = chapters_of(lesson.scenes)
    told["chapters"] = [{"start": start, "title": title} for start, title in chapters]
    return told
