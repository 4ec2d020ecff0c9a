"""How large, deep or long a draft may be.

A pattern is some thousand words. These limits lie far above any pattern and far below what
would fill the memory or keep a designer waiting.
"""

from __future__ import annotations

FILE_BYTES = 20 * 1024 * 1024
"""The largest file that is opened."""

TEXT_CHARACTERS = 5_000_000
"""The longest text that a draft may hold."""

TEXT_LINES = 200_000
"""Lines that are put together from a page, a document or a print."""

TEXT_PIECES = 400_000
"""Stretches of text with a place of their own."""

HTML_CHARACTERS = 8_000_000
"""A whole page with its scripts and the pictures packed into it."""

HTML_TAGS = 100_000
HTML_DEPTH = 120
"""Elements inside one another; real pages stay below sixty."""

DOCX_ENTRIES = 4_000
"""Files inside a .docx, which is a zip folder."""

DOCX_PART_BYTES = 24 * 1024 * 1024
"""One part of a .docx, unpacked."""

DOCX_RATIO = 250
"""How many times larger a part may be than it is when packed."""

DOCX_RATIO_FROM_BYTES = 1024 * 1024
"""Smaller parts may be packed as tightly as they like."""

XML_DEPTH = 100
"""Elements inside one another; a text box in a table in a table needs about forty."""

XML_ELEMENTS = 500_000

PDF_PAGES = 400
PDF_CHARACTERS = 500_000
PDF_PAGE_LINES = 2_000
"""Lines on one page; beyond that, its columns are not looked for."""
