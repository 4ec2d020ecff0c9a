"""Which stripes have one number for all colours: "Fern, Butter, Ash. Two rows of each"?

The colours stand in a list in front of it, or in the order behind it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.regex import regex
from hookwright.source import Span

_NAME = r"[A-Z][\w'’-]*(?:[ \t][A-Z][\w'’-]*){0,2}(?:[ \t]\([A-Z]{1,2}\d?\))?"
_LIST = rf"{_NAME}(?:,[ \t](?:and[ \t])?{_NAME}){{0,11}}(?:,?[ \t](?:and|&)[ \t]{_NAME})?"
_EACH = regex(
    r"\b(?P<rows>\d{1,3}|one|two|three|four|five|six|eight|ten)[ \t](?:rows?|rnds?|rounds?)"
    r"[ \t](?:of|in|with|for)[ \t](?:each|every)(?:[ \t](?:colou?r|shade|yarn|one))?\b"
    r"(?:,?[ \t]in[ \t](?:the|this|that)[ \t]order:?[ \t]"
    rf"(?!given|told|listed|of\b)(?-i:(?P<behind>{_LIST})))?",
    re.IGNORECASE,
)
_BEFORE = regex(
    rf"(?:\b[Cc]olou?rs?(?:[ \t](?:order|sequence))?|\b[Ss]hades?|\b[Yy]arns?)[ \t]?:"
    rf"[ \t](?:in[ \t])?(?P<names>{_LIST})[.;:,]?[ \t]?(?:[Ww]ork[ \t]|[Mm]ake[ \t])?$"
)
_MOST = 300
"""Characters in front of it in which the list of colours ends."""
_SPLIT = regex(r",[ \t](?:and[ \t])?|[ \t](?:and|&)[ \t]")
_FEWEST = 2


def stripes_of_each(
    text: str, stretch: Span
) -> Iterator[tuple[Span, tuple[tuple[int, str], ...]]]:
    """Sequences told so, each with where it stands: rows and colours in order."""
    for found in _EACH.finditer(text, stretch.start, stretch.end):
        names = found["behind"]
        start = found.start()
        if names is None:
            begin = max(stretch.start, text.rfind("\n", 0, start) + 1, start - _MOST)
            before = _BEFORE.search(text[begin:start])
            if before is None:
                continue
            names, start = before["names"], begin + before.start("names")
        colours = [name.partition(" (")[0] for name in _SPLIT.split(names)]
        number = found["rows"].lower()
        rows = NUMBER_WORDS[number] if number in NUMBER_WORDS else int(number)
        if len(colours) >= _FEWEST and rows:
            yield Span(start, found.end()), tuple((rows, name) for name in colours)
