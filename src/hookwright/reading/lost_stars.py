"""Stars that a conversion took for emphasis, and where they stood.

"*ch 1, sk 1*; rep from *" comes out of many converters as slanted words, "ch 1, sk 1; rep
from *". Inside a row that repeats from a star, such words stood between a pair of stars.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.reading.labels import begins_a_row
from hookwright.reading.lines import Line, with_insertions
from hookwright.regex import regex
from hookwright.source import Span

_SAID = r"(?:rep|repeat)(?:\s+\w+)?\s+from\s*(\*{1,2})"
_FROM_STAR = regex(rf"\b{_SAID}", re.IGNORECASE)
_THEN_FROM_STAR = regex(rf"\s*[;:,.]?\s*(?:(?:then|and)\s+)?{_SAID}", re.IGNORECASE)
_ENDS_AT_FROM = regex(r"\b(?:rep|repeat)\s+from\s*$", re.IGNORECASE)
_THEN_TIMES = regex(
    r"""\s*(?: [x\u00d7]\s?\d            # x 6
           | \*\s?\d                    # * 6
           | \d+\s+(?:more\s+)?times\b
           | twice\b
           | (?:rep|repeat)\s+(?:across|around|to)\b )""",
    re.IGNORECASE | re.VERBOSE,
)
_REACH = 80
"""How far behind slanted words their repeat is looked for."""


_SHOWN_LINES = 3
_SHOWN_CHARACTERS = 50


def stars_note(lines: Sequence[str]) -> str:
    """The sentence that tells in which lines stars were put back."""
    shown = "; ".join(f'"{_beginning(line)}"' for line in lines[:_SHOWN_LINES])
    more = " and others" * (len(lines) > _SHOWN_LINES)
    return (
        "Stars that a conversion had turned into slanted or bold words were put back:"
        f" {shown}{more}."
    )


def _beginning(line: str) -> str:
    short = len(line) <= _SHOWN_CHARACTERS
    return line if short else f"{line[:_SHOWN_CHARACTERS].rstrip()} ..."


def with_stars_back(line: Line) -> Line:
    """The line with lost stars put back; the same line if none are missing."""
    insertions = list(_insertions(line)) if line.emphases else []
    return with_insertions(line, insertions) if insertions else line


def _insertions(line: Line) -> Iterator[tuple[int, str]]:
    text = line.text
    doubtful: list[Span] = []
    for emphasis in line.emphases:
        words = text[emphasis.start : emphasis.end]
        if not _may_be_a_repeat(words, text[max(0, emphasis.start - 2) : emphasis.start]):
            continue
        after = text[emphasis.end : emphasis.end + _REACH]
        if _ENDS_AT_FROM.search(words):
            yield from ((emphasis.start, "*"), (emphasis.end, " *"))
        elif said := _THEN_FROM_STAR.match(after):
            yield from ((emphasis.start, said[1]), (emphasis.end, said[1]))
        elif "," in words and _THEN_TIMES.match(after):
            yield from ((emphasis.start, "*"), (emphasis.end, "*"))
        elif "," in words:
            doubtful.append(emphasis)
    yield from _the_only_one(text, doubtful)


def _may_be_a_repeat(words: str, before: str) -> bool:
    """Whether these are neither a label nor words that still have their star."""
    is_label = begins_a_row(words) or words.rstrip().endswith(":")
    return not (is_label or "*" in words or "*" in before)


def _the_only_one(text: str, doubtful: list[Span]) -> Iterator[tuple[int, str]]:
    """The stars of a list of stitches that stands apart from its "rep from *".

    Only if no other words could be meant, and the star is not there already.
    """
    said = _FROM_STAR.search(text)
    if said is None or len(doubtful) != 1 or said.start() < doubtful[0].end:
        return
    (emphasis,) = doubtful
    between = text[emphasis.end + 1 : said.start()]
    if "*" not in text[: emphasis.start] and "*" not in between:
        yield from ((emphasis.start, said[1]), (emphasis.end, said[1]))
