"""A picture with its bytes, and the copies it belongs in."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from hookwright.release.copies import Copy, Edition
from hookwright.release.facts import Picture

Keep = Callable[[str, str], bytes | None]
"""Asked for a file by its name and by what it is made of: the bytes an earlier release has
of it, or None."""


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
