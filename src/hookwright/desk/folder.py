"""Which files may the desk read and write? Those of one project folder, by fixed names."""

from __future__ import annotations

import hashlib
from pathlib import Path

from msgspec import Struct

from hookwright.commands.project import PATTERN_FILE, WORKSHEET_FILE
from hookwright.reading import UnreadableDraft, limits
from hookwright.reading.plain import decoded, with_plain_line_ends

FILES = {"pattern": PATTERN_FILE, "worksheet": WORKSHEET_FILE}
"""The files that are written in, by the names the page knows them by."""
EARLIER = "earlier"
"""The folder inside the project's that keeps earlier versions."""


class NotHere(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """Something that the desk does not open; the message is a sentence."""


class Text(Struct, frozen=True):
    """A file of words as it stands on the disk.

    Attributes:
        words: Its text with plain line ends; "" where there is no file.
        mark: A digest of its bytes; "" where there is no file.
        data: Its bytes.
    """

    words: str = ""
    mark: str = ""
    data: bytes = b""


def mark_of(data: bytes) -> str:
    """A digest that two files share only if they are the same."""
    return hashlib.sha256(data).hexdigest()


class Folder:
    """A project folder. Whatever it opens lies inside of it, also behind links."""

    def __init__(self, path: Path) -> None:
        """Take a folder, which need not be there yet."""
        self.path = path.resolve()

    @property
    def name(self) -> str:
        """What the folder is called."""
        return self.path.name

    def file(self, name: str) -> Path:
        """The file of a name in `FILES`.

        Raises:
            NotHere: If there is no such name, or the file is a link that leads out.
        """
        if name not in FILES:
            raise NotHere("The desk opens the pattern and its worksheet, nothing else.")
        return self.inside(FILES[name])

    def inside(self, *names: str) -> Path:
        """A path in the folder.

        Raises:
            NotHere: If it leads out of the folder, by its words or by a link.
        """
        path = self.path.joinpath(*names)
        try:
            found = path.resolve()
        except (OSError, RuntimeError, ValueError) as error:
            raise NotHere("There is no such file in this folder.") from error
        if not found.is_relative_to(self.path):
            raise NotHere("That file lies outside the folder, so the desk leaves it alone.")
        return path

    def read(self, name: str) -> Text:
        """The words of a file.

        Raises:
            NotHere: If it cannot be read as text.
        """
        try:
            with self.file(name).open("rb") as file:
                data = file.read(limits.FILE_BYTES + 1)
        except FileNotFoundError:
            return Text()
        except OSError as error:
            raise NotHere(f"{FILES[name]} cannot be opened.") from error
        return as_text(data, FILES[name])


def as_text(data: bytes, called: str) -> Text:
    """Bytes as words.

    Raises:
        NotHere: If they are no text, or too many.
    """
    if len(data) > limits.FILE_BYTES:
        raise NotHere(f"{called} is larger than any pattern.")
    try:
        words = with_plain_line_ends(decoded(data).text).removeprefix("\ufeff")
    except UnreadableDraft as refusal:
        raise NotHere(f"{called} cannot be read: {refusal}") from refusal
    return Text(words, mark_of(data), data)
