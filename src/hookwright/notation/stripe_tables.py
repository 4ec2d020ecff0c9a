"""Which rows a table of stripes puts in which yarn: rows beside colours."""

from __future__ import annotations

import re
from collections.abc import Iterator

_HEAD = (
    r"^[ \t]*\|?[ \t]*(?:rows?|rnds?|rounds?)[ \t]*[|\t][ \t]*"
    r"(?:colou?rs?|yarns?|shades?)[ \t]*\|?[ \t]*$"
)
_LINE = (
    r"[ \t]*\|?[ \t]*(?P<first>\d{1,4})(?:[ ]?[-–][ ]?(?P<last>\d{1,4}))?[ \t]*[|\t]"
    r"[ \t]*(?P<yarn>[^\W\d_][^|\t\n]{0,30}?)[ \t]*\|?[ \t]*"
)
_RULE = r"[ \t|:-]*"
_MOST_ROWS = 500


def stripes_in_tables(text: str) -> Iterator[tuple[int, str]]:
    """Every row that a table names, with its yarn."""
    if "|" not in text and "\t" not in text:
        return
    for head in re.finditer(_HEAD, text, re.IGNORECASE | re.MULTILINE):
        for line in text[head.end() : head.end() + 10_000].split("\n")[1:]:
            found = re.fullmatch(_LINE, line)
            if found is None:
                if re.fullmatch(_RULE, line):
                    continue
                break
            first, last = int(found["first"]), int(found["last"] or found["first"])
            for number in range(first, min(last, first + _MOST_ROWS) + 1):
                yield number, found["yarn"]
