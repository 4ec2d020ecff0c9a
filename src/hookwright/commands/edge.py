"""`hookwright edge`: edgings written as rows, proven with the piece, put into its text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.fix import numbers_of
from hookwright.commands.project import draft_at, pattern_file, worksheet_at
from hookwright.commands.writing import NotWritten, write_new
from hookwright.listing.columns import wrapped
from hookwright.reading import Draft, UnreadableDraft, read_bytes
from hookwright.reading.markdown import as_markdown
from hookwright.reading.opening import bytes_of
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.sizing.edging import Edgings, Shape, Side, Wish, edgings_of
from hookwright.sizing.edging.offering import Worked
from hookwright.sizing.edging.proof import Proven
from hookwright.sizing.edging.telling import about, as_object, multiple_in, title, why_not
from hookwright.terminal import Ink, ReaderGone, ink, say, say_aside, width

_MARKDOWN = (".md", ".markdown")
WRITABLE = (*_MARKDOWN, ".txt", ".text")
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
    if options.file:
        if not wish.sides and printed.offered:
            worked = edgings_of(checked, _to_be_written(wish, printed))
        _write(path, checked, worked, Path(options.file))
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


def _write(path: str, checked: Checked, worked: Worked, file: Path) -> None:
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
    data = _text(path, proven, file).encode("utf-8", "replace")
    sheet = checked.worksheet.source if checked.worksheet is not None else None
    again = check(read_bytes(data, file.suffix, str(file)), checked.terms, sheet)
    if numbers_of(again) != numbers_of(proven.checked):
        raise NotWritten(
            "Nothing was written: in such a file the rows would come to other numbers."
        )
    if file.exists() and _same(file, data):
        say_aside(f"{file} is there already, and the same.")
        return
    write_new(file, data)
    say_aside(f"The pattern with its edging is in {file}.")


def _without_blanks(draft: Draft) -> str:
    """The text of a draft whose headings stand at the beginning of their lines."""
    lines = draft.source.text.split("\n")
    for heading in draft.headings:
        number = draft.source.line_of(heading.span.start) - 1
        lines[number] = lines[number].strip()
    return "\n".join(lines)


def _same(file: Path, data: bytes) -> bool:
    try:
        return file.read_bytes() == data
    except OSError:
        return False


def _text(path: str, proven: Proven, file: Path) -> str:
    """The pattern with its edgings, for a file of this kind.

    A Markdown file stays as it is written but for what is put in; what was read from
    another kind is written anew.
    """
    if file.suffix.lower() not in _MARKDOWN:
        text = _without_blanks(proven.checked.draft)
    elif path != "-" and pattern_file(path).suffix.lower() in _MARKDOWN:
        source = pattern_file(path)
        words = decoded(bytes_of(source, str(source))).text
        text = proven.in_file(with_plain_line_ends(words))
    else:
        text = as_markdown(proven.checked.draft)
    return text if text.endswith("\n") else text + "\n"
