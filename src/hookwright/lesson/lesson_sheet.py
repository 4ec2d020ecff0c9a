"""A lesson on a sheet: the swatch, the pieces, the shot list with its script, the times."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.lesson.chapters import chapters_of, clock
from hookwright.lesson.facts import Lesson, Scene, TeachingSwatch
from hookwright.sheets.facts import Block, Caution, Grid, Heading, Points, Sheet, Words

_YARD_M = 0.9144


def lesson_sheet(lesson: Lesson) -> Sheet:
    """The whole lesson to print and to film by."""
    end = lesson.scenes[-1].end if lesson.scenes else 0
    return Sheet(
        f"Lesson: {lesson.title}" if lesson.title else "Lesson",
        "Shot list and script",
        (
            ("Length", clock(end)),
            ("Scenes", str(len(lesson.scenes))),
            ("Terms", lesson.terms),
            ("Captions", f"{len(lesson.cues)}"),
        ),
        tuple(_blocks(lesson)),
        "en-GB" if lesson.terms == "UK" else "en-US",
    )


def before_filming(lesson: Lesson) -> Iterator[Block]:
    """What is made ready, and what there is to be learnt."""
    yield Heading("Before the camera runs")
    if lesson.swatch is not None:
        yield Points(tuple(swatch_told(lesson.swatch)))
    yield Words("Have these ready, so that filming never waits:")
    yield Points(lesson.pieces)
    yield from map(Caution, lesson.cautions)
    yield Heading("What is to be learnt")
    yield _moves(lesson)


def _blocks(lesson: Lesson) -> Iterator[Block]:
    yield from before_filming(lesson)
    yield Heading("Scenes")
    for scene in lesson.scenes:
        yield from _scene(scene)
    yield Heading("Chapters")
    yield Words("They go under the film as they stand:")
    chapters = chapters_of(lesson.scenes)
    yield Points(tuple(f"{clock(start)} {title}" for start, title in chapters))
    yield Heading("Where each row is shown")
    yield Grid(
        ("Part", "Row", "Time", "Shown as"),
        tuple(
            (one.part or "-", one.row, clock(one.start), one.like or "itself")
            for one in lesson.rows
        ),
        numbers=(2,),
    )


def swatch_told(swatch: TeachingSwatch) -> Iterator[str]:
    """The teaching swatch in sentences."""
    chain = f", chain {swatch.chain:,}" if swatch.chain is not None else ""
    repeats = f"{swatch.repeats} repeats{chain}; " if swatch.repeats is not None else ""
    yield (
        f"The smallest piece that shows every move: {repeats}{len(swatch.rows)} of the "
        f"{swatch.of} rows, {swatch.stitches:,} stitches."
    )
    yield f"Its rows: {', '.join(swatch.names)}."
    if swatch.metres is not None:
        yards = swatch.metres / _YARD_M
        yield f"It takes about {swatch.metres:.0f} m ({yards:.0f} yd) of yarn."
    yield f"It takes about {swatch.minutes} minutes to work."
    yield from swatch.said


def _moves(lesson: Lesson) -> Grid:
    rows = [
        (row.part or "-", row.name, "; ".join(move.words for move in row.new))
        for row in lesson.moves
        if row.new
    ]
    rows += [("-", "Finishing", move.words) for move in lesson.finishing]
    nothing = sum(not row.new for row in lesson.moves)
    return Grid(
        ("Part", "Row", "New in it"),
        tuple(rows),
        f"{nothing} of {len(lesson.moves)} rows hold nothing new",
        wide=(2,),
    )


def _scene(scene: Scene) -> Iterator[Block]:
    yield Heading(f"{scene.number}. {scene.title}, {clock(scene.start)}", 2)
    yield Words(f"In hand: {scene.ready}. Camera: {scene.close}.")
    yield Points(tuple(f"Show: {one[:1].lower()}{one[1:]}" for one in scene.show))
    yield Words(f"Say: {' '.join(scene.say)}")
