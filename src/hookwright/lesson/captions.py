"""Captions: what is said, in pieces that can be read in the time they stand there.

At most two lines of 37 letters. Source: BBC Subtitle Guidelines (line length of 37 letters,
as retold in github.com/openai/whisper/discussions/314), bbc.github.io/subtitle-guidelines.
At most 150 words a minute, and no caption for less than two seconds. Source: DCMP
Captioning Key, presentation rate, special-interest media for adults (150-160 words a
minute, two seconds), dcmp.org/learn/captioningkey/601.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from hookwright.lesson.facts import Cue, Scene

LINE = 37
LINES = 2
WORDS_A_MINUTE = 150
LEAST_SECONDS = 2.0
_SPOKEN_A_MINUTE = 130
"""How fast the words are taken to be said: below what may be read."""


def speaking_seconds(sentences: Sequence[str]) -> float:
    """How long some sentences take, said so that their captions can be read."""
    return sum(_seconds(piece) for piece in _pieces(sentences))


def captions_of(scenes: Sequence[Scene]) -> tuple[Cue, ...]:
    """The captions of all scenes, one behind the other."""
    return tuple(cue for scene in scenes for cue in _of_scene(scene))


def _of_scene(scene: Scene) -> Iterator[Cue]:
    start = float(scene.start)
    for piece in _pieces(scene.say):
        end = start + _seconds(piece)
        yield Cue(round(start, 3), round(end, 3), tuple(_lines(piece)))
        start = end


def _seconds(piece: str) -> float:
    return max(LEAST_SECONDS, len(piece.split()) * 60 / _SPOKEN_A_MINUTE)


def _pieces(sentences: Sequence[str]) -> Iterator[str]:
    """Sentences cut so that each piece fits two lines, at a comma where there is one."""
    for sentence in sentences:
        number = -(-len(_lines(sentence)) // LINES)
        yield from _even(sentence.split(), number)


def _even(words: Sequence[str], number: int) -> Iterator[str]:
    """Words in so many pieces of about the same length, in more where one does not fit."""
    if not words:
        return
    whole = len(" ".join(words))
    pieces: list[list[str]] = [[]]
    for word in words:
        long = len(" ".join(pieces[-1])) >= whole / number
        if long and len(pieces) < number:
            pieces.append([])
        pieces[-1].append(word)
    told = [" ".join(piece) for piece in pieces]
    if all(len(_lines(piece)) <= LINES for piece in told) or number > len(words):
        yield from told
    else:
        yield from _even(words, number + 1)


def _lines(words: str) -> list[str]:
    return textwrap.wrap(words, LINE, break_long_words=True, break_on_hyphens=False)


def as_webvtt(cues: Sequence[Cue]) -> str:
    """The captions as WebVTT. Source: w3.org/TR/webvtt1."""
    blocks = ["WEBVTT"]
    for number, cue in enumerate(cues, start=1):
        lines = "\n".join(
            line.replace("&", "&amp;").replace("<", "&lt;") for line in cue.lines
        )
        blocks.append(f"{number}\n{_stamp(cue.start)} --> {_stamp(cue.end)}\n{lines}")
    return "\n\n".join(blocks) + "\n"


def _stamp(seconds: float) -> str:
    milliseconds = round(seconds * 1000)
    whole, part = divmod(milliseconds, 1000)
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{whole % 60:02}.{part:03}"
