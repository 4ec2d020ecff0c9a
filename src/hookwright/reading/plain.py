"""A text file, read as it stands.

The text is the file's own, so that a change of the text can be written back: nothing but
the line ends is made alike.
"""

from __future__ import annotations

import codecs

from msgspec import Struct

from hookwright.reading import limits
from hookwright.reading.draft import Draft, SameLines, UnreadableDraft
from hookwright.regex import regex
from hookwright.source import Source

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_CONTROLS = regex("[\x01-\x08\x0e-\x19\x1c-\x1f\x7f]")
_STRAY_CONTROLS = 8
_HALF_PAIRS = regex("[\ud800-\udfff]")


class Decoded(Struct, frozen=True):
    """The words of a file and how they were written down.

    Attributes:
        text: All of it, line ends as they are in the file.
        encoding: The name to encode it with again.
    """

    text: str
    encoding: str


def decoded(data: bytes) -> Decoded:
    """Find out how a text file is encoded: by its mark, as UTF-8, else as Windows does.

    Raises:
        UnreadableDraft: If it is not text.
    """
    encoding = next((name for mark, name in _MARKS if data.startswith(mark)), "utf-8")
    tried = (encoding,) if encoding != "utf-8" else ("utf-8", "cp1252")
    for name in tried:
        try:
            text = data.decode(name)
        except UnicodeDecodeError:
            continue
        refuse_what_is_not_text(text)
        return Decoded(text, name)
    raise UnreadableDraft(_NOT_TEXT)


_NOT_TEXT = (
    "it is not a text file, or it is damaged. Save it as plain text (UTF-8) and try again."
)


def refuse_what_is_not_text(text: str) -> None:
    """Refuse text that only a program could have written.

    Raises:
        UnreadableDraft: If it holds null characters, or many other controls.
    """
    if "\x00" in text:
        raise UnreadableDraft(_NOT_TEXT)
    allowed = max(_STRAY_CONTROLS, len(text) // 200)
    for count, _ in enumerate(_CONTROLS.finditer(text), start=1):
        if count > allowed:
            raise UnreadableDraft(_NOT_TEXT)


def with_plain_line_ends(text: str) -> str:
    """The text with one line end for all: lines and columns stay what they were."""
    return text.replace("\r\n", "\n").replace("\r", "\n")


def read_plain(data: bytes, name: str) -> Draft:
    """Read a .txt file."""
    return plain_draft(with_plain_line_ends(decoded(data).text), name)


def plain_draft(text: str, name: str) -> Draft:
    """The draft whose text is exactly this one.

    Raises:
        UnreadableDraft: If there are no words in it, or too many.
    """
    if len(text) > limits.TEXT_CHARACTERS:
        raise UnreadableDraft(
            "it holds far more text than a pattern. Cut out the pattern and try again."
        )
    if not text.strip():
        raise UnreadableDraft("there are no words in it.")
    source = Source(text, name)
    return Draft(source, SameLines(source), only_words=True)


def pasted_draft(text: str, name: str) -> Draft:
    """Read text that was pasted or piped in; half characters become a question mark."""
    refuse_what_is_not_text(text)
    whole = _HALF_PAIRS.sub("\ufffd", text.removeprefix("\ufeff"))
    return plain_draft(with_plain_line_ends(whole), name)
