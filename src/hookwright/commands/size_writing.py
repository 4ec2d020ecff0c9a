"""`hookwright size --write`: the text with the numbers of the sizes that are wanted."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.commands.pattern_text import MARKDOWN, pattern_text
from hookwright.commands.project import pattern_file
from hookwright.commands.writing import NotWritten, write_new
from hookwright.finding import Finding
from hookwright.reading.changes import CHANGEABLE, with_changes
from hookwright.reading.opening import bytes_of
from hookwright.sizing.rewriting import Rewritten, rewritten
from hookwright.sizing.sized import Sized
from hookwright.sizing.to_write import not_to_write, sizes_to_write


class SizesWritten(Struct, frozen=True):
    """A text that was written.

    Attributes:
        file: Where it is; "" where nothing was written.
        asked: What of the sizes cannot be written; spans are of what is asked for.
        findings: Why the text could not be; spans are of the pattern's text, or of `tried`.
        tried: The text with the new numbers that was not written; None for none.
        wording: Words that had to change with the numbers, old and new.
        notes: What else the designer has to see to, in sentences.
    """

    file: str = ""
    asked: tuple[Finding, ...] = ()
    findings: tuple[Finding, ...] = ()
    wording: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    tried: Checked | None = None


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
        return SizesWritten(findings=text.open, tried=text.tried)
    kept = _kept(path, checked, text, file)
    data = pattern_text(text.checked, file, kept, piped=path == "-")
    write_new(Path(file), data)
    source = checked.source
    words = ((source.slice(edit.span), edit.replacement) for edit in text.wording)
    in_letters = tuple(pair for pair in words if any(map(str.isalpha, pair[0])))
    own_gauge = (_OWN_GAUGE,) if sized.has_gauge else ()
    return SizesWritten(file, wording=in_letters, notes=(*text.notes, *own_gauge))


_OWN_GAUGE = (
    "The numbers are for the gauge asked for. What the text says of its gauge and its "
    "measurements is still of its own gauge."
)


def _kept(path: str, checked: Checked, text: Rewritten, name: str) -> bytes | None:
    """The pattern's own file with its changes, where the new one is of its kind."""
    file = pattern_file(path)
    kinds = [
        ending in MARKDOWN for ending in (file.suffix.lower(), Path(name).suffix.lower())
    ]
    if path == "-" or file.suffix.lower() not in CHANGEABLE or kinds[0] != kinds[1]:
        return None
    changed = with_changes(
        bytes_of(file, str(file)), file.suffix, checked.draft, text.edits
    )
    if changed.waiting or changed.refused:
        words = checked.source.slice((*changed.waiting, *changed.refused)[0].span)
        raise NotWritten(
            f'"{words}" stands otherwise in {file} than it was read: nothing was written.'
        )
    return changed.data
