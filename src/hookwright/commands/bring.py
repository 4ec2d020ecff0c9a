"""`hookwright bring`: a draft in any file becomes a project folder.

The pattern is written as plain text with very little Markdown, the worksheet with what the
pattern says of the design. Nothing that is there already is written over.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.fix import numbers_of
from hookwright.commands.folder import (
    called_for,
    refuse_what_is_there,
    worksheet_told,
    write_project,
)
from hookwright.commands.project import PATTERN_FILE, draft_at, pattern_file
from hookwright.commands.writing import NotWritten
from hookwright.design.worksheet.template import Template, worksheet_for
from hookwright.listing.columns import wrapped
from hookwright.listing.summary import counted, rows_in
from hookwright.reading import Draft, UnreadableDraft
from hookwright.reading.markdown import as_markdown, markdown_draft
from hookwright.reading.opening import bytes_of
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.terminal import ReaderGone, say, say_aside, width

_MARKDOWN = {".md", ".markdown"}


def bring(path: str, place: str) -> Status:
    """Make a project folder of a draft, and say what was done."""
    folder = Path(place)
    try:
        draft = draft_at(path)
        refuse_what_is_there(folder)
        text = _pattern_text(path, draft)
        checked = check(draft)
        sheet = worksheet_for(checked.reading.pattern, checked.design, draft.title)
        write_project(folder, text, sheet)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    with suppress(ReaderGone):
        say("\n".join(_told(path, folder, checked, sheet, text)))
    return Status.CLEAN


def _pattern_text(path: str, draft: Draft) -> str:
    """The text for pattern.md: a Markdown file's own, else the text as it was read."""
    if path != "-" and pattern_file(path).suffix.lower() in _MARKDOWN:
        file = pattern_file(path)
        return with_plain_line_ends(decoded(bytes_of(file, str(file))).text)
    text = as_markdown(draft)
    return text if text.endswith("\n") else text + "\n"


def _told(
    path: str, folder: Path, checked: Checked, sheet: Template, text: str
) -> Iterator[str]:
    name = "what was piped in" if path == "-" else path
    rows = counted(rows_in(checked), "row")
    yield from _set(f"{folder / PATTERN_FILE}: {rows}, as they were read from {name}.")
    for note in checked.draft.notes:
        yield from _set(note)
    again = check(markdown_draft(text, PATTERN_FILE))
    if numbers_of(again) != numbers_of(checked):
        yield from _set(
            "Some rows read otherwise there than in the draft: compare the two."
        )
    yield from _set(worksheet_told(folder, sheet))
    if path != "-" and pattern_file(path).suffix.lower() in {".html", ".docx", ".pdf"}:
        yield from _set("Pictures and charts were not brought along.")
    yield f"Next: hookwright check {called_for(folder)}"


def _set(sentence: str) -> list[str]:
    return wrapped(sentence, width())
