"""Which skill level does the work itself have, and is it the one that is stated?

Each thing that is worked asks for a step of its own: plain stitches for the first, stripes,
a simple repeat or simple shaping for the second, cables, colours changed within a row or
garments in many sizes for the third. The level is the highest of them, and the fourth where
three different things ask for the third at once. It is told where none is stated, or one
that lies two steps away or more: a step more or less is the designer's to say.
Source: the definitions in design/data/standards.json; which work belongs to which step is
read out of them, common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct

from hookwright.design.level import level_name
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.missing_section import is_whole
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    Evenly,
    InOnePlace,
    Make,
    Node,
    Repeat,
    Skip,
    Yarn,
)
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.working.nodes import works_in_ring
from hookwright.working.stitches import facts_of

_FAR = 2
"""So many steps between what is stated and what is worked are worth a word."""
_AT_ONCE = 3
"""So many things of the third step at once make the fourth."""
_MANY_ROWS = 6
_CROSSED = regex(r"\b(?:cable|cross|twist|braid)", re.IGNORECASE)


_SIMPLE = regex(r"\b(?:inc|dec)|tog\b|tog$")
"""Increases and decreases, which are no special stitches though a pattern defines them."""


class _Reason(Struct, frozen=True):
    """Something worked that asks for a step: "its stripes" for the second."""

    kind: str
    step: int
    told: str


def skill_level(manuscript: Manuscript) -> Iterator[Finding]:
    """The level with its reasons, where it is not stated or far from what is."""
    stated = manuscript.design.level
    if stated is None and not (is_whole(manuscript) and not _has_level(manuscript)):
        return
    level = level_of_work(manuscript)
    if level is None:
        return
    if stated is not None and abs(stated.step - level.step) < _FAR:
        return
    named = f"{level_name(level.step)}, for {_all(level.reasons)}"
    if stated is None:
        heading = manuscript.design.sections[0].heading
        words = manuscript.source.slice(heading).rstrip(" *_:–—-=|.\n\t")
        span = Span(heading.start, heading.start + len(words))
        message = f"No skill level is stated. By what is worked it is {named}."
    else:
        span = stated.span
        message = (
            f'The level is stated as "{stated.name}". By what is worked it is {named}.'
        )
    yield Finding("skill-level", Severity.ADVICE, span, message, _WHY[stated is None])


class WorkLevel(Struct, frozen=True):
    """The level that the work itself has.

    Attributes:
        step: 1 to 4, from basic to complex.
        reasons: What asks for it, "its stripes"; four at most.
    """

    step: int
    reasons: tuple[str, ...]


def level_of_work(manuscript: Manuscript) -> WorkLevel | None:
    """The level by what is worked; None where nothing is."""
    reasons = _reasons(manuscript)
    if not reasons:
        return None
    step = _step(reasons)
    why = [reason.told for reason in reasons if reason.step == min(step, 3)]
    return WorkLevel(step, tuple(dict.fromkeys(why))[:4])


_WHY = {
    True: "State a level near the title, so that makers know what to expect.",
    False: "State the level of the project, whoever is to make it.",
}


def _has_level(manuscript: Manuscript) -> bool:
    """Whether something is headed as a level, though its words are none of the scale."""
    return any(section.holds == "level" for section in manuscript.design.sections)


def _step(reasons: Sequence[_Reason]) -> int:
    demanding = {reason.kind for reason in reasons if reason.step == 3}
    if len(demanding) >= _AT_ONCE:
        return 4
    return max(reason.step for reason in reasons)


def _reasons(manuscript: Manuscript) -> list[_Reason]:
    """All that asks for a step, in the order a designer would tell it."""
    bodies = {
        id(row.body): tuple(nested(row.body))
        for part in manuscript.pattern.parts
        for row in part.rows
    }
    rows = tuple(bodies.values())
    return [
        *_of_stitches(manuscript, rows),
        *_of_colours(manuscript, rows),
        *_of_shaping(manuscript),
        *_of_parts(manuscript, rows),
    ]


_Nodes = Sequence[Node]
"""The instructions of a row, those within its groups too; rows written alike are one."""


def _of_stitches(manuscript: Manuscript, rows: Sequence[_Nodes]) -> Iterator[_Reason]:
    own = {
        name: definition
        for definition in manuscript.pattern.definitions
        if not definition.is_alias
        for name in definition.names
    }
    makes = [node for row in rows for node in row if isinstance(node, Make)]
    if not makes:
        return
    yield _Reason("stitches", 1, "its plain stitches")
    named = {node.stitch for node in makes}
    special = sorted(named & set(own))
    crossed = [name for name in special if _CROSSED.search(name)]
    if crossed:
        yield _Reason("stitches", 3, "its crossed stitches")
    targets = [node.target for node in makes if node.target is not None]
    if max((target.rows_below for target in targets), default=0) > 1:
        yield _Reason("stitches", 3, "stitches worked rows below")
    posts = any(node.post or node.stitch[:2] in ("fp", "bp") for node in makes)
    groups = {
        name
        for name in named
        if not _SIMPLE.search(name)
        and facts_of(name, 1, own).family in ("group", "cluster", "unit")
    }
    if len(groups) > 3:
        yield _Reason("stitches", 3, "its many special stitches")
    elif groups:
        yield _Reason("stitches", 2, "its special stitches")
    if posts:
        yield _Reason("stitches", 2, "its post stitches")
    lacy = [row for row in rows if _is_lacy(row)]
    if len(lacy) >= _MANY_ROWS:
        yield _Reason("stitches", 3, "a lace of many different rows")
    elif lacy:
        yield _Reason("stitches", 2, "its stitch pattern")


def _is_lacy(row: _Nodes) -> bool:
    """Whether a row makes spaces, works several stitches in one place, or passes some."""
    return any(
        isinstance(node, Skip)
        or (
            isinstance(node, Repeat)
            and any(isinstance(inner, (Chain, InOnePlace)) for inner in nested(node.body))
        )
        for node in row
    )


def _of_colours(manuscript: Manuscript, rows: Sequence[_Nodes]) -> Iterator[_Reason]:
    color = "colour" if manuscript.terms == "UK" else "color"
    most = max((_changes_within(row) for row in rows), default=0)
    names = {node.name for row in rows for node in row if isinstance(node, Yarn)} - {""}
    if most > 1:
        yield _Reason("colours", 3, f"{color}s changed within a row")
    elif len(names) > 1 or (names and len(manuscript.design.colours) > 1):
        yield _Reason("colours", 2, f"its changes of {color}")


def _changes_within(row: _Nodes) -> int:
    """How often the yarn is changed behind the first stitch of a row."""
    worked, number, last = False, 0, ""
    for node in row:
        if isinstance(node, (Make, Evenly)):
            worked = True
        elif isinstance(node, Yarn) and node.name:
            number += worked and node.name != last
            last = node.name
    return number


def _of_shaping(manuscript: Manuscript) -> Iterator[_Reason]:
    """Whether rows without a lace grow or shrink; in rounds that is simple."""
    outcomes = manuscript.worked.sizes[0].outcomes if manuscript.worked.sizes else ()
    flat = shaped = left = False
    for before, after in pairwise(outcomes):
        apart = before.step.part != after.step.part
        if after.worked is None or before.worked is None or apart:
            continue
        changed = before.tally.stitches != after.tally.stitches
        if changed and not (shaped and flat) and _shapes(tuple(nested(after.step.nodes))):
            shaped, flat = True, flat or not after.step.is_round
        left = left or (after.meant and not after.step.is_round)
    if left:
        yield _Reason("shaping", 3, "shaping with stitches left unworked")
    elif flat:
        yield _Reason("shaping", 2, "its shaping")
    elif shaped:
        yield _Reason("shaping", 1, "its rounds")


def _shapes(row: _Nodes) -> bool:
    """Whether a row without a lace says that it grows or shrinks."""
    return not _is_lacy(row) and any(
        isinstance(node, Evenly)
        or (isinstance(node, Make) and (node.legs > 1 or node.stitch in ("inc", "dec")))
        or (isinstance(node, Make) and node.amount is not None and node.target is not None)
        for node in row
    )


_OPENING = 6
"""So many stitches passed over at once leave an opening, for an arm or a thumb."""


def _has_opening(rows: Sequence[_Nodes]) -> bool:
    return any(
        isinstance(node, Skip) and (node.left or (_passed(node) or 0) >= _OPENING)
        for row in rows
        for node in row
    )


def _passed(skip: Skip) -> int | None:
    return skip.target.amount.at(0) if skip.target.amount is not None else None


def _of_parts(manuscript: Manuscript, rows: Sequence[_Nodes]) -> Iterator[_Reason]:
    """Pieces that are begun by themselves; a border is worked on what is there."""
    parts = manuscript.pattern.parts
    outcomes = manuscript.worked.sizes[0].outcomes if manuscript.worked.sizes else ()
    begun = {
        outcome.step.part
        for outcome in outcomes
        if outcome.step.part >= 0
        and (outcome.foundation is not None or works_in_ring(outcome.step.nodes))
    }
    pieces = [part for at, part in enumerate(parts) if at in begun]
    sizes = len(manuscript.pattern.sizes)
    if sizes > 1 and _has_opening(rows):
        yield _Reason("parts", 3, f"stitches left for an opening in {sizes} sizes")
    elif sizes > 1 and len(pieces) > 2:
        yield _Reason("parts", 3, f"its {len(pieces)} pieces in {sizes} sizes")
    elif len(pieces) > 4:
        yield _Reason("parts", 3, f"its {len(pieces)} pieces")
    elif len(pieces) > 1 or any(part.make > 1 for part in pieces):
        yield _Reason("parts", 2, "pieces that are put together")


def _all(words: Sequence[str]) -> str:
    """ "its stripes, its cables and its shaping"."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
