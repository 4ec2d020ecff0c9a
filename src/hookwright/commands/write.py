"""`hookwright write`: a pattern in other terms, another form, one size, left-handed."""

from __future__ import annotations

from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.pattern_text import MARKDOWN, pattern_text
from hookwright.commands.project import draft_at, pattern_file, worksheet_at
from hookwright.commands.writing import NotWritten, write_new
from hookwright.reading import UnreadableDraft
from hookwright.reading.changes import CHANGEABLE, with_changes
from hookwright.reading.opening import bytes_of
from hookwright.terminal import ReaderGone, say, say_aside
from hookwright.wording import Asked, Form, Worded, write_pattern
from hookwright.wording.house import house_style


class WriteOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        terms: "US", "UK", or None for the pattern's own.
        form: "short", "long" or "spoken".
        size: The name of a size, or "all".
        left_handed: Whether it is for a left-handed maker.
        one_a_line: Whether each action stands on a line of its own.
        read_as: The terms the pattern is in, whatever it says of itself.
        file: The file to write to; "" to print it.
    """

    terms: str | None = None
    form: str = "short"
    size: str = "all"
    left_handed: bool = False
    one_a_line: bool = False
    read_as: str | None = None
    file: str = ""


class _NotAsked(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """What was asked for is not there; the message is a sentence."""


def write(path: str, options: WriteOptions) -> Status:
    """Print or write the pattern at a path in the wording that is asked for."""
    try:
        checked = check(draft_at(path), options.read_as, worksheet_at(path))
        worded = write_pattern(checked, _asked(checked, options))
        data = _data(path, worded, options.file)
        if options.file:
            write_new(Path(options.file), data)
            say_aside(f"The text is in {options.file}.")
        else:
            say(data.decode("utf-8").removesuffix("\n"))
        return _told(worded)
    except (UnreadableDraft, NotWritten, _NotAsked) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _asked(checked: Checked, options: WriteOptions) -> Asked:
    form, size = Form(options.form), _size(checked, options.size)
    if form is Form.SPOKEN and size is None and len(checked.sizes) > 1:
        sizes = ", ".join(checked.sizes)
        raise _NotAsked(
            "What is heard is told in one size, without lists of numbers: choose one with "
            f"--size. Its sizes are {sizes}."
        )
    return Asked(
        options.terms,
        form,
        size,
        options.left_handed,
        options.one_a_line,
        house_style(checked.worksheet),
    )


def _size(checked: Checked, name: str) -> int | None:
    """The number of a size by its name."""
    if name.lower() == "all" or [name.lower()] == [own.lower() for own in checked.sizes]:
        return None
    for at, own in enumerate(checked.sizes):
        if own.lower() == name.lower():
            return at
    if not checked.sizes:
        raise _NotAsked(f'The pattern has one size, and none is called "{name}".')
    sizes = ", ".join(checked.sizes)
    raise _NotAsked(f'The pattern has no size "{name}". Its sizes are {sizes}.')


def _data(path: str, worded: Worded, name: str) -> bytes:
    """The contents of the file: the pattern's own with its changes where it can be."""
    ending = Path(name).suffix or _ending(path)
    kept = _kept(path, worded, ending)
    return pattern_text(worded.checked, f"text{ending}", kept, piped=path == "-")


def _ending(path: str) -> str:
    own = pattern_file(path).suffix.lower()
    return own if path != "-" and own in CHANGEABLE else ".txt"


def _kept(path: str, worded: Worded, ending: str) -> bytes | None:
    file = pattern_file(path)
    kinds = [kind.lower() in MARKDOWN for kind in (file.suffix, ending)]
    if path == "-" or file.suffix.lower() not in CHANGEABLE or kinds[0] != kinds[1]:
        return None
    changed = with_changes(
        bytes_of(file, str(file)), file.suffix, worded.source.draft, worded.edits
    )
    return None if changed.waiting or changed.refused else changed.data


def _told(worded: Worded) -> Status:
    for kept in worded.kept:
        where = kept.row or worded.source.source.slice(kept.span).split("\n")[0]
        say_aside(f"{where}: {kept.why}")
    for note in worded.notes:
        say_aside(note)
    if worded.differs is not None:
        say_aside(
            f"Look at {worded.differs.label}: in these words it is read as another "
            "fabric than in the pattern."
        )
    if not worded.source.has_rows():
        return Status.NOT_READ
    return Status.TO_MEND if worded.differs is not None else Status.CLEAN
