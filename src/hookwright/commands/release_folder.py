"""The folder of a release: the earlier one stands until the new one is whole.

A release is made in a folder beside its place and put there in one step; the earlier one
is moved aside first and taken away last. Should that be cut off half way, the next build
finds the earlier release beside its place and puts it back. A folder that is no release is
never written over, and files in a release that are not its own stay in it.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from msgspec import Struct

from hookwright.commands.writing import NotWritten
from hookwright.release.copies import is_safe_name
from hookwright.release.manifest import FILE, Manifest, read_manifest, sha256

_LARGEST_MANIFEST = 10_000_000


class Earlier(Struct, frozen=True):
    """The release that stands in a folder.

    Attributes:
        folder: The folder.
        manifest: What it holds; None where there is no release.
    """

    folder: Path
    manifest: Manifest | None = None

    def names(self, made_of: str) -> tuple[str, ...]:
        """The files it has that are made of the same things, by name."""
        files = self.manifest.files if self.manifest is not None else ()
        return tuple(entry.name for entry in files if entry.made_of == made_of)

    def keep(self, name: str, made_of: str) -> bytes | None:
        """The file of a name, if it is made of the same things and still whole."""
        entry = self.manifest.entry(name) if self.manifest is not None else None
        if entry is None or entry.made_of != made_of or not is_safe_name(name):
            return None
        try:
            data = (self.folder / name).read_bytes()
        except OSError:
            return None
        return data if sha256(data) == entry.sha256 else None

    def foreign(self) -> Iterator[Path]:
        """Files in the folder that the release did not put there."""
        if self.manifest is None or not self.folder.is_dir():
            return
        own = {FILE, *(entry.name for entry in self.manifest.files)}
        yield from (one for one in sorted(self.folder.iterdir()) if one.name not in own)


class Stage(Struct, frozen=True):
    """Where a release is made before it is put in its place."""

    folder: Path

    def put(self, name: str, data: bytes) -> None:
        """Write a file of it.

        Raises:
            NotWritten: If it cannot be written.
        """
        if not is_safe_name(name):
            raise NotWritten(f"{name} is no name for a file of a release.")
        try:
            with (self.folder / name).open("xb") as file:
                file.write(data)
        except OSError as error:
            raise NotWritten(_cannot(self.folder / name, error)) from error


def earlier_release(folder: Path) -> Earlier:
    """The release in a folder; one that was cut off half way is put back first.

    Raises:
        NotWritten: If something else stands there.
    """
    aside = _aside(folder)
    try:
        if aside.is_dir() and not folder.exists():
            aside.replace(folder)
        if not folder.exists():
            return Earlier(folder)
        if not folder.is_dir():
            raise NotWritten(f"{folder} is there already and is no folder.")
        manifest = _manifest_in(folder)
        if manifest is None and any(folder.iterdir()):
            raise NotWritten(
                f"{folder} is there already and holds no release, so nothing was put"
                " there. Choose another folder with -o."
            )
    except OSError as error:
        raise NotWritten(_cannot(folder, error)) from error
    return Earlier(folder, manifest)


def _manifest_in(folder: Path) -> Manifest | None:
    file = folder / FILE
    if not file.is_file() or file.stat().st_size > _LARGEST_MANIFEST:
        return None
    return read_manifest(file.read_bytes())


@contextmanager
def staged(folder: Path, earlier: Earlier) -> Iterator[Stage]:
    """A folder to make a release in, which takes its place when all went well.

    Raises:
        NotWritten: If it cannot be made or put there; the earlier release then stands.
    """
    stage = folder.with_name(f".{folder.name}.{os.getpid()}.new")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        stage.mkdir()
    except OSError as error:
        raise NotWritten(_cannot(folder, error)) from error
    try:
        yield Stage(stage)
        _take_along(earlier, stage)
        _swap(stage, folder)
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def _take_along(earlier: Earlier, stage: Path) -> None:
    """Carry over what others have put into the folder."""
    for one in earlier.foreign():
        target = stage / one.name
        if target.exists():
            continue
        try:
            if one.is_dir() and not one.is_symlink():
                shutil.copytree(one, target, symlinks=True)
            else:
                shutil.copy2(one, target, follow_symlinks=False)
        except OSError as error:
            raise NotWritten(_cannot(one, error)) from error


def _swap(stage: Path, folder: Path) -> None:
    """Put a release in its place, the earlier one back if that fails."""
    aside = _aside(folder)
    try:
        if aside.exists():
            shutil.rmtree(aside)
        if folder.exists():
            folder.replace(aside)
        try:
            stage.replace(folder)
        except OSError:
            with suppress(OSError):
                aside.replace(folder)
            raise
    except OSError as error:
        raise NotWritten(_cannot(folder, error)) from error
    shutil.rmtree(aside, ignore_errors=True)


def _aside(folder: Path) -> Path:
    return folder.with_name(f".{folder.name}.earlier")


def _cannot(path: Path, error: OSError) -> str:
    reason = (error.strerror or "it cannot be reached").lower()
    return f"{path} could not be written: {reason}."
