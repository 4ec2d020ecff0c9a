"""A file of the release that is out, by its name; no other file of its folder is given."""

from __future__ import annotations

from hookwright.commands.release import RELEASE_FOLDER
from hookwright.commands.release_folder import earlier_release
from hookwright.commands.writing import NotWritten
from hookwright.desk.folder import Folder, NotHere

_NONE = "There is no such copy."


def released(folder: Folder, name: str) -> bytes:
    """The contents of a copy.

    Raises:
        NotHere: If the release has none of that name, or it cannot be read.
    """
    try:
        place = folder.inside(RELEASE_FOLDER)
        manifest = earlier_release(place).manifest
    except NotWritten as refusal:
        raise NotHere(_NONE) from refusal
    if manifest is None or manifest.entry(name) is None:
        raise NotHere(_NONE)
    try:
        return folder.inside(RELEASE_FOLDER, name).read_bytes()
    except OSError as error:
        raise NotHere(_NONE) from error
