"""From a proven pattern to every file of its release, one after the other.

Each file is known by what it is made of: the contents of its copy, its template, its
pictures, the versions of what sets it. A file that an earlier release has of the very same
things is taken over from there, so a word changed in a note sets again only the copies in
which that note stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from importlib.metadata import version

from msgspec import Struct

from hookwright import __version__
from hookwright.checking import Checked
from hookwright.progress import Progress, tell
from hookwright.release.bundle import bundle
from hookwright.release.contents import contents_of, title_of
from hookwright.release.copies import Copy, Edition, copies_of, file_stem, home_paper
from hookwright.release.facts import Contents, Picture, Stamp
from hookwright.release.manifest import FILE, Entry, as_bytes, manifest_of, sha256
from hookwright.release.page import PageMade, as_page
from hookwright.release.pictures import Drawn, pictures_of
from hookwright.release.plain_text import as_text
from hookwright.release.texts import Text, Texts
from hookwright.release.typesetting import Typesetter, as_data, template_of
from hookwright.release.widths import own_widths

Keep = Callable[[str, str], bytes | None]
"""Asked for a file by its name and by what it is made of: the bytes an earlier release has
of it, or None."""


class Order(Struct, frozen=True):
    """What is to be put out.

    Attributes:
        checked: The pattern, read and worked.
        stamp: Version, date, designer, rights.
        photos: Photographs, cleaned, with their words.
        draft: Whether every copy is marked as a draft.
    """

    checked: Checked
    stamp: Stamp
    photos: tuple[Drawn, ...] = ()
    draft: bool = False


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


def build(order: Order, keep: Keep, progress: Progress | None = None) -> Iterator[Made]:
    """Every file of a release, the manifest and the bundle last.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    tell(progress, 0.0, "the words of each copy")
    texts = Texts(order.checked)
    copies = copies_of(title_of(order.checked), texts.terms, order.checked.sizes)
    drawn = (*pictures_of(order.checked, keep), *order.photos)
    tell(progress, 0.1, "the pictures")
    title = title_of(order.checked)
    made = [_kept_or_made(_picture(one), keep) for one in drawn]
    yield from made
    with Typesetter({one.picture.file: one.data for one in drawn}) as typesetter:
        jobs = [
            *_copies(order, texts, drawn, typesetter, copies),
            _page(order, texts, drawn, copies),
        ]
        for done, job, file in _in_turn(jobs, keep):
            tell(progress, 0.15 + 0.8 * done, job.what)
            made.append(file)
            yield file
    yield from _gathered(title, order, made)


def _in_turn(jobs: Sequence[_Job], keep: Keep) -> Iterator[tuple[float, _Job, Made]]:
    """The files in their order, two of them at work at a time."""
    with ThreadPoolExecutor(2) as workers:
        waiting: list[tuple[_Job, Future[Made]]] = [
            (job, workers.submit(_kept_or_made, job, keep)) for job in jobs
        ]
        try:
            for number, (job, file) in enumerate(waiting, 1):
                yield number / len(waiting), job, file.result()
        finally:
            for _, file in waiting:
                file.cancel()


def _kept_or_made(job: _Job, keep: Keep) -> Made:
    earlier = keep(job.name, job.made_of)
    data = job.make() if earlier is None else earlier
    entry = Entry(job.name, job.what, len(data), sha256(data), job.made_of)
    return Made(entry, data, earlier is not None)


def _picture(drawn: Drawn) -> _Job:
    return _Job(drawn.picture.file, drawn.picture.alt, drawn.made_of, lambda: drawn.data)


def _copies(
    order: Order,
    texts: Texts,
    drawn: Sequence[Drawn],
    typesetter: Typesetter,
    copies: Sequence[Copy],
) -> Iterator[_Job]:
    """Each copy as a file to be made."""
    pictures = {one.picture.file: sha256(one.data) for one in drawn}
    for copy in copies:
        contents = _laid_out(order, texts.of_copy(copy), copy, drawn)
        if copy.edition is Edition.TEXT:
            text = as_text(contents)
            yield _Job(copy.name, copy.what, sha256("text", text), _always(text.encode()))
            continue
        inputs = {"edition": copy.edition.value, "paper": copy.paper.value}
        template = template_of(copy.edition)
        made_of = sha256(
            _maker(), template.read_bytes(), as_data(contents), *inputs.values(),
            *(pictures[one.file] for one in _shown(contents)),
        )  # fmt: skip
        make = partial(typesetter.pdf, contents, template, inputs)
        yield _Job(copy.name, copy.what, made_of, make)


def _laid_out(order: Order, text: Text, copy: Copy, drawn: Sequence[Drawn]) -> Contents:
    """What stands in a copy of a text."""
    fitting = [one for one in drawn if one.fits(copy)]
    cover = next((one.picture for one in fitting if one.is_cover), None)
    shown = [one.picture for one in fitting if not one.is_cover]
    return contents_of(
        text,
        order.stamp,
        cover=cover,
        pictures=shown,
        large=copy.edition is Edition.LARGE,
        draft=order.draft,
    )


def _shown(contents: Contents) -> tuple[Picture, ...]:
    cover = (contents.cover,) if contents.cover is not None else ()
    return (*cover, *contents.pictures)


def _page(
    order: Order, texts: Texts, drawn: Sequence[Drawn], copies: Sequence[Copy]
) -> _Job:
    """The page for a blog, with the copy to print beside it."""
    own = texts.terms[0]
    pdf = next(
        (c.name for c in copies if c.terms == own and c.paper is home_paper(own)), ""
    )
    shown = next(c for c in copies if c.terms == own and c.edition is Edition.COLOUR)
    pictures = {one.picture.file: one.data for one in drawn}

    def version(terms: str, form: str) -> tuple[tuple[str, str], Contents]:
        text = texts.of(terms, form)
        return (terms, form), _laid_out(order, text, shown, drawn)

    versions = [version(terms, form) for terms in texts.terms for form in texts.forms]
    page = as_page(PageMade(versions, pictures, own_widths(order.checked), pdf))
    name = f"{file_stem(title_of(order.checked))}.html"
    return _Job(name, "the page for a blog", sha256("page", page), _always(page.encode()))


def _gathered(title: str, order: Order, made: Sequence[Made]) -> Iterator[Made]:
    """The manifest, and the bundle with all files and the manifest in it."""
    entries = [file.entry for file in made]
    manifest = as_bytes(manifest_of(title, order.stamp, entries, draft=order.draft))
    stem = file_stem(title)
    ending = f"-{file_stem(order.stamp.version)}" if order.stamp.version else ""
    name = f"{stem}{ending}.zip"
    files = [(file.entry.name, file.data) for file in made]
    packed = bundle(f"{stem}{ending}", [*files, (FILE, manifest)])
    entry = Entry(name, "all files in one", len(packed), sha256(packed), sha256(manifest))
    whole = as_bytes(manifest_of(title, order.stamp, [*entries, entry], draft=order.draft))
    yield Made(entry, packed, kept=False)
    own = Entry(FILE, "what the release holds", len(whole), sha256(whole), sha256(whole))
    yield Made(own, whole, kept=False)


def _maker() -> str:
    """The versions of what sets a copy."""
    return f"hookwright {__version__}, typst {version('typst')}"


def _always(data: bytes) -> Callable[[], bytes]:
    return lambda: data
