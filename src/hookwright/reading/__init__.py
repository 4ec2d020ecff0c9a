"""Reading: a draft in any file, as one plain text with a way back to the file.

    draft = read_draft("kittiwake.docx")
    draft.source.text                      # a row or paragraph a line
    draft.origin_of(120).describe()        # "paragraph 9"

What each kind of file needs is imported only when a file of that kind is read.
"""

from hookwright.reading.draft import (
    Box,
    Draft,
    Heading,
    LinePlace,
    Origin,
    PagePlace,
    ParagraphPlace,
    UnreadableDraft,
)
from hookwright.reading.opening import read_bytes, read_draft, read_text

__all__ = [
    "Box",
    "Draft",
    "Heading",
    "LinePlace",
    "Origin",
    "PagePlace",
    "ParagraphPlace",
    "UnreadableDraft",
    "read_bytes",
    "read_draft",
    "read_text",
]
