"""The pattern in the words of each copy, each wording made once and read back."""

from __future__ import annotations

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.release.copies import Copy


class Text(Struct, frozen=True):
    """A pattern in some words.

    Attributes:
        checked: The text, read and worked.
    """

    checked: Checked


class Texts:
    """The wordings of a pattern.

    Args:
        checked: The pattern as it is written.
    """

    def __init__(self, checked: Checked) -> None:
        own = checked.terms or checked.worked.terms
        self.terms = (own,)
        self.forms = ("short",)
        self._source = Text(checked)

    def of_copy(self, copy: Copy) -> Text:
        """The pattern as it stands in a copy."""
        return self.of(copy.terms, "short")

    def of(self, terms: str, form: str) -> Text:
        """The pattern in some terms, short or in full."""
        del terms, form
        return self._source
