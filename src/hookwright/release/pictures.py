"""Which pictures go with a pattern: the fabric, the charts, the schematic?"""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.release.copies import Copy, Edition
from hookwright.release.facts import Picture

Keep = Callable[[str, str], bytes | None]


class Drawn(Struct, frozen=True):
    """A picture with its bytes.

    Attributes:
        picture: What it shows, and its words.
        data: Its file.
        made_of: The hash of all that it follows from.
        terms: The terms it is in; "" for all.
        editions: The editions it is in; empty for all.
    """

    picture: Picture
    data: bytes
    made_of: str
    terms: str = ""
    editions: tuple[Edition, ...] = ()

    @property
    def is_cover(self) -> bool:
        """Whether it stands on the cover."""
        return self.picture.kind == "cover"

    def fits(self, copy: Copy) -> bool:
        """Whether it belongs in a copy."""
        return (not self.terms or self.terms == copy.terms) and (
            not self.editions or copy.edition in self.editions
        )


def pictures_of(checked: Checked, keep: Keep) -> tuple[Drawn, ...]:
    """The pictures of a pattern."""
    del checked, keep
    return ()
