"""The versions of a pattern that are kept beside it, in the folder `versions/`.

Each is the file as it was, under the name of its version; `versions.json` tells when it was
kept. Nothing in the folder is ever written over.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from msgspec import Struct

from hookwright.commands.project import pattern_file
from hookwright.commands.writing import NotWritten, replace_keeping, write_new
from hookwright.regex import regex

FOLDER = "versions"
LIST = "versions.json"
_NAME = regex(r"[\w][\w.+-]{0,39}")


class Kept(Struct, frozen=True):
    """A version that is kept: its name, its day, its file."""

    version: str
    date: str
    file: Path


def kept_versions(path: str) -> tuple[Kept, ...]:
    """The versions beside a pattern, the oldest first; none where nothing is kept.

    Raises:
        NotWritten: If the list of them cannot be read.
    """
    folder = pattern_file(path).parent / FOLDER
    listed = folder / LIST
    try:
        told = json.loads(listed.read_text("utf-8")) if listed.exists() else []
        return tuple(
            Kept(
                str(one["version"]), str(one["date"]), folder / Path(str(one["file"])).name
            )
            for one in told
        )
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise NotWritten(f"{listed} cannot be read.") from error


def keep(path: str, version: str, date: str) -> Path:
    """Keep the pattern as it is now under the name of a version.

    Raises:
        NotWritten: If there is such a version, or it cannot be kept.
    """
    if not _NAME.fullmatch(version):
        raise NotWritten(
            f'"{version}" is no name of a version: write it as 1.0 or 2024-05.'
        )
    file = pattern_file(path)
    before = kept_versions(path)
    if any(one.version == version for one in before):
        raise NotWritten(f"Version {version} is kept already, and is not written over.")
    folder = file.parent / FOLDER
    kept = folder / f"{version}{file.suffix}"
    try:
        folder.mkdir(exist_ok=True)
        data = file.read_bytes()
    except OSError as error:
        raise NotWritten(f"{file} cannot be kept: {error.strerror}.") from error
    write_new(kept, data)
    _list(folder / LIST, [*before, Kept(version, date, kept)])
    return kept


def _list(file: Path, versions: list[Kept]) -> None:
    told: list[dict[str, Any]] = [
        {"version": one.version, "date": one.date, "file": one.file.name}
        for one in versions
    ]
    data = (json.dumps(told, indent=2) + "\n").encode()
    if not file.exists():
        write_new(file, data)
        return
    earlier = replace_keeping(file, file.read_bytes(), data)
    earlier.unlink()
