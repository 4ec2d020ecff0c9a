"""Which skill level does a pattern have, and why?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.design.level import level_name
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.missing_section import is_whole
from hookwright.editing.skill_level import level_of_work
from hookwright.regex import regex
from hookwright.wording.written import LevelTold


def level_of(
    checked: Checked, terms: str | None = None, *, one_size: bool = False
) -> LevelTold | None:
    """The level that it states, or else that of the work, with what asks for it.

    Args:
        checked: The pattern.
        terms: The terms its reasons are told in; its own if none are given.
        one_size: Whether it is told of one size, so that its sizes are no reason.
    """
    work = level_of_work(_manuscript(checked, terms))
    reasons = work.reasons if work is not None else ()
    if one_size:
        reasons = tuple(_OF_SIZES.sub("", reason) for reason in reasons)
    stated = checked.design.level
    if stated is not None:
        return LevelTold(stated.name, stated.step, reasons, stated=True)
    if work is None:
        return None
    return LevelTold(level_name(work.step), work.step, reasons, stated=False)


_OF_SIZES = regex(r" in \d+ sizes$")


def owes_level(checked: Checked) -> bool:
    """Whether it is a whole pattern that does not tell its level."""
    told = checked.design.section(Holds.LEVEL) is not None
    return not told and checked.design.level is None and is_whole(_manuscript(checked))


def level_words(level: LevelTold) -> str:
    """ "Intermediate, for its cables and its stripes."."""
    reasons = level.reasons
    if not reasons:
        return f"{level.name}."
    all_of_them = (
        f"{', '.join(reasons[:-1])} and {reasons[-1]}" if len(reasons) > 1 else reasons[0]
    )
    return f"{level.name}, for {all_of_them}."


def _manuscript(checked: Checked, terms: str | None = None) -> Manuscript:
    return Manuscript(
        checked.source,
        checked.reading.pattern,
        checked.worked,
        checked.design,
        terms or checked.terms,
        checked.draft.only_words,
    )
