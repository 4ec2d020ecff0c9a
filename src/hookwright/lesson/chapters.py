"""Chapters: where each scene begins, for a player or for the words under a film.

The first at 0:00, at least three, each at least ten seconds: what players of films ask for.
Source: support.vevo.com, chapters; 9to5google.com/2020/05/28.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.lesson.facts import Scene

LEAST_SECONDS = 10
FEWEST = 3


def clock(seconds: float) -> str:
    """A time as it stands under a film: "0:00", "12:05", "1:02:30"."""
    whole = int(seconds)
    hours, minutes = divmod(whole // 60, 60)
    told = f"{minutes}:{whole % 60:02}"
    return f"{hours}:{minutes:02}:{whole % 60:02}" if hours else told


def chapters_of(scenes: Sequence[Scene]) -> tuple[tuple[int, str], ...]:
    """Beginnings and names of the chapters; a short scene goes with the one before."""
    found: list[tuple[int, str]] = []
    for scene in scenes:
        if not found:
            found.append((0, scene.title))
        elif scene.start - found[-1][0] >= LEAST_SECONDS:
            found.append((scene.start, scene.title))
    return tuple(found)


def as_lines(chapters: Sequence[tuple[int, str]]) -> str:
    """The chapters as lines to paste."""
    return "".join(f"{clock(start)} {title}\n" for start, title in chapters)


def as_webvtt(chapters: Sequence[tuple[int, str]], end: int) -> str:
    """The chapters as a track of their own. Source: w3.org/TR/webvtt1, chapters."""
    starts = [start for start, _ in chapters]
    blocks = ["WEBVTT"]
    for (start, title), until in zip(chapters, [*starts[1:], end], strict=True):
        words = title.replace("&", "&amp;").replace("<", "&lt;")
        blocks.append(f"{_stamp(start)} --> {_stamp(until)}\n{words}")
    return "\n\n".join(blocks) + "\n"


def _stamp(seconds: int) -> str:
    return f"{seconds // 3600:02}:{seconds // 60 % 60:02}:{seconds % 60:02}.000"
