"""What is on the hook after each step?

A yarn over before the hook goes in adds a loop, a loop drawn up adds one, a draw through so
many loops leaves one in their place. Where the words give another number is a problem.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.motions.edge import WorkingEdge
from hookwright.notation.motions.height import (
    HEIGHTS,
    LOOPS,
    YARN_OVERS,
    Stitch,
    unfinished_draws,
)
from hookwright.notation.motions.places import Place
from hookwright.notation.motions.steps import Step
from hookwright.source import Span

_PAIR = 2


class Problem(Struct, frozen=True):
    """A place where the words and the loops on the hook do not agree."""

    span: Span
    message: str


class Hook:
    """The hook at work: one loop on it to begin with."""

    def __init__(self) -> None:
        self.edge = WorkingEdge()
        self.loops = 1
        self.most = 1
        self.pulls = 0  # loops of yarn that stay in what is worked
        self.chains = 0
        self.first_yarn: int | None = None  # yarn overs before the hook first goes in
        self.tallest = (0, 0)  # height and basic stitch, as indexes of HEIGHTS
        self.problems: list[Problem] = []
        self.repeating = False
        self.dropped = False
        self._yarn = 0  # yarn overs not used yet
        self._inserted = 0  # places the hook is in with nothing drawn up yet
        self._each = 1  # loops to draw up there
        self._drawn_up = False  # the last motion drew up a loop
        self._last_chain = 0
        self._gathers_chain = False
        self._stitch = Stitch()
        self._excused = 0  # a difference already reported
        self._motions = {
            "yo": self._yo, "insert": self._insert, "up": self._up,
            "through": self._through, "stitch": self._whole_stitch, "chain": self._chain,
            "skip": self._skip, "drop": self._drop, "gather": self._gather,
            "count": self._count, "finish": self._finish, "tall": self._tall,
            "go": self._go, "all in": self._all_in, "open": self._open,
        }  # fmt: skip

    def work(self, step: Step) -> None:
        """Do what a step says."""
        self._motions[step.does](step)

    # Places

    def _take(self, place: Place | None) -> int:
        return self.edge.take(place, own_chains=self.chains > 0)

    def _go(self, step: Step) -> None:
        self.edge.go(step.place or Place(), own_chains=self.chains > 0)

    def _all_in(self, step: Step) -> None:
        self.edge.all_in(step.place or Place(), own_chains=self.chains > 0)

    def _open(self, step: Step) -> None:
        self.edge.begin_here(step.place)

    def _skip(self, step: Step) -> None:
        self.edge.skip(step.count)

    # Loops drawn up

    def _hold(self, loops: int) -> None:
        self.loops = loops
        self.most = max(self.most, loops)

    def _yo(self, step: Step) -> None:
        self._yarn += step.count

    def _insert(self, step: Step) -> None:
        place = step.place or Place()
        if self.dropped:
            self._inserted, self._gathers_chain = 1, place.chain
            return
        if self.first_yarn is None:
            self.first_yarn = self._yarn
        legs = self._take(place)
        self._stitch.begin_leg(self._yarn, place)
        self._hold(self.loops + self._yarn)
        self.pulls += self._yarn
        self._inserted += legs
        self._each = legs if place.each else 1
        self._yarn, self._drawn_up = 0, False

    def _up(self, step: Step) -> None:
        if self.dropped:
            self._gather(step)
        elif not self._inserted:
            self._up_from_place(step)
        else:
            if step.place:
                self.edge.take_named(step.place, own_chains=self.chains > 0)
            self._draw_up(self._each * step.count)

    def _up_from_place(self, step: Step) -> None:
        """Draw up loops without a word of going in: "draw up a loop in next 2 sts"."""
        if not (step.place or self._yarn) and (self._drawn_up or step.name == "same"):
            return  # the loop is only made longer
        self._insert(step)
        self._draw_up(_times_over(step, self._inserted))

    def _draw_up(self, loops: int) -> None:
        self._hold(self.loops + loops)
        self.pulls += loops
        self._inserted, self._each, self._yarn = 0, 1, 0
        self._drawn_up = True

    # Loops drawn off

    def _through(self, step: Step) -> None:
        in_one_place = self._inserted == 1
        if self.dropped:
            self._gather(step)
        elif in_one_place and not (step.count or step.whole):
            self._draw_up(self._each)
        elif in_one_place and self._slips(step):
            self._slip(step)
        elif step.name == "top" and self._drawn_up and not self._yarn and self.loops > 1:
            self._hold(self.loops - 1)
            self._drawn(0)
        else:
            if self._inserted:  # the drawing up is not said
                self._draw_up(self._each if in_one_place else self._inserted)
            self._draw_off(step)

    def _slips(self, step: Step) -> bool:
        """Whether yarn is drawn through the stitch and loops in one."""
        exact = step.whole and step.count == self.loops
        return exact or step.name == "stitch" or self.loops == 1

    def _slip(self, step: Step) -> None:
        all_ = step.whole or not step.count
        self._hold(1 if all_ else self.loops - min(step.count, self.loops) + 1)
        self._inserted, self._each = 0, 1
        self._drawn(0)

    def _draw_off(self, step: Step) -> None:
        taken = self._loops_taken(step)
        if self.loops == 1:
            self.chains += step.count == 1
            self.pulls += step.count == 1
            self._yarn = 0
            return
        self._hold(self.loops - taken + 1)
        self._stitch.extended |= taken == 1 and self._stitch.on_edge
        self._drawn(taken)

    def _loops_taken(self, step: Step) -> int:
        """How many loops a draw takes; what the words say is checked."""
        if step.name == "but":
            return max(self.loops - step.count, 1)
        if not step.count:
            return self.loops
        wrong = step.count != self.loops if step.whole else step.count > self.loops
        if wrong:
            self._disagree(step)
            return self.loops
        return step.count

    def _drawn(self, taken: int) -> None:
        self._yarn, self._drawn_up = 0, False
        self.pulls += 1
        if self.loops == 1:
            self._close(self._stitch.draws + 1 if taken else 0)
        elif taken == _PAIR:
            self._stitch.draw()

    def _close(self, draws: int) -> None:
        """One loop is left: a stitch stands."""
        stitch, self._stitch, self._excused = self._stitch, Stitch(), 0
        if stitch.links and not stitch.insertions:
            self._take(None)
            stitch.stand_on_side()
        slip = draws == 0 and not stitch.wraps
        if not (stitch.on_cloth or (slip and not stitch.on_edge)):
            self.edge.stand(1)
        self.tallest = max(self.tallest, stitch.height_and_base(draws))

    def _finish(self, step: Step) -> None:
        """Complete the stitch as usual, or as the stitch named."""
        if self._inserted:
            self._draw_up(self._each)
        if self.loops == 1:
            return
        draws = unfinished_draws(step.name) if step.name else self.loops - 2
        self._stitch.draws = max(self._stitch.draws, draws)
        self.pulls += draws
        self.loops = 1
        self._drawn(_PAIR)

    def _tall(self, step: Step) -> None:
        self._stitch.tall = HEIGHTS.index(step.name)

    # Loops counted

    def _count(self, step: Step) -> None:
        wound = self.loops + self._yarn
        fits = {self.loops, wound, self.loops + self._inserted, wound + self._inserted}
        if step.count not in fits and not self.repeating and not self.dropped:
            self._disagree(step)

    def _disagree(self, step: Step) -> None:
        """Report a number that is not that of the loops, once for each difference."""
        difference = step.count - self.loops
        if difference != self._excused:
            are = "is 1 loop" if self.loops == 1 else f"are {self.loops} loops"
            message = f"there {are} on the hook here, the text says {step.count}"
            self.problems.append(Problem(step.span, message))
        self._excused = difference

    # Stitches named whole, chains

    def _whole_stitch(self, step: Step) -> None:
        if self.dropped:
            self._gather(step)
            return
        before = self.edge.passes
        total = _times_over(step, self._take(step.place))
        wraps = YARN_OVERS[step.name]
        if self.first_yarn is None:
            self.first_yarn = wraps
        if step.held:
            self._hold_stitches(step, total)
            return
        self.most = max(self.most, self.loops + wraps + (step.name != "sl st"))
        if step.name == "sl st" and self.edge.passes == before:
            total = 0  # it only fastens something down
        self.pulls += LOOPS[step.name] * max(total, 1)
        self.edge.stand(total)
        height = HEIGHTS.index(step.name)
        self.tallest = max(self.tallest, (height, height))

    def _hold_stitches(self, step: Step, total: int) -> None:
        """Leave last loops on the hook; of an hdc, which has no step before, two each."""
        wraps = YARN_OVERS[step.name]
        kept = 2 if step.name == "hdc" else 1
        self.most = max(self.most, self.loops + kept * (total - 1) + wraps + 1)
        self._hold(self.loops + kept * total)
        self.pulls += (LOOPS[step.name] - 1) * total
        self._stitch.begin_leg(wraps, step.place or Place())
        self._stitch.draws = max(self._stitch.draws, unfinished_draws(step.name))

    def _chain(self, step: Step) -> None:
        self._yarn = 0
        self.pulls += step.count
        if self.loops > 1:  # it is closed into the stitch
            self._stitch.extended |= step.count == 1 and self._stitch.on_edge
            return
        self.chains += step.count
        self._last_chain = step.count

    # Popcorns

    def _drop(self, _step: Step) -> None:
        self.dropped = True

    def _gather(self, _step: Step) -> None:
        """Draw the dropped loop through the first top: the tops become one."""
        if not self.dropped:
            return
        self.edge.gather()
        if self._gathers_chain:
            self.chains -= min(self._last_chain, self.chains)
        self.dropped, self._gathers_chain = False, False
        self._inserted, self._yarn = 0, 0


def _times_over(step: Step, legs: int) -> int:
    """How many a step makes in so many places: "2 dc in each of next 2", "4 dc over 4"."""
    if step.count == 1 or (step.place and step.place.each):
        return step.count * legs
    return max(step.count, legs)
