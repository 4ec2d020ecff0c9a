"""What can the page ask of a pattern? One question, one function; the answers are JSON."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from hookwright.desk.asked import Asked, Tell, Wished
from hookwright.desk.cloth import cloth
from hookwright.desk.measurements import measurements
from hookwright.desk.places import PLACES
from hookwright.desk.seen import seen
from hookwright.desk.shelf import begun_from, laid_out, read_in, sample
from hookwright.desk.word import word
from hookwright.desk.worksheets import noted_down
from hookwright.reading import UnreadableDraft

QUESTIONS: Mapping[str, Callable[[Asked], dict[str, Any]]] = {
    "seen": seen,
    "word": word,
    "note": noted_down,
    "cloth": cloth,
    "measurements": measurements,
    "shelf": laid_out,
    "begin": begun_from,
    "sample": sample,
    **{place.name: place.answer for place in PLACES},
}
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
        return read_in(given["name"], given["data"])
    if question not in QUESTIONS:
        return {"refused": "The desk does not know that question."}
    wished = msgspec.convert(given.get("wished") or {}, Wished)
    asked = Asked(given["text"], given.get("worksheet") or "", wished, tell)
    return QUESTIONS[question](asked)
