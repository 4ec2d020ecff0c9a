"""The parts of a .docx file, unpacked with care.

A .docx is a zip folder of XML files. It may come from strangers: what it says about its own
size is not believed, its nesting is counted, and it may declare no entities.

Source: ECMA-376, Office Open XML file formats, parts 1 and 2.
"""

from __future__ import annotations

import posixpath
import zipfile
import zlib
from io import BytesIO
from xml.etree.ElementTree import Element, ParseError, TreeBuilder, XMLParser

from msgspec import Struct

from hookwright.reading import limits
from hookwright.reading.draft import UnreadableDraft

_DAMAGED = (
    "it is damaged, or not a Word document. Open it in your word processor, save it as"
    " .docx again, and try with that."
)
_TOO_LARGE = "it unpacks to far more than a pattern. Save the pattern alone and try again."
_TOO_DEEP = "its tables and text boxes are nested too deeply."
_ENCRYPTED_BIT = 0x1


class Parts(Struct, frozen=True):
    """The parts that hold words or say how lists are numbered.

    Attributes:
        document: The body; headers, footers and notes are parts of their own.
        numbering: The lists' numbers.
        styles: The paragraph styles.
        has_notes: Whether there are footnotes or endnotes with words of the designer's.
    """

    document: Element
    numbering: Element | None
    styles: Element | None
    has_notes: bool


def local_name(element: Element) -> str:
    """The name of an element without its namespace: two editions use two of them."""
    return str(element.tag).rpartition("}")[2]


def attribute(element: Element | None, name: str) -> str | None:
    """The value of an attribute, whatever its namespace."""
    if element is not None:
        for key, value in element.attrib.items():
            if key.rpartition("}")[2] == name:
                return value
    return None


def child(element: Element | None, *path: str) -> Element | None:
    """The first element found by going down along these names."""
    for name in path:
        if element is None:
            return None
        element = next((e for e in element if local_name(e) == name), None)
    return element


def open_parts(data: bytes) -> Parts:
    """Unpack the parts of a document.

    Raises:
        UnreadableDraft: If it is damaged, locked, no Word document, or too large.
    """
    try:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            return _parts_of(archive)
    except RecursionError as error:
        raise UnreadableDraft(_TOO_DEEP) from error
    except (
        zipfile.BadZipFile,
        zlib.error,
        ParseError,
        EOFError,
        LookupError,
        NotImplementedError,
        OSError,
        OverflowError,
        RuntimeError,
        ValueError,
    ) as error:
        raise UnreadableDraft(_DAMAGED) from error


def _parts_of(archive: zipfile.ZipFile) -> Parts:
    names = archive.namelist()
    if len(names) > limits.DOCX_ENTRIES:
        raise UnreadableDraft(_TOO_LARGE)
    if not names:
        raise UnreadableDraft(_DAMAGED)
    main = _main_part(archive)
    folder = posixpath.dirname(main)
    document = _part(archive, main)
    if document is None or local_name(document) != "document":
        raise UnreadableDraft("it is a packed folder, but not a Word document.")
    return Parts(
        document,
        _part(archive, posixpath.join(folder, "numbering.xml")),
        _part(archive, posixpath.join(folder, "styles.xml")),
        has_notes=_has_words(archive, folder, "footnotes")
        or _has_words(archive, folder, "endnotes"),
    )


def _main_part(archive: zipfile.ZipFile) -> str:
    relations = _part(archive, "_rels/.rels")
    for relation in relations if relations is not None else ():
        if (relation.get("Type") or "").endswith("/officeDocument"):
            return (relation.get("Target") or "").lstrip("/")
    return "word/document.xml"


def _has_words(archive: zipfile.ZipFile, folder: str, part: str) -> bool:
    root = _part(archive, posixpath.join(folder, f"{part}.xml"))
    if root is None:
        return False
    return any(local_name(element) == "t" and element.text for element in root.iter())


def _part(archive: zipfile.ZipFile, name: str) -> Element | None:
    """One part as a tree, or None if there is none of this name."""
    try:
        info = archive.getinfo(name)
    except KeyError:
        return None
    if info.flag_bits & _ENCRYPTED_BIT:
        raise UnreadableDraft(
            "it is locked with a password. Save a copy without one and try again."
        )
    with archive.open(info) as packed:
        data = packed.read(limits.DOCX_PART_BYTES + 1)
    _refuse_a_bomb(len(data), info.compress_size)
    parser = XMLParser(target=_GuardedBuilder())  # noqa: S314 - the builder refuses bombs
    parser.feed(data)
    root = parser.close()
    assert isinstance(root, Element)
    return root


def _refuse_a_bomb(unpacked: int, packed: int) -> None:
    too_tight = (
        unpacked > limits.DOCX_RATIO_FROM_BYTES
        and unpacked > max(packed, 1) * limits.DOCX_RATIO
    )
    if unpacked > limits.DOCX_PART_BYTES or too_tight:
        raise UnreadableDraft(_TOO_LARGE)


class _GuardedBuilder(TreeBuilder):
    """Builds a tree, but neither a deep one nor a huge one, and none with entities."""

    def __init__(self) -> None:
        super().__init__()
        self._depth = 0
        self._elements = 0

    def start(self, tag: str, attrs: dict[str, str], /) -> Element:
        self._depth += 1
        self._elements += 1
        if self._depth > limits.XML_DEPTH:
            raise UnreadableDraft(_TOO_DEEP)
        if self._elements > limits.XML_ELEMENTS:
            raise UnreadableDraft(_TOO_LARGE)
        return super().start(tag, attrs)

    def end(self, tag: str, /) -> Element:
        self._depth -= 1
        return super().end(tag)

    def doctype(self, *_: object) -> None:
        """A Word document declares nothing; what does is made to swell when read."""
        raise UnreadableDraft(_DAMAGED)
