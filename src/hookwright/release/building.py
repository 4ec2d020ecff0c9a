"""From a proven pattern to every file of its release, one after the other.

Each file is known by what it is made of: the contents of its copy, its template, its
pictures, the versions of what sets it. A file that an earlier release has of the very same
things is taken over from there, so a word changed in a note sets again only the copies in
which that note stands.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from importlib.metadata import version

from msgspec import Struct

from hookwright import __version__
from hookwright.progress import Progress, stretch, tell
from hookwright.release.aside import Aside
from hookwright.release.bundle import bundle
from hookwright.release.contents import title_of
from hookwright.release.copies import Copy, Edition, copies_of, file_stem
from hookwright.release.drawn import Drawn, Earlier
from hookwright.release.further import further_files
from hookwright.release.manifest import FILE, Entry, as_bytes, manifest_of, sha256
from hookwright.release.pictures import pictures_of
from hookwright.release.plain_text import as_text
from hookwright.release.ready import Order, Ready, shown_in
from hookwright.release.texts import Texts
from hookwright.release.typesetting import Typesetter, as_data, template_of
from hookwright.release.yarn_amounts import amounts_as_written

_AT_WORK = 2
"""Copies set at a time, while the words of the next one are made."""


class Made(Struct, frozen=True):
    """A file of a release.

    Attributes:
        entry: Its name, hash and what it is.
        data: Its contents.
        kept: Whether it was taken over from an earlier release.
    """

    entry: Entry
    data: bytes
    kept: bool


class _Job(Struct, frozen=True):
    """A file that is to be made: what it follows from, and how it is made."""

    name: str
    what: str
    made_of: str
    make: Callable[[], bytes]


def build(
    order: Order, earlier: Earlier, progress: Progress | None = None
) -> Iterator[Made]:
    """Every file of a release, the manifest and the bundle last.

    Args:
        order: What is to be put out.
        earlier: The release before, of which is taken over what is still true.
        progress: Told how far it is; False stops.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    checked = order.checked
    texts = Texts(checked)
    with Aside() as aside:
        copies = copies_of(title_of(checked), texts.terms, checked.sizes)
        texts.begin(copies, aside)
        drawn = pictures_of(checked, earlier, aside, stretch(progress, 0.0, 0.55))
        tell(progress, 0.55, "the yarn of each size")
        amounts = amounts_as_written(checked)
        ready = Ready(order, texts, copies, (*drawn, *order.photos), amounts)
        made = [_kept_or_made(_picture(one), earlier) for one in ready.drawn]
        yield from made
        for file in _set(ready, earlier, stretch(progress, 0.6, 0.98)):
            made.append(file)
            yield file
    yield from _gathered(ready, made)


def _set(ready: Ready, earlier: Earlier, progress: Progress | None) -> Iterator[Made]:
    """Every copy, and the page."""
    number = len(ready.copies) + 1 + len(ready.order.further)
    with Typesetter({one.picture.file: one.data for one in ready.drawn}) as typesetter:
        for done, file in enumerate(_in_turn(_jobs(ready, typesetter), earlier), 1):
            tell(progress, min(1.0, done / number), file.entry.what)
            yield file


def _jobs(ready: Ready, typesetter: Typesetter) -> Iterator[_Job]:
    """Each copy and the page as a file to be made."""
    pictures = {one.picture.file: sha256(one.data) for one in ready.drawn}
    for copy in ready.copies:
        yield _copy(ready, copy, typesetter, pictures)
    page = ready.page()
    name = f"{file_stem(ready.title)}.html"
    yield _Job(name, "the page for a blog", sha256("page", page), _always(page.encode()))
    yield from _further(ready)


def _further(ready: Ready) -> Iterator[_Job]:
    """The pages beside the copies."""
    terms, texts = ready.texts.terms, ready.texts
    for file in further_files(
        ready.order.further, ready.title, terms, lambda own: texts.of(own, "short").checked
    ):
        made_of = sha256("further", _maker(), file.follows_from)
        yield _Job(file.name, file.what, made_of, file.make)


def _copy(
    ready: Ready, copy: Copy, typesetter: Typesetter, pictures: dict[str, str]
) -> _Job:
    contents = ready.contents(copy)
    if copy.edition is Edition.TEXT:
        text = as_text(contents)
        return _Job(copy.name, copy.what, sha256("text", text), _always(text.encode()))
    inputs = {"edition": copy.edition.value, "paper": copy.paper.value}
    template = template_of(copy.edition)
    made_of = sha256(
        _maker(), template.read_bytes(), as_data(contents), *inputs.values(),
        *(pictures[one.file] for one in shown_in(contents)),
    )  # fmt: skip
    make = partial(typesetter.pdf, contents, template, inputs)
    return _Job(copy.name, copy.what, made_of, make)


def _in_turn(jobs: Iterable[_Job], earlier: Earlier) -> Iterator[Made]:
    """The files in their order; some are set while the words of others are made."""
    waiting: deque[Future[Made]] = deque()
    with ThreadPoolExecutor(_AT_WORK) as workers:
        try:
            for job in jobs:
                waiting.append(workers.submit(_kept_or_made, job, earlier))
                if len(waiting) > _AT_WORK:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        finally:
            for file in waiting:
                file.cancel()


def _kept_or_made(job: _Job, earlier: Earlier) -> Made:
    kept = earlier.keep(job.name, job.made_of)
    data = job.make() if kept is None else kept
    entry = Entry(job.name, job.what, len(data), sha256(data), job.made_of)
    return Made(entry, data, kept is not None)


def _picture(drawn: Drawn) -> _Job:
    return _Job(drawn.picture.file, drawn.picture.alt, drawn.made_of, _always(drawn.data))


def _gathered(ready: Ready, made: Sequence[Made]) -> Iterator[Made]:
    """The manifest, and the bundle with all files and the manifest in it."""
    title, stamp, draft = ready.title, ready.order.stamp, ready.order.draft
    entries = [file.entry for file in made]
    kept = ready.texts.all_kept()
    manifest = as_bytes(manifest_of(title, stamp, entries, draft=draft, kept=kept))
    ending = f"-{file_stem(stamp.version)}" if stamp.version else ""
    folder = f"{file_stem(title)}{ending}"
    files = [(file.entry.name, file.data) for file in made]
    packed = bundle(folder, [*files, (FILE, manifest)])
    made_of = sha256(manifest)
    entry = Entry(f"{folder}.zip", "all files in one", len(packed), sha256(packed), made_of)
    entries.append(entry)
    whole = as_bytes(manifest_of(title, stamp, entries, draft=draft, kept=kept))
    yield Made(entry, packed, kept=False)
    own = Entry(FILE, "what the release holds", len(whole), sha256(whole), sha256(whole))
    yield Made(own, whole, kept=False)


def _maker() -> str:
    """The versions of what sets a copy."""
    return f"hookwright {__version__}, typst {version('typst')}"


def _always(data: bytes) -> Callable[[], bytes]:
    return lambda: data
