"""The conventions of a pattern as sentences: what counts, when to turn."""

from __future__ import annotations

from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import sentence, stitch_word
from hookwright.notation.tree import Multiple, Statement, Topic


def statement_words(statement: Statement, wording: Wording) -> str:
    """A convention as a sentence; "" for a topic that no sentence of its own settles."""
    if statement.topic is Topic.TURNING_CHAIN:
        return _turning_chain(statement)
    row = wording.row.lower()
    if statement.topic is Topic.BEGUN_TOGETHER:
        return ""  # each row is printed with the decrease it begins with
    number = statement.stands_stitches
    stitches = f"{number} sts" if number > 1 else "1 st" if number else "a st"
    word = statement.word
    counts = "counts" if statement.holds else "does not count"
    sentences = {
        Topic.SPACES: f"Each ch{_dashed(statement.chains)} sp {counts} as {stitches}.",
        Topic.SLIPS: f"Each sl st {counts} as a st.",
        Topic.NO_TURN: f"The {row}s are never turned.",
        Topic.TURN: f"Turn after each {word}." if word else "Always turn.",
        Topic.SPIRAL: "Work in a spiral.",
        Topic.COUNT_STAYS: f"The number of sts stays the same in every {row}.",
        Topic.STITCH_BEHIND: f"{sentence(wording.skip)} the st behind each post st.",
    }
    return sentences.get(statement.topic, "")


def _dashed(chains: int | None) -> str:
    """The chains of the spaces that are spoken of, where not all are: "-2"."""
    return "" if chains is None else f"-{chains}"


def _turning_chain(statement: Statement) -> str:
    """ "Ch-3 counts as dc throughout."; with a hyphen it is no instruction."""
    chains = statement.chains
    chain = "the turning ch" if chains is None else f"ch-{chains} at the start of a row"
    if not statement.holds:
        return f"{sentence(chain)} does not count{_unless_one(chains)}."
    word = "a st" if statement.word == "st" else stitch_word(statement.word)
    space = f" and ch {statement.stands_chains}" if statement.stands_chains else ""
    return f"{sentence(chain)} counts{f' as {word}{space}' if word else ''}."


def _unless_one(chains: int | None) -> str:
    """A ch-1 that is no stitch is named without one: "ch-1 ... st" speaks of spaces."""
    return "" if chains == 1 else " as a st"


def multiple_words(multiple: Multiple) -> str:
    """ "Multiple of 8 + 3.", "Multiple of 8 + 3 chains, plus 1 to turn."."""
    unit = " sts" if multiple.of_stitches else " chains" if multiple.of_chains else ""
    if unit and not multiple.extra:
        added = f" (add {multiple.turning} to turn)" if multiple.turning else ""
        return f"Multiple of {multiple.each}{unit}{added}."
    turning = f", plus {multiple.turning} to turn" if multiple.turning else ""
    return f"Multiple of {multiple.each} + {multiple.extra}{unit}{turning}."
