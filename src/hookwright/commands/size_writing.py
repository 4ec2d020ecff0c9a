"""`hookwright size --write`: the text with the numbers of the sizes that are wanted."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.commands.project import pattern_file
from hookwright.commands.writing import NotWritten, write_new
from hookwright.finding import Finding
from hookwright.reading.changes import CHANGEABLE, with_changes
from hookwright.reading.markdown import as_markdown
from hookwright.reading.opening import bytes_of
from hookwright.sizing.rewriting import Rewritten, rewritten
from hookwright.sizing.sized import Sized
from hookwright.sizing.to_write import not_to_write, sizes_to_write


class SizesWritten(Struct, frozen=True):
    """A text that was written.

    Attributes:
        file: Where it is; "" where nothing was written.
        asked: What of the sizes cannot be written; spans are of what is asked for.
        findings: Why the text could not be; spans are of the pattern's text.
        wording: Words that had to change with the numbers, old and new.
    """

    file: str = ""
    asked: tuple[Finding, ...] = ()
    findings: tuple[Finding, ...] = ()
    wording: tuple[tuple[str, str], ...] = ()


def write_sizes(path: str, checked: Checked, sized: Sized, file: str) -> SizesWritten:
    """Write the text with the numbers of the wanted sizes into a new file.

    Raises:
        NotWritten: If the file is there already, or cannot be written.
        UnreadableDraft: If the draft is there no more.
    """
    found = not_to_write(sized, checked)
    if found:
        return SizesWritten(asked=found)
    text = rewritten(checked, sizes_to_write(sized))
    if text.checked is None:
        return SizesWritten(findings=text.open)
    write_new(Path(file), _contents(path, checked, text))
    source = checked.source
    words = ((source.slice(edit.span), edit.replacement) for edit in text.wording)
    in_letters = tuple(pair for pair in words if any(map(str.isalpha, pair[0])))
    return SizesWritten(file, wording=in_letters)


def _contents(path: str, checked: Checked, text: Rewritten) -> bytes:
    """The changed text: in the file's own manner where it is one that is changed."""
    file = pattern_file(path)
    if path == "-" or file.suffix.lower() not in CHANGEABLE:
        assert text.checked is not None
        return as_markdown(text.checked.draft).encode("utf-8", "replace")
    changed = with_changes(
        bytes_of(file, str(file)), file.suffix, checked.draft, text.edits
    )
    if changed.waiting or changed.refused:
        words = checked.source.slice((*changed.waiting, *changed.refused)[0].span)
        raise NotWritten(
            f'"{words}" stands otherwise in {file} than it was read: nothing was written.'
        )
    return changed.data
