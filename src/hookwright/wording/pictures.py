"""Which pictures does a Markdown file place, and where in its text as read?

Reading blanks them out and leaves every other letter where it is, so that a place in the
file is one of the text as well.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.regex import regex
from hookwright.source import Span
from hookwright.wording.written import Picture

_IMAGE = regex(r"!\[(?P<words>[^\[\]\n]*)\]\((?P<path>[^()\n]*)\)")


def pictures_in(markdown: str) -> Iterator[Picture]:
    """The pictures of a file, its line ends made alike, in reading order."""
    for found in _IMAGE.finditer(markdown):
        path = found["path"].strip().partition(' "')[0]
        yield Picture(path.strip("<> "), found["words"].strip(), Span(*found.span()))
