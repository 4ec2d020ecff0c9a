"""What was said when, from captions (WebVTT, SRT) or a transcript with times?"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Sequence

from hookwright.lesson.heard.facts import Cue, Word
from hookwright.regex import regex

_MOST = 5_000_000
"""Characters: a film of a day has fewer."""
_ARROW = "-->"
_AT = regex(
    r"^\s*[\[(]?(?:(?P<h>\d{1,2}):)?(?P<m>\d{1,3}):(?P<s>[0-5]\d)(?:[.,]\d+)?"
    r"(?:\s*-->\s*[\d:.,]{4,12})?[\])]?\s*[-–:]?\s*(?P<words>.*)$"
)
_TAG = regex(r"<[^>]{0,60}>|\[[^\]\d]{0,40}\]|>>+")
"""Marks of the recogniser: times of words, "[Music]", ">>" where somebody else speaks."""
_WORD = regex(r"\d+(?:st|nd|rd|th)\b|\d+\.\d+|[A-Za-z]+|\d+|[.,!?;:]")
_APOSTROPHE = regex(r"(?<=[A-Za-z])['’](?=[A-Za-z])")
_IS = regex(r"(?i)\b(?!(?:that|it|let|here|there|what|he|she)['’])([a-z]+)['’]s\b")
""" "Row two's the first with bobbles" is of row two."""
_FLASH = 0.05
"""Seconds: so short a caption only moves up the line that stood in the one before."""
_SLOWEST = 0.6
"""Seconds a word: a line that stands longer is said first and then worked."""
_LAST = 5.0
"""Seconds that the last words of a transcript are taken to last."""


def cues_in(text: str) -> tuple[Cue, ...]:
    """The cues of captions or of a transcript; none where no time is told."""
    if len(text) > _MOST:
        return ()
    found = _captions(text) if _ARROW in text else []
    found = found or list(_timed_lines(text))
    return tuple(sorted(found, key=lambda cue: cue.start))


def _captions(text: str) -> list[Cue]:
    import webvtt  # noqa: PLC0415 - of use only where captions are read
    from webvtt.errors import MalformedCaptionError, MalformedFileError  # noqa: PLC0415

    kind = "vtt" if text.lstrip("\ufeff \n").startswith("WEBVTT") else "srt"
    try:
        captions = webvtt.from_buffer(io.StringIO(text.lstrip("\ufeff")), format=kind)
    except (MalformedCaptionError, MalformedFileError, ValueError):
        return []
    return list(
        _once(
            (
                float(one.start_in_seconds) + _part(one.start),
                float(one.end_in_seconds) + _part(one.end),
                one.raw_text,
            )
            for one in captions.captions
        )
    )


def _once(captions: Iterable[tuple[float, float, str]]) -> Iterator[Cue]:
    """Captions without the lines that roll up from one to the next."""
    before: list[str] = []
    for start, end, text in captions:
        plain = (" ".join(_TAG.sub("", line).split()) for line in text.splitlines())
        lines = [line for line in plain if line]
        if end - start < _FLASH and lines == before[-len(lines) :]:
            continue
        rolled = len(lines) > 1 and lines[0] == (before[-1] if before else "")
        yield Cue(start, end, " ".join(lines[1:] if rolled else lines))
        before = lines


def _part(stamp: str) -> float:
    """The thousandths of a time, which the whole seconds leave out."""
    return int(stamp.rpartition(".")[2] or 0) / 1000


def _timed_lines(text: str) -> Iterator[Cue]:
    """Lines that begin with a time, each up to the next one."""
    starts: list[float] = []
    words: list[list[str]] = []
    for line in text.splitlines():
        match = _AT.match(line)
        if match is not None:
            hours, minutes = int(match["h"] or 0), int(match["m"])
            starts.append(hours * 3600.0 + minutes * 60 + int(match["s"]))
            words.append([match["words"]])
        elif words:
            words[-1].append(line)
    ends = [*starts[1:], *([starts[-1] + _LAST] if starts else [])]
    for start, end, said in zip(starts, ends, words, strict=True):
        yield Cue(start, max(start, end), " ".join(" ".join(said).split()))


def words_of(cues: Sequence[Cue]) -> tuple[Word, ...]:
    """All words, each at its share of the time of its cue."""
    return tuple(word for cue in cues for word in _of_cue(cue))


def _of_cue(cue: Cue) -> Iterator[Word]:
    plain = _IS.sub(r"\1", cue.words)
    found = _WORD.findall(_APOSTROPHE.sub("", _TAG.sub(" ", plain)))
    each = min(_SLOWEST, (cue.end - cue.start) / max(1, len(found)))
    for number, text in enumerate(found):
        yield Word(text.lower(), cue.start + each * number, cue.start)
