"""Where do testers' reports stand beside a pattern, and how are they read and put there?"""

from __future__ import annotations

from pathlib import Path

from hookwright.commands.writing import NotWritten, replace_keeping, write_new
from hookwright.reading import UnreadableDraft
from hookwright.reading.plain import decoded, with_plain_line_ends
from hookwright.source import Source

TRIALS_FILE = "trials.csv"


def reports_at(file: str) -> Source:
    """The reports in a file.

    Raises:
        UnreadableDraft: If it cannot be read as text.
    """
    try:
        data = Path(file).read_bytes()
    except OSError as error:
        raise UnreadableDraft(f"{file} cannot be opened.") from error
    return Source(with_plain_line_ends(decoded(data).text), file)


def put_reports(file: Path, text: str) -> None:
    """Put reports in their place; those that stood there are kept beside them.

    Raises:
        NotWritten: If they cannot be written.
    """
    data = text.encode()
    if file.exists():
        try:
            was = file.read_bytes()
        except OSError as error:
            raise NotWritten(f"{file} cannot be opened.") from error
        if was != data:
            replace_keeping(file, was, data)
    else:
        write_new(file, data)
