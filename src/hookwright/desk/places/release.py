"""The release: what stands in its way, what is out, and every copy made anew."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from hookwright.commands.project import PATTERN_FILE
from hookwright.commands.release import RELEASE_FOLDER, put_out_in
from hookwright.commands.release_folder import earlier_release
from hookwright.commands.writing import NotWritten
from hookwright.desk.asked import Asked
from hookwright.finding import Severity
from hookwright.listing.summary import summary
from hookwright.release.texts import AnotherFabric

_FIRST = (".pdf", ".html", ".jpg", ".png", ".txt", ".svg")
"""In which order the copies are shown: what is read first, then what goes with it."""


def answer(asked: Asked) -> dict[str, Any]:
    """The gate and what is out; where it is wished, the copies are made first."""
    if asked.wished.write:
        refusal = _put_out(asked)
        if refusal:
            return {**_standing(asked), "open": refusal}
    return _standing(asked)


def _put_out(asked: Asked) -> str:
    """Make every copy; why not, where that cannot be."""

    def told(share: float, doing: str) -> bool:
        asked.tell({"share": round(share, 3), "said": doing})
        return True

    pattern = str(Path(asked.folder) / PATTERN_FILE)
    draft = asked.checked.has_errors()
    try:
        folder = Path(asked.folder) / RELEASE_FOLDER
        put_out_in(folder, pattern, asked.checked, told, draft=draft)
    except (NotWritten, AnotherFabric) as refusal:
        return str(refusal)
    return ""


def _standing(asked: Asked) -> dict[str, Any]:
    checked = asked.checked
    errors = [f for f in checked.all_findings if f.severity is Severity.ERROR]
    return {
        "gate": [
            {"what": "Counts", "says": summary(checked)},
            {"what": "Sizes", "says": ", ".join(checked.sizes) or "one"},
        ],
        "errors": [{"message": f.message, "why": f.why} for f in errors],
        "copies": _copies(asked),
    }


def _copies(asked: Asked) -> list[dict[str, Any]]:
    """The files of the release that is out."""
    try:
        manifest = earlier_release(Path(asked.folder) / RELEASE_FOLDER).manifest
    except NotWritten:
        return []
    if manifest is None:
        return []
    in_order = sorted(manifest.files, key=lambda file: (_rank(file.name), file.name))
    return [
        {"name": file.name, "what": file.what, "bytes": file.bytes, "made": file.sha256}
        for file in in_order
    ]


def _rank(name: str) -> int:
    ending = Path(name).suffix
    return _FIRST.index(ending) if ending in _FIRST else len(_FIRST)
