"""What a release holds: each file with its hash, and what it was made of.

The manifest stands in the release as `manifest.json`. A later build takes over whatever
is made of the same things and still has the same bytes; anybody can check a copy by it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

import msgspec
from msgspec import Struct

from hookwright import __version__
from hookwright.release.facts import Stamp

FILE = "manifest.json"


class Entry(Struct, frozen=True):
    """A file of a release.

    Attributes:
        name: Its name.
        what: What it is, in words.
        bytes: How large it is.
        sha256: The hash of its contents.
        made_of: The hash of all that its contents follow from.
    """

    name: str
    what: str
    bytes: int
    sha256: str
    made_of: str


class Manifest(Struct, frozen=True):
    """What a release holds.

    Attributes:
        hookwright: The version of the program that made it.
        title: The name of the design.
        version: The version of the pattern.
        date: The day it is put out, year first.
        draft: Whether it is only a draft.
        kept: What could not be worded as a copy has it, in sentences.
        files: Its files, in the order of their names.
    """

    hookwright: str
    title: str
    version: str
    date: str
    draft: bool
    kept: tuple[str, ...] = ()
    files: tuple[Entry, ...] = ()

    def entry(self, name: str) -> Entry | None:
        """The file of a name; None if there is none."""
        return next((entry for entry in self.files if entry.name == name), None)


def manifest_of(
    title: str,
    stamp: Stamp,
    files: Sequence[Entry],
    *,
    draft: bool,
    kept: Sequence[str] = (),
) -> Manifest:
    """The manifest of a release."""
    ordered = tuple(sorted(files, key=lambda entry: entry.name))
    version, day = stamp.version, stamp.day
    return Manifest(__version__, title, version, day, draft, tuple(kept), ordered)


def as_bytes(manifest: Manifest) -> bytes:
    """The manifest as it is written."""
    return msgspec.json.format(msgspec.json.encode(manifest), indent=1) + b"\n"


def read_manifest(data: bytes) -> Manifest | None:
    """A manifest as it was written; None if it is none."""
    try:
        return msgspec.json.decode(data, type=Manifest)
    except msgspec.DecodeError:
        return None


def sha256(*parts: bytes | str) -> str:
    """The hash of some parts, each told apart from the next."""
    total = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        if len(parts) > 1:
            total.update(f"{len(data)}:".encode())
        total.update(data)
    return total.hexdigest()
