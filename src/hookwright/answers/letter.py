"""Replies as a letter to paste, and as an object for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from hookwright.answers.facts import Reply


def letter(replies: Sequence[Reply], title: str) -> str:
    """All replies as plain text: the answer, its cautions, the working."""
    return "\n\n".join(_paragraphs(replies, title))


def _paragraphs(replies: Sequence[Reply], title: str) -> Iterator[str]:
    if title:
        yield title
    for reply in replies:
        yield "\n".join((f"{reply.question}", *reply.answer))
        if reply.cautions:
            yield "\n".join(reply.cautions)
        if reply.working:
            yield "\n".join(("How the numbers come about:", *reply.working))


def letter_answer(replies: Sequence[Reply], title: str) -> dict[str, Any]:
    """The replies as an object for programs; lengths are in millimetres."""
    return {
        "title": title,
        "replies": [
            {
                "question": reply.question,
                "answered": reply.answered,
                "answer": list(reply.answer),
                "working": list(reply.working),
                "cautions": list(reply.cautions),
                "figures": dict(reply.figures),
            }
            for reply in replies
        ],
    }
