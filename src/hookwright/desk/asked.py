"""What a part of the page asks: a pattern as it stands there, and its wish."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.commands.project import PATTERN_FILE, WORKSHEET_FILE
from hookwright.desk.offsets import Offsets
from hookwright.finding import Edit
from hookwright.reading.markdown import markdown_draft
from hookwright.source import Source, Span

Tell = Callable[[dict[str, Any]], None]
"""How far a long answer has come: a sentence under "said", and what the page can show."""


class Wished(Struct, frozen=True):
    """What is wished of a place; each place looks at what concerns it."""

    width: str = ""
    height: str = ""
    size: str = ""
    terms: str = ""
    units: str = ""
    write: bool = False
    repeats: int | None = None
    rows: int = 2
    set_repeats: int | None = None
    side: str = ""
    stitch: str = "sc"
    kind: str = "plain"
    shape: str = "plain"
    order: int | None = None
    stripes: list[tuple[str, int]] = []
    times: int = 1
    seed: int = 1
    at: int = 0
    part: str = ""
    table: str = ""
    key: str = ""
    number: int = 0
    value: Any = None
    words: str = ""
    asked: dict[str, str] = {}
    keep: str = ""


class Asked(Struct, frozen=True):
    """A question.

    Attributes:
        text: The pattern as it stands in the page.
        worksheet: Its worksheet; "" for none.
        wished: What is wished.
        tell: Tells how far the answer has come.
        folder: The project folder.
    """

    text: str
    worksheet: str
    wished: Wished
    tell: Tell
    folder: str = ""

    @property
    def checked(self) -> Checked:
        """The pattern, read and worked; of one text and worksheet only once.

        Raises:
            UnreadableDraft: If there are no words in it, or far too many.
        """
        return checked_text(self.text, self.worksheet)

    @property
    def offsets(self) -> Offsets:
        """Its offsets as the page counts them."""
        return Offsets(self.text)

    def spans(self, spans: Iterable[Span]) -> list[list[int]]:
        """Stretches of the text as the page counts them."""
        to_page = self.offsets.to_page
        return [[to_page(span.start), to_page(span.end)] for span in sorted(spans)]


@lru_cache(maxsize=3)
def checked_text(text: str, worksheet: str) -> Checked:
    """A pattern and its worksheet, read and worked."""
    sheet = Source(worksheet, WORKSHEET_FILE) if worksheet.strip() else None
    return check(markdown_draft(text, PATTERN_FILE), None, sheet)


def changes(edits: tuple[Edit, ...] | list[Edit], offsets: Offsets) -> list[dict[str, Any]]:
    """Changes of the pattern's text as the page makes them."""
    return [
        {
            "from": offsets.to_page(edit.span.start),
            "to": offsets.to_page(edit.span.end),
            "insert": edit.replacement,
        }
        for edit in sorted(edits, key=lambda edit: edit.span)
    ]
