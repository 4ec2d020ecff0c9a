"""The pattern in the words of each copy, each wording made once and proven.

A wording whose fabric is another than that of the source is never put out: that would be a
fault of ours, so it is one loudly. They are made while the pictures are drawn.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.progress import Progress
from hookwright.release.aside import Aside, Begun
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
    """The wordings of a pattern, made in other processes as far as that can be.

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
        self._begun: dict[Asked, Begun[Text]] = {}

    def begin(self, copies: Iterable[Copy], aside: Aside) -> None:
        """Begin with all wordings that these copies and the page will ask for."""
        page = [self._of_page(terms, form) for terms in self.terms for form in self.forms]
        wanted = list(dict.fromkeys((*map(self._of_copy, copies), *page)))
        for terms in self.terms:
            own = [asked for asked in wanted if asked.terms == terms]
            works = [partial(_written, self._source, asked) for asked in own]
            self._begun.update(zip(own, aside.begin(works), strict=True))

    def of_copy(self, copy: Copy) -> Text:
        """The pattern as it stands in a copy.

        A copy for one size is worded in its numbers alone; where that would be read as
        another fabric, it is worded for all sizes.
        """
        asked = self._of_copy(copy)
        try:
            return self._in_words(asked)
        except AnotherFabric:
            if asked.size is None:
                raise
            return self._in_words(replace(asked, size=None, form=Form.LONG))

    def of(self, terms: str, form: str) -> Text:
        """The pattern in some terms, short or in full."""
        return self._in_words(self._of_page(terms, form))

    def all_kept(self) -> tuple[str, ...]:
        """What could not be worded as asked in any copy, each once."""
        found = (
            f"{asked.terms} terms, {asked.form}: {said}"
            for asked, text in self._made.items()
            for said in text.kept
        )
        return tuple(dict.fromkeys(found))

    def _of_copy(self, copy: Copy) -> Asked:
        return Asked(
            terms=copy.terms,
            form=Form.SPOKEN if copy.edition is Edition.LARGE else Form.SHORT,
            size=copy.size,
            left_handed=copy.edition is Edition.LEFT_HANDED,
            style=self._style,
        )

    def _of_page(self, terms: str, form: str) -> Asked:
        return Asked(terms=terms, form=FORMS[form], style=self._style)

    def _in_words(self, asked: Asked) -> Text:
        if asked not in self._made:
            begun = self._begun.get(asked)
            made = begun.result() if begun is not None else _written(self._source, asked)
            self._made[asked] = made
        return self._made[asked]


def _written(source: Checked, asked: Asked, _: Progress | None = None) -> Text:
    """A wording, proven to be of the same fabric."""
    worded = write_pattern(source, asked)
    if worded.differs is not None:
        hand = ", left-handed" if asked.left_handed else ""
        raise AnotherFabric(
            f"{worded.differs} would be another fabric in {asked.terms} terms,"
            f" {asked.form}{hand}; nothing was put out."
        )
    kept = tuple(f"{one.row or 'A sentence'}: {one.why}" for one in worded.kept)
    return Text(_with_worksheet(worded.checked, source), worded.written.level, kept)


def _with_worksheet(text: Checked, source: Checked) -> Checked:
    """A wording with what the worksheet says beside it: its colours, its swatches."""
    design = replace(text.design, noted=source.design.noted)
    return replace(text, design=design, worksheet=source.worksheet)
