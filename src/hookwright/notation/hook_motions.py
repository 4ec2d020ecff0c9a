"""What does a definition in hook motions do, run as loops on the hook?

"Yo, insert hook in next st, yo and pull up a loop, (yo and pull through 2 loops) twice"
begins with one loop on the hook and must end with one. On the way a yarn over adds a loop,
a loop drawn up adds one, and a draw through so many loops leaves one in their place. What
is used of the edge, what stands on it afterwards and how tall it is follow from the run.

A rest of so many times ("rep from * 4 times") is tried as four more and as four in all; the
one under which the loops agree with the words is taken, else four more. Stitch words are US.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from hookwright.notation.hook_steps import Place, Repeat, Step, Where, read_steps
from hookwright.notation.hook_words import LONGEST_NUMBER, Word, read_words
from hookwright.source import Span

HEIGHTS = ("sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr")

_SPARE_STEPS = 10_000  # what repeats may add to the length of the text before we give up
_TITLE = re.compile(r"[^,.;:=]{1,60}?(?:[:=]|\s[-\u2013\u2014]\s)")
_TOO_LONG = re.compile(rf"\d{{{LONGEST_NUMBER + 1},}}")
_ON_EDGE = frozenset({Where.NEXT, Where.HERE, Where.NTH, Where.USED})
_YARN_OVERS = {"sl st": 0, "sc": 0, "hdc": 1, "dc": 1, "tr": 2, "dtr": 3, "trtr": 4}


@dataclass(frozen=True, slots=True)
class Problem:
    """A place where the words and the loops on the hook do not agree."""

    span: Span
    message: str


@dataclass(frozen=True, slots=True)
class Motions:
    """What a definition in hook motions does, run as loops on the hook from 1 back to 1.

    Attributes:
        passes: Places of the working edge used up.
        heads: Stitch tops left; a chain that closes the stitch is none.
        chains: Chains made that are not closed into a stitch.
        most_loops: The most loops on the hook at any time, yarn overs before an insertion
            among them.
        yarn_overs: Yarn overs before the hook first goes in.
        height: The plain US stitch that stands as tall; an extended stitch taller than an
            extended sc gains only half a chain and keeps the height of its basic stitch.
        base: The plain US stitch it is built of.
        closes: Whether one loop was left at the end.
        problems: Where words and loops disagree, in reading order.
    """

    passes: int
    heads: int
    chains: int
    most_loops: int
    yarn_overs: int
    height: str
    base: str
    closes: bool
    problems: tuple[Problem, ...]


def read_motions(text: str, offset: int = 0) -> Motions | None:
    """Run a definition; None if the text is not one.

    A list of whole stitches ("dc in same st, ch 1, dc in same st") is run too, if every
    word of it is understood.

    Args:
        text: The definition, with or without the name before its colon.
        offset: Where it begins in the pattern; the spans of problems count from there.
    """
    words = _definition_words(text, offset)
    steps = read_steps(words)
    if not _is_definition(steps, words):
        return None
    runs = [_Hook(steps, more=more) for more in (True, False)]
    for hook in runs:
        hook.work()
    best = min(runs, key=lambda hook: len(hook.problems))
    return best.motions(_long_numbers(text, offset))


def _definition_words(text: str, offset: int) -> list[Word]:
    """The words after the definition's name: "5-dc bobble (bob): yo, ..."."""
    title = _TITLE.match(text)
    if title and not re.search(
        r"\b(?:in|into|over|yo|insert)\b", title.group(), re.IGNORECASE
    ):
        return list(read_words(text[title.end() :], offset + title.end()))
    return list(read_words(text, offset))


def _is_definition(steps: Sequence[Step | Repeat], words: Sequence[Word]) -> bool:
    does = {step.does for step in steps if isinstance(step, Step)}
    held = any(step.held for step in steps if isinstance(step, Step))
    if does & {"insert", "up"} or held:
        return bool(does & {"up", "through", "finish", "gather"})
    return "stitch" in does and not any(word.kind in {"other", "remark"} for word in words)


def _long_numbers(text: str, offset: int) -> list[Problem]:
    return [
        Problem(
            Span(offset + m.start(), offset + m.end()),
            "this number is too long to be meant",
        )
        for m in _TOO_LONG.finditer(text)
    ]


@dataclass(slots=True)
class _Leg:
    """The stitch in work; of several legs the tallest decides how tall it will be."""

    insertions: int = 0  # besides those in the side of a stitch
    links: int = 0  # insertions in the side of a stitch, each as good as a yarn over
    wraps: int = 0  # yarn overs and links, of the leg with most
    link_wraps: int = 0  # yarn overs before a link
    draws_now: int = 0  # draws through two loops, of the leg in work
    draws: int = 0  # the same, of the leg with most
    tall: int = 0  # the height the words give, as an index of HEIGHTS
    extended: bool = False
    on_edge: bool = False
    on_cloth: bool = False

    def begin(self, wraps: int, place: Place) -> None:
        """The hook goes in once more."""
        self.on_edge |= place.where in _ON_EDGE
        self.on_cloth |= place.where is Where.CLOTH
        if place.where is Where.LINK:
            self.links += 1
            self.link_wraps = max(self.link_wraps, wraps)
        else:
            self.insertions += 1
            self.wraps = max(self.wraps, wraps + self.links)
            self.draws_now = 0

    def draw(self) -> None:
        """Two loops become one."""
        self.draws_now += 1
        self.draws = max(self.draws, self.draws_now)

    def height_and_base(self, draws: int) -> tuple[int, int]:
        """How tall the stitch stands and what it is built of, as indexes of HEIGHTS.

        A stitch of n yarn overs takes at most n + 1 draws to stand full height; what is
        drawn beyond joins it to another.
        """
        draws = min(draws, self.wraps + 1)
        if draws > 1:
            base = min(draws + 1, len(HEIGHTS) - 1)
            return max(base, self.tall), base
        base = 0 if draws == 0 else 1 + (self.wraps > 0)
        coil = self.wraps > 2  # a bullion: its coil is as long as a dc
        taller = coil if draws else self.wraps > 0
        return max(base + taller, base + (self.extended and base == 1), self.tall), base


@dataclass(slots=True)
class _Round:
    """A repeat under way."""

    repeat: Repeat
    left: int
    back: int  # the step to go on with afterwards
    loops: int  # on the hook when this working began


class _Hook:
    """The hook at work: counts loops, places, tops and chains, step after step."""

    def __init__(self, steps: Sequence[Step | Repeat], *, more: bool) -> None:
        self.steps = steps
        self.more = more
        self.budget = len(steps) + _SPARE_STEPS
        self.loops = 1
        self.most = 1
        self.yarn = 0  # yarn overs not used yet
        self.inserted = 0  # places the hook is in with nothing drawn up yet
        self.inserted_each = 1  # loops to draw up there
        self.drawn_up = False  # the last motion drew up a loop
        self.dropped = False
        self.gathers_chain = False
        self.passes = 0
        self.bare = 0  # places used that no word named
        self.over = 0  # places said beforehand: "over next 3 sts"
        self.fresh = True  # a place not named is a new one
        self.heads = 0
        self.tops_here = 0  # tops in the present place
        self.chains = 0
        self.last_chain = 0
        self.first_yarn: int | None = None
        self.leg = _Leg()
        self.tallest = (-1, 0)
        self.rounds: list[_Round] = []
        self.excused = 0  # a difference already reported
        self.problems: list[Problem] = []
        self.gave_up = False
        self.motion = {
            "yo": self._yo, "insert": self._insert, "up": self._up, "through": self._through,
            "stitch": self._stitch, "chain": self._chain, "skip": self._skip,
            "drop": self._drop, "gather": self._gather, "count": self._count,
            "finish": self._finish, "tall": self._tall, "go": self._go, "all in": self._all_in,
            "open": self._open,
        }  # fmt: skip

    def work(self) -> None:
        """Work every step, then say what is left on the hook."""
        at = 0
        while (at := self._end_of_rounds(at)) < len(self.steps):
            step = self.steps[at]
            self.budget -= 1
            if isinstance(step, Repeat):
                at = self._begin_repeat(step, at)
            else:
                self.motion[step.does](step)
                at += 1
        if self.loops > 1 and not self.gave_up:
            message = f"{self.loops} loops are left on the hook at the end"
            self.problems.append(Problem(self.steps[-1].span, message))

    def motions(self, more: Sequence[Problem]) -> Motions:
        height, base = self.tallest
        problems = sorted((*self.problems, *more), key=lambda problem: problem.span)
        return Motions(
            passes=max(self.passes, self.over),
            heads=self.heads,
            chains=self.chains,
            most_loops=self.most,
            yarn_overs=self.first_yarn or 0,
            height=HEIGHTS[max(height, 0)],
            base=HEIGHTS[base],
            closes=self.loops == 1 and not self.dropped and not self.gave_up,
            problems=tuple(problems),
        )

    # Repeats

    def _begin_repeat(self, repeat: Repeat, at: int) -> int:
        left = repeat.count - (repeat.unsure and not self.more)
        nothing = repeat.start >= repeat.end or self.loops == repeat.until
        if nothing or (left <= 0 and repeat.until is None):
            return at + 1
        if self.budget <= 0:
            return self._give_up(repeat, at + 1)
        self.rounds.append(_Round(repeat, left, at + 1, self.loops))
        return self._work_again(self.rounds[-1])

    def _work_again(self, round_: _Round) -> int:
        place = round_.repeat.place
        self.fresh |= place is not None and place.where is Where.NEXT
        round_.loops = self.loops
        return round_.repeat.start

    def _end_of_rounds(self, at: int) -> int:
        while self.rounds and at == self.rounds[-1].repeat.end:
            round_ = self.rounds[-1]
            round_.left -= 1
            if self._goes_on(round_):
                return self._work_again(round_)
            self.rounds.pop()
            at = round_.back
        return at

    def _goes_on(self, round_: _Round) -> bool:
        goal = round_.repeat.until
        if goal is not None:
            nearer = abs(self.loops - goal) < abs(round_.loops - goal)
            wanted = nearer and self.loops != goal
        else:
            wanted = round_.left > 0
        if wanted and self.budget <= 0:
            self._give_up(round_.repeat, 0)
            return False
        return wanted

    def _give_up(self, repeat: Repeat, at: int) -> int:
        if not self.gave_up:
            message = "this is repeated too often to be one stitch"
            self.problems.append(Problem(repeat.span, message))
        self.gave_up = True
        return at

    def _worked_here(self) -> bool:
        """Whether repeats are worked in one place: "3 more times in same st"."""
        place = self.rounds[-1].repeat.place if self.rounds else None
        return place is not None and place.where is not Where.NEXT

    # Places

    def _take(self, place: Place | None) -> int:
        """Use a place; how often the hook goes in there."""
        place = place or Place()
        if place.where is Where.NEXT and self._worked_here():
            return 1
        if place.where is Where.NEXT or (place.from_hook and not self.chains):
            count = place.count if place.where is Where.NEXT else place.legs
            return self._use(count, count)
        if place.where is Where.NTH and place.count > self.passes:
            return self._use(place.count - self.passes, place.legs)
        own = place.chain and self.chains > 0  # "in same ch", of chains just made
        if place.where in {Where.HERE, Where.NTH} and self.fresh and not own:
            self.bare = 1
            return self._use(1, 1, bare=1)
        if place.where is Where.USED:
            self.fresh, self.tops_here = False, 0
            return place.count
        return place.legs

    def _use(self, places: int, legs: int, bare: int = 0) -> int:
        self.passes += places
        self.bare = bare
        self.fresh, self.tops_here = False, 0
        return legs

    def _go(self, step: Step) -> None:
        if step.place and step.place.where is Where.NEXT and step.place.count > 1:
            self.over = self.passes + step.place.count
        else:
            self._take(step.place)

    def _all_in(self, step: Step) -> None:
        """A place said last is that of the work before it: it is new only if none was used."""
        if step.place and step.place.count > 1 and step.place.where is Where.NEXT:
            self.over = step.place.count
        elif self.fresh:
            self._take(step.place)

    def _open(self, step: Step) -> None:
        self.fresh |= step.place is not None and step.place.where is Where.NEXT

    def _skip(self, step: Step) -> None:
        self.passes += step.count
        self.fresh, self.tops_here = True, 0

    # Loops

    def _hold(self, loops: int) -> None:
        self.loops = loops
        self.most = max(self.most, loops)

    def _yo(self, step: Step) -> None:
        self.yarn += step.count

    def _insert(self, step: Step) -> None:
        if self.dropped:
            self.inserted = 1
            self.gathers_chain = step.place is not None and step.place.chain
            return
        place = step.place or Place()
        if self.first_yarn is None:
            self.first_yarn = self.yarn
        legs = self._take(place)
        self.leg.begin(self.yarn, place)
        self._hold(self.loops + self.yarn)
        self.yarn = 0
        self.inserted += legs
        self.inserted_each = legs if place.each else 1
        self.drawn_up = False

    def _up(self, step: Step) -> None:
        if self.dropped:
            self._gather(step)
            return
        if not self.inserted:
            if not (step.place or self.yarn) and (self.drawn_up or step.name == "same"):
                return  # the loop is only made longer
            self._insert(step)
            legs = max(self.inserted, 1)
            each = step.place is not None and step.place.each
            loops = step.count * legs if each or step.count == 1 else max(step.count, legs)
        else:
            if step.place:
                self.passes -= self.bare
                self.fresh = self.fresh or self.bare > 0
                self._take(step.place)
            loops = self.inserted_each * step.count
        self._draw_up(loops)

    def _draw_up(self, loops: int) -> None:
        self._hold(self.loops + loops)
        self.inserted, self.inserted_each, self.yarn = 0, 1, 0
        self.drawn_up = True

    def _through(self, step: Step) -> None:
        if self.dropped:
            self._gather(step)
        elif self.inserted == 1 and not (step.count or step.whole):
            self._draw_up(self.inserted_each)
        elif self.inserted == 1 and self._slips(step):
            self._slip(step)
        elif step.name == "top" and self.drawn_up and not self.yarn and self.loops > 1:
            self._hold(self.loops - 1)
            self._after_draw(0)
        else:
            if self.inserted:
                self._draw_up(self.inserted if self.inserted > 1 else self.inserted_each)
            self._draw(step)

    def _slips(self, step: Step) -> bool:
        """Whether the loop is drawn through the stitch and loops in one."""
        exact = step.whole and step.count == self.loops
        return exact or step.name == "stitch" or self.loops == 1

    def _slip(self, step: Step) -> None:
        """Draw through the stitch and loops on the hook in one."""
        taken = self.loops if step.whole or not step.count else min(step.count, self.loops)
        self._hold(self.loops - taken + 1)
        self.inserted, self.inserted_each = 0, 1
        self._after_draw(0)

    def _draw(self, step: Step) -> None:
        count = self._drawn(step)
        if self.loops == 1:
            self.chains += step.count == 1
            self.yarn = 0
            return
        self._hold(self.loops - count + 1)
        self.leg.extended |= count == 1 and self.leg.on_edge
        self._after_draw(count)

    def _drawn(self, step: Step) -> int:
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

    def _after_draw(self, taken: int) -> None:
        self.yarn, self.drawn_up = 0, False
        if self.loops == 1:
            self._close(self.leg.draws + 1 if taken else 0)
        elif taken == 2:
            self.leg.draw()

    def _close(self, draws: int) -> None:
        """One loop is left: a stitch stands."""
        leg, self.leg, self.excused = self.leg, _Leg(), 0
        if leg.links and not leg.insertions:  # worked in the side itself
            self._take(None)
            leg.wraps = leg.link_wraps + leg.links - 1
            leg.on_edge = True
        slip = draws == 0 and not leg.wraps
        if not (leg.on_cloth or (slip and not leg.on_edge)):
            self.heads += 1
            self.tops_here += 1
        self.tallest = max(self.tallest, leg.height_and_base(draws))

    def _count(self, step: Step) -> None:
        wound = self.loops + self.yarn
        sure = {self.loops, wound, self.loops + self.inserted, wound + self.inserted}
        if step.count not in sure and not self.rounds and not self.dropped:
            self._disagree(step)

    def _disagree(self, step: Step) -> None:
        """Report a number that is not that of the loops, once for each difference."""
        difference = step.count - self.loops
        if difference != self.excused:
            are = "is 1 loop" if self.loops == 1 else f"are {self.loops} loops"
            message = f"there {are} on the hook here, the text says {step.count}"
            self.problems.append(Problem(step.span, message))
        self.excused = difference

    def _finish(self, step: Step) -> None:
        """Complete the stitch as usual, or as the stitch named."""
        if self.inserted:
            self._draw_up(self.inserted_each)
        if self.loops == 1:
            return
        draws = _unfinished_draws(step.name) if step.name else self.loops - 2
        self.leg.draws = max(self.leg.draws, draws)
        self.loops = 1
        self._after_draw(2)

    def _tall(self, step: Step) -> None:
        self.leg.tall = HEIGHTS.index(step.name)

    # Stitches and chains

    def _stitch(self, step: Step) -> None:
        if self.dropped:
            self._gather(step)
            return
        before = self.passes
        legs = self._take(step.place)
        each = step.place is not None and step.place.each
        total = step.count * legs if each or step.count == 1 else max(step.count, legs)
        wraps = _YARN_OVERS[step.name]
        if self.first_yarn is None:
            self.first_yarn = wraps
        if step.held:
            self._hold_stitches(step, total)
            return
        self.most = max(self.most, self.loops + wraps + (step.name != "sl st"))
        if step.name == "sl st" and self.passes == before:
            total = 0  # it fastens something down
        self.heads += total
        self.tops_here += total
        height = HEIGHTS.index(step.name)
        self.tallest = max(self.tallest, (height, height))

    def _hold_stitches(self, step: Step, total: int) -> None:
        """Stitches whose last loop stays on the hook; of an hdc two loops stay."""
        wraps = _YARN_OVERS[step.name]
        kept = 2 if step.name == "hdc" else 1
        self.most = max(self.most, self.loops + kept * (total - 1) + wraps + 1)
        self._hold(self.loops + kept * total)
        self.leg.begin(wraps, step.place or Place())
        self.leg.draws = max(self.leg.draws, _unfinished_draws(step.name))

    def _chain(self, step: Step) -> None:
        self.yarn = 0
        if self.loops > 1:
            self.leg.extended |= step.count == 1 and self.leg.on_edge
            return
        self.chains += step.count
        self.last_chain = step.count

    # Popcorns

    def _drop(self, _step: Step) -> None:
        self.dropped = True

    def _gather(self, _step: Step) -> None:
        """Draw the dropped loop through the first top: the tops become one."""
        if not self.dropped:
            return
        self.heads -= max(self.tops_here - 1, 0)
        self.tops_here = min(self.tops_here, 1)
        if self.gathers_chain:
            self.chains -= min(self.last_chain, self.chains)
        self.dropped, self.gathers_chain = False, False
        self.inserted, self.yarn = 0, 0


def _unfinished_draws(name: str) -> int:
    """Draws through two loops before the last one of a plain stitch."""
    return 0 if name in {"sl st", "sc", "hdc"} else _YARN_OVERS[name]
