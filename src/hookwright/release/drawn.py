"""A picture with its bytes, and the copies it belongs in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from msgspec import Struct

from hookwright.release.copies import Copy, Edition
from hookwright.release.facts import Picture


class Earlier(Protocol):
    """An earlier release, of which files are taken over that are still true."""

    def names(self, made_of: str) -> Sequence[str]:
        """The files that it has of the same things."""
        ...

    def keep(self, name: str, made_of: str) -> bytes | None:
        """A file of it; None unless it is made of the same things and still whole."""
        ...


class Drawn(Struct, frozen=True):
    """A picture with its bytes.

    Attributes:
        picture: What it shows, and its words.
        data: Its file.
        made_of: The hash of all that it follows from.
        editions: The editions it is in; empty for all.
        terms: The terms it is in; "" for all.
    """

    picture: Picture
    data: bytes
    made_of: str
    editions: tuple[Edition, ...] = ()
    terms: str = ""

    @property
    def is_cover(self) -> bool:
        """Whether it stands on the cover."""
        return self.picture.kind in {"cover", "object"}

    def fits(self, copy: Copy) -> bool:
        """Whether it belongs in a copy."""
        return (not self.terms or self.terms == copy.terms) and (
            not self.editions or copy.edition in self.editions
        )
