"""The lesson: what has to be shown, the smallest piece that shows it, scene by scene.

A lesson that was filmed is held against the words, from its captions or a transcript.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.checking import Checked
from hookwright.commands.lesson import TEXTS
from hookwright.desk.asked import Asked
from hookwright.desk.on_paper import SHEET_FILES, as_file, blocks, sheet_file, stem_of
from hookwright.lesson.chapters import clock
from hookwright.lesson.facts import Lesson, Scene
from hookwright.lesson.heard.facts import Heard
from hookwright.lesson.heard.recorded import recorded_lesson
from hookwright.lesson.lesson_sheet import before_filming, lesson_sheet
from hookwright.lesson.planning import lesson_of
from hookwright.source import Span


def answer(asked: Asked) -> dict[str, Any]:
    """The lesson; a file of it; or what a filmed one says."""
    wished = asked.wished
    if not asked.checked.has_rows():
        return {"refused": "There are no rows yet, so there is nothing to show."}
    if wished.words:
        return _heard(
            asked.checked, recorded_lesson(asked.checked, wished.words, wished.key)
        )
    asked.tell({"said": "Looking for the smallest piece that shows every move."})
    lesson = lesson_of(asked.checked)
    return _kept(asked, lesson) if wished.keep else _planned(asked, lesson)


def _kept(asked: Asked, lesson: Lesson) -> dict[str, Any]:
    stem, kind = stem_of(asked.checked), asked.wished.keep
    if kind in TEXTS:
        return as_file(f"{stem}-{kind}", TEXTS[kind](lesson).encode())
    return sheet_file(lesson_sheet(lesson), f"{stem}-script", kind, asked.wished.units)


def _planned(asked: Asked, lesson: Lesson) -> dict[str, Any]:
    return {
        "first": blocks(before_filming(lesson)),
        "length": clock(lesson.scenes[-1].end if lesson.scenes else 0),
        "scenes": [_scene(asked, scene) for scene in lesson.scenes],
        "words": asked.spans(set(_rows_shown(asked, lesson))),
        "files": [
            *({**one, "says": f"{one['says']}, the script"} for one in SHEET_FILES),
            *({"keep": name, "says": name} for name in TEXTS),
        ],
    }


def _scene(asked: Asked, scene: Scene) -> dict[str, Any]:
    return {
        "number": scene.number,
        "title": scene.title,
        "start": clock(scene.start),
        "minutes": clock(scene.end - scene.start),
        "close": str(scene.close),
        "ready": scene.ready,
        "show": list(scene.show),
        "say": list(scene.say),
        "at": _page_place(asked, scene),
    }


def _page_place(asked: Asked, scene: Scene) -> int:
    """Where its row stands in the page; -1 for a scene that is of no row."""
    span = _row(asked, scene)
    return asked.offsets.to_page(span.start) if span is not None else -1


def _row(asked: Asked, scene: Scene) -> Span | None:
    outcomes = asked.checked.worked.sizes[0].outcomes
    if scene.at is None or scene.at >= len(outcomes):
        return None
    return outcomes[scene.at].step.span


def _rows_shown(asked: Asked, lesson: Lesson) -> Iterator[Span]:
    for scene in lesson.scenes:
        span = _row(asked, scene)
        if span is not None:
            yield span


def _heard(checked: Checked, heard: Heard) -> dict[str, Any]:
    if heard.refused:
        return {"refused": heard.refused}
    sizes = checked.sizes
    return {
        "size": sizes[heard.size] if len(sizes) > 1 else "",
        "left_out": list(heard.left_out),
        "chapters": [
            {
                "time": clock(one.time),
                "row": f"{one.part}, {one.row}" if one.part else one.row,
            }
            for one in heard.chapters
        ],
        "slips": [{"message": one.message, "why": ""} for one in heard.slips],
        "not_shown": list(heard.not_shown),
    }
