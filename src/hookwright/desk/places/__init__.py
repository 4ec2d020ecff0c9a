"""The places of the desk at which something is decided, in the order of its band.

A place is a module with two functions: `decided`, a few words on what stands now, said on
every keystroke, and `answer`, all that the place shows. A later stage comes in as one more
line here, and a component of the same name in the page.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.desk.asked import Asked


class Place(Struct, frozen=True):
    """A place of the desk; its module is brought in when it is first asked.

    Attributes:
        name: What the page and the module call it.
    """

    name: str

    def decided(self, checked: Checked) -> str:
        """What stands now, in a few words."""
        found: Callable[[Checked], str] = self._module().decided
        return found(checked)

    def answer(self, asked: Asked) -> dict[str, Any]:
        """What the place shows."""
        found: Callable[[Asked], dict[str, Any]] = self._module().answer
        return found(asked)

    def _module(self) -> Any:  # noqa: ANN401 - a module with two functions
        return import_module(f"hookwright.desk.places.{self.name}")


PLACES = tuple(map(Place, ("pattern", "swatch", "sizes", "colours", "edging")))
