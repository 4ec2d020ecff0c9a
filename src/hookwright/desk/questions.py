"""What can the page ask of a pattern? One question, one function; the answers are JSON.

A question's module is brought in when it is first asked: what answers while she types is
not to wait for what lays out a fabric.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

import msgspec

from hookwright.desk.asked import Asked, Tell, Wished
from hookwright.desk.places import PLACES
from hookwright.reading import UnreadableDraft

QUESTIONS: Mapping[str, tuple[str, str]] = {
    "seen": ("seen", "seen"),
    "word": ("word", "word"),
    "note": ("worksheets", "noted_down"),
    "cloth": ("cloth", "cloth"),
    "measurements": ("measurements", "measurements"),
    "drawing": ("drawings", "drawing"),
    "symbol": ("drawings", "symbol"),
    "worded": ("worded", "worded"),
    "leaf": ("leaves", "leaf"),
    "shelf": ("shelf", "laid_out"),
    "sample": ("shelf", "sample"),
    "begin": ("shelf", "begun_from"),
    **{place.name: (f"places.{place.name}", "answer") for place in PLACES},
}
"""Every question, with the module and the function that answer it."""
FAULT = (
    "This could not be worked out; the fault is the desk's. What you have written is kept."
)


def answer_to(question: str, given: dict[str, Any], tell: Tell) -> bytes:
    """The answer to a question, whatever is asked."""
    try:
        return msgspec.json.encode(_answer(question, given, tell))
    except (UnreadableDraft, msgspec.ValidationError) as refusal:
        return msgspec.json.encode({"refused": str(refusal)})
    except Exception as fault:  # noqa: BLE001 - a fault of ours must not take the desk away
        kind = type(fault).__name__
        sys.stderr.write(f"The desk could not answer {question!r}: {kind}: {fault}\n")
        return msgspec.json.encode({"refused": FAULT, "fault": kind})


def _answer(question: str, given: dict[str, Any], tell: Tell) -> dict[str, Any]:
    if question == "draft":
        from hookwright.desk.shelf import read_in  # noqa: PLC0415 - as every question

        return read_in(given["name"], given["data"])
    if question not in QUESTIONS:
        return {"refused": "The desk does not know that question."}
    wished = msgspec.convert(given.get("wished") or {}, Wished)
    folder = given.get("folder") or ""
    asked = Asked(given["text"], given.get("worksheet") or "", wished, tell, folder)
    return answering(question)(asked)


def answering(question: str) -> Callable[[Asked], dict[str, Any]]:
    """What answers a question of the table."""
    module, name = QUESTIONS[question]
    found: Callable[[Asked], dict[str, Any]] = getattr(
        import_module(f"hookwright.desk.{module}"), name
    )
    return found
