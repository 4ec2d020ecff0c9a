"""`hookwright draw`: charts, outlines and pictures of a pattern, in files."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from hookwright.checking import check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.writing import NotWritten, write_over
from hookwright.drawing.asked import NotDrawn, Wanted, sheets_of
from hookwright.drawing.sheet import Sheet
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ProgressLine, ReaderGone, say, say_aside, width

MARKS = {".svg": b"<svg xmlns=", ".png": b"\x89PNG"}
"""The kinds of file that are written, and how each begins."""


class DrawOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        kind: The kind of drawing.
        repeat: One repeat with its edges, instead of the whole.
        part: The name of a part; "" for all.
        size: The name of a size; "" for the first.
        left_handed: Drawn as a left-handed maker works.
        wrong_side: Whether the wrong side of fabric is shown.
        pixels: How wide a picture in points is to be.
        file: Where it is written; "" for a name made of that of the draft.
        terms: "US" or "UK", whatever the text says of itself.
    """

    kind: str
    repeat: bool = False
    part: str = ""
    size: str = ""
    left_handed: bool = False
    wrong_side: bool = False
    pixels: int = 1600
    file: str = ""
    terms: str | None = None


def draw(path: str, options: DrawOptions) -> Status:
    """Draw the pattern at a path, and tell which files were written."""
    wanted = Wanted(
        repeat=options.repeat,
        part=options.part,
        size=options.size,
        left_handed=options.left_handed,
        wrong_side=options.wrong_side,
        pixels=options.pixels,
    )
    try:
        file = _file(path, options)
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        with ProgressLine() as progress:
            sheets = sheets_of(options.kind, checked, wanted, progress)
        for sheet, written in zip(sheets, _files(file, sheets), strict=True):
            _write(sheet, written, options.pixels)
            say(f"{written}: {sheet.title}")
        for note in dict.fromkeys(note for sheet in sheets for note in sheet.notes):
            for line in wrapped(note, width()):
                say(line)
    except (UnreadableDraft, NotWritten, NotDrawn) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN
    return Status.CLEAN


def _file(path: str, options: DrawOptions) -> Path:
    """The file to write, by its name; whether it can be drawn in such a file."""
    if not options.file:
        stem = Path(path).resolve().stem if path != "-" else "pattern"
        kind = ".png" if options.kind == "fabric" else ".svg"
        return Path(f"{stem}-{options.kind}{kind}")
    file = Path(options.file)
    if file.suffix.lower() not in MARKS:
        raise NotWritten(f"{file} is not written: a drawing is a file .svg or .png.")
    return file


def _files(file: Path, sheets: Sequence[Sheet]) -> list[Path]:
    """A file for each sheet: that which was asked for, or several with a name behind it."""
    if len(sheets) == 1:
        return [file]
    common = sheets[0].name.partition("-")[0]
    return [
        file.with_name(f"{file.stem}{sheet.name.removeprefix(common)}{file.suffix}")
        for sheet in sheets
    ]


def _write(sheet: Sheet, file: Path, pixels: int) -> None:
    kind = file.suffix.lower()
    data = sheet.svg().encode() if kind == ".svg" else sheet.png(pixels)
    write_over(file, data, MARKS[kind])
