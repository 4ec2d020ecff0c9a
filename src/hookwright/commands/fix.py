"""`hookwright check --fix`: the changes that may be made unread, made in the file."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.project import pattern_file, worksheet_at
from hookwright.commands.writing import NotWritten, replace_keeping
from hookwright.finding import Edit, Finding
from hookwright.listing.columns import writable
from hookwright.listing.summary import counted
from hookwright.reading import Draft, read_bytes
from hookwright.reading.changes import CHANGEABLE, Changed, with_changes
from hookwright.reading.opening import bytes_of
from hookwright.terminal import Ink


class Fixed(Struct, frozen=True):
    """A pattern after its safe changes were made.

    Attributes:
        checked: What is found in it now.
        difference: The lines that were changed, as a unified difference; "" for none.
        told: What was done, in sentences.
    """

    checked: Checked
    difference: str
    told: tuple[str, ...]


def fix(path: str, terms: str | None, colours: Ink) -> Fixed:
    """Check a pattern and make the safe changes in its file, keeping the file as it was.

    Raises:
        NotWritten: If its file is of a kind that is not changed, or was changed meanwhile.
        UnreadableDraft: If it cannot be read.
    """
    _refuse_what_is_not_changed(path)
    file = pattern_file(path)
    data = bytes_of(file, str(file))
    sheet = worksheet_at(path)

    def checked(contents: bytes) -> Checked:
        draft = read_bytes(contents, file.suffix, str(file))
        return check(draft, terms, sheet)

    return make_changes(file, data, checked(data), checked, colours)


def make_changes(
    file: Path,
    data: bytes,
    before: Checked,
    check_again: Callable[[bytes], Checked],
    colours: Ink,
) -> Fixed:
    """Make the safe changes of a checked pattern in its file.

    Args:
        file: The file.
        data: Its contents as they were read.
        before: What was found in them.
        check_again: Checks other contents of this file in the same way.
        colours: For the difference.

    Raises:
        NotWritten: If the file was changed meanwhile, or cannot be written.
    """
    changed = changed_safely(data, file.suffix, before.draft, before.findings)
    if not changed.made:
        return Fixed(before, "", tuple(_nothing_made(changed, before.draft)))
    after = check_again(changed.data)
    if numbers_of(before) != numbers_of(after):
        return Fixed(before, "", (_OTHER_NUMBERS,))
    kept = replace_keeping(file, data, changed.data)
    difference = "\n".join(difference_told(changed, file.name, kept.name, colours))
    return Fixed(after, difference, tuple(_made(changed, before.draft, file, kept)))


_OTHER_NUMBERS = (
    "Nothing was changed: with the changes the rows would come to other numbers."
    " Make them by hand, one by one."
)


def _refuse_what_is_not_changed(path: str) -> None:
    if path == "-":
        raise NotWritten("What is piped in cannot be changed. Save it as a .txt file.")
    file = pattern_file(path)
    if file.suffix.lower() not in CHANGEABLE:
        raise NotWritten(
            f"Changes are made in .md and .txt files. Bring {file} in first:"
            f" hookwright bring {file} FOLDER"
        )


def changed_safely(
    data: bytes, kind: str, draft: Draft, findings: Sequence[Finding]
) -> Changed:
    """A file with all the changes made that may be made unread."""
    offered = [finding.edit for finding in findings if finding.edit is not None]
    return with_changes(data, kind, draft, [edit for edit in offered if edit.safe])


def numbers_of(checked: Checked) -> list[tuple[object, ...]]:
    """Every row with its numbers: what no safe change may touch. Names may change."""
    parts = {name: at for at, name in enumerate(dict.fromkeys(_parts(checked)))}
    return [
        (
            parts[line.part], line.first, line.last, line.times,
            line.stitches, line.uses, line.spaces, line.stated,
        )
        for line in checked.lines
    ]  # fmt: skip


def _parts(checked: Checked) -> Iterator[str]:
    return (line.part for line in checked.lines)


def difference_told(changed: Changed, name: str, kept: str, colours: Ink) -> Iterator[str]:
    """The lines that were changed, before and after."""
    lines = difflib.unified_diff(
        changed.before.splitlines(), changed.after.splitlines(), kept, name, "", "", 1, ""
    )
    for line in lines:
        shown = writable(line)
        if line.startswith("-"):
            yield colours.red(shown)
        else:
            yield colours.blue(shown) if line.startswith("+") else shown


def _nothing_made(changed: Changed, draft: Draft) -> Iterator[str]:
    yield "There is nothing that is safe to change unread, so nothing was changed."
    yield from _left(changed, draft)


def _made(changed: Changed, draft: Draft, file: Path, kept: Path) -> Iterator[str]:
    were = "was" if len(changed.made) == 1 else "were"
    number = counted(len(changed.made), "change")
    yield f"{number} {were} made in {file}. The text as it was is kept in {kept}."
    if changed.waiting:
        number = counted(len(changed.waiting), "change")
        wait = "waits" if len(changed.waiting) == 1 else "wait"
        yield f"{number} in the same words {wait}: run the command again."
    yield from _left(changed, draft)


def _left(changed: Changed, draft: Draft) -> Iterator[str]:
    """What could be offered as safe and cannot be made in the file."""
    for edit in changed.refused:
        yield f"Left as it is, for marks stand among its words: {_place(edit, draft)}."


def _place(edit: Edit, draft: Draft) -> str:
    return draft.origin_of(edit.span.start).describe()
