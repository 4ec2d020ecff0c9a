"""Where does the hook go in, where it is not under both loops of the next stitch?"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.lesson.facts import Move
from hookwright.working.fabric import Into, Stitch

_WORDS = {
    Into.FRONT_LOOP: "under the front loop only",
    Into.BACK_LOOP: "under the back loop only",
    Into.THIRD_LOOP: "under the third loop",
    Into.FRONT_POST: "around the post from the front",
    Into.BACK_POST: "around the post from the back",
    Into.WHOLE: "into a chain space",
    Into.BEFORE: "into the gap between stitches",
}


def ways_in(stitch: Stitch) -> Iterator[Move]:
    """The moves that the feet of a stitch ask for."""
    for foot in stitch.feet:
        if foot.into in _WORDS:
            yield Move(
                f"into {foot.into}",
                _WORDS[foot.into],
                "Where the hook goes in, from the side.",
            )
        if foot.down:
            yield Move("below", "into a row further down", "Which row it stands on.")
    steps = [foot.step for foot in stitch.feet]
    if steps != sorted(steps):
        yield Move("crossed", "crossed stitches", "Which one is worked first.")
