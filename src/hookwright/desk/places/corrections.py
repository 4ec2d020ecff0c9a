"""The corrections: what changed since a version that is out, and what makers are told."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hookwright.checking import check
from hookwright.commands.corrections import UNNAMED, older_version, version_called
from hookwright.commands.kept_versions import Kept, keep
from hookwright.commands.project import PATTERN_FILE, draft_at
from hookwright.commands.writing import NotWritten
from hookwright.desk.asked import Asked
from hookwright.desk.beside import versions_kept
from hookwright.desk.folder import NotHere
from hookwright.desk.on_paper import SHEET_FILES, blocks, sheet_file, stem_of
from hookwright.source import Span
from hookwright.versions.comparing import compare
from hookwright.versions.corrections_sheet import corrections_sheet, stamp
from hookwright.versions.facts import Compared


def answer(asked: Asked) -> dict[str, Any]:
    """The versions kept and what changed since one; first this one is kept, if wished."""
    pattern = str(Path(asked.folder) / PATTERN_FILE)
    refusal = ""
    try:
        kept = versions_kept(asked.folder)
        if asked.wished.write:
            refusal = _keep(pattern, asked.wished.words)
            kept = versions_kept(asked.folder)
    except (NotWritten, NotHere) as refused:
        return {"refused": str(refused)}
    compared = _compared(asked, kept)
    if asked.wished.keep and compared is not None:
        return _kept_sheet(asked, compared)
    return {
        "kept": [{"version": one.version, "date": one.date} for one in reversed(kept)],
        "next": _next(asked, kept),
        "said": refusal,
        "files": list(SHEET_FILES),
        **(_told(asked, compared) if compared is not None else {}),
    }


def _keep(pattern: str, version: str) -> str:
    """Keep the text as it stands on the disk; why not, where that cannot be."""
    try:
        keep(pattern, version, _today())
    except NotWritten as refused:
        return str(refused)
    return ""


def _next(asked: Asked, kept: tuple[Kept, ...]) -> str:
    """The version that the worksheet calls the text, if none of that name is kept."""
    noted = asked.checked.design.noted
    version = noted.version if noted is not None else ""
    return "" if any(one.version == version for one in kept) else version


def _compared(asked: Asked, kept: tuple[Kept, ...]) -> Compared | None:
    """The text against the version that is wished, or the one kept last."""
    wished = asked.wished.size
    known = wished if any(one.version == wished for one in kept) else ""
    name, file = older_version(known, kept)
    if not file or not asked.checked.has_rows():
        return None
    old = check(draft_at(file))
    if not old.has_rows():
        return None
    return compare(old, asked.checked, name, version_called(asked.checked, name))


def _told(asked: Asked, compared: Compared) -> dict[str, Any]:
    changed = len(compared.of_fabric)
    return {
        "against": compared.old,
        "new": compared.new,
        "fabric": changed,
        "page": blocks(corrections_sheet(compared, "", _today()).blocks),
        "stamp": stamp(compared, _today()) if compared.new != UNNAMED else "",
        "words": asked.spans(set(_words(asked, compared))),
    }


def _words(asked: Asked, compared: Compared) -> Iterator[Span]:
    """The rows that changed, as they stand now."""
    outcomes = asked.checked.worked.sizes[0].outcomes
    for change in compared.changes:
        if change.rows and change.first < len(outcomes):
            yield outcomes[change.first].step.span


def _kept_sheet(asked: Asked, compared: Compared) -> dict[str, Any]:
    title = asked.checked.design.title or asked.checked.draft.title or ""
    sheet = corrections_sheet(compared, title, _today())
    stem = f"{stem_of(asked.checked)}-corrections"
    return sheet_file(sheet, stem, asked.wished.keep, asked.wished.units)


def _today() -> str:
    return dt.datetime.now().astimezone().date().isoformat()
