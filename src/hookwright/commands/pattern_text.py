"""How is a changed pattern written into a file of some kind, to read back the same?

A file that keeps its kind stays as it is but for the changes. What changes its kind is
written anew: as the words stand for plain text, and with marks for Markdown. What was piped
in is tried as it stands first, for nobody can say which kind it was.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked, check
from hookwright.commands.fix import numbers_of
from hookwright.commands.writing import NotWritten
from hookwright.reading import Draft, read_bytes
from hookwright.reading.markdown import as_markdown
from hookwright.regex import regex

MARKDOWN = (".md", ".markdown")


def pattern_text(changed: Checked, file: str, kept: bytes | None, *, piped: bool) -> bytes:
    """The contents of a file for a changed pattern.

    Args:
        changed: The pattern with its changes, read and worked.
        file: The name of the file to write; its ending tells its kind.
        kept: The file that the pattern was read from with the changes made in it, where it
            is of the same kind; None where it is not.
        piped: Whether the pattern was piped in.

    Raises:
        NotWritten: If it would be read otherwise than it is.
    """
    ending = file[file.rfind(".") :].lower()
    sheet = changed.worksheet.source if changed.worksheet is not None else None
    for data in _dresses(changed, ending, kept, piped=piped):
        again = check(read_bytes(data, ending, file), changed.terms, sheet)
        if numbers_of(again) == numbers_of(changed) and again.sizes == changed.sizes:
            return data
    raise NotWritten(
        "Nothing was written: in such a file the rows would come to other numbers."
    )


def _dresses(
    changed: Checked, ending: str, kept: bytes | None, *, piped: bool
) -> Iterator[bytes]:
    if kept is not None:
        yield kept
        return
    if piped or ending not in MARKDOWN:
        yield _bytes(_without_blanks(changed.draft))
    if ending in MARKDOWN:
        yield _bytes(as_markdown(changed.draft))


def _bytes(text: str) -> bytes:
    whole = text if text.endswith("\n") else text + "\n"
    return whole.encode("utf-8", "replace")


_LABEL = regex(r"^  (\S.{0,60}?[:.]) {3}")
"""A label whose bold marks were read as blanks."""


def _without_blanks(draft: Draft) -> str:
    """The text of a draft whose headings and labels stand where their marks stood."""
    lines = [_LABEL.sub(r"\1 ", line) for line in draft.source.text.split("\n")]
    for heading in draft.headings:
        number = draft.source.line_of(heading.span.start) - 1
        lines[number] = lines[number].strip()
    return "\n".join(lines)
