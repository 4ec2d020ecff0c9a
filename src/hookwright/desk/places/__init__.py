"""The places of the desk at which something is decided, in the order of its band.

A place is a module here with a function `answer`, all that the place shows, and a few words
in `decided.py` on what stands now. A later stage comes in as one more line, and as a
component of the same name in the page.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from hookwright.desk.asked import Asked
from hookwright.desk.decided import (
    of_answers,
    of_colours,
    of_corrections,
    of_costs,
    of_edging,
    of_lesson,
    of_pattern,
    of_release,
    of_sizes,
    of_swatch,
    of_testers,
    of_yarn,
)


class Place(Struct, frozen=True):
    """A place of the desk.

    Attributes:
        name: What the page and the module call it.
        decided: What stands there now, in a few words.
    """

    name: str
    decided: Callable[[Asked], str]


PLACES = (
    Place("pattern", of_pattern),
    Place("swatch", of_swatch),
    Place("sizes", of_sizes),
    Place("colours", of_colours),
    Place("yarn", of_yarn),
    Place("edging", of_edging),
    Place("lesson", of_lesson),
    Place("testers", of_testers),
    Place("answers", of_answers),
    Place("corrections", of_corrections),
    Place("costs", of_costs),
    Place("release", of_release),
)
