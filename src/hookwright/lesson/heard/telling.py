"""A filmed lesson held against its pattern, for people and for programs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import msgspec

from hookwright.lesson.chapters import clock
from hookwright.lesson.heard.facts import Heard


def heard_lines(heard: Heard, sizes: Sequence[str] = ()) -> Iterator[str]:
    """Chapters, slips, and what is never shown.

    Args:
        heard: What was heard.
        sizes: The names of the sizes of the pattern; empty if it has one.
    """
    if heard.refused:
        yield heard.refused
        return
    if len(sizes) > 1:
        yield f"Held to the size {sizes[heard.size]}."
    if heard.chapters:
        rows = (
            f"{clock(one.time)} {one.part + ', ' if one.part else ''}{one.row}"
            for one in heard.chapters
        )
        yield "\n".join(("Chapters:", "0:00 Beginning", *rows))
    else:
        yield "No row is announced in it: say its name when one begins."
    if heard.slips:
        told = (f"- {slip.message}" for slip in heard.slips)
        yield "\n".join(("Said otherwise than the pattern:", *told))
    else:
        yield "Nothing that is said contradicts the pattern."
    if heard.left_out:
        yield "\n".join(("Rows left out:", *(f"- {row}" for row in heard.left_out)))
    if heard.not_shown:
        yield "\n".join(("Never shown:", *(f"- {words}" for words in heard.not_shown)))


def heard_answer(heard: Heard) -> dict[str, Any]:
    """The same as an object for programs; times are in seconds."""
    told: dict[str, Any] = msgspec.to_builtins(heard)
    return told
