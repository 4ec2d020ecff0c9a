"""The scenes of a lesson, one for each row that asks for something new."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.cautions import caution, cautions_of
from hookwright.lesson.captions import speaking_seconds
from hookwright.lesson.chapters import LEAST_SECONDS
from hookwright.lesson.facts import Close, RowMoves, Scene
from hookwright.lesson.finishing import finishing_moves, finishing_said
from hookwright.lesson.pace import Pace
from hookwright.lesson.speech import row_said

_STITCH_KEYS = ("stitch", "group", "into", "crossed", "below", "end in chain")


class _Draft(Struct, frozen=True):
    """A scene before it has its time.

    Attributes:
        title: Its title.
        row: Its row.
        show: What is to be seen.
        close: How close.
        ready: The piece to have in hand.
        say: What is said.
        work: Seconds that the hands take.
        at: Its row among all.
    """

    title: str
    row: str
    show: tuple[str, ...]
    close: Close
    ready: str
    say: tuple[str, ...]
    work: float = 0.0
    at: int | None = None


def scenes_of(
    checked: Checked,
    size: int,
    moves: Sequence[RowMoves],
    order: Sequence[int],
    pace: Pace,
) -> tuple[Scene, ...]:
    """The scenes in order, each behind the one before.

    Args:
        checked: The pattern; what is said is of its rows.
        size: The size whose numbers are said, from 0.
        moves: All its rows; those with something new are filmed.
        order: The rows of the teaching swatch, in the order they are worked.
        pace: How fast she works.
    """
    drafts = [_opening(checked, size)]
    drafts += _rows(checked, size, moves, order, pace)
    ending = _ending(checked)
    if ending is not None:
        drafts.append(ending)
    return tuple(_timed(drafts))


def _timed(drafts: Sequence[_Draft]) -> Iterator[Scene]:
    start = 0
    for number, draft in enumerate(drafts, start=1):
        lasts = max(LEAST_SECONDS, ceil(max(speaking_seconds(draft.say), draft.work)))
        yield Scene(
            number, draft.title, draft.row, start, start + lasts,
            draft.show, draft.close, draft.ready, draft.say, draft.at,
        )  # fmt: skip
        start += lasts


def _opening(checked: Checked, size: int) -> _Draft:
    title = checked.design.title or checked.draft.title or "this piece"
    terms = checked.terms or "US"
    say = [
        f"This is {title}.",
        f"I say the stitches by their {terms} names.",
        (
            "I work a small piece, so that we see every movement; your numbers are in the "
            "pattern."
        ),
    ]
    if checked.sizes:
        say.append(f"The numbers I say are those of size {checked.sizes[size]}.")
    say.append("Stop the film wherever I say so, and work on until you are there.")
    say.append(caution("hands"))
    say += [one for one in cautions_of(checked.source.text) if not _has_figures(one)]
    return _Draft(
        "What you need",
        "",
        ("The finished piece, then yarn, hook and notions side by side.",),
        Close.WHOLE,
        "the finished piece",
        tuple(say),
    )


def _has_figures(words: str) -> bool:
    return any(letter.isdigit() for letter in words)


def _rows(
    checked: Checked,
    size: int,
    moves: Sequence[RowMoves],
    order: Sequence[int],
    pace: Pace,
) -> Iterator[_Draft]:
    outcomes = checked.worked.sizes[size].outcomes
    several = len(checked.reading.pattern.parts) > 1
    shown = moves[0].part if moves else ""
    for row in moves:
        if not row.new:
            continue
        outcome = outcomes[row.at]
        name = _named(row, several=several)
        before = max((at for at in order if at < row.at), default=None)
        lead = f"{row.name}." if outcome.step.number is not None else f"{name}."
        begins = _begun(row.part) if row.part != shown else ()
        shown = row.part
        say = (*begins, lead, *row_said(checked, outcome, size))
        yield _Draft(
            name,
            row.name,
            tuple(_shown(row)),
            _closeness(row),
            _in_hand(moves, before, several=several),
            say,
            _filmed_seconds(pace, row, pace.seconds(outcome, row.name)),
            row.at,
        )


def _begun(part: str) -> tuple[str, ...]:
    """What is said where another part begins; nothing that has a number."""
    if not part or _has_figures(part):
        return ()
    return (f"Now the {part[:1].lower()}{part[1:]}.",)


def _named(row: RowMoves, *, several: bool) -> str:
    return f"{row.part}, {row.name}" if several and row.part else row.name


def _in_hand(moves: Sequence[RowMoves], before: int | None, *, several: bool) -> str:
    """The piece that a row begins on: the swatch, worked to the row before."""
    if before is None:
        return "yarn and hook"
    return f"the piece worked to the end of {_named(moves[before], several=several)}"


def _filmed_seconds(pace: Pace, row: RowMoves, seconds: float) -> float:
    """What is filmed of a row is one repeat: the rest is worked off camera."""
    shown = max(1, len(row.new)) * 3 * 60 / pace.stitches
    return min(seconds, shown)


def _shown(row: RowMoves) -> Iterator[str]:
    for move in row.new:
        yield f"{move.words[:1].upper()}{move.words[1:]}. {move.show}".strip()
    yield "Then the end of the row, as it is to look."


def _closeness(row: RowMoves) -> Close:
    fine = any(move.key.startswith(_STITCH_KEYS) for move in row.new)
    return Close.STITCH if fine else Close.HANDS


def _ending(checked: Checked) -> _Draft | None:
    moves = finishing_moves(checked)
    say = finishing_said(checked)
    if not say:
        return None
    shown = tuple(f"{move.words[:1].upper()}{move.words[1:]}." for move in moves)
    return _Draft(
        "Finishing",
        "",
        (*shown, "The finished piece."),
        Close.HANDS,
        "the piece with its last row worked",
        (*say, caution("sharp")),
    )
