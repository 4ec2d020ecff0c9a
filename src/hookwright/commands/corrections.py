"""`hookwright corrections`: what changed since a version that is out, and what to tell."""

from __future__ import annotations

import datetime as dt
import json

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.kept_versions import Kept, keep, kept_versions
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.sheet_writing import write_sheet
from hookwright.commands.writing import NotWritten
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ReaderGone, say, say_aside, width
from hookwright.versions.comparing import compare
from hookwright.versions.corrections_sheet import corrections_sheet
from hookwright.versions.facts import Compared
from hookwright.versions.telling import comparison_answer, comparison_lines

UNNAMED = "new"
"""What a version is called that has no name yet."""


class CorrectionsOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        keep: The name under which the present text is kept; "" if it is not to be.
        against: A version that is kept, or a file; "" for the version kept last.
        version: What the new version is called; "" for what the worksheet says.
        date: The day to print; "" for today.
        write: The file for the page of corrections; "" for none.
        paper: "a4" or "us-letter".
        as_json: An object for programs.
    """

    keep: str = ""
    against: str = ""
    version: str = ""
    date: str = ""
    write: str = ""
    paper: str = "a4"
    as_json: bool = False


def corrections(path: str, options: CorrectionsOptions) -> Status:
    """Keep the present text, or compare it with one that is out."""
    date = options.date or dt.datetime.now().astimezone().date().isoformat()
    try:
        if options.keep:
            check(draft_at(path))
            say(f"Version {options.keep} is kept in {keep(path, options.keep, date)}.")
            return Status.CLEAN
        return _compared(path, options, date)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _compared(path: str, options: CorrectionsOptions, date: str) -> Status:
    kept = kept_versions(path)
    name, file = older_version(options.against, kept)
    if not file:
        say_aside("No version is kept yet: keep one with --keep 1.0, or name a file.")
        return Status.NOT_READ
    old = check(draft_at(file))
    new = check(draft_at(path), None, worksheet_at(path))
    if not old.has_rows() or not new.has_rows():
        say_aside("No row is found in one of the two.")
        return Status.NOT_READ
    compared = compare(old, new, name, options.version or version_called(new, name))
    if options.as_json:
        say(json.dumps(comparison_answer(compared, date)))
    else:
        say(_in_columns(compared, date))
    if options.write:
        title = new.design.title or new.draft.title or ""
        write_sheet(corrections_sheet(compared, title, date), options.write, options.paper)
    return Status.TO_MEND if compared.of_fabric else Status.CLEAN


def older_version(against: str, kept: tuple[Kept, ...]) -> tuple[str, str]:
    """The version to compare with: its name, and its file; both "" where there is none."""
    if not against:
        return (kept[-1].version, str(kept[-1].file)) if kept else ("", "")
    found = next((one for one in kept if one.version == against), None)
    return (found.version, str(found.file)) if found is not None else (against, against)


def version_called(new: Checked, old: str) -> str:
    """What the newer version is called: as its worksheet says, if that is another name."""
    noted = new.design.noted
    version = noted.version if noted is not None else ""
    return version if version and version != old else UNNAMED


def _in_columns(compared: Compared, date: str) -> str:
    text = "\n\n".join(comparison_lines(compared, date))
    return "\n".join(
        line for one in text.split("\n") for line in wrapped(one, width()) or [""]
    )
