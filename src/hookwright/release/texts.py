"""The pattern in the words of each copy, each wording made once and proven.

A wording whose fabric is another than that of the source is never put out: that would be a
fault of ours, so it is one loudly.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.release.copies import TERMS, Copy, Edition
from hookwright.wording import Asked, Form, write_pattern
from hookwright.wording.house import house_style
from hookwright.wording.written import LevelTold

FORMS = {"short": Form.SHORT, "long": Form.LONG}
"""How a page sets the words, by the name that it has there."""


class Text(Struct, frozen=True):
    """A pattern in some words.

    Attributes:
        checked: The text, read and worked.
        level: Its skill level; None where nothing tells it.
        kept: What could not be worded as asked, in sentences.
    """

    checked: Checked
    level: LevelTold | None = None
    kept: tuple[str, ...] = ()


class AnotherFabric(Exception):  # noqa: N818 - told to the designer
    """A wording that would make another fabric; the message is a sentence."""


class Texts:
    """The wordings of a pattern.

    Args:
        checked: The pattern as it is written.
    """

    def __init__(self, checked: Checked) -> None:
        own = checked.terms or checked.worked.terms
        self.terms = (own, *(terms for terms in TERMS if terms != own))
        self.forms = tuple(FORMS)
        self._source = checked
        self._style = house_style(checked.worksheet)
        self._made: dict[Asked, Text] = {}

    def of_copy(self, copy: Copy) -> Text:
        """The pattern as it stands in a copy."""
        large = copy.edition is Edition.LARGE
        return self._in_words(Asked(
            terms=copy.terms,
            form=Form.LONG if large else Form.SHORT,
            size=copy.size,
            left_handed=copy.edition is Edition.LEFT_HANDED,
            style=self._style,
        ))  # fmt: skip

    def of(self, terms: str, form: str) -> Text:
        """The pattern in some terms, short or in full."""
        return self._in_words(Asked(terms=terms, form=FORMS[form], style=self._style))

    def all_kept(self) -> tuple[str, ...]:
        """What could not be worded as asked in any copy, each once."""
        return tuple(
            dict.fromkeys(said for text in self._made.values() for said in text.kept)
        )

    def _in_words(self, asked: Asked) -> Text:
        if asked not in self._made:
            self._made[asked] = self._written(asked)
        return self._made[asked]

    def _written(self, asked: Asked) -> Text:
        """A wording, proven to be of the same fabric."""
        if asked == Asked(terms=self.terms[0]) and self._source.terms == self.terms[0]:
            return Text(self._source)
        worded = write_pattern(self._source, asked)
        if worded.differs is not None:
            raise AnotherFabric(
                f"{worded.differs} would be another fabric in {_told(asked)}; nothing was"
                " put out."
            )
        kept = tuple(f"{one.row or 'A sentence'}: {one.why}" for one in worded.kept)
        return Text(worded.checked, worded.written.level, kept)


def _told(asked: Asked) -> str:
    hand = ", left-handed" if asked.left_handed else ""
    return f"{asked.terms} terms, {asked.form}{hand}"
