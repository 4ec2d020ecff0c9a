"""What does somebody see who looks at a chart, and what has to be said under it?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.drawing.chart_frame import Frame
from hookwright.drawing.chart_legend import Entry
from hookwright.drawing.chart_repeat import Cut
from hookwright.drawing.lying import Lying
from hookwright.working.steps import row_name


def titled(design: str, piece: Lying) -> str:
    """The title of a chart."""
    of = " of ".join(name for name in ("Symbol chart", piece.part) if name)
    return f"{design}: {of[0].lower()}{of[1:]}" if design else of


def described(piece: Lying, cut: Cut, entries: Sequence[Entry], frame: Frame) -> str:
    """What is to be seen, in sentences."""
    steps = [outcome.step for outcome in piece.outcomes]
    first, last = row_name(steps[0]), row_name(steps[-1])
    drawn = len([n for n in cut.rows if piece.graph.courses[n].row])
    rows = first if len(steps) == 1 else f"{first} to {last}"
    what = "rounds" if piece.rounds else "rows"
    lies = "from the centre outwards" if piece.rounds else "the first row at the foot"
    sentences = [f"{rows} in symbols, seen from the right side, {lies}."]
    if drawn < len(steps):
        sentences.append(f"{drawn} of {len(steps)} {what} are drawn.")
    if frame.across is not None:
        sentences.append(f"The shaded part is {_repeat(frame)}.")
    if cut.said:
        sentences.append(cut.said)
    names = [entry.words for entry in entries]
    sentences.append(f"Symbols: {', '.join(names)}.")
    return " ".join(sentences)


def _repeat(frame: Frame) -> str:
    return frame.words if frame.words.startswith("one") else f"one {frame.words}"


def notes_of(
    piece: Lying, cut: Cut, frame: Frame, page: str, *, striped: bool
) -> Iterator[str]:
    """What is said under a chart; `striped` where its rows are of several yarns."""
    if page:
        yield f"{page.strip(' ()').capitalize()}."
    yield _reading(piece)
    if frame.across is not None and len(cut.keep) > int(cut.keep.sum()):
        yield f"The shaded part is {_repeat(frame)}, worked {frame.across.times} times."
    elif frame.across is not None:
        yield f"The shaded part is {_repeat(frame)}."
    if cut.said:
        yield cut.said
    if striped and frame.up is not None:
        yield "The rows that are left out go on in the stripes that the pattern tells."
    yield from piece.notes


def _reading(piece: Lying) -> str:
    hand = "Drawn for left-handed work. " if piece.mirrored else ""
    if piece.rounds:
        turned = not bool(piece.front.all())
        way = "clockwise" if piece.mirrored else "anticlockwise"
        if turned:
            return f"{hand}Each round begins at its number and goes the way of its arrow."
        return f"{hand}Read each round from its number, {way}."
    one, other = ("left", "right") if piece.mirrored else ("right", "left")
    if bool(piece.front.all()):
        return f"{hand}Each row begins at its number and is read the way of its arrow."
    return (
        f"{hand}The chart shows the right side. Rows whose number stands on the {one} are "
        f"right-side rows; the others are read from {other} to {one}."
    )
