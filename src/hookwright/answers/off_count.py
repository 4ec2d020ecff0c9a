""" "My count is off": a reply from one count, or from those of successive rows."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.answers.counting import TwoRows, two_rows
from hookwright.answers.counts_told import counts_told
from hookwright.answers.diagnosis import diagnosed
from hookwright.answers.facts import Diagnosis, Figure, Reply, Scope, Suspect, Told
from hookwright.answers.halving import halved, stitches_up_to
from hookwright.answers.looks import Words, may_be_mended, told_in_turn, words_for
from hookwright.answers.slips import Where
from hookwright.checking import Checked
from hookwright.sizing.lengths import NoLength

_QUESTION = "My count is off"


def off_count(checked: Checked, words: str, size: int) -> Reply:
    """A reply to counts that a maker tells.

    Args:
        checked: The pattern.
        words: Her counts: "row 12: 176, row 13: 175".
        size: The size she makes, from 0.
    """
    outcomes = checked.worked.sizes[size].outcomes
    told = counts_told(words, checked.reading.pattern, outcomes)
    if isinstance(told, NoLength):
        return Reply(_QUESTION, (told.message, told.why), answered=False)
    found = diagnosed(outcomes, told)
    if found.at is None:
        return Reply(_QUESTION, tuple(_all_right(found)), figures=_figures(found))
    rows = two_rows(outcomes, found.at.at)
    named = words_for(rows, is_round=outcomes[found.at.at].step.is_round)
    answer = (*map(_compared, found.told), *_what_to_do(found, rows, named))
    return Reply(
        _QUESTION, answer, tuple(_working(found, rows, named)), figures=_figures(found)
    )


def _all_right(found: Diagnosis) -> Iterator[str]:
    yield from (
        f"{_place(t)} has {t.right} stitches: your count is right." for t in found.told
    )
    yield "If the piece still looks wrong, count the row above the last one you counted."


def _compared(told: Told) -> str:
    off = told.off
    if not off:
        return f"{_place(told)} has {told.right} stitches: your count is right."
    which = f"{off} too many" if off > 0 else f"{-off} too few"
    return f"{_place(told)} has {told.right} stitches; you count {told.counted}, {which}."


def _place(told: Told) -> str:
    return f"{told.name} ({told.part})" if told.part else told.name


def _what_to_do(found: Diagnosis, rows: TwoRows | None, here: Words) -> Iterator[str]:
    assert found.at is not None
    yield "Before you pull anything out, count once more, with a marker after every ten."
    if not found.suspects:
        yield from _no_single_slip(found.at, here)
        return
    yield from _halved(found, rows)
    for suspect in found.suspects:
        if suspect.scope is not Scope.EARLIER:
            yield from _suspected(suspect, here)
            yield _going_back(found, suspect, here)
            if may_be_mended(suspect, rows, found.at.off):
                yield _mended(found.at, here)
    earlier = next((s for s in found.suspects if s.scope is Scope.EARLIER), None)
    if earlier is not None:
        yield (
            f"It may have come up from the {here.row} before: count that one too, and if "
            f"it is off, begin there."
        )
    elif not found.before_known and found.at.at > 0:
        yield (
            f"Count the {here.row} before as well: if that is off, the slip is further "
            f"down."
        )


def _halved(found: Diagnosis, rows: TwoRows | None) -> Iterator[str]:
    """How to find the place: for classes with the same number, and no end of the row."""
    assert found.at is not None
    marks = halved(rows.course) if rows is not None else ()
    once = next((one for one in found.suspects if one.scope is Scope.ONCE), None)
    if not marks or once is None or once.where == (Where.LAST,):
        return
    number, stitches = marks[len(marks) // 2]
    of = len(stitches_up_to(rows.course)) if rows is not None else 0
    yield (
        f"Find the place by halves: from the beginning of {found.at.name} to the end of "
        f"repeat {number} of {of} there are {stitches} stitches. If you count as many, it "
        f"lies beyond that; if not, before it."
    )
    quarters = [f"repeat {n}: {s}" for n, s in marks if n != number]
    if quarters:
        told = ", ".join(quarters)
        yield f"Then count on in that half ({told}), until one repeat is left."


def _suspected(suspect: Suspect, words: Words) -> Iterator[str]:
    told = told_in_turn(suspect, words)
    if len(told) == 1:
        yield told[0]
        return
    yield "One of these happened. They leave the same number, and only a look tells which:"
    yield from (f"- {one}" for one in told)


def _no_single_slip(at: Told, words: Words) -> Iterator[str]:
    yield (
        f"No single slip in {at.name} leaves that number: there are several, or one "
        f"further down has carried up."
    )
    yield (
        f"Count the {words.row}s below, one after the other, until one is right; then send "
        "two counts that follow each other."
    )


def _going_back(found: Diagnosis, suspect: Suspect, words: Words) -> str:
    at = found.at
    assert at is not None
    past = found.told[-1].at > at.at
    above = f" The {words.row}s above it come out with it." if past else ""
    if suspect.scope is Scope.EACH_ROW:
        return (
            f"Go back to the beginning of {at.name}, and work that end the other "
            f"way.{above}"
        )
    if suspect.where == (Where.LAST,) and not past:
        return f"Only the end of {at.name} has to come out."
    return f"Go back into {at.name} as far as the place where it shows.{above}"


def _mended(at: Told, words: Words) -> str:
    how = "work two stitches in one place" if at.off < 0 else "work two places together"
    return (
        f"Or leave it: in the next {words.row} {how} near that spot, once, and the count "
        f"is right from there on."
    )


def _working(found: Diagnosis, rows: TwoRows | None, words: Words) -> Iterator[str]:
    for told in found.told:
        yield f"{_place(told)}: {told.counted} - {told.right} = {told.off:+d}."
    if rows is not None:
        number = len(rows.course.motions)
        yield (
            f"Each single slip was tried in the {number} movements of the {words.row}, and "
            "what it leaves there and in the next one was held against your counts."
        )


def _figures(found: Diagnosis) -> tuple[tuple[str, Figure], ...]:
    told = [(f"off {_place(one)}", one.off) for one in found.told]
    suspects = [
        (f"suspect {number}", f"{suspect.scope}: {', '.join(suspect.where)}")
        for number, suspect in enumerate(found.suspects, start=1)
    ]
    return (*told, *suspects)
