"""`hookwright edge`: edgings written as rows, proven with the piece, put into its text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.pattern_text import MARKDOWN, pattern_text
from hookwright.commands.project import draft_at, pattern_file, worksheet_at
from hookwright.commands.writing import NotWritten, write_new, write_over
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.reading.opening import bytes_of
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.sizing.edging import Edgings, Shape, Side, Wish, edgings_of
from hookwright.sizing.edging.offering import Worked
from hookwright.sizing.edging.proof import Proven
from hookwright.sizing.edging.telling import about, as_object, multiple_in, title, why_not
from hookwright.terminal import Ink, ReaderGone, ink, say, say_aside, width

WRITABLE = (*MARKDOWN, ".txt", ".text")
"""Endings of the files that a pattern with its edging is written to."""


class EdgeOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        sides: The sides by name, in the order they are worked; empty for each by itself.
        stitch: The stitch of plain rows, by its US name.
        kind: The kind of edging.
        rows: How many rows or rounds.
        repeat: The repeat of a border, as it was typed; None for none.
        shape: "straight", "wave", or "plain" for both.
        terms: "US" or "UK", whatever the text says of itself.
        file: The file to write; "" for none.
        drawing: The file to draw the edge before and after to; "" for none.
        as_json: An object for programs.
    """

    sides: tuple[str, ...] = ()
    stitch: str = "sc"
    kind: str = "plain"
    rows: int = 2
    repeat: str | None = None
    shape: str = "plain"
    terms: str | None = None
    file: str = ""
    drawing: str = ""
    as_json: bool = False


def edge_pattern(path: str, options: EdgeOptions) -> Status:
    """Work out the edgings of a pattern, print them, and write them into a copy of it."""
    repeat = multiple_in(options.repeat) if options.repeat is not None else None
    if options.repeat is not None and repeat is None:
        say_aside(f'A repeat is given as "6+1" or "8", not "{options.repeat}".')
        return Status.NOT_READ
    sides = tuple(dict.fromkeys(Side(side) for side in options.sides))
    shape = Shape(options.shape)
    wish = Wish(sides, options.stitch, options.kind, options.rows, repeat, shape)
    try:
        return _edged(path, options, wish)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _edged(path: str, options: EdgeOptions, wish: Wish) -> Status:
    checked = check(draft_at(path), options.terms, worksheet_at(path))
    worked = edgings_of(checked, wish)
    printed = worked.edgings
    if options.as_json:
        import json  # noqa: PLC0415 - for programs only

        say(json.dumps(as_object(checked, printed)))
    else:
        say("\n".join(_told(printed, ink())))
    if options.drawing:
        if not wish.sides and printed.offered:
            worked = edgings_of(checked, _to_be_written(wish, printed))
        _draw(checked, worked, Path(options.drawing))
    if options.file:
        if not wish.sides and printed.offered:
            worked = edgings_of(checked, _to_be_written(wish, printed))
        _write(path, worked, Path(options.file))
    return Status.CLEAN if printed.offered else Status.TO_MEND


def _to_be_written(wish: Wish, printed: Edgings) -> Wish:
    """The sides that are written where none was named: all round, or those there are."""
    sides = tuple(dict.fromkeys(offered.side for offered in printed.offered))
    chosen = (Side.ALL,) if Side.ALL in sides else sides
    return Wish(chosen, wish.stitch, wish.kind, wish.rows, wish.repeat, wish.shape)


def _told(edgings: Edgings, colours: Ink) -> Iterator[str]:
    for note in edgings.notes:
        yield from wrapped(note, width())
    for offered in edgings.offered:
        yield ""
        yield colours.strong(title(offered))
        yield ""
        yield f"  {offered.heading}"
        for line in offered.lines:
            yield ""
            yield from wrapped(line, width(), "  ")
        yield ""
        for sentence in about(offered):
            yield from wrapped(sentence, width())
    reasons: dict[str, list[str]] = {}
    for refused in edgings.refused:
        reasons.setdefault(why_not(refused), []).append(title(refused))
    for reason, titles in reasons.items():
        where = ", ".join(t[0].lower() + t[1:] for t in dict.fromkeys(titles))
        yield ""
        yield from wrapped(f"No edging {where}: {reason}", width())


def _draw(checked: Checked, worked: Worked, file: Path) -> None:
    """Draw the edge before and after.

    Raises:
        NotWritten: If there is nothing to draw, or it cannot be written.
    """
    from hookwright.drawing.asked import NotDrawn  # noqa: PLC0415 - only to draw
    from hookwright.drawing.edge_before_after import edge_sheet  # noqa: PLC0415

    if file.suffix.lower() != ".svg":
        raise NotWritten("The edge before and after is drawn to FILE.svg.")
    if worked.proven is None:
        raise NotWritten("Nothing was drawn: no edging is offered.")
    try:
        sheet = edge_sheet(checked, worked.proven.checked)
    except NotDrawn as refusal:
        raise NotWritten(str(refusal)) from refusal
    write_over(file, sheet.svg().encode(), b"<svg xmlns=")
    say_aside(f"The edge before and after is in {file}.")


def _write(path: str, worked: Worked, file: Path) -> None:
    """Write the pattern with its edgings, after reading it back.

    Raises:
        NotWritten: If there is nothing to write, or something else stands there.
    """
    if file.suffix.lower() not in WRITABLE:
        raise NotWritten("A pattern with its edging is written as FILE.md or FILE.txt.")
    proven, edgings = worked.proven, worked.edgings
    if proven is None or edgings.refused:
        reason = why_not(edgings.refused[0]) if edgings.refused else "No edging is offered."
        raise NotWritten(f"Nothing was written. {reason}")
    kept = _kept(path, proven, file)
    data = pattern_text(proven.checked, str(file), kept, piped=path == "-")
    if file.exists() and _same(file, data):
        say_aside(f"{file} is there already, and the same.")
        return
    write_new(file, data)
    say_aside(f"The pattern with its edging is in {file}.")


def _same(file: Path, data: bytes) -> bool:
    try:
        return file.read_bytes() == data
    except OSError:
        return False


def _kept(path: str, proven: Proven, file: Path) -> bytes | None:
    """A Markdown file as it is written but for what is put in; None for other kinds."""
    source = pattern_file(path)
    kinds = {source.suffix.lower(), file.suffix.lower()}
    if path == "-" or not kinds <= set(MARKDOWN):
        return None
    words = decoded(bytes_of(source, str(source))).text
    text = proven.in_file(with_plain_line_ends(words))
    return (text if text.endswith("\n") else text + "\n").encode("utf-8", "replace")
