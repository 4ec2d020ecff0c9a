"""What does a slip look like in the work, how far does one go back, and may it be mended?

The sentences are ours; what they say is common practice, no source.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.answers.counting import TwoRows
from hookwright.answers.facts import Scope, Suspect
from hookwright.answers.slips import Where


class Words(Struct, frozen=True):
    """What things are called in a row.

    Attributes:
        peak: Several stitches in one place: "peak", "increase", or the pattern's own name.
        valley: Places drawn together, or skipped: "valley", "decrease", "skip".
        row: "row" or "round".
    """

    peak: str = "increase"
    valley: str = "decrease"
    row: str = "row"


def words_for(rows: TwoRows | None, *, is_round: bool) -> Words:
    """What the peaks and valleys of a row are called."""
    called = "round" if is_round else "row"
    if rows is None:
        return Words(row=called)
    motions = rows.course.motions
    peaks = [m for m in motions if m.makes > 1 and m.takes <= 1 and m.repeat is not None]
    drawn = any(m.makes == 1 and m.takes > 1 and m.repeat is not None for m in motions)
    names = {m.name for m in peaks}
    own = next(iter(names), "") if len(names) == 1 else ""
    if peaks and drawn:
        return Words("peak", "valley", called)
    is_group = bool(own) and any(len(m.heads) > m.makes for m in peaks)
    valley = "decrease" if drawn else "skip between two groups"
    return Words(own if is_group and own.isalpha() else "increase", valley, called)


_HAPPENED = {
    (Where.FIRST, "missed"): "the first stitch was passed over",
    (
        Where.FIRST,
        "one too many",
    ): "a stitch too many was worked at the beginning, where the "
    "chain already stands or no stitch belongs",
    (
        Where.FIRST,
        "worked where it is skipped",
    ): "the place that is skipped at the beginning was worked",
    (
        Where.LAST,
        "missed",
    ): "the last stitch, or the top of the turning chain, was not worked",
    (Where.LAST, "one too many"): "a stitch too many was worked at the end, often into a "
    "chain that is no stitch",
    (Where.PEAK, "one too few"): "one {peak} has a stitch too few",
    (Where.PEAK, "one too many"): "one {peak} has a stitch too many",
    (Where.PEAK, "only one"): "one {peak} was worked as a single stitch",
    (Where.VALLEY, "one place too few"): "one {valley} takes a place too few",
    (Where.VALLEY, "one place too many"): "one {valley} takes a place too many",
    (
        Where.VALLEY,
        "not drawn together",
    ): "one {valley} was worked as stitches of their own",
    (Where.INSIDE, "missed"): "one place somewhere between was passed over",
    (Where.INSIDE, "two in one"): "two stitches were worked in one place somewhere between",
    (Where.REPEAT, "left out"): "one repeat was left out",
    (Where.REPEAT, "one too many"): "one repeat too many was worked",
}

_LOOKS = {
    (
        Where.FIRST,
        "missed",
    ): "beside the beginning chain a place is free, and the edge steps in",
    (
        Where.FIRST,
        "one too many",
    ): "beside the beginning chain two stitches stand close, and the edge steps out",
    (
        Where.FIRST,
        "worked where it is skipped",
    ): "the first stitch stands under the beginning chain, and the edge steps out",
    (
        Where.LAST,
        "missed",
    ): "at the end of the {row} the last place is free, and the edge steps in",
    (
        Where.LAST,
        "one too many",
    ): "at the end of the {row} the last place, or a chain beside it, "
    "is used once too often",
    (
        Where.PEAK,
        "one too few",
    ): "count the stitches of each {peak}: one has fewer than the others",
    (
        Where.PEAK,
        "one too many",
    ): "count the stitches of each {peak}: one has more than the others",
    (Where.PEAK, "only one"): "one {peak} does not fan out",
    (
        Where.VALLEY,
        "one place too few",
    ): "one {valley} is flatter than the others, and what "
    "follows no longer stands over the {row} below",
    (
        Where.VALLEY,
        "one place too many",
    ): "one {valley} is sharper than the others, and what "
    "follows no longer stands over the {row} below",
    (
        Where.VALLEY,
        "not drawn together",
    ): "one {valley} has several tops where it should have one",
    (Where.INSIDE, "missed"): "there is a small hole where a place is free; from there on "
    "nothing stands over its own place below",
    (
        Where.INSIDE,
        "two in one",
    ): "two stitches stand in one place; from there on nothing stands "
    "over its own place below",
    (
        Where.REPEAT,
        "left out",
    ): "count the repeats: one is lacking, and at the end of the {row} places are left",
    (
        Where.REPEAT,
        "one too many",
    ): "count the repeats: there is one more than the pattern has",
}


def told_in_turn(suspect: Suspect, words: Words) -> tuple[str, ...]:
    """For each class of a suspect what happened, and how it shows; sentences."""
    return tuple(
        f"{_capital(_happened(where, what, suspect.scope, words))}: "
        + _LOOKS[where, what].format(peak=words.peak, valley=words.valley, row=words.row)
        + "."
        for where, what in zip(suspect.where, suspect.what, strict=True)
    )


def _happened(where: Where, what: str, scope: Scope, words: Words) -> str:
    told = _HAPPENED[where, what].format(
        peak=words.peak, valley=words.valley, row=words.row
    )
    if scope is Scope.EVERY_PLACE:
        return told.replace("one ", "every ", 1)
    return f"in each {words.row} {told}" if scope is Scope.EACH_ROW else told


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def may_be_mended(suspect: Suspect, rows: TwoRows | None, off: int) -> bool:
    """Whether one stitch more or less in the next row puts it right unseen.

    So it is where the next row is one stitch in each, nothing is passed over or drawn
    together, and no peak or valley is at fault: else what follows stands over wrong places.
    """
    if rows is None or rows.after is None or abs(off) != 1:
        return False
    if suspect.scope is not Scope.ONCE or {Where.PEAK, Where.VALLEY, Where.REPEAT} & {
        *suspect.where
    }:
        return False
    return all(
        (motion.takes <= 1 and motion.makes <= 1 and len(motion.heads) <= 1)
        for motion in (*rows.course.motions, *rows.after.motions)
    )
