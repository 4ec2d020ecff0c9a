"""The makers' questions: what one asks, and the reply to paste, with its working."""

from __future__ import annotations

from typing import Any

from msgspec import structs

from hookwright.answers.answering import Question, replies_to
from hookwright.answers.help_sheet import help_sheet
from hookwright.answers.letter import letter
from hookwright.answers.lies import KINDS
from hookwright.desk.asked import Asked
from hookwright.desk.on_paper import SHEET_FILES, sheet_file, stem_of

_FIELDS = (
    ("count", "She counts", "row 12: 176, row 13: 175"),
    ("gauge", "Her gauge", "14 sts and 8 rows = 4 in"),
    ("width", "How wide she wants it", "45 in"),
    ("height", "How high she wants it", "150 cm"),
    ("yarn", "What stands on her ball band", "100 g = 240 m"),
    ("have", "What yarn she has", "14 balls"),
)
"""What can be asked: the name in `Question`, what it is, and how it is written."""
_NAMES = set(Question.__struct_fields__)


def answer(asked: Asked) -> dict[str, Any]:
    """What can be asked; of a question, the letter; of the help sheet, a file."""
    checked, wished = asked.checked, asked.wished
    if not checked.has_rows():
        return {"refused": "There are no rows yet that could be asked about."}
    if wished.keep:
        stem = f"{stem_of(checked)}-help"
        return sheet_file(help_sheet(checked), stem, wished.keep, wished.units)
    return {
        "fields": [
            {"name": name, "says": says, "like": like} for name, says, like in _FIELDS
        ],
        "lies": list(KINDS),
        "sizes": list(checked.sizes),
        "files": list(SHEET_FILES),
        **(_replied(asked) if any(wished.asked.values()) else {}),
    }


def _replied(asked: Asked) -> dict[str, Any]:
    known = {name: word for name, word in asked.wished.asked.items() if name in _NAMES}
    if known.get("lies") not in KINDS:
        known.pop("lies", None)
    replies = replies_to(asked.checked, Question(**known))
    title = asked.checked.design.title or asked.checked.draft.title or ""
    return {
        "letter": letter(replies, title),
        "short": letter([structs.replace(one, working=()) for one in replies], title),
        "replies": [
            {
                "question": one.question,
                "answered": one.answered,
                "working": list(one.working),
            }
            for one in replies
        ],
    }
