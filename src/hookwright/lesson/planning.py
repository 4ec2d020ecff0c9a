"""From a checked pattern to its whole lesson: moves, swatch, scenes, captions, times."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions, caution, cautions_of
from hookwright.lesson.captions import captions_of
from hookwright.lesson.facts import Lesson, RowMoves, RowTime, Scene, TeachingSwatch
from hookwright.lesson.finishing import finishing_moves
from hookwright.lesson.moves import moves_of
from hookwright.lesson.pace import STITCHES_A_MINUTE, Pace, timed_rows
from hookwright.lesson.scenes import scenes_of
from hookwright.lesson.teaching_swatch import Smallest, kinds_of, smallest_piece
from hookwright.yarn.planning import yarn_plan


def lesson_of(checked: Checked) -> Lesson:
    """The lesson of a pattern that has rows."""
    smallest = smallest_piece(checked)
    size = _size_said(checked, smallest)
    pace = pace_of(checked)
    moves = moves_of(checked, size)
    scenes = scenes_of(checked, size, moves, smallest.rows, pace)
    text = checked.source.text
    return Lesson(
        checked.design.title or checked.draft.title or "",
        checked.terms or "US",
        moves,
        _swatch(checked, smallest, pace),
        scenes,
        captions_of(scenes),
        tuple(row_times(checked, size, moves, scenes)),
        (*_pieces(scenes), *_told_ready(checked)),
        (caution("hands"), *cautions_of(text), *blocking_cautions(text)),
        finishing_moves(checked),
    )


def pace_of(checked: Checked) -> Pace:
    """How fast she works, by her worksheet where it says."""
    noted = checked.design.noted
    lesson = noted.lesson if noted is not None else None
    if lesson is None:
        return Pace(terms=checked.worked.terms)
    stitches = float(lesson.pace) if lesson.pace else STITCHES_A_MINUTE
    return Pace(stitches, timed_rows(lesson.timed), checked.worked.terms)


def _size_said(checked: Checked, smallest: Smallest) -> int:
    return smallest.size if len(checked.worked.sizes) > smallest.size else 0


def _swatch(checked: Checked, smallest: Smallest, pace: Pace) -> TeachingSwatch:
    piece, size = smallest.checked, smallest.size
    outcomes = piece.worked.sizes[size].outcomes
    rows = [outcomes[at] for at in smallest.rows]
    made = [one.worked.row.makes for one in rows if one.worked is not None]
    seconds = sum(
        pace.seconds(outcomes[at], smallest.moves[at].name) for at in smallest.rows
    )
    return TeachingSwatch(
        smallest.repeats,
        next((one.foundation for one in rows if one.foundation), None),
        smallest.rows,
        tuple(_names(smallest.moves[at] for at in smallest.rows)),
        len(moves_of(checked, _size_said(checked, smallest))),
        sum(number for number in made if isinstance(number, int)),
        _metres(smallest),
        max(1, ceil(seconds / 60)),
        tuple(_said(smallest)),
    )


def _names(rows: Iterator[RowMoves]) -> Iterator[str]:
    for row in rows:
        yield f"{row.part}, {row.name}" if row.part else row.name


def _said(smallest: Smallest) -> Iterator[str]:
    if smallest.repeats is not None:
        fewer = (
            f" {len(smallest.tried)} smaller ones were tried: they lack a move, or the "
            f"text cannot be written so."
            if smallest.tried
            else ""
        )
        yield f"{smallest.repeats} repeats.{fewer}"
    yield (
        f"{len(smallest.rows)} rows of {len(smallest.moves)}: of all ways through the rows "
        f"from the first to the last one, none shorter meets every move."
    )


def _metres(smallest: Smallest) -> float | None:
    """The yarn of the small piece times the share that its rows have of all stitches."""
    plan = yarn_plan(smallest.checked)
    need = plan.sizes[min(smallest.size, len(plan.sizes) - 1)] if plan.sizes else None
    if need is None or not need.length.mid:
        return None
    outcomes = smallest.checked.worked.sizes[smallest.size].outcomes
    made = [
        outcome.worked.row.makes if outcome.worked is not None else 0
        for outcome in outcomes
    ]
    counts = [number if isinstance(number, int) else 0 for number in made]
    whole = sum(counts)
    own = sum(counts[at] for at in smallest.rows)
    share = Fraction(own, whole) if whole else Fraction(0)
    return round(float(need.length.mid * share) / 1000, 1)


def _pieces(scenes: Sequence[Scene]) -> Iterator[str]:
    """What is worked beforehand, so that the camera never waits."""
    seen: set[str] = set()
    for scene in scenes:
        if scene.ready and scene.ready not in seen:
            seen.add(scene.ready)
            yield f"Scene {scene.number}: {scene.ready}"


def _told_ready(checked: Checked) -> tuple[str, ...]:
    """What her worksheet says is worked beforehand."""
    noted = checked.design.noted
    lesson = noted.lesson if noted is not None else None
    return tuple(f"By the worksheet: {one}" for one in lesson.ready) if lesson else ()


def row_times(
    checked: Checked, size: int, moves: Sequence[RowMoves], scenes: Sequence[Scene]
) -> Iterator[RowTime]:
    """When each row is shown; rows with nothing new stand at the row that they are like."""
    shown = {scene.at: scene for scene in scenes if scene.at is not None}
    kinds = kinds_of(checked, size)
    last: Scene | None = None
    by_kind: dict[tuple[int, int], Scene] = {}
    names: dict[int, str] = {}
    for row, kind in zip(moves, kinds, strict=True):
        own = shown.get(row.at)
        scene = own or by_kind.get(kind) or last
        if own is not None:
            last = own
            names[own.number] = row.name
        if scene is None:
            continue
        by_kind.setdefault(kind, scene)
        like = "" if own is not None else names[scene.number]
        yield RowTime(row.part, row.name, scene.start, like)
