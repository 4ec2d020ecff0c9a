"""Where along a row does a slip lie? Found by counting half of it, and half of that.

A count at the end of a row tells that a stitch is lost, not where: classes of slips that
leave the same number are one. A count up to the end of a repeat tells on which side of it
the slip lies, so a few of them lead to one repeat, or to an end of the row.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.answers.motions import Course, Motion

_LEAST = 3
"""Fewer repeats are looked at one by one."""


def stitches_up_to(course: Course) -> tuple[int, ...]:
    """How many stitches there are up to the end of each repeat, when all is right."""
    found: dict[int, int] = {}
    made = 0
    for motion in course.motions:
        made += motion.makes
        if motion.repeat is not None:
            found[motion.repeat] = made
    return tuple(found[number] for number in sorted(found))


def halved(course: Course) -> tuple[tuple[int, int], ...]:
    """The repeats to count up to, each with its stitches: the middle one and the quarters.

    Empty for a row with so few repeats that they are looked at one by one.
    """
    ends = stitches_up_to(course)
    if len(ends) < _LEAST:
        return ()
    middle = len(ends) // 2
    first, last = middle // 2, (middle + len(ends)) // 2
    wanted = sorted({number for number in (first, middle, last) if 0 < number < len(ends)})
    return tuple((number, ends[number - 1]) for number in wanted)


def stretch_of(motions: Sequence[Motion], at: int) -> int:
    """The repeat that a motion stands in; -1 before all of them, else how many there are.

    So much of a row is left when it has been halved as often as it can be.
    """
    numbers = [motion.repeat for motion in motions]
    last = max((number for number in numbers if number is not None), default=-1)
    own = numbers[at] if at < len(numbers) else None
    if own is not None:
        return own
    return -1 if not any(number is not None for number in numbers[:at]) else last + 1
