"""What stands beside the pattern in its folder: reports of testers, versions that are out.

A link that leads out of the folder is not followed.
"""

from __future__ import annotations

from pathlib import Path

from hookwright.commands.kept_versions import FOLDER, LIST, Kept, kept_versions
from hookwright.commands.project import PATTERN_FILE
from hookwright.commands.trials_file import TRIALS_FILE
from hookwright.desk.folder import Folder


def trials_file(folder: str) -> Path:
    """The file of the testers' reports, there or not.

    Raises:
        NotHere: If it is a link that leads out of the folder.
    """
    return Folder(Path(folder)).inside(TRIALS_FILE)


def versions_kept(folder: str) -> tuple[Kept, ...]:
    """The versions that are kept, the oldest first.

    Raises:
        NotHere: If they stand behind a link that leads out of the folder.
        NotWritten: If the list of them cannot be read.
    """
    place = Folder(Path(folder))
    place.inside(FOLDER, LIST)
    kept = kept_versions(str(place.path / PATTERN_FILE))
    for one in kept:
        place.inside(FOLDER, one.file.name)
    return kept
