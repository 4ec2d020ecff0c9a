"""Files written whole or not at all, and never over something that would be lost.

The one place where this program writes. A file is first written beside its place, then put
there in one step, so that whoever reads it finds the earlier text or the new one.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from itertools import count
from pathlib import Path


class NotWritten(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """A file that was not written; the message is a sentence, and nothing has changed."""


def replace_keeping(path: Path, was: bytes, data: bytes) -> Path:
    """Put new contents in place of those that were read, and keep these beside it.

    Args:
        path: The file; a link stays a link.
        was: Its contents as they were read.
        data: The new ones.

    Returns:
        The file that keeps the earlier contents.

    Raises:
        NotWritten: If the file has been changed meanwhile, or cannot be written.
    """
    file = path.resolve()
    try:
        if file.read_bytes() != was:
            raise NotWritten(
                f"{path} has been changed since it was read, so nothing was written."
                " Run the command again."
            )
        kept = _kept_beside(file, was)
        try:
            put_in_place(file, data)
        except OSError:
            kept.unlink()
            raise
    except OSError as error:
        raise NotWritten(cannot_be_written(path, error)) from error
    return kept if path.is_symlink() else path.with_name(kept.name)


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, in a folder that is.

    Raises:
        NotWritten: If there is one, or it cannot be written.
    """
    if not path.parent.exists():
        raise NotWritten(f"{path} could not be written: there is no folder {path.parent}.")
    try:
        _create(path, data)
    except FileExistsError as error:
        raise NotWritten(f"{path} is there already, and is not written over.") from error
    except OSError as error:
        raise NotWritten(cannot_be_written(path, error)) from error


def write_over(path: Path, data: bytes, mark: bytes) -> None:
    """Write a file anew that this program has made before: its contents begin with a mark.

    Raises:
        NotWritten: If something else is there, or it cannot be written.
    """
    try:
        if path.exists():
            with path.open("rb") as file:
                if not file.read(len(mark)) == mark:
                    raise NotWritten(
                        f"{path} is there already and is not such a report, so it is not"
                        " written over. Choose another name."
                    )
        put_in_place(path.resolve(), data)
    except OSError as error:
        raise NotWritten(cannot_be_written(path, error)) from error


def _kept_beside(file: Path, data: bytes) -> Path:
    """Keep contents under the first name that is free: "pattern.earlier-1.md"."""
    for number in count(1):
        kept = file.with_name(f"{file.stem}.earlier-{number}{file.suffix}")
        try:
            _create(kept, data)
        except FileExistsError:
            continue
        return kept
    raise AssertionError("there is always a further number")


def _create(path: Path, data: bytes) -> None:
    """Write a new file whole, or leave nothing of it."""
    file = path.open("xb")
    try:
        with file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        with suppress(OSError):
            path.unlink()
        raise


def put_in_place(file: Path, data: bytes, still: Callable[[], bool] | None = None) -> bool:
    """Put contents in a file's place in one step, with its permissions.

    Whatever happens meanwhile, also the end of the program or of the current, the file
    holds the earlier contents or these, whole.

    Args:
        file: The file.
        data: Its new contents.
        still: Asked at the last moment, when all is ready: whether it may be done.

    Returns:
        Whether it was done.

    Raises:
        OSError: If it cannot be written; nothing has changed then.
    """
    beside = file.with_name(f".{file.name}.{os.getpid()}.new")
    _create(beside, data)
    try:
        if still is not None and not still():
            beside.unlink()
            return False
        if file.exists():
            beside.chmod(file.stat().st_mode & 0o777)
        beside.replace(file)
    except OSError:
        with suppress(OSError):
            beside.unlink()
        raise
    _note_down(file.parent)
    return True


def _note_down(folder: Path) -> None:
    """Have the disk note which files a folder holds, where a system can be asked to."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def cannot_be_written(path: Path, error: OSError) -> str:
    """A sentence on why a file was not written."""
    reason = (error.strerror or "it cannot be reached").lower()
    return f"{path} could not be written: {reason}."
