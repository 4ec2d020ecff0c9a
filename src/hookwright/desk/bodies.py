"""What a request brings: read no further than is allowed, and taken as what it must be."""

from __future__ import annotations

from typing import Any

import msgspec
from msgspec import Struct
from starlette.requests import Request

from hookwright.reading import limits

WORDS_BYTES = 4 * limits.TEXT_CHARACTERS
"""A pattern and its worksheet; far more than anybody writes."""


class TooMuch(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """More was sent than is read."""


class Question(Struct, frozen=True):
    """A question about the pattern as it stands in the page."""

    text: str
    worksheet: str = ""
    wished: dict[str, Any] = {}


class Save(Struct, frozen=True):
    """A text to put in the place of the one it was made from."""

    file: str
    text: str
    made_from: str
    decided: bool = False


async def body_of(request: Request, most: int) -> bytes:
    """The body of a request.

    Raises:
        TooMuch: As soon as it is longer than allowed.
    """
    data = bytearray()
    async for piece in request.stream():
        data += piece
        if len(data) > most:
            raise TooMuch
    return bytes(data)


async def question_of(request: Request) -> Question:
    """The question that a request brings.

    Raises:
        TooMuch: If it is too long.
        msgspec.DecodeError: If it is none.
    """
    return msgspec.json.decode(await body_of(request, WORDS_BYTES), type=Question)


async def save_of(request: Request) -> Save:
    """The text to save that a request brings; see `question_of` for what it raises."""
    return msgspec.json.decode(await body_of(request, WORDS_BYTES), type=Save)
