"""What do the steps do, worked in order with their repeats?

Repeats are worked out in full, since no stitch is long; a text that asks for more is given
up with a problem, so that no number in it can hang the reading.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.notation.motions.hook import Hook, Problem
from hookwright.notation.motions.steps import Repeat, Step

_SPARE_STEPS = 10_000  # what repeats may add to the length of the text


class _Round(Struct):
    """A repeat under way."""

    repeat: Repeat
    left: int
    back: int  # the step to go on with afterwards
    loops: int  # on the hook when this working began


class Run:
    """One working of a definition.

    Attributes:
        hook: What it has done.
        gave_up: Whether its repeats were too many to work.
    """

    def __init__(self, steps: Sequence[Step | Repeat], *, more: bool) -> None:
        """Get ready; `more` says whether "rep from * 4 times" means four more."""
        self.hook = Hook()
        self.gave_up = False
        self._steps = steps
        self._more = more
        self._left = len(steps) + _SPARE_STEPS
        self._rounds: list[_Round] = []

    def work(self) -> None:
        """Work every step, then say what is left on the hook."""
        at = 0
        while (at := self._end_rounds(at)) < len(self._steps):
            step = self._steps[at]
            self._left -= 1
            if isinstance(step, Repeat):
                at = self._begin(step, at)
            else:
                self.hook.work(step)
                at += 1
        loops = self.hook.loops
        if loops > 1 and not self.gave_up:
            message = f"{loops} loops are left on the hook at the end"
            self.hook.problems.append(Problem(self._steps[-1].span, message))

    def _begin(self, repeat: Repeat, at: int) -> int:
        left = repeat.count - (repeat.unsure and not self._more)
        done = self.hook.loops == repeat.until or (left <= 0 and repeat.until is None)
        if repeat.start >= repeat.end or done or not self._affordable(repeat):
            return at + 1
        self._rounds.append(_Round(repeat, left, at + 1, self.hook.loops))
        return self._again(self._rounds[-1])

    def _again(self, round_: _Round) -> int:
        self.hook.edge.begin_here(round_.repeat.place)
        self._tell_hook()
        round_.loops = self.hook.loops
        return round_.repeat.start

    def _end_rounds(self, at: int) -> int:
        """Where to go on: at the end of a repeat, back to its start or past it."""
        while self._rounds and at == self._rounds[-1].repeat.end:
            round_ = self._rounds[-1]
            round_.left -= 1
            if self._goes_on(round_):
                return self._again(round_)
            self._rounds.pop()
            self._tell_hook()
            at = round_.back
        return at

    def _goes_on(self, round_: _Round) -> bool:
        goal, loops = round_.repeat.until, self.hook.loops
        if goal is None:
            wanted = round_.left > 0
        else:
            wanted = loops != goal and abs(loops - goal) < abs(round_.loops - goal)
        return wanted and self._affordable(round_.repeat)

    def _affordable(self, repeat: Repeat) -> bool:
        if self._left > 0:
            return True
        if not self.gave_up:
            message = "this is repeated too often to be one stitch"
            self.hook.problems.append(Problem(repeat.span, message))
        self.gave_up = True
        return False

    def _tell_hook(self) -> None:
        """Tell the hook what the repeat it is in means for its places and counts."""
        place = self._rounds[-1].repeat.place if self._rounds else None
        self.hook.repeating = bool(self._rounds)
        self.hook.edge.worked_here = place is not None and not place.is_next
