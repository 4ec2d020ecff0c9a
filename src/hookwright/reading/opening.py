"""Opening a draft: which kind of file it is, and who reads that kind."""

from __future__ import annotations

import errno
from pathlib import Path

from hookwright.reading import limits
from hookwright.reading.draft import Draft, UnreadableDraft
from hookwright.reading.plain import pasted_draft, read_plain

_KINDS = {
    "txt": "txt",
    "text": "txt",
    "md": "md",
    "markdown": "md",
    "html": "html",
    "htm": "html",
    "xhtml": "html",
    "docx": "docx",
    "pdf": "pdf",
}
_CONTENTS = {
    "pdf": "a PDF",
    "docx": "a Word document or another packed folder",
    "rtf": "a rich text file (.rtf)",
    "ole": "an old Word document (.doc), or one that is locked with a password",
}
_READABLE = "Save a copy as .md, .txt, .html, .docx or .pdf and try again."
_PDF_WITHIN = 1024
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED_PACKAGE = "EncryptedPackage".encode("utf-16-le")
_PAGE_BEGINS = (b"<!doctype html", b"<html", b"<?xml")


def read_draft(path: Path | str) -> Draft:
    """Read a draft from a file; its name's ending says which kind it is.

    Raises:
        UnreadableDraft: If it cannot be opened or read.
    """
    name = str(path)
    data = bytes_of(Path(path), name)
    return read_bytes(data, Path(path).suffix, name)


def read_bytes(data: bytes, kind: str, name: str) -> Draft:
    """Read a draft that is already in memory.

    Args:
        data: The whole file.
        kind: "txt", "md", "html", "docx" or "pdf", with a dot or without; if empty, it is
            told from the contents.
        name: What to call it; "-" for what was piped in.

    Raises:
        UnreadableDraft: If it cannot be read.
    """
    try:
        return _read(data, _kind_of(data, kind), name)
    except UnreadableDraft as refusal:
        raise UnreadableDraft(_in_a_sentence(name, refusal)) from refusal.__cause__


def read_text(text: str, name: str = "-") -> Draft:
    """Read text that was pasted in, as it stands.

    Raises:
        UnreadableDraft: If there are no words in it, or too many.
    """
    try:
        return pasted_draft(text, name)
    except UnreadableDraft as refusal:
        raise UnreadableDraft(_in_a_sentence(name, refusal)) from refusal.__cause__


_TOO_LARGE = (
    f"it is larger than {limits.FILE_BYTES // (1024 * 1024)} MB. Save a copy without the"
    " pictures, or the pattern alone, and try again."
)


def _in_a_sentence(name: str, refusal: UnreadableDraft) -> str:
    what = "The text" if name == "-" else name
    return f"{what} cannot be read: {refusal}"


def bytes_of(path: Path, name: str) -> bytes:
    """The whole file, unless it is none or far too large."""
    try:
        if path.is_dir():
            raise UnreadableDraft(f"{name} cannot be read: it is a folder.")
        if not path.exists():
            raise UnreadableDraft(f"There is no file {name}.")
        if not path.is_file():
            raise UnreadableDraft(f"{name} cannot be read: it is not a file.")
        with path.open("rb") as file:
            return file.read(limits.FILE_BYTES + 1)
    except (OSError, ValueError) as error:
        raise UnreadableDraft(f"{name} cannot be read: {_reason(error)}") from error


def _reason(error: OSError | ValueError) -> str:
    number = error.errno if isinstance(error, OSError) else None
    if number in {errno.EACCES, errno.EPERM}:
        return "you are not allowed to open it."
    return "the file could not be opened."


def _kind_of(data: bytes, kind: str) -> str:
    """The kind to read a file as.

    Raises:
        UnreadableDraft: If no such kind is read, or the contents are plainly of another.
    """
    if len(data) > limits.FILE_BYTES:
        raise UnreadableDraft(_TOO_LARGE)
    asked = kind.lower().removeprefix(".")
    found = _content_of(data, asked)
    if not asked and found not in {"rtf", "ole"}:
        return found or ("html" if _looks_like_a_page(data) else "txt")
    if asked and asked not in _KINDS:
        raise UnreadableDraft(f"files that end in .{asked} are not read. {_READABLE}")
    if not data.strip():
        raise UnreadableDraft("it is empty.")
    wanted = _KINDS.get(asked, "")
    if found == "ole" and _ENCRYPTED_PACKAGE in data:
        raise UnreadableDraft(
            "it is locked with a password. Save a copy without one and try again."
        )
    if found and found != wanted:
        raise UnreadableDraft(f"by its contents it is {_CONTENTS[found]}. {_READABLE}")
    if wanted in {"docx", "pdf"} and not found:
        raise UnreadableDraft(
            f"it is not a .{wanted} file, whatever its name says, or it is damaged."
        )
    return wanted


def _content_of(data: bytes, asked: str) -> str:
    """What the first bytes tell for certain; nothing for text of any sort.

    A PDF may begin with something else, as long as its mark comes soon; a text that speaks
    of that mark is still a text.
    """
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return "docx"
    if data.startswith(_OLE):
        return "ole"
    if data.startswith(b"{\\rtf"):
        return "rtf"
    begins = b"%PDF-" in data[:_PDF_WITHIN] if asked == "pdf" else data.startswith(b"%PDF-")
    return "pdf" if begins else ""


def _looks_like_a_page(data: bytes) -> bool:
    return data[:256].lstrip(b"\xef\xbb\xbf \t\r\n").lower().startswith(_PAGE_BEGINS)


def _read(data: bytes, kind: str, name: str) -> Draft:
    """Hand the file to its reader; each brings its own library, so only now."""
    if kind == "md":
        from hookwright.reading.markdown import read_markdown as read  # noqa: PLC0415
    elif kind == "html":
        from hookwright.reading.hypertext import read_hypertext as read  # noqa: PLC0415
    elif kind == "docx":
        from hookwright.reading.docx import read_docx as read  # noqa: PLC0415
    elif kind == "pdf":
        from hookwright.reading.pdf import read_pdf as read  # noqa: PLC0415
    else:
        read = read_plain
    return read(data, name)
