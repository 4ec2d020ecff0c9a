"""`hookwright release`: every copy of a pattern, put out together or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.further_pages import further_pages
from hookwright.commands.project import draft_at, pattern_file, worksheet_at
from hookwright.commands.release_folder import Earlier, earlier_release, staged
from hookwright.commands.writing import NotWritten
from hookwright.finding import Severity
from hookwright.listing.findings import told
from hookwright.progress import Progress
from hookwright.reading import UnreadableDraft
from hookwright.reading.opening import bytes_of
from hookwright.reading.plain import decoded
from hookwright.release.building import Made, build
from hookwright.release.copies import file_stem
from hookwright.release.drawn import Drawn
from hookwright.release.facts import Picture
from hookwright.release.manifest import read_manifest, sha256
from hookwright.release.photos import (
    PhotoAsked,
    UnusablePhoto,
    cleaned,
    photo_file,
    photos_in,
)
from hookwright.release.ready import Order
from hookwright.release.stamping import stamp_of
from hookwright.release.texts import AnotherFabric
from hookwright.terminal import ProgressLine, ReaderGone, ink, say, say_aside, width

RELEASE_FOLDER = "release"
_MARKDOWN = (".md", ".markdown")


class ReleaseOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        folder: Where the copies go; "" for beside the pattern.
        draft: Whether a pattern that has to be mended is put out, as a draft.
        day: The day it is put out, year first; "" for what the worksheet says.
    """

    folder: str = ""
    draft: bool = False
    day: str = ""


def put_out(path: str, options: ReleaseOptions) -> Status:
    """Put out the pattern at a path."""
    try:
        checked = check(draft_at(path), None, worksheet_at(path))
        if not checked.has_rows():
            say_aside("There are no rows in it to put out.")
            return Status.NOT_READ
        if checked.has_errors() and not options.draft:
            say("\n\n".join(_to_mend(checked)))
            return Status.TO_MEND
        _put_out(path, checked, options)
    except (UnreadableDraft, NotWritten, AnotherFabric) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN
    return Status.CLEAN


def _to_mend(checked: Checked) -> Iterator[str]:
    """What stands in the way of a release."""
    errors = [f for f in checked.all_findings if f.severity is Severity.ERROR]
    for finding in errors:
        yield told(finding, checked, width(), ink())
    number = "One thing has" if len(errors) == 1 else f"{len(errors)} things have"
    yield f"Nothing was put out. {number} to be mended; --draft puts out a draft."


def _put_out(path: str, checked: Checked, options: ReleaseOptions) -> None:
    folder = _folder(path, options)
    with ProgressLine() as line:
        made, order = put_out_in(
            folder, path, checked, line, day=options.day, draft=options.draft
        )
    say("\n".join(_put(folder, made, order)))


def put_out_in(
    folder: Path,
    path: str,
    checked: Checked,
    progress: Progress | None = None,
    *,
    day: str = "",
    draft: bool = False,
) -> tuple[list[Made], Order]:
    """Every copy of a pattern in its folder, all of them or none.

    Args:
        folder: Where they go.
        path: The pattern, beside which its photographs are.
        checked: The same, read and worked.
        progress: Told how far it is; False stops.
        day: The day it is put out; "" for what the worksheet says.
        draft: Whether it is put out as a draft.

    Raises:
        NotWritten: If it cannot be written, or a photograph cannot be put out.
        AnotherFabric: If a copy would be read as another fabric.
        Cancelled: When `progress` answers False.
    """
    earlier = earlier_release(folder)
    photos = tuple(_photos(path, earlier))
    further = further_pages(path, checked, day)
    order = Order(checked, stamp_of(checked, day), photos, draft, further)
    made: list[Made] = []
    with staged(folder, earlier) as stage:
        for file in build(order, earlier, progress):
            stage.put(file.entry.name, file.data)
            made.append(file)
    return made, order


def _folder(path: str, options: ReleaseOptions) -> Path:
    if options.folder:
        return Path(options.folder)
    if path == "-":
        raise NotWritten("A pattern that is piped in is put out with -o DIR.")
    file = pattern_file(path)
    if Path(path).is_dir():
        return file.with_name(RELEASE_FOLDER)
    return file.with_name(f"{file_stem(file.stem)}-{RELEASE_FOLDER}")


def _photos(path: str, earlier: Earlier) -> Iterator[Drawn]:
    """The photographs that the pattern asks for, cleaned.

    Raises:
        NotWritten: If one of them cannot be put out.
    """
    file = pattern_file(path)
    if path == "-" or file.suffix.lower() not in _MARKDOWN:
        return
    text = decoded(bytes_of(file, str(file))).text
    for asked in photos_in(text):
        try:
            yield _photo(asked, file.parent, earlier)
        except UnusablePhoto as refusal:
            raise NotWritten(str(refusal)) from refusal


def _photo(asked: PhotoAsked, folder: Path, earlier: Earlier) -> Drawn:
    """A photograph, cleaned.

    Raises:
        UnusablePhoto: If it cannot be put out.
    """
    source = photo_file(asked, folder)
    if not asked.alt:
        raise UnusablePhoto(
            f"The picture {asked.path} has no words for whoever cannot see it:"
            f" write ![what it shows]({asked.path})."
        )
    data = bytes_of(source, asked.path)
    made_of = sha256("photo", data)
    name = f"{file_stem(source.stem)}.jpg"
    clean = earlier.keep(name, made_of) or cleaned(data, asked.path)
    return Drawn(Picture(name, asked.alt), clean, made_of)


def _put(folder: Path, made: list[Made], order: Order) -> Iterator[str]:
    """What was put out, a line a file."""
    longest = max(len(file.entry.name) for file in made)
    for file in made:
        size = f"{max(1, round(file.entry.bytes / 1000)):,} kB"
        kept = ", as before" if file.kept else ""
        yield f"  {file.entry.name:<{longest}}  {size:>9}  {file.entry.what}{kept}"
    whole = "The draft" if order.draft else "The release"
    version = f" {order.stamp.version}" if order.stamp.version else ""
    yield f"{whole}{version} is in {folder}."
    names = [file.entry.name for file in made]
    if not any(name.startswith("fabric") for name in names):
        yield "The cover has no picture: its fabric cannot be drawn."
    if not any(name.startswith("chart") for name in names):
        yield "It has no charts: hookwright draw makes them, on as many pages as they take."
    manifest = read_manifest(made[-1].data)
    if manifest is not None and manifest.kept:
        yield "Not worded as every copy has it:"
        yield from (f"  {said}" for said in manifest.kept)
    told_of = (("version", order.stamp.version), ("date", order.stamp.date))
    if lacking := [name for name, value in told_of if not value]:
        lacks = " and no ".join(lacking)
        yield f"It has no {lacks}: say so under [design] in worksheet.toml."
