"""How is a change kept, so that nothing of it or of what was there before is lost?

A save names the text that it was made from. If the file holds another one, nothing is
written and both texts are told. The new text is put in place in one step; the earlier one
stays in the folder `earlier/`, thinned out as it ages.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

from msgspec import Struct

from hookwright.commands.writing import put_in_place
from hookwright.desk.folder import (
    EARLIER,
    FILES,
    Folder,
    NotHere,
    Text,
    as_text,
)
from hookwright.reading import UnreadableDraft
from hookwright.reading.plain import decoded
from hookwright.regex import regex

_NEW_VERSION_AFTER = timedelta(seconds=30)
_STAMP = "%Y-%m-%d %H.%M.%S.%f"
_KEPT = regex(r"\d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d\.\d{6}")
_LEFT_OVER = regex(r"\.(?:pattern\.md|worksheet\.toml)\.\d+\.new")
_THINNED = (
    (timedelta(days=31), timedelta(days=1)),
    (timedelta(days=1), timedelta(minutes=10)),
    (timedelta(hours=1), timedelta(minutes=1)),
)
"""Versions older than the first stand at least the second apart."""


class Changed(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """The file holds another text than the one a change was made from."""

    def __init__(self, now: Text) -> None:
        """Bring the text that is there now."""
        super().__init__("This file was changed outside the desk.")
        self.now = now


class Version(Struct, frozen=True):
    """An earlier version.

    Attributes:
        id: Its name, the moment until which it stood: "2026-03-01 14.02.11.000000".
        when: The same as people and programs read it.
        size: Its bytes.
    """

    id: str
    when: str
    size: int


class Keeper:
    """Keeps the changes of one folder. Only one is kept at a time."""

    def __init__(self, folder: Folder) -> None:
        """Clear away what a save that was cut off has left behind."""
        self.folder = folder
        self._kept_now: set[str] = set()
        for path in self._names_in(folder.path):
            if _LEFT_OVER.fullmatch(path.name):
                with suppress(OSError):
                    path.unlink()

    def save(self, name: str, words: str, made_from: str, *, decided: bool = False) -> Text:
        """Put a text in the place of the one that it was made from.

        Args:
            name: "pattern" or "worksheet".
            words: The new text.
            made_from: The mark of the text it was made from; "" for none.
            decided: Whether the earlier version is kept however young the last one is.

        Raises:
            Changed: If the file holds another text by now.
            NotHere: If it cannot be written.
        """
        file = self.folder.file(name)
        was = self.folder.read(name)
        if was.mark != made_from:
            raise Changed(was)
        data = as_it_was_written(words, was.data)
        if data == was.data and was.mark:
            return was
        try:
            self.folder.path.mkdir(parents=True, exist_ok=True)
            if was.mark and (decided or self._is_due(name)):
                self._keep(name, was.data)
            if not put_in_place(
                file, data, lambda: self.folder.read(name).mark == made_from
            ):
                raise Changed(self.folder.read(name))
        except OSError as error:
            reason = (error.strerror or "it cannot be reached").lower()
            raise NotHere(f"{FILES[name]} could not be saved: {reason}.") from error
        return as_text(data, FILES[name])

    def earlier(self, name: str) -> list[Version]:
        """The earlier versions of a file, the youngest first."""
        found = []
        for path in self._versions(name):
            with suppress(OSError):
                when = datetime.strptime(path.stem, _STAMP).astimezone()
                found.append(Version(path.stem, when.isoformat(), path.stat().st_size))
        return found

    def version(self, name: str, asked: str) -> str:
        """The words of an earlier version.

        Raises:
            NotHere: If there is none of that name.
        """
        for path in self._versions(name):
            if path.stem == asked:
                inside = self.folder.inside(EARLIER, name, path.name)
                with suppress(OSError):
                    return as_text(inside.read_bytes(), path.name).words
        raise NotHere("There is no earlier version of that name.")

    def _is_due(self, name: str) -> bool:
        """Whether the last version is old enough, or none was kept since the start."""
        youngest = next(iter(self.earlier(name)), None)
        if youngest is None or name not in self._kept_now:
            return True
        age = datetime.now().astimezone() - datetime.fromisoformat(youngest.when)
        return not timedelta(0) <= age < _NEW_VERSION_AFTER

    def _keep(self, name: str, data: bytes) -> None:
        place = self.folder.inside(EARLIER, name)
        place.mkdir(parents=True, exist_ok=True)
        stamp = datetime.now().astimezone().strftime(_STAMP)
        put_in_place(place / f"{stamp}{Path(FILES[name]).suffix}", data)
        self._kept_now.add(name)
        for path in too_many(self._versions(name), datetime.now().astimezone()):
            with suppress(OSError):
                path.unlink()

    def _versions(self, name: str) -> list[Path]:
        self.folder.file(name)
        try:
            place = self.folder.inside(EARLIER, name)
        except NotHere:
            return []
        kept = (path for path in self._names_in(place) if _KEPT.fullmatch(path.stem))
        return sorted(kept, reverse=True)

    @staticmethod
    def _names_in(place: Path) -> list[Path]:
        try:
            return list(place.iterdir())
        except OSError:
            return []


def too_many(versions: list[Path], now: datetime) -> Iterator[Path]:
    """The versions that stand too close together for their age, of the youngest first."""
    last: datetime | None = None
    for path in reversed(versions):
        when = datetime.strptime(path.stem, _STAMP).astimezone()
        apart = next((gap for age, gap in _THINNED if now - when > age), None)
        if apart is not None and last is not None and when - last < apart:
            yield path
            continue
        last = when


def as_it_was_written(words: str, was: bytes) -> bytes:
    """Words as bytes, with the line ends and the encoding that the file has had."""
    encoding = "utf-8"
    if was:
        with suppress(UnreadableDraft):
            found = decoded(was)
            encoding = found.encoding
            if "\r\n" in found.text and not re.search(r"(?<!\r)\n", found.text):
                words = words.replace("\n", "\r\n")
    try:
        return words.encode(encoding)
    except UnicodeEncodeError:
        return words.encode("utf-8", "replace")
