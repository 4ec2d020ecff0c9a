"""Which form does a stitch have, by the name that the pattern gives it?

By its name where the trade has one, by the words that define it where the pattern makes one
up, and by its height where nothing else is known.
"""

from __future__ import annotations

from collections.abc import Mapping

from hookwright.notation.tree import Definition
from hookwright.regex import regex
from hookwright.working.stitches import base_of

_POSTS = ("sc", "hdc", "dc", "tr", "dtr", "trtr")
_ALSO = {
    "esc": "hdc",
    "edc": "tr",
    "ehdc": "dc",
    "ldc": "dc",
    "htr": "dc",
    "knot": "bobble",
    "bean": "puff",
}
_RAISED = ("bobble", "popcorn", "puff", "cluster")
_DROPPED = regex(r"\b(?:drop|remove|take)\b.{0,30}\b(?:hook|loop)")
"""A popcorn: the last loop is dropped and drawn through the first stitch."""
_THROUGH_ALL = regex(r"\b(?:through|thru) (?:all|rem\w*|the)\D{0,20}(?P<loops>\d+)")
_BY_HEIGHT = (
    (0.6, "sl st"),
    (1.1, "sc"),
    (1.6, "hdc"),
    (2.25, "dc"),
    (2.95, "tr"),
    (3.6, "dtr"),
)
CHAINS = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4, "dtr": 5, "trtr": 6}
"""Chains that stand for a stitch. Source: design/data/standards.json."""


def form_of(name: str, own: Mapping[str, Definition], height: float) -> str:
    """The form of a stitch.

    Args:
        name: As the pattern calls it, US terms: "dc", "fpdc", "dc3tog", "bobble".
        own: The stitches that the pattern defines, by their names.
        height: How high it stands, in widths; for a name that tells nothing.
    """
    base = base_of(name)
    for word in (base, *base.split()[::-1]):
        if word in _POSTS or word in _RAISED or word == "sl st":
            return word
        if word in _ALSO:
            return _ALSO[word]
    definition = own.get(name)
    if definition is not None:
        told = _defined(definition)
        if told:
            return told
    if base.startswith("sl st"):
        return "sl st"
    return next((form for most, form in _BY_HEIGHT if height < most), "trtr")


def _defined(definition: Definition) -> str:
    """The form that a definition in words tells; "" for none."""
    words = definition.words.lower()
    one_top = definition.passes == 1 and definition.heads == 1
    if one_top and _DROPPED.search(words):
        return "popcorn"
    drawn = _THROUGH_ALL.search(words) if one_top else None
    if drawn and int(drawn["loops"]) >= _MANY:
        return "puff" if base_of(definition.stitch) == "hdc" else "bobble"
    if drawn and int(drawn["loops"]) > _PLAIN:
        return "cluster"
    base = base_of(definition.stitch)
    return base if base in _POSTS else ""


_MANY, _PLAIN = 5, 3
"""Loops on the hook before the last draw: of a bobble, and of any plain stitch."""


def turned_post(form: str, *, front: bool, seen_front: bool) -> str:
    """A stitch round a post: raised if it comes to lie on the side that is seen."""
    stitch = form if form in ("dc", "tr", "dtr", "trtr") else "dc"
    return f"{'raised' if front == seen_front else 'sunk'} {stitch}"
